"""A logger's file goes from the menu into the record: chosen, tried, taken, undone."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QWheelEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QFileDialog
from sqlalchemy import select

from growdesk.services import logger_survey
from growdesk.services.logger_columns import Role
from growdesk.services.logger_times import DayOrder
from growdesk.services.long_work import StoppedError
from growdesk.services.values import PlaceDraft
from growdesk.store.schema import ReadingRow
from growdesk.ui import logger_memory
from growdesk.ui.dialogs.logger import LoggerDialog
from growdesk.ui.dialogs.place import PlacesDialog
from growdesk.ui.dialogs.told import ToldDialog
from growdesk.ui.logger_forms import LoggerForms
from growdesk.ui.widgets.form import choose
from tests.services import logger_files as files
from tests.ui.driving import dialog_of, open_dialogs, press, settle, status

if TYPE_CHECKING:
    from collections.abc import Callable

    from pytestqt.qtbot import QtBot

    from growdesk.services.collection import Collection
    from growdesk.ui.window import Window

R = Role


@pytest.fixture
def read(
    window: Window, qtbot: QtBot, tmp_path: Path
) -> Callable[[bytes | str], LoggerDialog]:
    """Give a way to choose a file and have its dialog."""

    def choose_file(raw: bytes | str) -> LoggerDialog:
        path = tmp_path / "sill.csv"
        path.write_bytes(raw.encode() if isinstance(raw, str) else raw)
        window.commands["logger"].trigger()
        settle(qtbot, window)
        pick(window, path)
        settle(qtbot, window)
        return dialog_of(window, LoggerDialog)

    return choose_file


def pick(window: Window, path: Path) -> None:
    """Choose a file in the open file chooser."""
    chooser = dialog_of(window, QFileDialog)
    chooser.fileSelected.emit(str(path))
    chooser.close()


def days_on_record(window: Window) -> list[date]:
    with window.desk.collection.ledger.reading() as session:
        return list(session.scalars(select(ReadingRow.day).order_by(ReadingRow.day)))


def cells(dialog: LoggerDialog, row: int) -> list[str]:
    table = dialog.days_table
    items = [table.item(row, column) for column in range(table.columnCount())]
    return [item.text() if item is not None else "" for item in items]


def test_a_file_is_tried_taken_and_undone(
    window: Window,
    qtbot: QtBot,
    read: Callable[[bytes | str], LoggerDialog],
) -> None:
    dialog = read(files.german())
    assert dialog.headline.text() == "sill.csv: 96 rows under the header in line 4"
    assert dialog.preview.roles == (
        R.DATE,
        R.TIME,
        R.TEMPERATURE_C,
        R.HUMIDITY,
        R.LUX,
    )
    assert not dialog.order.isVisible()
    assert not dialog.take_button.isEnabled()
    press(dialog, "T&ry it")
    settle(qtbot, window)
    assert dialog.outcome.text() == ("2 days for East window. Nothing is written yet.")
    assert days_on_record(window) == []
    assert cells(dialog, 0)[:4] == ["1 May 2026", "18.1", "14.0", "22.0"]
    assert cells(dialog, 0)[7] == "new"
    assert not dialog.left_out.isVisible()
    assert "54 lux" in dialog.notices.text()
    press(dialog, "&Take 2 days")
    settle(qtbot, window)
    assert open_dialogs(window) == []
    assert days_on_record(window) == [date(2026, 5, 1), date(2026, 5, 2)]
    assert "2 days of readings for East window" in status(window)
    window.commands["undo"].trigger()
    settle(qtbot, window)
    assert days_on_record(window) == []


def test_the_next_file_of_a_logger_is_tried_at_once(
    window: Window,
    qtbot: QtBot,
    read: Callable[[bytes | str], LoggerDialog],
) -> None:
    """Choose the file, take it: nothing is asked a second time."""
    dialog = read(files.ambiguous("%m/%d/%Y"))
    choose(dialog.order, DayOrder.MDY)
    dialog.try_it()
    settle(qtbot, window)
    press(dialog, "&Take 2 days")
    settle(qtbot, window)
    again = read(files.ambiguous("%m/%d/%Y", 3))
    assert again.choices.day_order is DayOrder.MDY
    assert again.outcome.text().startswith("1 day for East window.")
    assert [cells(again, row)[7] for row in range(3)] == [
        "on record already",
        "on record already",
        "new",
    ]
    press(again, "&Take 1 day")
    settle(qtbot, window)
    assert days_on_record(window)[-1] == date(2026, 5, 3)


def test_dates_that_go_both_ways_are_asked_for(
    window: Window,
    qtbot: QtBot,
    read: Callable[[bytes | str], LoggerDialog],
) -> None:
    dialog = read(files.ambiguous("%d/%m/%Y"))
    assert dialog.order.isVisible()
    assert [dialog.order.itemText(n) for n in range(dialog.order.count())] == [
        "choose how the dates are written",
        "day, month, year: 1 May 2026 to 2 May 2026",
        "month, day, year: 5 Jan 2026 to 5 Feb 2026",
    ]
    press(dialog, "T&ry it")
    settle(qtbot, window)
    assert dialog.message.text() == "Choose how the dates are written."
    assert dialog.message.isVisible()
    choose(dialog.order, DayOrder.DMY)
    assert not dialog.message.isVisible()
    press(dialog, "T&ry it")
    settle(qtbot, window)
    assert cells(dialog, 1)[0] == "2 May 2026"


def test_with_several_places_the_place_is_asked_for(
    window: Window,
    qtbot: QtBot,
    read: Callable[[bytes | str], LoggerDialog],
) -> None:
    window.desk.collection.places.add(PlaceDraft("Attic"))
    dialog = read(files.german())
    assert dialog.place.currentData() is None
    dialog.try_it()
    settle(qtbot, window)
    assert dialog.message.text() == "Choose the place where the logger stood."
    dialog.place.setCurrentIndex(dialog.place.findText("Attic"))
    dialog.try_it()
    settle(qtbot, window)
    assert dialog.outcome.text().startswith("2 days for Attic.")


def test_a_changed_choice_makes_the_trial_void(
    window: Window,
    qtbot: QtBot,
    read: Callable[[bytes | str], LoggerDialog],
) -> None:
    dialog = read(files.german())
    dialog.try_it()
    settle(qtbot, window)
    assert dialog.take_button.isEnabled()
    choose(dialog.preview.choosers[4], R.LEAVE_OUT)
    assert dialog.report is None
    assert not dialog.take_button.isEnabled()
    assert not dialog.days_table.isVisible()
    dialog.try_it()
    choose(dialog.preview.choosers[4], R.FC)
    settle(qtbot, window)
    assert dialog.report is None, "an answer for other choices is no trial"
    dialog.try_it()
    settle(qtbot, window)
    assert cells(dialog, 0)[5] == "65.7", "6.1 mol of lux would be so of foot-candles"


def test_a_column_left_out_is_dimmed(
    read: Callable[[bytes | str], LoggerDialog],
) -> None:
    dialog = read(files.german())
    cell = dialog.preview.item(1, 4)
    assert cell is not None
    read_in = cell.foreground().color()
    choose(dialog.preview.choosers[4], R.LEAVE_OUT)
    assert cell.foreground().color() != read_in
    choose(dialog.preview.choosers[4], R.LUX)
    assert cell.foreground().color() == read_in


def test_a_refusal_keeps_what_was_chosen(
    window: Window,
    qtbot: QtBot,
    read: Callable[[bytes | str], LoggerDialog],
) -> None:
    dialog = read(files.german())
    choose(dialog.preview.choosers[3], R.PPFD)
    dialog.try_it()
    settle(qtbot, window)
    assert dialog.message.text() == (
        "Columns: “light” is chosen more than once."
        " Leave all but one of its columns out."
    )
    assert dialog.preview.roles[3:] == (R.PPFD, R.LUX)
    assert dialog.outcome.text() == ""
    assert not dialog.take_button.isEnabled()


def test_lines_left_out_are_listed(
    window: Window,
    qtbot: QtBot,
    read: Callable[[bytes | str], LoggerDialog],
) -> None:
    text = files.ambiguous("%Y-%m-%d") + "2026-05-02 23:45,OFL\nend of data,\n"
    dialog = read(text)
    dialog.try_it()
    settle(qtbot, window)
    assert dialog.left_out.isVisible()
    first = dialog.left_out.item(0, 0)
    assert first is not None
    assert first.text() == "Line 98: Temp (C): “OFL” is no number."
    assert dialog.left_out.rowCount() == 2


def test_what_is_no_file_of_a_logger_is_told_with_the_way_to_another(
    window: Window, qtbot: QtBot, tmp_path: Path
) -> None:
    path = tmp_path / "picture.csv"
    path.write_bytes(bytes(range(256)) * 20)
    window.commands["logger"].trigger()
    settle(qtbot, window)
    pick(window, path)
    settle(qtbot, window)
    told = dialog_of(window, ToldDialog)
    assert told.text.text().startswith("File: “picture.csv” is not text.")
    assert not [d for d in open_dialogs(window) if isinstance(d, LoggerDialog)]
    assert told.focusWidget() is told.way_button
    press(told, "Another &file…")
    good = tmp_path / "sill.csv"
    good.write_bytes(files.german())
    pick(window, good)
    settle(qtbot, window)
    assert dialog_of(window, LoggerDialog).headline.text().startswith("sill.csv")


def test_a_bad_second_file_leaves_the_first(
    window: Window,
    qtbot: QtBot,
    tmp_path: Path,
    read: Callable[[bytes | str], LoggerDialog],
) -> None:
    dialog = read(files.german())
    bad = tmp_path / "empty.csv"
    bad.touch()
    press(dialog, "Another &file…")
    pick(window, bad)
    settle(qtbot, window)
    assert dialog.message.text().startswith("File: “empty.csv” is empty.")
    assert dialog.headline.text().startswith("sill.csv")
    dialog.try_it()
    settle(qtbot, window)
    assert dialog.outcome.text().startswith("2 days")
    good = tmp_path / "other.csv"
    good.write_bytes(files.epoch())
    press(dialog, "Another &file…")
    pick(window, good)
    settle(qtbot, window)
    assert dialog.headline.text().startswith("other.csv")
    assert dialog.report is None


def test_leaving_while_the_file_is_read_writes_nothing(
    window: Window,
    qtbot: QtBot,
    read: Callable[[bytes | str], LoggerDialog],
) -> None:
    dialog = read(files.german())
    dialog.try_it()
    dialog.reject()
    settle(qtbot, window)
    QApplication.processEvents()
    assert days_on_record(window) == []
    assert open_dialogs(window) == []


def test_without_a_place_nothing_is_chosen(
    collection: Collection, show: Callable[[Collection], Window], qtbot: QtBot
) -> None:
    window = show(collection)
    window.commands["logger"].trigger()
    settle(qtbot, window)
    told = dialog_of(window, ToldDialog)
    assert told.text.text().startswith("There is no place yet")
    press(told, "&Places…")
    settle(qtbot, window)
    assert dialog_of(window, PlacesDialog).isVisible()


def test_readings_of_a_place_lead_to_its_loggers_file(
    window: Window, qtbot: QtBot, tmp_path: Path
) -> None:
    for name in ("Attic", "Cellar"):
        window.desk.collection.places.add(PlaceDraft(name))
    window.commands["places"].trigger()
    settle(qtbot, window)
    places = dialog_of(window, PlacesDialog)
    row = next(r for r in range(9) if places.list.item(r).text() == "Cellar")
    places.list.setCurrentRow(row)
    places.pages.setCurrentIndex(1)
    press(places, "From a logger's &file…")
    settle(qtbot, window)
    path = tmp_path / "sill.csv"
    path.write_bytes(files.german())
    (chooser,) = places.findChildren(QFileDialog)
    chooser.fileSelected.emit(str(path))
    chooser.close()
    settle(qtbot, window)
    (dialog,) = places.findChildren(LoggerDialog)
    assert dialog.place.currentText() == "Cellar"
    dialog.try_it()
    settle(qtbot, window)
    press(dialog, "&Take 2 days")
    settle(qtbot, window)
    assert places.pages.tabText(1) == "&Readings (2)"


def test_the_focus_stands_on_the_place_where_it_is_to_be_chosen(
    window: Window, read: Callable[[bytes | str], LoggerDialog]
) -> None:
    first = read(files.german())
    assert first.focusWidget() is first.try_button
    first.reject()
    window.desk.collection.places.add(PlaceDraft("Attic"))
    again = read(files.german())
    assert again.focusWidget() is again.place


def test_the_dialog_grows_with_the_trial_and_has_no_blank_row(
    window: Window, qtbot: QtBot, read: Callable[[bytes | str], LoggerDialog]
) -> None:
    dialog = read(files.german())
    before = dialog.height()
    rows = [dialog.preview.rowHeight(r) for r in range(dialog.preview.rowCount())]
    head = dialog.preview.horizontalHeader().height()
    bar = dialog.preview.horizontalScrollBar()
    rest = dialog.preview.height() - sum(rows) - head
    assert rest - (bar.height() if bar.isVisible() else 0) < 8
    dialog.try_it()
    settle(qtbot, window)
    assert dialog.height() > before
    assert dialog.days_table.selectedItems() == []
    assert dialog.days_table.currentRow() == -1


def test_a_file_that_went_away_is_told(
    window: Window,
    qtbot: QtBot,
    read: Callable[[bytes | str], LoggerDialog],
) -> None:
    dialog = read(files.german())
    dialog.path.unlink()
    dialog.try_it()
    settle(qtbot, window)
    assert "is not there" in dialog.message.text()


def test_the_dialog_fits_a_low_screen(
    window: Window,
    qtbot: QtBot,
    read: Callable[[bytes | str], LoggerDialog],
) -> None:
    dialog = read(files.american() + b"7,nothing,,,,\n")
    choose(dialog.order, DayOrder.MDY)
    dialog.try_it()
    settle(qtbot, window)
    assert dialog.days_table.isVisible()
    assert dialog.left_out.isVisible()
    assert dialog.minimumSizeHint().height() <= 660
    assert dialog.minimumSizeHint().width() <= 800


def test_the_wheel_over_a_chooser_changes_nothing(
    read: Callable[[bytes | str], LoggerDialog],
) -> None:
    dialog = read(files.german())
    chooser = dialog.preview.choosers[2]
    dialog.try_button.setFocus()
    at = QPointF(chooser.rect().center())
    turned = QWheelEvent(
        at,
        chooser.mapToGlobal(at),
        QPoint(),
        QPoint(0, -120),
        Qt.MouseButton.NoButton,
        Qt.KeyboardModifier.NoModifier,
        Qt.ScrollPhase.NoScrollPhase,
        False,
    )
    QApplication.sendEvent(chooser, turned)
    assert dialog.preview.roles[2] is R.TEMPERATURE_C
    chooser.setFocus()
    QTest.keyClick(chooser, Qt.Key.Key_Down)
    assert dialog.preview.roles[2] is not R.TEMPERATURE_C


def test_what_is_remembered_fits_or_is_not_used(tmp_path: Path) -> None:
    path = tmp_path / "a.csv"
    path.write_text(files.ambiguous("%d/%m/%Y"))
    survey = logger_survey.survey(path)
    assert logger_memory.recall(survey) is None
    choices = survey.choices
    logger_memory.keep(survey, choices, "Sill")
    found = logger_memory.recall(survey)
    assert found is not None
    assert found.place == "Sill"
    assert found.choices == choices
    path.write_text(files.ambiguous("%d/%m/%Y").replace("Temp", "Warmth"))
    assert logger_memory.recall(logger_survey.survey(path)) is None


def test_the_folder_of_the_last_file_is_remembered(tmp_path: Path) -> None:
    assert logger_memory.folder() == str(Path.home())
    logger_memory.keep_folder(str(tmp_path / "a.csv"))
    assert logger_memory.folder() == str(tmp_path)


def test_there_is_one_reader_for_the_window(window: Window) -> None:
    assert window.findChildren(LoggerForms) == []
    for _ in range(2):
        assert window.logger is not None
        assert len(window.findChildren(LoggerForms)) == 1


def test_a_trial_is_over_when_the_dialog_is_left_or_a_choice_changed(
    read: Callable[[bytes | str], LoggerDialog],
) -> None:
    dialog = read(files.german())
    first = dialog.begin()
    assert dialog.progress.isVisible()
    assert not first.is_stopped
    choose(dialog.preview.choosers[4], R.LEAVE_OUT)
    assert not dialog.progress.isVisible()
    second = dialog.begin()
    third = dialog.begin()
    assert [each.is_stopped for each in (first, second, third)] == [True, True, False]
    dialog.refused(StoppedError("Stopped."))
    assert dialog.outcome.text() == "Stopped. Nothing was written."
    assert not dialog.message.isVisible()
    assert dialog.try_button.isEnabled()
    dialog.reject()
    assert third.is_stopped
