"""The line of the head on a clock that cannot be right, and the day that turns."""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

from tests.ui.driving import settle

if TYPE_CHECKING:
    from pytestqt.qtbot import QtBot

    from growdesk.services.clock import FixedClock
    from growdesk.ui.window import Window


def test_a_day_before_the_last_entry_stands_in_the_head_until_it_is_right(
    qtbot: QtBot, window: Window, clock: FixedClock
) -> None:
    line = window.head.clock
    assert not line.isVisible()
    clock.day -= timedelta(days=1)
    window.desk._day_turns.timeout.emit()
    settle(qtbot, window)
    assert line.isVisible()
    assert line.told.text().startswith("Today is 19 May 2026 by this computer")
    clock.day += timedelta(days=1)
    window.desk._day_turns.timeout.emit()
    settle(qtbot, window)
    assert not line.isVisible()
    assert window.head.title.text() == "Today, Wednesday 20 May 2026"


def test_the_window_in_front_turns_to_the_new_day_by_itself(
    qtbot: QtBot, window: Window, clock: FixedClock
) -> None:
    assert window.desk._day_turns.isActive()
    assert window.desk._day_turns.interval() <= 60_000
    clock.day += timedelta(days=9)
    window.desk._day_turns.timeout.emit()
    settle(qtbot, window)
    assert window.head.title.text() == "Today, Friday 29 May 2026"
