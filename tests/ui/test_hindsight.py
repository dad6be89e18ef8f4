"""Past decisions marked from the window, counted, and undone."""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel, QPushButton

from growdesk.domain.facts import CareKind, Look, NewGrowths, RootTips, Verdict
from growdesk.ui.dialogs.hindsight import HindsightDialog
from growdesk.ui.dialogs.marks import MarksDialog
from growdesk.ui.dialogs.rule import RulesDialog
from growdesk.ui.dialogs.settings import SettingsDialog
from tests.ui.driving import dialog_of, go_to, press, settle

if TYPE_CHECKING:
    from collections.abc import Callable
    from datetime import date

    from pytestqt.qtbot import QtBot

    from growdesk.services.collection import Collection
    from growdesk.ui.window import Window

Show = "Callable[[Collection], Window]"


def opened(qtbot: QtBot, window: Window, tag: str) -> HindsightDialog:
    go_to(window, tag)
    window.commands["hindsight"].trigger()
    settle(qtbot, window)
    return dialog_of(window, HindsightDialog)


@pytest.fixture
def twice_fed(stocked: Collection, today: date) -> Collection:
    """Give the collection with A1 fed seven and four days ago; the second too soon."""
    plant_id = stocked.plants.find("A1")
    assert plant_id is not None
    look = Look(
        on=today - timedelta(days=10),
        new_growths=NewGrowths(extending=1),
        root_tips=RootTips.RUNNING,
    )
    stocked.looks.record(plant_id, look)
    for ago in (7, 4):
        day = today - timedelta(days=ago)
        stocked.day.give((plant_id,), day, CareKind.FEED, 100.0)
    return stocked


def text_of(dialog: HindsightDialog, row: int, column: int) -> str:
    item = dialog.days_table.item(row, column)
    assert item is not None
    return item.text()


def type_note(dialog: HindsightDialog, text: str) -> None:
    dialog.note.setFocus()
    dialog.note.clear()
    QTest.keyClicks(dialog.note, text)


def test_a_past_day_is_marked_and_the_cursor_moves_on(
    qtbot: QtBot,
    show: Callable[[Collection], Window],
    twice_fed: Collection,
    today: date,
) -> None:
    window = show(twice_fed)
    dialog = opened(qtbot, window, "A1")
    assert dialog.days_table.rowCount() == 2
    day = dialog.chosen
    assert day is not None
    assert (day.on, day.verdict) == (today - timedelta(days=4), Verdict.CLEAR_WATER)
    assert "fed on 13 May" in dialog.sentence.text()
    dialog.note.setText("it was bone dry")
    press(dialog, "&Feed")
    settle(qtbot, window)
    assert text_of(dialog, 0, 4) == "Feed"
    assert dialog.days_table.currentRow() == 1
    (row,) = twice_fed.hindsight.table().rows
    assert (row.rule, row.better) == ("too-soon", ((Verdict.FEED, 1),))
    window.commands["undo"].trigger()
    settle(qtbot, window)
    assert twice_fed.hindsight.table().rows == ()


def test_a_mark_writes_its_own_row_only(
    qtbot: QtBot, show: Callable[[Collection], Window], twice_fed: Collection
) -> None:
    window = show(twice_fed)
    dialog = opened(qtbot, window, "A1")
    other = dialog.days_table.item(1, 0)
    changed: list[int] = []
    dialog.days_table.model().dataChanged.connect(
        lambda first, _last, *_roles: changed.append(first.row())
    )
    press(dialog, "&Feed")
    settle(qtbot, window)
    assert set(changed) == {0}
    assert dialog.days_table.item(1, 0) is other


def test_today_is_no_past_day_until_something_is_written_on_it(
    qtbot: QtBot,
    show: Callable[[Collection], Window],
    twice_fed: Collection,
    today: date,
) -> None:
    plant_id = twice_fed.plants.find("A1")
    assert plant_id is not None
    window = show(twice_fed)
    assert today not in {day.on for day in opened(qtbot, window, "A1")._days}
    dialog_of(window, HindsightDialog).reject()
    twice_fed.day.give((plant_id,), today, CareKind.CLEAR_WATER, None)
    newest = opened(qtbot, window, "A1").chosen
    assert newest is not None
    assert newest.on == today


def test_enter_in_the_note_loses_nothing_and_closes_nothing(
    qtbot: QtBot, show: Callable[[Collection], Window], twice_fed: Collection
) -> None:
    window = show(twice_fed)
    dialog = opened(qtbot, window, "A1")
    type_note(dialog, "limp leaves")
    QTest.keyClick(dialog.note, Qt.Key.Key_Return)
    settle(qtbot, window)
    assert dialog.isVisible()
    assert dialog.waits.text() == "The note waits here until you mark the day."
    dialog.days_table.selectRow(1)
    assert dialog.note.text() == ""
    dialog.days_table.selectRow(0)
    assert dialog.note.text() == "limp leaves"
    dialog.reject()
    again = opened(qtbot, window, "A1")
    assert again.note.text() == "limp leaves"
    press(again, "&Feed")
    settle(qtbot, window)
    assert text_of(again, 0, 5) == "limp leaves"


def test_enter_in_the_note_of_a_marked_day_keeps_it_with_the_mark(
    qtbot: QtBot, show: Callable[[Collection], Window], twice_fed: Collection
) -> None:
    window = show(twice_fed)
    dialog = opened(qtbot, window, "A1")
    press(dialog, "&Feed")
    settle(qtbot, window)
    dialog.days_table.selectRow(0)
    type_note(dialog, "it was bone dry")
    QTest.keyClick(dialog.note, Qt.Key.Key_Return)
    settle(qtbot, window)
    assert dialog.isVisible()
    assert dialog.days_table.currentRow() == 0
    assert dialog.waits.text() == ""
    plant_id = twice_fed.plants.find("A1")
    assert plant_id is not None
    newest = dialog.chosen
    assert newest is not None
    kept = {day.on: day for day in twice_fed.hindsight.past(plant_id, newest.on)}
    assert kept[newest.on].note == "it was bone dry"


def test_the_verdict_itself_is_marked_right_and_taken_back(
    qtbot: QtBot, show: Callable[[Collection], Window], twice_fed: Collection
) -> None:
    window = show(twice_fed)
    dialog = opened(qtbot, window, "A1")
    assert not dialog.unmark_button.isEnabled()
    assert not dialog.verdict_buttons[Verdict.CLEAR_WATER].isEnabled()
    QTest.mouseClick(dialog.right_button, Qt.MouseButton.LeftButton)
    settle(qtbot, window)
    (row,) = twice_fed.hindsight.table().rows
    assert (row.marked, row.right) == (1, 1)
    dialog.days_table.selectRow(0)
    QTest.mouseClick(dialog.unmark_button, Qt.MouseButton.LeftButton)
    settle(qtbot, window)
    assert twice_fed.hindsight.table().rows == ()


def test_it_says_what_is_todays_and_what_was_done(
    qtbot: QtBot, show: Callable[[Collection], Window], stocked: Collection
) -> None:
    dialog = opened(qtbot, show(stocked), "A1")
    told = " ".join(each.text() for each in dialog.findChildren(QLabel))
    assert (
        "judged by what had been seen and done by then, but with today's place, pot, "
        "kind, corrections and house rules, and by your overrule as it stands today."
    ) in told
    assert "What was really done stands beside it." in told


def test_a_plant_without_records_says_so(
    qtbot: QtBot, show: Callable[[Collection], Window], stocked: Collection
) -> None:
    window = show(stocked)
    dialog = opened(qtbot, window, "A3")
    assert dialog.chosen is None
    assert not dialog.right_button.isEnabled()


def test_the_marks_lead_to_the_house_rule_that_decided(
    qtbot: QtBot,
    show: Callable[[Collection], Window],
    stocked: Collection,
    today: date,
) -> None:
    plant_id = stocked.plants.find("A1")
    assert plant_id is not None
    four = today - timedelta(days=4)
    stocked.day.give((plant_id,), four, CareKind.FEED, 100.0)
    stocked.hindsight.mark(plant_id, today, Verdict.FEED)
    window = show(stocked)
    window.commands["marks"].trigger()
    settle(qtbot, window)
    dialog = dialog_of(window, MarksDialog)
    assert dialog.headline.text() == (
        "1 decision is marked, 0 of them right. By the house rules of today 0 of 1"
        " come out as you say."
    )
    assert [dialog.table.item(0, c).text() for c in (2, 3, 4)] == [  # type: ignore[union-attr]
        "1",
        "0",
        "feed 1×",
    ]
    press(dialog, "&House rule…")
    settle(qtbot, window)
    rules = dialog_of(window, SettingsDialog)
    assert rules.focusWidget() is rules.form.editor("least_interval_days")


def test_a_mark_leads_to_the_page_of_its_rule(
    qtbot: QtBot,
    show: Callable[[Collection], Window],
    stocked: Collection,
    today: date,
) -> None:
    plant_id = stocked.plants.find("A1")
    assert plant_id is not None
    stocked.hindsight.mark(plant_id, today, Verdict.FLUSH)
    window = show(stocked)
    window.commands["marks"].trigger()
    settle(qtbot, window)
    dialog = dialog_of(window, MarksDialog)
    assert not dialog.house_button.isEnabled(), "no number moves whether it is growing"
    press(dialog, "About the &rule…")
    settle(qtbot, window)
    assert dialog_of(window, RulesDialog).shown.rule == "growing"


def test_no_marks_are_told_with_the_way_to_make_one(
    qtbot: QtBot, show: Callable[[Collection], Window], stocked: Collection
) -> None:
    window = show(stocked)
    window.commands["marks"].trigger()
    settle(qtbot, window)
    dialog = dialog_of(window, MarksDialog)
    assert dialog.headline.text().startswith("No decision is marked yet.")
    assert not dialog.table.isVisible()
    assert dialog.height() < 260
    focused = dialog.focusWidget()
    assert isinstance(focused, QPushButton)
    assert focused.text().replace("&", "") == "Close"
    assert [b for b in dialog.findChildren(QPushButton) if b.isVisible()] == [focused]


def test_every_button_of_hindsight_has_a_name(
    qtbot: QtBot, show: Callable[[Collection], Window], stocked: Collection
) -> None:
    window = show(stocked)
    dialog = opened(qtbot, window, "A1")
    for each in dialog.findChildren(QPushButton):
        assert each.text()
