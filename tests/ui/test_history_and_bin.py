"""The history and the bin in the window, and the cursor on what undo touched."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec.structs import replace
from PySide6.QtWidgets import QApplication, QDialog

from growdesk.domain.facts import CareKind
from growdesk.services import backups
from growdesk.services.values import PlaceDraft
from growdesk.store.journal import note
from growdesk.ui.dialogs.bin import BinDialog, EmptyBinDialog
from growdesk.ui.dialogs.history import HistoryDialog
from tests.ui.driving import settle

if TYPE_CHECKING:
    from datetime import date

    import pytest
    from pytestqt.qtbot import QtBot

    from growdesk.services.collection import Collection
    from growdesk.ui.long_work import Long
    from growdesk.ui.window import Window


def opened(window: Window, kind: type[QDialog]) -> QDialog:
    found = [each for each in window.findChildren(kind) if each.isVisible()]
    assert len(found) == 1
    return found[0]


def open_history(qtbot: QtBot, window: Window, key: str = "history") -> HistoryDialog:
    window.commands[key].trigger()
    settle(qtbot, window)
    settle(qtbot, window)
    dialog = opened(window, HistoryDialog)
    assert isinstance(dialog, HistoryDialog)
    return dialog


def open_bin(qtbot: QtBot, window: Window) -> BinDialog:
    window.commands["show-bin"].trigger()
    settle(qtbot, window)
    dialog = opened(window, BinDialog)
    assert isinstance(dialog, BinDialog)
    return dialog


def lines(dialog: HistoryDialog) -> list[str]:
    items = [dialog.table.item(row, 1) for row in range(dialog.table.rowCount())]
    return [item.text() for item in items if item is not None]


def headings(dialog: HistoryDialog) -> list[str]:
    items = [
        dialog.table.item(row, 0)
        for row in range(dialog.table.rowCount())
        if dialog.table.columnSpan(row, 0) > 1
    ]
    return [item.text() for item in items if item is not None]


def choose(dialog: HistoryDialog, title: str) -> None:
    for row in range(dialog.table.rowCount()):
        item = dialog.table.item(row, 1)
        if item is not None and item.text() == title:
            dialog.table.selectRow(row)
            return
    raise AssertionError(title)


def status(window: Window) -> str:
    return window.strip.line.text()


def test_one_press_goes_back_over_many_and_forth_again(
    qtbot: QtBot, window: Window, stocked: Collection, today: date
) -> None:
    one, two, _three = (key for key, _ in stocked.plants.all())
    stocked.day.give([one, two], today, CareKind.FEED, 100.0)
    stocked.plants.change(one, replace(stocked.plants.get(one), note="x"))
    stocked.plants.remove([two])
    dialog = open_history(qtbot, window)
    assert lines(dialog)[:3] == [
        "Plant A2 removed",
        "Note on A1 changed",
        "Feed given to 2 plants",
    ]
    assert headings(dialog) == ["20 May 2026"]
    assert dialog.step_button.text() == "Undo this"
    choose(dialog, "Feed given to 2 plants")
    assert dialog.step_button.text() == "Undo this and 2 after it"
    dialog.step_button.click()
    settle(qtbot, window)
    settle(qtbot, window)
    assert stocked.plants.find("A2") == two
    assert stocked.plants.get(one).note == ""
    assert dialog.message.text() == "Undone: 3 actions"
    assert headings(dialog) == [
        "20 May 2026",
        "You stand here; what is above is undone",
        "20 May 2026",
    ]
    choose(dialog, "Plant A2 removed")
    assert dialog.step_button.text() == "Do 3 again"
    dialog.step_button.click()
    settle(qtbot, window)
    settle(qtbot, window)
    assert stocked.plants.find("A2") is None
    dialog.reject()


def test_who_did_it_is_shown_where_it_was_more_than_one(
    qtbot: QtBot, window: Window, stocked: Collection
) -> None:
    dialog = open_history(qtbot, window)
    assert dialog.table.isColumnHidden(3)
    dialog.reject()
    store = stocked.ledger.store
    store.who = lambda: "anna"
    stocked.places.add(PlaceDraft("One"))
    store.who = lambda: "<b>ben</b>"
    stocked.places.add(PlaceDraft("Two"))
    with store.unrecorded() as session:
        note(session, "Bin emptied", store.stamp(stocked.clock.now()))
    dialog = open_history(qtbot, window)
    assert not dialog.table.isColumnHidden(3)
    assert lines(dialog)[:3] == ["Bin emptied", "Place Two added", "Place One added"]
    named = [dialog.table.item(row, 3) for row in range(dialog.table.rowCount())]
    told = [item for item in named if item is not None and item.text()]
    assert [item.text() for item in told][:3] == ["<b>ben</b>", "<b>ben</b>", "anna"]
    assert "<b>" not in told[0].toolTip()
    assert headings(dialog) == ["20 May 2026"]
    choose(dialog, "Bin emptied")
    assert not dialog.step_button.isEnabled()
    assert dialog.step_button.text() == "Undo"
    choose(dialog, "Place Two added")
    assert dialog.step_button.isEnabled()
    assert dialog.step_button.text() == "Undo this"
    dialog.reject()


def test_a_long_way_goes_as_long_work_and_can_be_gone_on_from(
    qtbot: QtBot,
    window: Window,
    stocked: Collection,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr("growdesk.ui.history_forms._MANY", 2)
    begun: list[str] = []
    begin = window.desk.long.begin

    def note(long: Long[object]) -> None:
        begun.append(long.title)
        begin(long)

    monkeypatch.setattr(window.desk.long, "begin", note)
    for name in ("x", "y", "z"):
        stocked.places.add(PlaceDraft(name))
    dialog = open_history(qtbot, window)
    choose(dialog, "Place x added")
    dialog.step_button.click()
    qtbot.waitUntil(lambda: dialog.message.text() == "Undone: 3 actions")
    settle(qtbot, window)
    assert begun == ["Going through the history"]
    assert [place.draft.name for place in stocked.places.all()] == ["East window"]
    dialog.reject()


def test_it_is_narrowed_by_what_is_typed_and_by_the_plant_it_was_opened_for(
    qtbot: QtBot, window: Window
) -> None:
    dialog = open_history(qtbot, window, "plant-history")
    assert dialog.tag.text() == "A1"
    assert lines(dialog) == ["Look at A1", "Plant A1 added"]
    dialog.find_line.setText("LOOK")
    qtbot.waitUntil(lambda: lines(dialog) == ["Look at A1"])
    dialog.tag.setText("Z9")
    qtbot.waitUntil(lambda: "no plant's tag" in dialog.message.text())
    dialog.reject()


def test_undo_puts_the_cursor_on_what_it_touched_and_says_what(
    qtbot: QtBot, window: Window, stocked: Collection
) -> None:
    one, two, three = (key for key, _ in stocked.plants.all())
    assert window.day_list.chosen != three
    stocked.plants.change(three, replace(stocked.plants.get(three), note="x"))
    window.commands["undo"].setEnabled(True)
    window.commands["undo"].trigger()
    settle(qtbot, window)
    settle(qtbot, window)
    assert window.day_list.chosen == three
    assert status(window) == "Undone: Note on A3 changed"
    assert {one, two} & {each.plant_id for each in window.day_list.selected()} == set()
    window.commands["redo"].trigger()
    settle(qtbot, window)
    assert status(window) == "Done again: Note on A3 changed"
    assert not window.strip.undo.isVisible()


def test_a_removed_plant_is_put_back_from_the_bin(
    qtbot: QtBot, window: Window, stocked: Collection
) -> None:
    one = stocked.plants.find("A1")
    assert one is not None
    stocked.plants.remove([one])
    dialog = open_bin(qtbot, window)
    assert dialog.first.text() == "To let go: 1 plant, 1 record."
    dialog.back_button.click()
    settle(qtbot, window)
    settle(qtbot, window)
    assert stocked.plants.find("A1") == one
    assert dialog.first.text() == "The bin is empty."
    assert not dialog.back_button.isEnabled()
    assert not dialog.empty_button.isEnabled()
    dialog.reject()


def test_emptying_asks_once_and_keeping_is_the_default(
    qtbot: QtBot, window: Window, stocked: Collection
) -> None:
    ids = [key for key, _ in stocked.plants.all()][:2]
    stocked.plants.remove(ids)
    dialog = open_bin(qtbot, window)
    dialog.empty_button.click()
    question = opened(window, EmptyBinDialog)
    assert isinstance(question, EmptyBinDialog)
    assert question.go_button.text() == "Empty the bin of 2 plants"
    assert question.keep_button.isDefault()
    assert not question.go_button.isDefault()
    assert "cannot be undone" in question.text.text()
    assert str(stocked.folder.parent) in question.text.text()
    question.keep_button.click()
    settle(qtbot, window)
    assert stocked.bin.view().plants == 2
    dialog.empty_button.click()
    again = [each for each in dialog.findChildren(EmptyBinDialog) if each.isVisible()]
    again[0].go_button.click()
    qtbot.waitUntil(lambda: stocked.bin.view().plants == 0, timeout=20_000)
    settle(qtbot, window)
    settle(qtbot, window)
    assert dialog.message.text().startswith("The bin is empty; a backup of before is")
    (kept,) = backups.kept(stocked.folder)
    assert str(kept.folder) in dialog.message.text()
    assert not window.strip.undo.isVisible()
    dialog.reject()
    QApplication.processEvents()
