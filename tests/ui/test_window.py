"""The window as a whole: ticks by mouse and key, undo by name, days, find, failures."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

from PySide6.QtCore import QItemSelectionModel, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QMainWindow, QSplitter
from shiboken6 import delete

from growdesk.domain.facts import CareKind, Verdict
from growdesk.services.values import PlantDraft
from growdesk.ui import theme
from growdesk.ui.day_columns import Place
from growdesk.ui.dialogs.care import CareDialog
from growdesk.ui.preferences import kept_mode
from growdesk.ui.window import Window
from tests.ui.driving import (
    dialog_of,
    go_to,
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

    import pytest
    from pytestqt.qtbot import QtBot

    from growdesk.services.clock import FixedClock
    from growdesk.services.collection import Collection


def select(window: Window, *tags: str) -> None:
    """Select several lines, the cursor on the first."""
    go_to(window, tags[0])
    rows = QItemSelectionModel.SelectionFlag.Rows
    for tag in tags[1:]:
        row = window.day_list.model.row_of(line_of(window, tag).plant_id)
        window.day_list.table.selectionModel().select(
            window.day_list.model.index(row, 0),
            QItemSelectionModel.SelectionFlag.Select | rows,
        )


def selected_tags(window: Window) -> list[str]:
    return sorted(line.tag for line in window.day_list.selected())


def test_the_head_says_what_to_do_first(window: Window) -> None:
    assert window.head.title.text() == "Today, Wednesday 20 May 2026"
    first = window.head.first.text()
    assert first.startswith("1 plant wants a look first. Mix 1 jug of feed, ")
    assert first.endswith("2 plants to do.")


def test_a_click_on_the_tick_ticks_and_a_second_one_unticks(
    qtbot: QtBot, window: Window
) -> None:
    table, model = window.day_list.table, window.day_list.model
    for ticked in (True, False):
        row = model.row_of(line_of(window, "A2").plant_id)
        where = table.visualRect(model.index(row, Place.TICK)).center()
        QTest.mouseClick(table.viewport(), Qt.MouseButton.LeftButton, pos=where)
        settle(qtbot, window)
        assert (line_of(window, "A2").done is not None) is ticked
    assert line_of(window, "A1").done is None


def test_many_are_ticked_by_one_key_and_stay_selected(
    qtbot: QtBot, window: Window
) -> None:
    select(window, "A1", "A2")
    QTest.keyClick(to_list(qtbot, window), Qt.Key.Key_Space)
    settle(qtbot, window)
    for tag in ("A1", "A2"):
        done = line_of(window, tag).done
        assert done is not None
        assert done.what is CareKind.FEED
        assert done.strength_ppm_n
    assert selected_tags(window) == ["A1", "A2"]
    assert window.day_list.chosen == line_of(window, "A1").plant_id
    assert "2 plants" in window.commands["undo"].text()
    assert window.strip.undo.isVisible()
    press(window.strip, "Undo")
    settle(qtbot, window)
    assert line_of(window, "A1").done is None
    assert line_of(window, "A2").done is None
    assert window.commands["redo"].isEnabled()
    window.commands["redo"].trigger()
    settle(qtbot, window)
    assert line_of(window, "A2").done is not None


def test_space_takes_the_ticks_off_where_all_are_done(
    qtbot: QtBot, window: Window
) -> None:
    select(window, "A1", "A2")
    for expected in (True, False):
        QTest.keyClick(to_list(qtbot, window), Qt.Key.Key_Space)
        settle(qtbot, window)
        assert (line_of(window, "A1").done is not None) is expected


def test_what_is_to_be_looked_at_first_is_refused_in_one_line(
    qtbot: QtBot, window: Window
) -> None:
    go_to(window, "A3")
    QTest.keyClick(to_list(qtbot, window), Qt.Key.Key_Space)
    settle(qtbot, window)
    assert line_of(window, "A3").done is None
    assert "A3" in status(window)
    assert "\n" not in status(window)


def test_of_a_mixed_choice_the_fit_are_ticked_and_the_others_named(
    qtbot: QtBot, window: Window
) -> None:
    select(window, "A1", "A2", "A3")
    for ticked in (True, False):
        QTest.keyClick(to_list(qtbot, window), Qt.Key.Key_Space)
        settle(qtbot, window)
        assert (line_of(window, "A1").done is not None) is ticked
        assert (line_of(window, "A2").done is not None) is ticked
        assert line_of(window, "A3").done is None
        assert ("A3" in status(window)) is ticked


def test_a_long_line_at_the_foot_does_not_widen_the_window(
    qtbot: QtBot, window: Window
) -> None:
    window.desk.told.emit("word " * 200)
    qtbot.waitUntil(lambda: window.strip.line.height() > 60)
    settle(qtbot, window)
    long = window.minimumSizeHint().width()
    window.desk.told.emit("word")
    qtbot.waitUntil(lambda: window.strip.line.height() < 60)
    settle(qtbot, window)
    assert window.minimumSizeHint().width() == long


def test_the_arrow_keys_step_over_the_group_headers(
    qtbot: QtBot, window: Window
) -> None:
    go_to(window, "A1")
    table = to_list(qtbot, window)
    seen = []
    for _ in range(5):
        settle(qtbot, window)
        assert window.desk.detail is not None
        seen.append(window.desk.detail.draft.tag)
        QTest.keyClick(table, Qt.Key.Key_Down)
    assert seen[:3] == ["A1", "A2", "A3"]
    assert window.day_list.selected()


def test_find_narrows_the_list_and_can_be_cleared(qtbot: QtBot, window: Window) -> None:
    window.commands["find"].trigger()
    QTest.keyClicks(window.day_list.filter, "oncid")
    model = window.day_list.model
    assert [line.tag for line in model.lines_at(range(model.rowCount()))] == ["A2"]
    settle(qtbot, window)
    assert window.desk.detail is not None
    assert window.desk.detail.draft.tag == "A2"
    QTest.keyClicks(window.day_list.filter, "zzz")
    assert model.rowCount() == 0
    press(window.day_list, "Clear the filter")
    assert model.rowCount() > 3


def test_what_was_really_given_stands_on_the_line(qtbot: QtBot, window: Window) -> None:
    go_to(window, "A1")
    window.commands["give"].trigger()
    settle(qtbot, window)
    dialog = dialog_of(window, CareDialog)
    retype(dialog.strength, "a little")
    dialog.try_save()
    settle(qtbot, window)
    assert dialog.isVisible()
    assert dialog.strength.text() == "a little"
    retype(dialog.strength, "55")
    control = Qt.KeyboardModifier.ControlModifier
    QTest.keyClick(dialog.strength, Qt.Key.Key_Return, control)
    settle(qtbot, window)
    assert open_dialogs(window) == []
    done = line_of(window, "A1").done
    assert done is not None
    assert done.strength_ppm_n == 55


def test_a_plant_goes_to_the_bin_and_comes_back(qtbot: QtBot, window: Window) -> None:
    go_to(window, "A2")
    QTest.keyClick(to_list(qtbot, window), Qt.Key.Key_Delete)
    settle(qtbot, window)
    assert [line.tag for line in window.day_list.model.lines] == ["A1", "A3"]
    assert open_dialogs(window) == [], "nothing is asked that undo can take back"
    window.commands["undo"].trigger()
    settle(qtbot, window)
    assert line_of(window, "A2").verdict is Verdict.FEED


def test_the_day_chooser_goes_by_watering_days_and_back(
    qtbot: QtBot, window: Window
) -> None:
    shown = []
    for key in ("next-day", "next-day", "previous-day", "previous-day"):
        window.commands[key].trigger()
        settle(qtbot, window)
        shown.append(window.desk.on)
    assert shown == [
        date(2026, 5, 23),
        date(2026, 5, 27),
        date(2026, 5, 23),
        date(2026, 5, 20),
    ]
    window.commands["previous-day"].trigger()
    settle(qtbot, window)
    assert window.desk.on == date(2026, 5, 16)
    assert "4 days ago" in window.head.title.text()
    window.commands["today"].trigger()
    settle(qtbot, window)
    assert window.head.title.text().startswith("Today")


def test_the_new_day_is_shown_after_midnight(
    qtbot: QtBot, window: Window, clock: FixedClock
) -> None:
    clock.day = date(2026, 5, 21)
    window.desk.notice_midnight()
    settle(qtbot, window)
    assert window.head.title.text() == "Today, Thursday 21 May 2026"


def test_a_window_that_is_gone_waits_for_no_midnight(
    stocked: Collection, qtbot: QtBot
) -> None:
    window = Window(stocked)
    turns = window.desk._day_turns
    settle(qtbot, window)
    assert turns.isActive()
    window.tasks.stop()
    delete(window)
    assert not turns.isActive()


def test_the_mixing_is_folded_away_and_the_quick_mix_brings_it_back(
    qtbot: QtBot, window: Window
) -> None:
    least = window.minimumSizeHint().width()
    window.commands["fold-mixing"].trigger()
    assert window.mixing.isHidden()
    qtbot.waitUntil(lambda: window.minimumSizeHint().width() < least)
    window.commands["quick-mix"].trigger()
    assert window.mixing.isVisible()


def test_the_scheme_is_kept_for_the_next_time(window: Window) -> None:
    window.commands["light-dark"].trigger()
    assert kept_mode() is theme.Mode.DARK
    window.commands["light-system"].trigger()
    assert kept_mode() is theme.Mode.SYSTEM


def test_size_and_widths_are_put_back_as_they_were_left(
    qtbot: QtBot,
    window: Window,
    collection: Collection,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """The screen of a test is too small to keep the size itself."""
    restored: list[bytes] = []
    for owner, name in ((QMainWindow, "restoreGeometry"), (QSplitter, "restoreState")):
        monkeypatch.setattr(owner, name, lambda _me, kept: restored.append(kept.data()))
    left = [window.saveGeometry().data(), window.split.saveState().data()]
    window.close()
    again = type(window)(type(collection).open(collection.folder, collection.clock))
    qtbot.addWidget(again)
    again.close()
    assert restored == left


def test_a_bug_in_the_desk_s_work_is_one_line(
    qtbot: QtBot, window: Window, caplog: pytest.LogCaptureFixture
) -> None:
    def broken() -> None:
        raise ZeroDivisionError

    window.desk.write(broken)
    settle(qtbot, window)
    assert "Something went wrong inside growdesk" in status(window)
    assert "ZeroDivisionError" in caplog.text


def test_a_plant_with_no_look_says_what_to_do(
    qtbot: QtBot, stocked: Collection, show: Callable[[Collection], Window]
) -> None:
    stocked.plants.add(PlantDraft("C1", "Vanda coerulea", "vanda"))
    window = show(stocked)
    go_to(window, "C1")
    settle(qtbot, window)
    window.detail.tabs.setCurrentIndex(0)
    press(window.detail.tabs, "Record a look…")
    settle(qtbot, window)
    assert len(open_dialogs(window)) == 1
