"""Figures set for the eye: units beside their numbers, true minus signs."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from PySide6.QtWidgets import QLabel

from growdesk.ui.printing.marks import TEXT
from growdesk.ui.printing.setting import width_pt, wrap
from growdesk.ui.typeset import on_screen, typeset
from growdesk.ui.widgets.parts import label

if TYPE_CHECKING:
    from pytestqt.qtbot import QtBot


@pytest.mark.parametrize(
    ("said", "seen"),
    [
        ("120 ppm N from jug A", "120\u00a0ppm\u00a0N from jug A"),
        ("1.62 g and 250 mL", "1.62\u00a0g and 250\u00a0mL"),
        ("a night of -2 °C", "a night of \u22122\u00a0°C"),
        ("84 % of it", "84\u00a0% of it"),
        ("2 good roots", "2 good roots"),
        ("20-20-20 on 2026-11-25", "20-20-20 on 2026-11-25"),
        ("C. Mini Purple 'Gable 5'", "C. Mini Purple 'Gable 5'"),
    ],
)
def test_a_unit_keeps_to_its_number(said: str, seen: str) -> None:
    assert typeset(said) == seen


def test_a_label_breaks_no_unit_and_gives_its_text_back(qtbot: QtBot) -> None:
    made = label("It reads 1.2 mS/cm.")
    qtbot.addWidget(made)
    assert made.text() == "It reads 1.2 mS/cm."
    assert QLabel.text(made) == on_screen("It reads 1.2 mS/cm.")
    assert QLabel.text(made) == "It reads 1.2\u00a0mS\u2060/\u2060cm."


@pytest.mark.usefixtures("qtbot")
def test_a_printed_line_ends_before_a_number_not_after_it() -> None:
    text = "Weigh in 150 mL of water"
    room = width_pt("Weigh in 150", TEXT) + 1
    lines = wrap(text, room, TEXT)
    assert lines[0] == "Weigh in"
    assert lines[1].startswith("150 mL")
    assert " ".join(lines) == text
