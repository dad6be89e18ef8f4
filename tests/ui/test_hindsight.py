"""Past decisions marked from the window, counted, and undone."""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QPushButton

from growdesk.domain.facts import CareKind, Verdict
from growdesk.ui.dialogs.hindsight import HindsightDialog, MarksDialog
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


def test_a_past_day_is_marked_and_the_cursor_moves_on(
    qtbot: QtBot,
    show: Callable[[Collection], Window],
    stocked: Collection,
    today: date,
) -> None:
    plant_id = stocked.plants.find("A1")
    assert plant_id is not None
    four = today - timedelta(days=4)
    stocked.day.give((plant_id,), four, CareKind.FEED, 100.0)
    window = show(stocked)
    dialog = opened(qtbot, window, "A1")
    assert dialog.days_table.rowCount() == 2
    day = dialog.chosen
    assert day is not None
    assert (day.on, day.verdict) == (today, Verdict.CLEAR_WATER)
    assert "fed on 16 May" in dialog.sentence.text()
    dialog.note.setText("it was bone dry")
    press(dialog, "&Feed")
    settle(qtbot, window)
    item = dialog.days_table.item(0, 4)
    assert item is not None
    assert item.text() == "Feed"
    assert dialog.days_table.currentRow() == 1
    (row,) = stocked.hindsight.table().rows
    assert (row.rule, row.better) == ("too-soon", ((Verdict.FEED, 1),))
    window.commands["undo"].trigger()
    settle(qtbot, window)
    assert stocked.hindsight.table().rows == ()


def test_the_verdict_itself_is_marked_right_and_taken_back(
    qtbot: QtBot, show: Callable[[Collection], Window], stocked: Collection
) -> None:
    window = show(stocked)
    dialog = opened(qtbot, window, "A1")
    assert not dialog.unmark_button.isEnabled()
    assert not dialog.verdict_buttons[Verdict.FEED].isEnabled()
    QTest.mouseClick(dialog.right_button, Qt.MouseButton.LeftButton)
    settle(qtbot, window)
    (row,) = stocked.hindsight.table().rows
    assert (row.marked, row.right) == (1, 1)
    QTest.mouseClick(dialog.unmark_button, Qt.MouseButton.LeftButton)
    settle(qtbot, window)
    assert stocked.hindsight.table().rows == ()


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
    QTest.mouseClick(dialog.rule_button, Qt.MouseButton.LeftButton)
    settle(qtbot, window)
    rules = dialog_of(window, SettingsDialog)
    assert rules.focusWidget() is rules.form.editor("least_interval_days")


def test_no_marks_are_told_with_the_way_to_make_one(
    qtbot: QtBot, show: Callable[[Collection], Window], stocked: Collection
) -> None:
    window = show(stocked)
    window.commands["marks"].trigger()
    settle(qtbot, window)
    dialog = dialog_of(window, MarksDialog)
    assert dialog.headline.text().startswith("No decision is marked yet.")
    assert not dialog.table.isVisible()


def test_every_button_of_hindsight_has_a_name(
    qtbot: QtBot, show: Callable[[Collection], Window], stocked: Collection
) -> None:
    window = show(stocked)
    dialog = opened(qtbot, window, "A1")
    for each in dialog.findChildren(QPushButton):
        assert each.text()
