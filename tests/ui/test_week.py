"""The week in the window: table, keys, the way to a day and back, a missed round."""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace
from PySide6.QtCore import QModelIndex, Qt
from PySide6.QtGui import QFontMetrics
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel, QPushButton

from growdesk.domain.facts import CareKind, Verdict
from growdesk.services.bench_values import BenchDraft
from growdesk.services.values import PlaceDraft
from growdesk.ui import actions, theme, week_words
from growdesk.ui.models.week_model import NO_PLACE, WeekModel
from growdesk.ui.weekly import REST_MS
from growdesk.ui.widgets.day_delegate import small
from growdesk.ui.widgets.week_headers import fitted_place
from growdesk.ui.widgets.week_table import SCROLLED_DAY_PX
from tests.ui.driving import front, go_to, key, line_of, press, retype, settle, status
from tests.ui.test_accessible_names import mnemonics, nameless, unlabelled

if TYPE_CHECKING:
    from collections.abc import Callable

    from pytestqt.modeltest import ModelTester
    from pytestqt.qtbot import QtBot

    from growdesk.services.clock import FixedClock
    from growdesk.services.collection import Collection
    from growdesk.services.week_values import WeekCell
    from growdesk.ui.window import Window

WEDNESDAY = date(2026, 5, 20)
SATURDAY = date(2026, 5, 23)


def show_week(qtbot: QtBot, window: Window) -> WeekModel:
    """Bring the week into sight and let it arrive."""
    front(qtbot, window)
    window.commands["week"].trigger()
    model = window.weekly.week.model
    qtbot.waitUntil(lambda: model.view is not None, timeout=20_000)
    settle(qtbot, window)
    return model


def cell(window: Window, tag: str, column: int) -> WeekCell:
    """Give a plant's cell of a column."""
    index = index_of(window, tag, column)
    found = window.weekly.week.model.cell_at(index)
    assert found is not None
    return found


def index_of(window: Window, tag: str, column: int) -> QModelIndex:
    model = window.weekly.week.model
    return model.index(model.row_of(line_of(window, tag).plant_id), column)


def rows(model: WeekModel) -> list[str]:
    return [each if isinstance(each, str) else each.tag for each in model.rows]


def told(window: Window) -> list[str]:
    """Give the week's sentences in the detail pane."""
    texts = [each.text() for each in window.detail._reasons.findChildren(QLabel)]
    heads = [
        n for n, text in enumerate(texts) if text.startswith(("This week", "Week"))
    ]
    return [] if not heads else texts[heads[0] : heads[0] + 3]


def test_the_week_stands_by_place_with_a_column_a_day(
    qtbot: QtBot, window: Window
) -> None:
    model = show_week(qtbot, window)
    assert window.weekly.is_shown
    assert rows(model) == ["East window", "A1", "A2", "A3"]
    assert [day.on for day in model.days] == [WEDNESDAY, SATURDAY]
    assert window.weekly.week.title.text() == "This week, from Monday 18 May 2026"
    fed, clear = cell(window, "A1", 0), cell(window, "A1", 1)
    assert (fed.verdict, clear.verdict) == (Verdict.FEED, Verdict.CLEAR_WATER)
    assert week_words.upper(fed) == "Feed"
    assert week_words.under(fed).startswith("jug A, ")
    assert week_words.under(fed).endswith(" ppm N")
    assert week_words.under(clear) == "if the pot is light, fed Wed"
    tip = index_of(window, "A1", 1).data(Qt.ItemDataRole.ToolTipRole)
    assert tip.endswith("if the pot is light, because today feeds it.")
    head = model.headerData(0, Qt.Orientation.Horizontal)
    assert isinstance(head, str)
    assert head.startswith("Wednesday 20 May; today; 2 feed, 1 look first; A  ")


def test_the_model_keeps_qts_rules(
    qtbot: QtBot, window: Window, qtmodeltester: ModelTester
) -> None:
    qtmodeltester.check(show_week(qtbot, window))  # type: ignore[no-untyped-call]


def test_the_key_goes_to_the_week_and_back_and_the_panes_return(
    qtbot: QtBot, window: Window
) -> None:
    window.resize(1280, 800)
    widths, open_before = window.split.sizes(), window.folding.is_open
    show_week(qtbot, window)
    assert window.weekly.week.table.hasFocus()
    assert (
        window.head.modes.buttons["week"].isChecked(),
        window.head.modes.buttons["day"].isChecked(),
    ) == (
        True,
        False,
    )
    window.commands["week"].trigger()
    settle(qtbot, window)
    assert not window.weekly.is_shown
    assert window.head.modes.buttons["day"].isChecked()
    assert (window.split.sizes(), window.folding.is_open) == (widths, open_before)
    assert window.day_list.table.hasFocus()


def test_the_buttons_of_the_head_do_the_same(qtbot: QtBot, window: Window) -> None:
    for text, shown in (("Week", True), ("Week", True), ("Day", False), ("Day", False)):
        press(window.head, text)
        assert window.weekly.is_shown is shown
    settle(qtbot, window)


def test_arrows_walk_the_cells_and_the_plant_follows(
    qtbot: QtBot, window: Window
) -> None:
    go_to(window, "A1")
    settle(qtbot, window)
    show_week(qtbot, window)
    table = window.weekly.week.table
    assert table.currentIndex() == index_of(window, "A1", 0)
    key(Qt.Key.Key_Right)
    assert table.currentIndex() == index_of(window, "A1", 1)
    key(Qt.Key.Key_Down)
    settle(qtbot, window)
    assert table.currentIndex() == index_of(window, "A2", 1)
    assert window.detail.detail is not None
    assert window.detail.detail.draft.tag == "A2"
    assert window.day_list.chosen == line_of(window, "A2").plant_id


def test_arrows_step_over_the_name_of_a_place(
    qtbot: QtBot, stocked: Collection, show: Callable[[Collection], Window]
) -> None:
    second = stocked.places.add(PlaceDraft("North window")).ids[0]
    moved = stocked.plants.find("A2")
    assert moved is not None
    draft = stocked.plants.get(moved)
    stocked.plants.change(moved, replace(draft, place_id=second, bench=None))
    nowhere = stocked.plants.find("A3")
    assert nowhere is not None
    draft = stocked.plants.get(nowhere)
    stocked.plants.change(nowhere, replace(draft, place_id=None, bench=None))
    window = show(stocked)
    model = show_week(qtbot, window)
    assert rows(model) == [NO_PLACE, "A3", "East window", "A1", "North window", "A2"]
    table = window.weekly.week.table
    table.setCurrentIndex(index_of(window, "A1", 0))
    key(Qt.Key.Key_Down)
    assert table.currentIndex() == index_of(window, "A2", 0)


def test_a_bench_is_named_beside_its_place_and_found(
    qtbot: QtBot, stocked: Collection, show: Callable[[Collection], Window]
) -> None:
    east = stocked.places.all()[0].place_id
    bench = stocked.benches.add(east, BenchDraft("Top")).ids[0]
    stocked.benches.put(east, bench, [stocked.plants.find("A3") or 0])
    window = show(stocked)
    model = show_week(qtbot, window)
    assert rows(model) == ["East window · Top", "A3", "East window", "A1", "A2"]
    model.filter_by("top")
    assert rows(model) == ["East window · Top", "A3"]


@pytest.mark.parametrize("by", ["enter", "double-click"])
def test_a_cell_opens_its_day_and_plant(qtbot: QtBot, window: Window, by: str) -> None:
    show_week(qtbot, window)
    table = window.weekly.week.table
    index = index_of(window, "A2", 1)
    table.setCurrentIndex(index)
    if by == "enter":
        key(Qt.Key.Key_Return)
    else:
        where = table.visualRect(index).center()
        left = Qt.MouseButton.LeftButton
        QTest.mouseClick(table.viewport(), left, pos=where)
        QTest.mouseDClick(table.viewport(), left, pos=where)
    settle(qtbot, window)
    assert not window.weekly.is_shown
    assert window.desk.on == SATURDAY
    assert window.day_list.chosen == line_of(window, "A2").plant_id
    assert window.detail.detail is not None
    assert (window.detail.detail.draft.tag, window.detail.detail.on) == ("A2", SATURDAY)


def test_a_tick_and_its_undo_are_seen_in_the_week(qtbot: QtBot, window: Window) -> None:
    model = show_week(qtbot, window)
    resets: list[None] = []
    model.modelReset.connect(lambda: resets.append(None))
    current = window.weekly.week.table.currentIndex()
    plant = line_of(window, "A1").plant_id
    window.deeds.tick([plant])
    settle(qtbot, window)
    done = cell(window, "A1", 0)
    assert week_words.upper(done) == "Fed"
    assert week_words.under(done).endswith(" ppm N")
    assert model.days[0].done == 1
    assert week_words.day_near(model.days[0]) == "today, 1 done"
    window.deeds.pass_by(
        [line for line in window.day_list.model.lines if line.plant_id == plant]
    )
    settle(qtbot, window)
    assert week_words.upper(cell(window, "A1", 0)) == "Passed by"
    assert week_words.under(cell(window, "A1", 1)).endswith(", passed by Wed")
    for _ in range(2):
        window.commands["undo"].trigger()
        settle(qtbot, window)
    assert cell(window, "A1", 0).done is None
    assert resets == []
    assert window.weekly.week.table.currentIndex() == current


def test_another_week_comes_with_its_day(qtbot: QtBot, window: Window) -> None:
    model = show_week(qtbot, window)
    for _ in range(2):
        window.commands["next-day"].trigger()
        settle(qtbot, window)
    assert [day.on for day in model.days] == [
        WEDNESDAY + timedelta(days=7),
        SATURDAY + timedelta(days=7),
    ]
    assert window.weekly.week.title.text() == "Week of 25 May 2026"
    assert window.weekly.week.table.currentIndex().isValid()
    assert told(window)[0] == "Week of 25 May"


def test_seven_days_scroll_and_one_fills_the_table(
    qtbot: QtBot, stocked: Collection, show: Callable[[Collection], Window]
) -> None:
    house = stocked.settings.house()
    stocked.settings.save_house(replace(house, watering_weekdays=tuple(range(7))))
    window = show(stocked)
    window.resize(1024, 700)
    model = show_week(qtbot, window)
    table = window.weekly.week.table
    assert len(model.days) == 7
    assert {table.columnWidth(n) for n in range(7)} == {SCROLLED_DAY_PX}
    assert table.horizontalScrollBar().maximum() > 0
    stocked.settings.save_house(replace(house, watering_weekdays=(2,)))
    window.desk.show_day()
    settle(qtbot, window)
    assert [day.on for day in model.days] == [WEDNESDAY]
    assert table.columnWidth(0) == table.viewport().width()


def test_typing_finds_in_the_week_and_escape_clears(
    qtbot: QtBot, window: Window
) -> None:
    model = show_week(qtbot, window)
    pane = window.weekly.week
    QTest.keyClicks(pane.table, "a")
    assert pane.filter.hasFocus()
    retype(pane.filter, "sphacelatum")
    assert rows(model) == ["East window", "A2"]
    retype(pane.filter, "nowhere at all")
    assert rows(model) == []
    assert pane._nothing.isVisible()
    assert "nowhere at all" in pane._nothing.text()
    QTest.keyClick(pane.filter, Qt.Key.Key_Escape)
    assert rows(model) == ["East window", "A1", "A2", "A3"]
    assert pane.table.hasFocus()
    window.commands["find"].trigger()
    assert pane.filter.hasFocus()
    window.commands["to-list"].trigger()
    assert pane.table.hasFocus()


def test_every_control_of_the_week_has_a_name_and_a_letter_of_its_own(
    qtbot: QtBot, window: Window
) -> None:
    show_week(qtbot, window)
    assert nameless(window) == []
    assert unlabelled(window) == []
    menus = [title[title.index("&") + 1].casefold() for title in actions.MENUS.values()]
    found = menus + mnemonics(window)
    assert sorted(found) == sorted(set(found))
    spoken = index_of(window, "A1", 1).data(Qt.ItemDataRole.AccessibleTextRole)
    assert spoken.startswith(
        "A1, Cattleya intermedia, Clear water, if the pot is light"
    )
    assert status(window).startswith("Enter opens the day of the cell")


def test_both_schemes_draw_the_week(qtbot: QtBot, window: Window) -> None:
    show_week(qtbot, window)
    grounds = set()
    for mode in (theme.Mode.LIGHT, theme.Mode.DARK):
        window.theme.choose(mode)
        viewport = window.weekly.week.table.viewport()
        picture = viewport.grab().toImage()
        grounds.add(picture.pixelColor(4, picture.height() - 4).name())
    assert len(grounds) == 2


def test_without_plants_there_is_no_week(
    qtbot: QtBot, collection: Collection, show: Callable[[Collection], Window]
) -> None:
    window = show(collection)
    assert not window.commands["week"].isEnabled()
    assert not window.head.modes.buttons["week"].isEnabled()
    window.weekly.turn()
    assert not window.weekly.is_shown
    settle(qtbot, window)


def test_the_last_plant_gone_leads_back_to_the_day(
    qtbot: QtBot, window: Window
) -> None:
    show_week(qtbot, window)
    window.deeds.put_in_bin(window.day_list.model.lines)
    settle(qtbot, window)
    assert not window.weekly.is_shown
    assert window.day_list.steps.isVisible()


# The plant's own week


def test_the_detail_tells_the_plants_week(qtbot: QtBot, window: Window) -> None:
    go_to(window, "A1")
    qtbot.waitUntil(lambda: bool(told(window)), timeout=20_000)
    head, today, saturday = told(window)
    assert head == "This week"
    assert today.startswith("Today it is fed at ")
    assert saturday.endswith("because today feeds it.")
    assert not window.weekly.is_shown
    window.deeds.tick([line_of(window, "A1").plant_id])
    settle(qtbot, window)
    qtbot.waitUntil(
        lambda: told(window)[1:2] > ["Today it was fed at "], timeout=20_000
    )
    assert told(window)[1].startswith("Today it was fed at ")


def test_no_week_is_told_that_is_older_than_the_day(
    qtbot: QtBot, window: Window
) -> None:
    go_to(window, "A1")
    qtbot.waitUntil(lambda: bool(told(window)), timeout=20_000)
    window.weekly._rest.setInterval(REST_MS * 1000)
    window.deeds.tick([line_of(window, "A1").plant_id])
    settle(qtbot, window)
    assert window.weekly._rest.isActive()
    for tag in ("A1", "A2", "A1"):
        before = window.weekly._rest.remainingTime()
        go_to(window, tag)
        settle(qtbot, window)
        assert told(window) == []
        assert window.weekly._rest.remainingTime() <= before, "no move puts it off"


def test_the_head_over_a_week_says_for_which_day_it_speaks(
    qtbot: QtBot, window: Window
) -> None:
    said = window.head.first.text()
    show_week(qtbot, window)
    assert window.head.first.text() == f"For today: {said}"
    window.desk.show_day(SATURDAY)
    settle(qtbot, window)
    ahead = window.head.first.text()
    assert ahead.startswith("For Saturday 23 May: ")
    assert "That takes the round of today as done as planned." in ahead
    window.commands["week"].trigger()
    settle(qtbot, window)
    assert window.head.first.text() == ahead.removeprefix("For Saturday 23 May: ")


def test_a_row_of_ticks_asks_for_one_week(qtbot: QtBot, window: Window) -> None:
    qtbot.waitUntil(lambda: window.weekly.week.model.view is not None)
    settle(qtbot, window)
    came: list[object] = []
    window.desk.week_arrived.connect(came.append)
    window.weekly._rest.setInterval(REST_MS * 1000)
    for tag in ("A1", "A2"):
        window.deeds.tick([line_of(window, tag).plant_id])
        settle(qtbot, window)
    assert came == []
    assert window.weekly._rest.isActive()
    window.weekly._rest.start(0)
    qtbot.waitUntil(lambda: bool(came))
    settle(qtbot, window)
    assert len(came) == 1
    assert not window.weekly._rest.isActive()


def test_a_choice_of_many_plants_outlives_the_week_that_comes(
    qtbot: QtBot, window: Window
) -> None:
    go_to(window, "A1")
    settle(qtbot, window)
    qtbot.waitUntil(lambda: window.weekly.week.model.view is not None)
    window.day_list.table.selectAll()
    chosen = [line.tag for line in window.day_list.selected()]
    assert chosen == ["A1", "A2", "A3"]
    with qtbot.waitSignal(window.desk.week_arrived, timeout=20_000):
        window.deeds.tick([line_of(window, "A2").plant_id])
    settle(qtbot, window)
    assert [line.tag for line in window.day_list.selected()] == chosen
    window.desk.show_plant(line_of(window, "A2").plant_id)
    settle(qtbot, window)
    week = window.weekly.week.table.currentIndex()
    assert week.row() == index_of(window, "A2", 0).row()
    assert [line.tag for line in window.day_list.selected()] == chosen


# A round that went by


@pytest.fixture
def late(
    stocked: Collection, clock: FixedClock, show: Callable[[Collection], Window]
) -> Window:
    """Give the window on Saturday, nothing of Wednesday on record."""
    found = stocked.plants.find("A2")
    assert found is not None
    before = WEDNESDAY - timedelta(days=7)
    stocked.day.give([found], before, CareKind.CLEAR_WATER, None)
    clock.day = SATURDAY
    return show(stocked)


def test_a_missed_round_is_told_and_can_be_ticked_late(
    qtbot: QtBot, late: Window
) -> None:
    missed = late.head.missed
    assert missed.isVisible()
    assert missed.told.text() == (
        "Wednesday's round has nothing recorded; today is judged by that."
    )
    assert line_of(late, "A1").verdict is Verdict.FEED
    press(late.head, "Tick Wednesday late")
    settle(qtbot, late)
    assert late.desk.on == WEDNESDAY
    assert not missed.isVisible()
    late.deeds.tick([line_of(late, "A1").plant_id])
    settle(qtbot, late)
    late.commands["today"].trigger()
    settle(qtbot, late)
    assert not missed.isVisible()
    assert line_of(late, "A1").verdict is Verdict.CLEAR_WATER


def test_the_missed_day_is_named_in_the_week(qtbot: QtBot, late: Window) -> None:
    model = show_week(qtbot, late)
    assert week_words.day_near(model.days[0]) == "nothing recorded"
    assert week_words.day_amounts(model.days[0]) == ()
    assert week_words.under(cell(late, "A1", 0)) == "nothing recorded"
    assert week_words.under(cell(late, "A1", 1)).endswith(" ppm N, Wed missed")
    assert not nameless(late)


def test_nothing_is_told_where_nothing_was_missed(window: Window) -> None:
    assert not window.head.missed.isVisible()
    assert [
        each.text()
        for each in window.head.findChildren(QPushButton)
        if each.isVisible() and "late" in each.text()
    ] == []


@pytest.mark.usefixtures("qapp")
def test_a_head_too_long_for_its_room_still_tells_the_bench() -> None:
    metrics = QFontMetrics(QApplication.font())
    name = "South sill, living room · By the pane"
    whole = metrics.horizontalAdvance(name)
    assert fitted_place(name, metrics, whole) == name
    room = metrics.horizontalAdvance("By the pane") + 60
    cut = fitted_place(name, metrics, room)
    assert cut.startswith("S")
    assert cut.endswith("… · By the pane")
    assert metrics.horizontalAdvance(cut) <= room
    assert fitted_place(name, metrics, room - 50) == "By the pane"
    assert fitted_place("North-west sill", metrics, 20) == "North-west sill"


def test_a_language_with_longer_words_gets_wider_days(
    qtbot: QtBot, window: Window, monkeypatch: pytest.MonkeyPatch
) -> None:
    window.resize(1280, 800)
    show_week(qtbot, window)
    table = window.weekly.week.table
    before = table.wanted_px()
    long = "wenn der Topf leicht ist, gedüngt Mi"
    monkeypatch.setattr(week_words, "under", lambda _cell: long)
    assert table.wanted_px() > before
    window.faces.go("day")
    window.faces.go("week")
    settle(qtbot, window)
    room = table.columnWidth(0) - 12
    assert QFontMetrics(small(table.font())).horizontalAdvance(long) <= room
    monkeypatch.setattr(week_words, "under", lambda _cell: 9 * long)
    assert table.wanted_px() < 1280, "what is too long for any window ends in dots"
