"""A whole watering day through the real window, from an empty folder to all done."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel

from growdesk.domain.analysis import parse_analysis
from growdesk.domain.dose import dose
from growdesk.domain.facts import CareKind, RootTips, Verdict
from growdesk.domain.units import Target
from growdesk.services.collection import Collection
from growdesk.services.values import DoneKind
from growdesk.ui.dialogs.look import LookDialog
from growdesk.ui.dialogs.place import PlacesDialog
from growdesk.ui.dialogs.plant import PlantDialog
from tests.ui.driving import (
    dialog_of,
    focused,
    front,
    key,
    line_of,
    open_dialogs,
    press,
    retype,
    settle,
    status,
    to_list,
    typed,
)

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from pytestqt.qtbot import QtBot

    from growdesk.services.clock import FixedClock
    from growdesk.ui.window import Window

CTRL = Qt.KeyboardModifier.ControlModifier


def _take_step(qtbot: QtBot, window: Window, step: str) -> None:
    """Press Enter on the step that has the focus, as a grower does."""
    front(qtbot, window)
    qtbot.waitUntil(lambda: focused().objectName().startswith("step-"))
    for _ in range(4):
        if focused().objectName() != f"step-{step}":
            key(Qt.Key.Key_Tab)
    key(Qt.Key.Key_Return)
    settle(qtbot, window)
    (dialog,) = open_dialogs(window)
    qtbot.waitUntil(lambda: dialog.isAncestorOf(focused()))


def _set_up(qtbot: QtBot, window: Window) -> None:
    """Take the first three steps by keyboard alone, wherever the focus is put."""
    _take_step(qtbot, window, "latitude")
    key(Qt.Key.Key_A, CTRL)
    typed("48.2")
    key(Qt.Key.Key_Return, CTRL)
    settle(qtbot, window)
    _take_step(qtbot, window, "water")
    typed("rain")
    key(Qt.Key.Key_Return, CTRL)
    settle(qtbot, window)
    _take_step(qtbot, window, "tin")
    typed("Blue tin")
    key(Qt.Key.Key_Tab)
    typed("20-20-20")
    key(Qt.Key.Key_Return, CTRL)
    settle(qtbot, window)


def _add_first_plant(qtbot: QtBot, window: Window) -> None:
    press(window.day_list, "Add the first plant…")
    settle(qtbot, window)
    plant = dialog_of(window, PlantDialog)
    assert plant.tag.text() == "A1"
    QTest.keyClicks(plant.name, "Cattleya hybrid")
    qtbot.waitUntil(lambda: plant.kind.currentData() == "cattleya")
    press(plant, "New place…")
    settle(qtbot, window)
    places = dialog_of(window, PlacesDialog)
    retype(places.name, "East window")
    press(places, "Save")
    settle(qtbot, window)
    press(places, "Close")
    assert plant.place.currentText() == "East window"
    retype(plant.plant.pot, "0.4 gal")
    QTest.keyClick(plant.plant.pot, Qt.Key.Key_Return, CTRL)
    settle(qtbot, window)


def _record_first_look(qtbot: QtBot, window: Window) -> None:
    look = dialog_of(window, LookDialog)
    assert look.roots.value is None
    box = look.growths.boxes["extending"]
    box.setFocus()
    box.selectAll()
    QTest.keyClicks(box, "1")
    look.roots.take_focus()
    QTest.keyClick(look.focusWidget(), Qt.Key.Key_R)
    assert look.draft().look.root_tips is RootTips.RUNNING
    QTest.keyClick(look.focusWidget(), Qt.Key.Key_Return, CTRL)
    settle(qtbot, window)


def _check_dose(window: Window) -> None:
    """See that the grams told are the dose of that tin for the litres told."""
    told, litres = (
        window.mixing.findChild(QLabel, name) for name in ("amount", "litres")
    )
    assert isinstance(told, QLabel)
    assert isinstance(litres, QLabel)
    volume_l = float(litres.text().removesuffix(" mL")) / 1000
    strength = window.day_list.model.lines[0].jug_ppm_n
    assert strength is not None
    target = Target("N", float(strength))
    wanted_g = dose(parse_analysis("20-20-20"), target, volume_l).mass_g
    grams = float(told.text().removesuffix(" g"))
    assert grams == pytest.approx(wanted_g, abs=0.0051)


def test_from_an_empty_folder_to_all_done_and_back_again(
    qtbot: QtBot,
    collection: Collection,
    folder: Path,
    clock: FixedClock,
    show: Callable[[Collection], Window],
) -> None:
    window = show(collection)
    assert "No plants yet" in window.head.first.text()
    _set_up(qtbot, window)
    _add_first_plant(qtbot, window)
    _record_first_look(qtbot, window)
    assert open_dialogs(window) == []

    line = line_of(window, "A1")
    assert line.verdict is Verdict.FEED
    word = window.detail.findChild(QLabel, "verdict-word")
    assert isinstance(word, QLabel)
    assert word.text() == "Feed"
    _check_dose(window)

    table = to_list(qtbot, window)
    QTest.keyClick(table, Qt.Key.Key_Space)
    settle(qtbot, window)
    done = line_of(window, "A1").done
    assert done is not None
    assert done.what is CareKind.FEED
    assert done.strength_ppm_n == window.day_list.model.lines[0].strength_ppm_n
    assert window.day_list.chosen == line.plant_id
    assert window.head.first.text().startswith("All done: 1 fed.")
    assert "Next watering day:" in window.head.first.text()

    QTest.keyClick(to_list(qtbot, window), Qt.Key.Key_Z, CTRL)
    settle(qtbot, window)
    assert line_of(window, "A1").done is None
    assert status(window).startswith("Undone")

    QTest.keyClick(to_list(qtbot, window), Qt.Key.Key_Space)
    settle(qtbot, window)
    window.close()

    again = show(Collection.open(folder, clock))
    kept = line_of(again, "A1")
    assert kept.done is not None
    assert kept.done.kind is DoneKind.CARED
    assert kept.done.strength_ppm_n == kept.strength_ppm_n
    assert again.desk.detail is not None
    assert len(again.desk.detail.looks) == 1
    again.close()
