"""A whole watering day through the real window, from an empty folder to all done."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel

from growdesk.domain.facts import CareKind, RootTips, Verdict
from growdesk.services.collection import Collection
from growdesk.services.values import DoneKind
from growdesk.ui.dialogs.look import LookDialog
from growdesk.ui.dialogs.place import PlacesDialog
from growdesk.ui.dialogs.plant import PlantDialog
from growdesk.ui.dialogs.settings import SettingsDialog
from growdesk.ui.dialogs.tin import TinsDialog, WatersDialog
from tests.ui.driving import (
    dialog_of,
    line_of,
    open_dialogs,
    press,
    retype,
    settle,
    status,
    to_list,
)

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from pytestqt.qtbot import QtBot

    from growdesk.services.clock import FixedClock
    from growdesk.ui.window import Window

CTRL = Qt.KeyboardModifier.ControlModifier


def _set_up(qtbot: QtBot, window: Window) -> None:
    press(window.day_list, "Set the latitude…")
    settle(qtbot, window)
    rules = dialog_of(window, SettingsDialog)
    latitude = rules.form.editor("latitude")
    assert latitude is not None
    retype(latitude, "48.2")
    QTest.keyClick(latitude, Qt.Key.Key_Return, CTRL)
    settle(qtbot, window)
    press(window.day_list, "Say which water…")
    settle(qtbot, window)
    waters = dialog_of(window, WatersDialog)
    waters.kind.setFocus()
    QTest.keyClicks(waters.kind, "rain")
    press(waters, "Add the water")
    settle(qtbot, window)
    press(waters, "Close")
    press(window.day_list, "Say what is in the tin…")
    settle(qtbot, window)
    tins = dialog_of(window, TinsDialog)
    retype(tins.name, "Blue tin")
    retype(tins.analysis, "20-20-20")
    press(tins, "Add the tin")
    settle(qtbot, window)
    press(tins, "Close")


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
    press(places, "Add the place")
    settle(qtbot, window)
    press(places, "Close")
    assert plant.place.currentText() == "East window"
    retype(plant.pot, "0.4 gal")
    QTest.keyClick(plant.pot, Qt.Key.Key_Return, CTRL)
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
    dose = window.mixing.findChild(QLabel, "dose")
    assert isinstance(dose, QLabel)
    assert " g of Blue tin" in dose.text()

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

    QTest.keyClick(table, Qt.Key.Key_Z, CTRL)
    settle(qtbot, window)
    assert line_of(window, "A1").done is None
    assert status(window).startswith("Undone")

    QTest.keyClick(table, Qt.Key.Key_Space)
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
