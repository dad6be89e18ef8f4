"""The day's work by keyboard alone: real keys go to whatever has the focus."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from growdesk.domain.facts import Look
from growdesk.services.bloom_values import BloomDraft
from growdesk.services.values import DoneKind, PlantDraft, TinDraft, WaterDraft
from growdesk.ui import actions
from growdesk.ui.dialogs.look import LookDialog
from growdesk.ui.dialogs.plant import PlantDialog
from growdesk.ui.dialogs.settings import SettingsDialog
from growdesk.ui.dialogs.tin import TinsDialog
from growdesk.ui.dialogs.water import WatersDialog
from growdesk.ui.widgets.strip import MS_PER_LETTER, TOLD_MS
from tests.ui.driving import (
    dialog_of,
    focused,
    front,
    go_to,
    key,
    line_of,
    open_dialogs,
    press,
    settle,
    status,
    to_list,
    typed,
)

if TYPE_CHECKING:
    from collections.abc import Callable

    from pytestqt.qtbot import QtBot

    from growdesk.services.collection import Collection
    from growdesk.ui.timeline_entries import Entry
    from growdesk.ui.window import Window

CTRL = Qt.KeyboardModifier.ControlModifier


def tags(window: Window) -> list[str]:
    model = window.day_list.model
    return [line.tag for line in model.lines_at(range(model.rowCount()))]


# -- find and the keys of the list ----------------------------------------------------


def test_no_plain_letter_writes_anything(qtbot: QtBot, window: Window) -> None:
    go_to(window, "A2")
    to_list(qtbot, window)
    before = window.desk.collection.history.view()
    typed("pdx")
    settle(qtbot, window)
    assert all(line.done is None for line in window.day_list.model.lines)
    assert window.desk.collection.history.view() == before


def test_a_letter_typed_in_the_list_starts_a_find(qtbot: QtBot, window: Window) -> None:
    to_list(qtbot, window)
    typed("oncid")
    assert window.day_list.filter.text() == "oncid"
    assert window.day_list.filter.hasFocus()
    assert tags(window) == ["A2"]
    key(Qt.Key.Key_Return)
    assert window.day_list.table.hasFocus()


def test_down_goes_from_find_to_what_was_found(qtbot: QtBot, window: Window) -> None:
    to_list(qtbot, window)
    key(Qt.Key.Key_F, CTRL)
    typed("laelia")
    key(Qt.Key.Key_Down)
    assert window.day_list.table.hasFocus()


def test_enter_in_find_stays_where_nothing_was_found(
    qtbot: QtBot, window: Window
) -> None:
    to_list(qtbot, window)
    key(Qt.Key.Key_F, CTRL)
    typed("zzz")
    assert tags(window) == []
    key(Qt.Key.Key_Return)
    assert window.day_list.filter.hasFocus()
    typed("p")
    key(Qt.Key.Key_D, CTRL)
    settle(qtbot, window)
    assert window.day_list.filter.text() == "zzzp"
    assert all(line.done is None for line in window.day_list.model.lines)


def test_escape_in_find_clears_it_and_goes_to_the_list(
    qtbot: QtBot, window: Window
) -> None:
    to_list(qtbot, window)
    key(Qt.Key.Key_F, CTRL)
    typed("zzz")
    key(Qt.Key.Key_Escape)
    assert window.day_list.filter.text() == ""
    assert window.day_list.table.hasFocus()
    assert tags(window) == ["A1", "A2", "A3"]


def test_f6_goes_to_what_is_in_sight(qtbot: QtBot, window: Window) -> None:
    to_list(qtbot, window)
    key(Qt.Key.Key_F, CTRL)
    typed("zzz")
    key(Qt.Key.Key_F6)
    assert window.day_list.filter.hasFocus(), "the list is hidden"
    key(Qt.Key.Key_Escape)
    key(Qt.Key.Key_F7)
    key(Qt.Key.Key_F6)
    assert window.day_list.table.hasFocus()


def test_control_d_says_that_the_pot_was_still_damp(
    qtbot: QtBot, window: Window
) -> None:
    go_to(window, "A2")
    to_list(qtbot, window)
    key(Qt.Key.Key_D, CTRL)
    settle(qtbot, window)
    done = line_of(window, "A2").done
    assert done is not None
    assert done.kind is DoneKind.PASSED_BY
    assert "Ctrl+D" in window.commands["pass-by"].shortcut().toString()


def test_the_foot_of_the_window_names_the_keys_that_hold(window: Window) -> None:
    assert status(window).startswith(
        "Space ticks the selected plants, Ctrl+D passes them by, Ctrl+L records a look"
    )


def test_the_hint_at_the_foot_follows_the_focus(qtbot: QtBot, window: Window) -> None:
    to_list(qtbot, window)
    shown = [window.strip.line.text()]
    for part in (window.day_list.filter, window.day_list.table):
        part.setFocus()
        shown.append(window.strip.line.text())
    window.commands["looks-first"].trigger()
    settle(qtbot, window)
    shown.append(window.strip.line.text())
    assert shown[0] == shown[2]
    assert shown[1:] == [actions.FIND_HINT, shown[0], actions.LOOKS_HINT]


def test_what_was_told_gives_way_to_the_hint_and_stays_to_be_read_out(
    qtbot: QtBot, window: Window
) -> None:
    to_list(qtbot, window)
    hint, strip = window.strip.line.text(), window.strip
    window.deeds.tick([line_of(window, "A1").plant_id])
    settle(qtbot, window)
    assert strip.line.text() == strip.told != hint
    assert strip.undo.isVisible()
    assert strip.resting_ms >= TOLD_MS
    strip.give_way()
    assert strip.line.text() == hint
    assert not strip.undo.isVisible()
    assert strip.line.accessibleDescription() == f"Told last: {strip.told}"
    strip.tell("x" * 1000)
    assert strip.resting_ms == 1000 * MS_PER_LETTER


# -- a day to come --------------------------------------------------------------------


def test_a_day_to_come_takes_no_ticks_by_key_or_mouse(
    qtbot: QtBot, window: Window
) -> None:
    to_list(qtbot, window)
    key(Qt.Key.Key_PageDown, Qt.KeyboardModifier.AltModifier)
    settle(qtbot, window)
    assert window.desk.on > window.desk.today
    assert "Ticks open on the day itself." in window.head.first.text()
    before = status(window)
    assert before == actions.ahead_hint()
    assert before.startswith("Alt+PgUp goes a watering day back, Ctrl+T to today")
    to_list(qtbot, window)
    key(Qt.Key.Key_Space)
    key(Qt.Key.Key_D, CTRL)
    table, model = window.day_list.table, window.day_list.model
    row = model.row_of(line_of(window, "A2").plant_id)
    where = table.visualRect(model.index(row, 0)).center()
    QTest.mouseClick(table.viewport(), Qt.MouseButton.LeftButton, pos=where)
    settle(qtbot, window)
    assert status(window) == before, "nothing was refused, since nothing was offered"
    assert not window.commands["tick"].isEnabled()
    key(Qt.Key.Key_T, CTRL)
    settle(qtbot, window)
    assert window.commands["tick"].isEnabled()


# -- the first run --------------------------------------------------------------------


def test_the_first_steps_go_by_enter_alone(
    qtbot: QtBot, collection: Collection, show: Callable[[Collection], Window]
) -> None:
    window = show(collection)
    front(qtbot, window)
    assert status(window) == "Enter takes the next step; Ctrl+F1 lists every key."
    qtbot.waitUntil(lambda: focused().objectName() == "step-plant")
    for _ in ("water", "tin", "latitude"):
        key(Qt.Key.Key_Tab)
    assert focused().objectName() == "step-latitude"
    key(Qt.Key.Key_Return)
    settle(qtbot, window)
    rules = dialog_of(window, SettingsDialog)
    qtbot.waitUntil(lambda: rules.isAncestorOf(focused()))
    key(Qt.Key.Key_A, CTRL)
    typed("48.2")
    key(Qt.Key.Key_Return, CTRL)
    settle(qtbot, window)
    front(qtbot, window)
    qtbot.waitUntil(lambda: focused().objectName() == "step-plant")
    key(Qt.Key.Key_Tab)
    key(Qt.Key.Key_Return)
    settle(qtbot, window)
    waters = dialog_of(window, WatersDialog)
    key(Qt.Key.Key_Escape)
    qtbot.waitUntil(lambda: not waters.isVisible())
    front(qtbot, window)
    qtbot.waitUntil(lambda: focused().objectName() == "step-water")


def test_tab_goes_through_the_steps_in_their_order(
    qtbot: QtBot, collection: Collection, show: Callable[[Collection], Window]
) -> None:
    house = collection.settings.house()
    collection.settings.save_house(house, ("latitude",))
    window = show(collection)
    front(qtbot, window)
    qtbot.waitUntil(lambda: focused().objectName() == "step-plant")
    seen = []
    for _ in range(4):
        seen.append(focused().objectName())
        key(Qt.Key.Key_Tab)
    assert seen == ["step-plant", "step-water", "step-tin", "step-sample"]


def test_a_step_that_is_not_the_next_can_be_taken_by_enter(
    qtbot: QtBot, collection: Collection, show: Callable[[Collection], Window]
) -> None:
    window = show(collection)
    front(qtbot, window)
    qtbot.waitUntil(lambda: focused().objectName() == "step-plant")
    for step in ("step-water", "step-tin"):
        key(Qt.Key.Key_Tab)
        assert focused().objectName() == step
    key(Qt.Key.Key_Return)
    settle(qtbot, window)
    tins = dialog_of(window, TinsDialog)
    assert tins.isAncestorOf(focused())
    tins.reject()


def test_each_part_of_an_empty_collection_has_its_next_action_a_key_away(
    qtbot: QtBot, collection: Collection, show: Callable[[Collection], Window]
) -> None:
    window = show(collection)
    front(qtbot, window)
    qtbot.waitUntil(lambda: focused().objectName() == "step-plant")
    key(Qt.Key.Key_F7)
    assert focused() is window.detail.add_button
    key(Qt.Key.Key_F6)
    assert focused().objectName() == "step-plant"
    key(Qt.Key.Key_F8)
    assert window.mixing.isAncestorOf(focused())
    assert window.mixing.to_quick.isVisible()
    press(window.mixing, "To the quick mix")
    assert focused() is window.mixing.quick.analysis
    press(window.detail, "Add a plant…")
    settle(qtbot, window)
    dialog_of(window, PlantDialog).reject()
    window._reminded = True


def test_what_was_not_said_stays_over_the_list_until_it_is(
    qtbot: QtBot, collection: Collection, show: Callable[[Collection], Window]
) -> None:
    collection.plants.add(PlantDraft("A1", "Cattleya", "cattleya"))
    window = show(collection)
    left = window.day_list.left
    assert left.isVisible()
    assert [each.text() for each in left.buttons] == [
        "a water",
        "a tin",
        "the latitude",
    ]
    assert left.buttons[2].toolTip().endswith("reckoned for 50° north.")
    press(window.day_list, "a tin")
    settle(qtbot, window)
    dialog_of(window, TinsDialog).reject()
    window.desk.write(lambda: collection.waters.add(WaterDraft("rain")))
    window.desk.write(lambda: collection.mixing.add_tin(TinDraft("Blue", "20-20-20")))
    settle(qtbot, window)
    assert [each.text() for each in left.buttons] == ["the latitude"]
    house = collection.settings.house()
    window.desk.write(lambda: collection.settings.save_house(house, ("latitude",)))
    settle(qtbot, window)
    assert left.isHidden()


# -- the plant's pane -----------------------------------------------------------------


@pytest.fixture
def looked_at(
    stocked: Collection, today: date, show: Callable[[Collection], Window]
) -> Window:
    """Give a window whose A3 has two looks."""
    plant_id = stocked.plants.find("A3")
    assert plant_id is not None
    for day in (1, 2):
        stocked.looks.record(plant_id, Look(on=today.replace(day=day)))
    window = show(stocked)
    go_to(window, "A3")
    return window


def test_tab_goes_down_the_plant_s_pane_before_the_mixing(
    qtbot: QtBot, looked_at: Window
) -> None:
    settle(qtbot, looked_at)
    to_list(qtbot, looked_at)
    seen: list[str] = []
    for _ in range(40):
        key(Qt.Key.Key_Tab)
        if looked_at.mixing.isAncestorOf(focused()):
            break
        seen.append(focused().accessibleName() or focused().objectName())
    wanted = [
        "Change the plant A3",
        "Record a look…",
        "Show all, 2",
        "Timeline",
    ]
    assert [each for each in seen if each in wanted] == wanted
    assert looked_at.mixing.isAncestorOf(focused())


def to_timeline(qtbot: QtBot, window: Window) -> None:
    """Tab from the list to the timeline; its cursor is on the newest entry then."""
    settle(qtbot, window)
    to_list(qtbot, window)
    for _ in range(40):
        key(Qt.Key.Key_Tab)
        if focused().accessibleName() == "Timeline":
            return
    raise AssertionError("Tab does not come to the timeline")


def current(window: Window) -> Entry:
    """Give the entry of the timeline that the cursor is on."""
    timeline = window.detail.timeline
    entry = timeline.model.entry(timeline.view.currentIndex().row())
    assert entry is not None
    return entry


def test_the_cursor_stays_when_an_entry_was_changed(
    qtbot: QtBot, looked_at: Window
) -> None:
    to_timeline(qtbot, looked_at)
    assert current(looked_at).on.day == 2
    key(Qt.Key.Key_Down)
    assert current(looked_at).on.day == 1
    key(Qt.Key.Key_Return)
    settle(qtbot, looked_at)
    look = dialog_of(looked_at, LookDialog)
    look.roots.take_focus()
    QTest.keyClick(look.focusWidget(), Qt.Key.Key_R)
    QTest.keyClick(look.focusWidget(), Qt.Key.Key_Return, CTRL)
    settle(qtbot, looked_at)
    assert open_dialogs(looked_at) == []
    front(qtbot, looked_at)
    qtbot.waitUntil(lambda: focused().accessibleName() == "Timeline")
    assert current(looked_at).on.day == 1
    assert "running" in current(looked_at).line


def test_the_focus_goes_to_the_pane_s_own_button_where_the_other_is_gone(
    qtbot: QtBot, looked_at: Window, stocked: Collection
) -> None:
    plant_id = stocked.plants.find("A3")
    assert plant_id is not None
    stocked.blooms.add(plant_id, BloomDraft(date(2025, 5, 1)))
    go_to(looked_at, "A1")
    go_to(looked_at, "A3")
    looked_at.detail.tabs.setCurrentIndex(2)
    settle(qtbot, looked_at)
    to_list(qtbot, looked_at)
    for _ in range(40):
        key(Qt.Key.Key_Tab)
        if focused().accessibleName().startswith("Change the bloom"):
            break
    assert focused().accessibleName().startswith("Change the bloom")
    looked_at.day_list.go_to(line_of(looked_at, "A1").plant_id)
    settle(qtbot, looked_at)
    qtbot.waitUntil(lambda: focused() is looked_at.detail.look_button)


def test_a_tick_comes_on_top_and_leaves_the_cursor_on_its_entry(
    qtbot: QtBot, looked_at: Window
) -> None:
    go_to(looked_at, "A1")
    to_timeline(qtbot, looked_at)
    before = current(looked_at)
    to_list(qtbot, looked_at)
    key(Qt.Key.Key_Space)
    settle(qtbot, looked_at)
    assert line_of(looked_at, "A1").done is not None
    assert len(looked_at.detail.timeline.model.rows) == 3
    assert current(looked_at) == before


def test_clear_the_filter_gives_the_list_the_focus(
    qtbot: QtBot, window: Window
) -> None:
    to_list(qtbot, window)
    typed("zzz")
    press(window.day_list, "Clear the filter")
    assert window.day_list.table.hasFocus()
