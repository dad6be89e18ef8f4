"""Commands are about what is picked in the face that is in sight."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from PySide6.QtWidgets import QLabel, QPushButton

from growdesk.ui.dialogs.move import MoveDialog, MoveStart
from growdesk.ui.dialogs.overrule import OverruleDialog
from growdesk.ui.faces import Face
from growdesk.ui.picking import whom, whom_of
from growdesk.ui.widgets.whom_head import whom_head
from tests.ui.driving import dialog_of, go_to, line_of, settle

if TYPE_CHECKING:
    from pytestqt.qtbot import QtBot

    from growdesk.services.values import Line
    from growdesk.ui.window import Window


@dataclass(frozen=True)
class Row:
    plant_id: int
    tag: str
    name: str


ON = date(2026, 5, 20)


def chosen(window: Window) -> int | None:
    return window.faces.chosen


def test_the_face_in_sight_says_what_is_picked(qtbot: QtBot, window: Window) -> None:
    page = QPushButton("rows")
    rows: list[Line] = []
    face = Face(
        page,
        page.setFocus,
        page.setFocus,
        "",
        lambda: 100,
        picked=lambda: rows,
        chosen=lambda: rows[0].plant_id if rows else None,
    )
    go_to(window, "A1")
    assert [each.tag for each in window.faces.picked] == ["A1"]
    assert chosen(window) == line_of(window, "A1").plant_id
    window.faces.add("rows", lambda: face)
    window.faces._show("rows")
    assert [each.tag for each in window.faces.picked] == []
    assert chosen(window) is None
    rows += [line_of(window, "A2"), line_of(window, "A3")]
    window.commands["overrule"].trigger()
    settle(qtbot, window)
    dialog = dialog_of(window, OverruleDialog)
    assert "A2 Oncidium sphacelatum, A3 Laelia anceps" in dialog._start.whom
    dialog.reject()
    window.faces.show_day()
    assert [each.tag for each in window.faces.picked] == ["A1"]


def test_four_are_named_and_the_rest_counted() -> None:
    rows = [Row(n, f"A{n}", "" if n == 1 else "Laelia anceps") for n in range(1, 7)]
    assert whom(rows[:1]) == "A1"
    assert whom(rows[:4]).count("Laelia anceps") == 3
    assert whom(rows).endswith("A4 Laelia anceps and 2 more")


def test_the_head_of_a_form_has_names_in_italics_and_typed_marks_harmless(
    qtbot: QtBot,
) -> None:
    dialog = MoveDialog(
        None,
        MoveStart(whom_of("A<b>", "Laelia anceps 'Tin Roof'"), ON, None, ()),
    )
    qtbot.addWidget(dialog)
    head = next(
        each for each in dialog.findChildren(QLabel) if each.property("tone") == "head"
    )
    assert head.text() == "A&lt;b&gt; <i>Laelia anceps</i> ‘Tin Roof’"
    assert head.accessibleName() == "A<b> Laelia anceps ‘Tin Roof’"
    assert whom_head("2 < 3").text() == "2 &lt; 3"
