"""A table goes from the menu into the collection: matched, tried, taken, undone."""

from __future__ import annotations

import csv
from threading import Event
from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import QMimeData, QPoint, QPointF, Qt, QUrl
from PySide6.QtGui import QDragEnterEvent, QDropEvent
from PySide6.QtWidgets import QApplication, QFileDialog

from growdesk.services.intake_fields import Sort
from growdesk.services.logger_times import DayOrder
from growdesk.services.long_work import StoppedError
from growdesk.ui.dialogs.take_in import TakeInDialog
from growdesk.ui.dialogs.told import ToldDialog
from growdesk.ui.going import Going
from growdesk.ui.long_work import NOTHING_WRITTEN, ROWS
from growdesk.ui.tasks import Job
from growdesk.ui.widgets.form import choose
from growdesk.ui.widgets.progress import Progress
from tests.ui.driving import dialog_of, open_dialogs, press, settle, status

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from pytestqt.qtbot import QtBot

    from growdesk.ui.window import Window

GERMAN = (
    "Nr.;Bezeichnung;Standort;Topf (ml);Gekauft\n"
    "K1;Cattleya hybrid;Südfenster;250,5;3.4.2025\n"
    "K2;Vanda;Südfenster;;\n"
)


@pytest.fixture
def read(window: Window, qtbot: QtBot, tmp_path: Path) -> Callable[[str], TakeInDialog]:
    """Give a way to choose a file and have its dialog."""

    def choose_file(text: str) -> TakeInDialog:
        path = tmp_path / "plants.csv"
        path.write_text(text, encoding="utf-8")
        window.commands["take-in"].trigger()
        chooser = dialog_of(window, QFileDialog)
        chooser.fileSelected.emit(str(path))
        chooser.close()
        settle(qtbot, window)
        return dialog_of(window, TakeInDialog)

    return choose_file


def tags(window: Window) -> list[str]:
    return [draft.tag for _, draft in window.desk.collection.plants.all()]


def cell(dialog: TakeInDialog, row: int, column: int) -> str:
    item = dialog.match.item(row, column)
    return item.text() if item is not None else ""


def test_a_table_is_matched_tried_taken_and_undone(
    window: Window, qtbot: QtBot, read: Callable[[str], TakeInDialog]
) -> None:
    before = tags(window)
    dialog = read(GERMAN)
    assert dialog.headline.text() == "plants.csv: 2 rows"
    assert dialog.how.text() == (
        "UTF-8; parted by semicolons; names in the first row; decimal commas; dates as"
        " day, month, year."
    )
    assert dialog.match.keys == (
        *("tag", "name", "place", "pot_volume_l", "acquired_on"),
    )
    assert [cell(dialog, row, 3) for row in (1, 4)] == ["250,5", "0.2505"]
    assert cell(dialog, 4, 4) == "2025-04-03"
    assert not dialog.order.isVisible()
    assert not dialog.take_button.isEnabled()
    press(dialog, "T&ry it")
    settle(qtbot, window)
    assert dialog.outcome.text() == (
        "2 plants would come in. Nothing is written yet. New place: Südfenster."
    )
    assert tags(window) == before
    press(dialog, "&Take 2 plants in")
    settle(qtbot, window)
    assert open_dialogs(window) == []
    assert {"K1", "K2"} < set(tags(window))
    window.commands["undo"].trigger()
    settle(qtbot, window)
    assert tags(window) == before


def test_a_bad_row_is_told_and_can_be_saved(
    window: Window,
    qtbot: QtBot,
    read: Callable[[str], TakeInDialog],
    tmp_path: Path,
) -> None:
    before = tags(window)
    dialog = read("tag,pot,medium\nK1,x,bark\nK2,1,glass\nK3,1,bark\n")
    assert cell(dialog, 4, 1) == "⚠ x"
    press(dialog, "T&ry it")
    settle(qtbot, window)
    assert "2 rows are bad, so nothing can be taken yet" in dialog.bad_head.text()
    told = [dialog.bad.item(0, column) for column in range(5)]
    assert [item.text() for item in told if item is not None] == [
        *("2", "pot, L", "x", "Is not a number."),
        "Write a plain number without a unit.",
    ]
    assert not dialog.take_button.isEnabled()
    assert dialog.found is not None
    takes = window.take_in
    takes.save_bad(dialog.found, tmp_path / "bad.csv")
    settle(qtbot, window)
    raw = (tmp_path / "bad.csv").read_text("utf-8-sig").splitlines()
    assert [row[:3] for row in csv.reader(raw)] == [
        ["row", "field", "value"],
        ["2", "pot_volume_l", "x"],
        ["3", "medium", "glass"],
    ]
    choose(dialog.match.choosers[1], "")
    assert not dialog.bad.isVisible(), "another choice makes the trial void"
    choose(dialog.match.choosers[2], "")
    press(dialog, "T&ry it")
    settle(qtbot, window)
    assert dialog.take_button.text() == "&Take 3 plants in"
    dialog.reject()
    settle(qtbot, window)
    assert tags(window) == before


def test_what_can_be_read_in_two_ways_is_asked_for(
    window: Window, qtbot: QtBot, read: Callable[[str], TakeInDialog]
) -> None:
    dialog = read('tag,acquired,pot\nK1,3/4/2025,"1,250"\n')
    press(dialog, "T&ry it")
    assert dialog.message.text() == "Choose how the dates of acquired are written."
    assert dialog.found is None
    choose(dialog.order, DayOrder.MDY)
    assert cell(dialog, 4, 1) == "2025-03-04"
    press(dialog, "T&ry it")
    assert dialog.message.text() == "Choose what a comma in a number is."
    choose(dialog.decimal, ",")
    assert cell(dialog, 4, 2) == "1.25"
    press(dialog, "T&ry it")
    settle(qtbot, window)
    press(dialog, "&Take 1 plant in")
    settle(qtbot, window)
    assert "K1" in tags(window)
    again = read('tag,acquired,pot\nK9,5/6/2025,"1,500"\n')
    assert again.choices.day_order is DayOrder.MDY, "known by its header"
    assert again.choices.decimal == ","
    again.reject()


def test_the_sort_can_be_turned_and_nothing_needed_is_left_open(
    window: Window, qtbot: QtBot, read: Callable[[str], TakeInDialog]
) -> None:
    dialog = read("tag,date,root tips\nA1,2026-05-01,running\n")
    assert dialog.choices.sort is Sort.LOOKS
    assert not dialog.changes.isVisible()
    choose(dialog.sort, Sort.CARE)
    assert dialog.match.keys == ("tag", "on", "")
    press(dialog, "T&ry it")
    settle(qtbot, window)
    assert "names no care" in dialog.message.text()
    choose(dialog.sort, Sort.LOOKS)
    press(dialog, "T&ry it")
    settle(qtbot, window)
    assert dialog.outcome.text() == "1 look would come in. Nothing is written yet."
    dialog.reject()


def test_plants_that_are_there_change_where_that_is_chosen(
    window: Window, qtbot: QtBot, read: Callable[[str], TakeInDialog]
) -> None:
    dialog = read("tag,note\nA1,from the list\n")
    press(dialog, "T&ry it")
    settle(qtbot, window)
    assert "1 row is bad" in dialog.bad_head.text()
    dialog.changes.setChecked(True)
    press(dialog, "T&ry it")
    settle(qtbot, window)
    item = dialog.changed.item(0, 0)
    assert item is not None
    assert item.text() == "A1: note empty → from the list"
    press(dialog, "&Take 1 change in")
    settle(qtbot, window)
    notes = {d.tag: d.note for _, d in window.desk.collection.plants.all()}
    assert notes["A1"] == "from the list"


def test_a_file_that_is_no_table_is_told(
    window: Window, qtbot: QtBot, tmp_path: Path
) -> None:
    path = tmp_path / "open.csv"
    path.write_text('tag\nA1,"no end\n')
    window.take_in.read_first(path)
    settle(qtbot, window)
    told = dialog_of(window, ToldDialog)
    assert "is not CSV" in told.text.text()
    told.reject()


def test_a_table_is_dropped_on_the_window(
    window: Window, qtbot: QtBot, tmp_path: Path
) -> None:
    path = tmp_path / "plants.csv"
    path.write_text("tag\nK1\n")
    other = tmp_path / "letter.doc"
    other.write_text("x")
    copy, left = Qt.DropAction.CopyAction, Qt.MouseButton.LeftButton
    none = Qt.KeyboardModifier.NoModifier

    def drag(file: Path) -> bool:
        data = QMimeData()
        data.setUrls([QUrl.fromLocalFile(str(file))])
        enter = QDragEnterEvent(QPoint(9, 9), copy, data, left, none)
        enter.ignore()
        QApplication.sendEvent(window, enter)
        if enter.isAccepted():
            drop = QDropEvent(QPointF(9, 9), copy, data, left, none)
            QApplication.sendEvent(window, drop)
        return enter.isAccepted()

    assert not drag(other)
    assert drag(path)
    settle(qtbot, window)
    dialog = dialog_of(window, TakeInDialog)
    assert dialog.headline.text() == "plants.csv: 1 row"
    dialog.reject()


# -- long work ------------------------------------------------------------------------


def test_a_bar_tells_how_far_the_work_is_in_words(qtbot: QtBot) -> None:
    going = Going()
    bar = Progress("Reading", ROWS)
    qtbot.addWidget(bar)
    bar.follow(going)
    going.step(3, 10)
    qtbot.waitUntil(lambda: bar.value() == 30)
    assert bar.text() == bar.accessibleDescription() == "3 of 10 rows"
    going.stop()
    with pytest.raises(StoppedError):
        going.step(4, 10)


def test_a_stopped_trial_says_so_and_keeps_the_choices(
    window: Window, qtbot: QtBot, read: Callable[[str], TakeInDialog]
) -> None:
    dialog = read("tag,name\nK1,Vanda\n")
    keys = dialog.match.keys
    held = Event()
    waiting = Job(held.wait, lambda _done: None, window.desk.fail)
    window.tasks.ask(window, waiting)
    press(dialog, "T&ry it")
    press(dialog, "&Stop")
    held.set()
    settle(qtbot, window)
    assert dialog.outcome.text() == "Stopped. Nothing was written."
    assert dialog.found is None
    assert dialog.match.keys == keys
    assert not dialog.progress.isVisible()
    dialog.reject()


def test_an_export_says_how_much_it_wrote_and_can_be_stopped(
    window: Window,
    qtbot: QtBot,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    window.files.export_to(tmp_path / "out")
    qtbot.waitUntil(lambda: status(window).startswith("The tables are in"))
    settle(qtbot, window)
    assert f"{len(tags(window))} plants in" in status(window)
    assert open_dialogs(window) == []

    def stopped(*_args: object, **_named: object) -> None:
        raise StoppedError("Stopped.")

    monkeypatch.setattr("growdesk.services.transfer.export", stopped)
    window.files.export_to(tmp_path / "half")
    qtbot.waitUntil(lambda: status(window) == NOTHING_WRITTEN)
    settle(qtbot, window)
    assert open_dialogs(window) == []
