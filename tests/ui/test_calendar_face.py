"""The calendar in the window: agenda, keys, filters, the plant beside it, the file."""

from __future__ import annotations

from datetime import date, timedelta
from functools import partial
from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QFileDialog

from growdesk.domain.facts import Flowering, Look, NewGrowths, RootTips
from growdesk.domain.jobs.job import Sort
from growdesk.domain.night import Expected
from growdesk.services.calendar_values import Closed
from growdesk.services.values import PlaceDraft, PlantDraft
from growdesk.store.schema import CareRow
from growdesk.ui import calendar_folds, calendar_words, theme
from growdesk.ui.models.calendar_model import CalendarModel, Head
from tests.ui.driving import NONE, focused, front, key, line_of, settle, status, typed

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from pytestqt.modeltest import ModelTester
    from pytestqt.qtbot import QtBot

    from growdesk.services.calendar_values import JobLine
    from growdesk.services.clock import FixedClock
    from growdesk.services.collection import Collection
    from growdesk.ui.panes.calendar import CalendarPane
    from growdesk.ui.window import Window


@pytest.fixture
def dated(stocked: Collection, today: date) -> Collection:
    """Give the stocked collection with a treatment to repeat and a spike."""
    shelf = stocked.places.add(PlaceDraft("Shelf")).ids[0]
    draft = PlantDraft("B1", "Phalaenopsis <b>amabilis</b>", "phalaenopsis", shelf)
    spiked = stocked.plants.add(draft).ids[0]
    seen = Look(
        today,
        new_growths=NewGrowths(),
        root_tips=RootTips.RUNNING,
        flowering=frozenset({Flowering.SPIKE}),
    )
    stocked.looks.record(spiked, seen)
    values = {
        "plant_id": stocked.plants.find("A1"),
        "day": today - timedelta(days=15),
        "what": "treat",
        "product": "Neem soap",
        "repeat_on": today - timedelta(days=1),
    }
    with stocked.ledger.writing("treated") as writing:
        writing.insert(CareRow, values)
    return stocked


@pytest.fixture
def face(
    qtbot: QtBot, dated: Collection, show: Callable[[Collection], Window]
) -> Window:
    """Give the window with its calendar in sight."""
    window = show(dated)
    front(qtbot, window)
    window.commands["calendar"].trigger()
    settle(qtbot, window)
    return window


def pane(window: Window) -> CalendarPane:
    return window.calendaring.pane


def heads(window: Window) -> list[str]:
    return [row.name for row in pane(window).model.rows if isinstance(row, Head)]


def job(window: Window, name: str) -> JobLine:
    """Give the line of a key."""
    return next(line for line in pane(window).model.shown if line.ref.key == name)


def stand_on(window: Window, name: str) -> None:
    """Put the cursor on the job of a key, with the keys in the list."""
    row = pane(window).model.row_of(job(window, name).ref)
    pane(window).list.put_cursor(row)
    pane(window).list.setFocus()


def _seen(window: Window) -> list[JobLine]:
    return pane(window).model.shown


def on_job(window: Window) -> str:
    line = pane(window).list.line
    return "" if line is None else line.ref.key


def test_the_agenda_is_grouped_by_when_it_is_due(face: Window) -> None:
    assert heads(face) == [
        "Overdue",
        "This week",
        "Under way, nothing to do",
        "June 2026",
        "August 2026",
        "November 2026",
        "December 2026",
    ]
    assert [line.ref.key for line in pane(face).model.shown][:3] == [
        "treat-again",
        "stake-spike",
        "look-never",
    ]
    assert pane(face).told.text() == "1 overdue, 2 this week."
    assert pane(face).list.hasFocus()


def test_the_model_keeps_qts_rules(face: Window, qtmodeltester: ModelTester) -> None:
    qtmodeltester.check(pane(face).model)  # type: ignore[no-untyped-call]


def test_the_cursor_drives_the_plant_beside_it(qtbot: QtBot, face: Window) -> None:
    settle(qtbot, face)
    detail = face.desk.detail
    assert detail is not None
    assert detail.plant_id == line_of(face, "A1").plant_id
    key(Qt.Key.Key_Down)
    settle(qtbot, face)
    detail = face.desk.detail
    assert on_job(face) == "stake-spike"
    assert detail is not None
    assert detail.plant_id == line_of(face, "B1").plant_id
    assert face.faces.chosen == detail.plant_id
    assert [each.tag for each in face.faces.picked] == ["B1"]


def test_the_plant_stays_with_the_day_where_it_was_looked_at(
    qtbot: QtBot, face: Window
) -> None:
    stand_on(face, "stake-spike")
    settle(qtbot, face)
    face.commands["calendar"].trigger()
    settle(qtbot, face)
    detail = face.desk.detail
    assert detail is not None
    assert detail.plant_id == face.day_list.chosen == line_of(face, "B1").plant_id


def test_arrows_go_over_the_heads_and_stop_at_the_ends(face: Window) -> None:
    key(Qt.Key.Key_Up)
    assert on_job(face) == "treat-again"
    seen = []
    for _ in range(len(pane(face).model.rows)):
        seen.append(on_job(face))
        key(Qt.Key.Key_Down)
    assert "" not in seen
    last = pane(face).model.shown[-1]
    assert pane(face).list.line == last


def test_space_ticks_and_takes_back(qtbot: QtBot, face: Window) -> None:
    key(Qt.Key.Key_Space)
    settle(qtbot, face)
    assert job(face, "treat-again").closed is Closed.DONE
    assert on_job(face) == "treat-again"
    assert "A1 treat again: done" in status(face)
    assert heads(face)[0] == "This week"
    key(Qt.Key.Key_Space)
    settle(qtbot, face)
    assert job(face, "treat-again").closed is None
    face.commands["undo"].trigger()
    settle(qtbot, face)
    assert job(face, "treat-again").closed is Closed.DONE
    face.commands["undo"].trigger()
    settle(qtbot, face)
    assert job(face, "treat-again").closed is None


def test_del_lets_go_and_never_removes_a_plant(qtbot: QtBot, face: Window) -> None:
    key(Qt.Key.Key_Delete)
    settle(qtbot, face)
    assert job(face, "treat-again").closed is Closed.LET_GO
    assert face.desk.collection.plants.find("A1") is not None
    beside = calendar_words.beside(job(face, "treat-again"))
    assert beside == "Let go 20 May 2026"


def test_what_closes_elsewhere_says_how(qtbot: QtBot, face: Window) -> None:
    stand_on(face, "look-never")
    key(Qt.Key.Key_Space)
    settle(qtbot, face)
    assert job(face, "look-never").closed is None
    assert "It closes by itself once the look" in status(face)


def test_what_is_only_told_says_so(qtbot: QtBot, face: Window) -> None:
    stand_on(face, "do-not-turn")
    for each in (Qt.Key.Key_Space, Qt.Key.Key_Delete):
        key(each)
        settle(qtbot, face)
        assert "it only tells what is expected" in status(face)


def test_enter_goes_to_the_plant_in_the_days_list(qtbot: QtBot, face: Window) -> None:
    stand_on(face, "stake-spike")
    key(Qt.Key.Key_Return)
    settle(qtbot, face)
    assert face.faces.shown == "day"
    assert face.day_list.chosen == line_of(face, "B1").plant_id
    front(qtbot, face)
    qtbot.waitUntil(face.day_list.table.hasFocus)


def test_the_key_goes_back_to_the_day(qtbot: QtBot, face: Window) -> None:
    assert face.head.modes.buttons["calendar"].isChecked()
    assert "Space ticks a job as done" in face.strip.line.text()
    front(qtbot, face)
    key(
        Qt.Key.Key_D,
        Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier,
    )
    settle(qtbot, face)
    assert face.faces.shown == "day"


def test_filters_narrow_by_sort_place_and_find(face: Window) -> None:
    calendar = pane(face)
    calendar.sorts.setCurrentIndex(calendar.sorts.findText("Look"))
    assert {line.sort for line in calendar.model.shown} == {Sort.LOOK}
    calendar.places.setCurrentIndex(calendar.places.findText("Shelf"))
    assert {line.tag for line in calendar.model.shown} == {"B1"}
    calendar.sorts.setCurrentIndex(calendar.sorts.findText("Move"))
    assert calendar.nothing.isVisible()
    assert calendar.nothing.text() == "No job is of this sort at this place."
    calendar.sorts.setCurrentIndex(0)
    calendar.places.setCurrentIndex(0)
    assert not calendar.nothing.isVisible()
    assert calendar.list.line is not None


def test_a_letter_starts_a_find_and_escape_ends_it(face: Window) -> None:
    calendar = pane(face)
    typed("neem")
    assert calendar.filter.text() == "neem"
    assert [line.ref.key for line in calendar.model.shown] == ["treat-again"]
    typed(" xyz")
    assert calendar.nothing.text() == "No job has “neem xyz” in its line."
    assert focused() is calendar.filter
    key(Qt.Key.Key_Escape)
    assert len(calendar.model.shown) > 5
    assert calendar.list.hasFocus()


def test_a_look_recorded_is_shown_at_once(
    qtbot: QtBot, face: Window, today: date
) -> None:
    plant_id = line_of(face, "A3").plant_id
    look = Look(today, root_tips=RootTips.NONE)
    face.desk.write(lambda: face.desk.collection.looks.record(plant_id, look))
    settle(qtbot, face)
    pane(face).model.unfold(date(2026, 6, 10))
    keys = [line.ref.key for line in pane(face).model.shown]
    assert "look-never" not in keys
    assert keys.count("look-due") == 4


def test_a_name_is_shown_as_typed_and_read_out_whole(face: Window) -> None:
    line = job(face, "stake-spike")
    index = pane(face).model.index(pane(face).model.row_of(line.ref))
    said = index.data(Qt.ItemDataRole.AccessibleTextRole)
    assert said.startswith(
        "Stem, Stake the spike, B1 Phalaenopsis <b>amabilis</b>, Wednesday 20 May "
        "to 19 Aug. Its spike was seen on 20 May."
    )
    head = pane(face).model.index(0)
    assert head.data(Qt.ItemDataRole.AccessibleTextRole) == "Overdue, 1"
    assert not head.flags() & Qt.ItemFlag.ItemIsSelectable


def test_the_strip_counts_what_is_to_be_done_in_each_week(
    face: Window, today: date
) -> None:
    lines = pane(face).model.lines or ()
    weeks = calendar_words.weeks(lines, today)
    assert weeks[0] == (date(2026, 5, 18), 3)
    assert weeks[3] == (date(2026, 6, 8), 3)  # three looks hold to 10 June
    assert len(weeks) == 53
    to_do = [line for line in lines if not line.forecast]
    assert sum(count for _monday, count in weeks) == len(to_do)
    said = pane(face).strip.accessibleDescription()
    assert said.startswith("week of Monday 18 May 3, week of Monday 8 June 3")


def test_a_click_on_a_week_goes_to_its_first_job(face: Window) -> None:
    pane(face).strip.week_wanted.emit(date(2026, 6, 8))
    line = pane(face).list.line
    assert line is not None
    assert line.on == date(2026, 6, 10)


def test_a_click_on_the_box_ticks(qtbot: QtBot, face: Window) -> None:
    view = pane(face).list
    row = pane(face).model.row_of(job(face, "stake-spike").ref)
    index = pane(face).model.index(row)
    box = view._painter.tick_box(view.visualRect(index))
    QTest.mouseClick(view.viewport(), Qt.MouseButton.LeftButton, NONE, box.center())
    settle(qtbot, face)
    assert job(face, "stake-spike").closed is Closed.DONE
    beyond = view.visualRect(index).center()
    QTest.mouseClick(view.viewport(), Qt.MouseButton.LeftButton, NONE, beyond)
    settle(qtbot, face)
    assert job(face, "stake-spike").closed is Closed.DONE


def test_it_is_drawn_in_both_schemes(face: Window) -> None:
    for mode in (theme.Mode.LIGHT, theme.Mode.DARK):
        theme.current().choose(mode)
        c = theme.colours()
        for sort in Sort:
            assert theme.contrast(calendar_words.colour(sort), c.card) >= 4.5
        assert not pane(face).grab().isNull()


def test_nothing_due_is_said_in_words(today: date) -> None:
    model = CalendarModel()
    model.show(None, today)
    assert model.rows == []
    model.show((), today)
    assert model.next_line(0) == -1
    assert calendar_words.told((), today) == (
        "Nothing is overdue, and nothing is left this week."
    )


def test_a_collection_without_plants_keeps_the_day(
    collection: Collection, show: Callable[[Collection], Window]
) -> None:
    window = show(collection)
    assert not window.head.modes.buttons["calendar"].isEnabled()
    assert not window.commands["calendar"].isEnabled()


def test_midnight_moves_the_agenda(
    qtbot: QtBot, face: Window, clock: FixedClock, today: date
) -> None:
    clock.day = today + timedelta(days=1)
    face.desk.notice_midnight()
    settle(qtbot, face)
    assert pane(face).model.today == clock.day
    days = {line.ref.key: calendar_words.day(line, clock.day) for line in _seen(face)}
    assert days["stake-spike"] == "Wed 20 May"
    assert days["look-never"] == "Thu 21 May"


def test_the_calendar_is_saved_as_a_file(
    qtbot: QtBot, face: Window, tmp_path: Path
) -> None:
    face.commands["save-calendar"].trigger()
    (chooser,) = face.findChildren(QFileDialog)
    assert chooser.defaultSuffix() == "ics"
    file = tmp_path / "orchids.ics"
    chooser.fileSelected.emit(str(file))
    chooser.reject()
    settle(qtbot, face)
    assert status(face).endswith(f"jobs of the year to {file}")
    assert file.read_bytes().startswith(b"BEGIN:VCALENDAR\r\n")


def test_the_head_says_what_is_overdue_and_leads_to_the_calendar(
    qtbot: QtBot, dated: Collection, show: Callable[[Collection], Window]
) -> None:
    window = show(dated)
    jobs = window.head.jobs
    assert jobs.told.text() == "1 job is overdue."
    assert jobs.isVisible()
    window.commands["next-day"].trigger()
    settle(qtbot, window)
    assert not jobs.isVisible(), "it is said of today"
    window.commands["today"].trigger()
    settle(qtbot, window)
    front(qtbot, window)
    jobs.go.setFocus()
    qtbot.waitUntil(jobs.go.hasFocus)
    key(Qt.Key.Key_Space)
    settle(qtbot, window)
    assert window.calendaring.is_shown
    assert not jobs.isVisible(), "the calendar says so itself"
    stand_on(window, "treat-again")
    key(Qt.Key.Key_Space)
    settle(qtbot, window)
    window.commands["calendar"].trigger()
    settle(qtbot, window)
    assert jobs.told.text() == ""
    assert not jobs.isVisible()
    window.commands["undo"].trigger()
    settle(qtbot, window)
    assert jobs.told.text() == "1 job is overdue."


def test_a_night_that_was_typed_is_said_over_the_day(
    qtbot: QtBot, stocked: Collection, show: Callable[[Collection], Window], today: date
) -> None:
    window = show(stocked)
    assert not window.head.jobs.isVisible()
    sill = stocked.nights.view(today).places[0].place_id
    work = partial(stocked.nights.expect, today, {sill: Expected(-5, 60)})
    window.desk.write(work)
    settle(qtbot, window)
    assert window.head.jobs.told.text() == (
        "Plants to move for the cold night: East window. "
        "Plants to move for the heat: East window."
    )


def test_the_jobs_are_read_once_a_write_and_not_by_turning_pages(
    qtbot: QtBot,
    dated: Collection,
    show: Callable[[Collection], Window],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    window = show(dated)
    read: list[object] = []
    real = dated.calendar.jobs

    def counted(*given: object, **named: object) -> object:
        read.append(named)
        return real(*given, **named)  # type: ignore[arg-type]

    monkeypatch.setattr(dated.calendar, "jobs", counted)
    for command in ("next-day", "today", "week", "week"):
        window.commands[command].trigger()
        settle(qtbot, window)
    assert read == []
    (plant_id,) = [n for n, draft in dated.plants.all() if draft.tag == "B1"]
    window.desk.write(partial(dated.day.tick, (plant_id,), window.desk.on))
    settle(qtbot, window)
    assert len(read) == 1
    window.commands["calendar"].trigger()
    settle(qtbot, window)
    window.desk.write(partial(dated.day.untick, (plant_id,), window.desk.on))
    settle(qtbot, window)
    assert len(read) == 3, "the calendar in sight reads for both"


def test_looks_of_one_day_are_one_line_until_they_are_asked_for(
    qtbot: QtBot, face: Window, today: date
) -> None:
    on = date(2026, 6, 10)
    line = next(each for each in _seen(face) if each.ref.key == "looks")
    assert (line.on, line.title) == (on, "Look again at 3 plants")
    assert line.sentence.endswith("Enter shows each.")
    assert heads(face)[:4] == [
        "Overdue",
        "This week",
        "Under way, nothing to do",
        "June 2026",
    ]
    pane(face).filter.setText("look again")
    assert [each.tag for each in _seen(face) if each.on == on].count("") == 0
    pane(face).filter.clear()
    stand_on(face, "looks")
    assert pane(face).picked() == ()
    key(Qt.Key.Key_Space)
    settle(qtbot, face)
    assert [each.ref.key for each in _seen(face)].count("look-due") == 3
    assert on_job(face) == "look-due"
    tags = [each.tag for each in _seen(face) if each.ref.key == "look-due"]
    assert all(tag in line.sentence for tag in tags)
    assert list(calendar_folds.fold(_seen(face), today + timedelta(days=60))) == _seen(
        face
    ), "what is overdue stands each for itself"
