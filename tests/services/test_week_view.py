"""The week: the sheet's own walk, what is on record, and which day hangs on which."""

from __future__ import annotations

from contextlib import closing
from datetime import date, timedelta
from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace
from sqlalchemy import event

from growdesk.domain.facts import (
    CareKind,
    Look,
    NewGrowths,
    Overrule,
    RootTips,
    Verdict,
    Water,
)
from growdesk.domain.week_because import Because, How
from growdesk.services.clock import FixedClock
from growdesk.services.collection import Collection
from growdesk.services.demo import lay_demo
from growdesk.services.values import PlantDraft
from growdesk.services.week import week_days

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

    from growdesk.services.values import DayView
    from growdesk.services.week_values import WeekCell, WeekLine, WeekView
    from tests.services.conftest import Bench

MONDAY = date(2026, 5, 18)
WEDNESDAY = date(2026, 5, 20)
SATURDAY = date(2026, 5, 23)
SUNDAY = date(2026, 5, 24)
ALL_DAYS = (0, 1, 2, 3, 4, 5, 6)


def line(collection: Collection, plant_id: int, on: date = WEDNESDAY) -> WeekLine:
    found = collection.day.week(on).line(plant_id)
    assert found is not None
    return found


def verdicts(found: WeekLine) -> list[Verdict]:
    return [cell.verdict for cell in found.cells]


def water_on(collection: Collection, *weekdays: int) -> None:
    house = collection.settings.house()
    collection.settings.save_house(replace(house, watering_weekdays=weekdays))


def feed_on(collection: Collection, plant_id: int, *days: date) -> None:
    for on in days:
        collection.day.give([plant_id], on, CareKind.FEED, 100.0)


def keep_a_record(collection: Collection, plant_id: int) -> None:
    """Let the record begin before the week, so that a day without one is missed."""
    on = MONDAY - timedelta(days=9)
    collection.day.give([plant_id], on, CareKind.CLEAR_WATER, None)


# What the plan makes of the days to come


def test_fed_on_wednesday_so_clear_water_on_saturday(
    collection: Collection, bench: Bench
) -> None:
    view = collection.day.week(WEDNESDAY)
    found = view.line(bench.feed)
    assert found is not None
    wednesday, saturday = found.cells
    assert (wednesday.verdict, wednesday.letter) == (Verdict.FEED, "A")
    assert wednesday.because is None
    (jug,) = collection.day.view(WEDNESDAY).mix.jugs
    assert wednesday.strength_ppm_n == jug.strength_ppm_n
    assert (saturday.verdict, saturday.water) == (Verdict.CLEAR_WATER, Water.IF_DRY)
    assert saturday.because == Because(WEDNESDAY, How.GIVEN, CareKind.FEED)
    assert (saturday.letter, saturday.done, saturday.missed) == (None, None, False)
    assert found.told == (
        f"Today it is fed at {jug.strength_ppm_n} ppm N.",
        "On Saturday it gets clear water, if the pot is light, because today feeds it.",
    )
    assert saturday.sentence == found.told[1]
    assert view.line(99) is None


def test_days_that_say_the_same_share_a_sentence(
    collection: Collection, bench: Bench
) -> None:
    assert line(collection, bench.dry).told == ("Today and Saturday it is kept dry.",)
    assert line(collection, bench.unseen).told == (
        "Today and Saturday it wants a look first.",
    )


def test_the_feed_that_makes_a_flush_due_is_named(
    collection: Collection, bench: Bench
) -> None:
    feed_on(collection, bench.feed, date(2026, 5, 6), date(2026, 5, 13))
    found = line(collection, bench.feed)
    assert verdicts(found) == [Verdict.FEED, Verdict.FLUSH]
    third = Because(WEDNESDAY, How.GIVEN, CareKind.FEED, 3, "ever")
    assert found.cells[1].because == third
    assert found.told[1].endswith(
        ", because today's is the third feed and no flush is on record."
    )
    flushed = date(2026, 4, 29)
    collection.day.give([bench.feed], flushed, CareKind.FLUSH, None)
    again = line(collection, bench.feed)
    assert again.cells[1].because == replace(third, since="washed")
    assert again.told[1].endswith(
        ", because today's is the third feed since it was washed."
    )


def test_a_flush_frees_the_next_feed_and_is_named(
    collection: Collection, bench: Bench
) -> None:
    days = (date(2026, 4, 29), date(2026, 5, 6), date(2026, 5, 13))
    feed_on(collection, bench.feed, *days)
    found = line(collection, bench.feed)
    assert verdicts(found) == [Verdict.FLUSH, Verdict.FEED]
    assert found.cells[1].because == Because(WEDNESDAY, How.GIVEN, CareKind.FLUSH)
    assert found.told[1].endswith(", because today flushes it.")


def test_an_overrule_that_ends_midweek_ends_in_the_week(
    collection: Collection, bench: Bench
) -> None:
    draft = collection.plants.get(bench.feed)
    until = SATURDAY - timedelta(days=1)
    mine = Overrule(Verdict.KEEP_DRY, "going away", until, Water.NONE)
    collection.plants.change(bench.feed, replace(draft, overrule=mine))
    found = line(collection, bench.feed)
    assert verdicts(found) == [Verdict.KEEP_DRY, Verdict.FEED]
    assert found.cells[1].because is None


def test_a_plant_fed_every_watering_allows_for_the_feed_before(
    collection: Collection, bench: Bench
) -> None:
    draft = collection.plants.get(bench.feed)
    collection.plants.change(bench.feed, replace(draft, mounted=True))
    found = line(collection, bench.feed)
    assert verdicts(found) == [Verdict.FEED, Verdict.FEED]
    assert found.cells[1].because == Because(WEDNESDAY, How.GIVEN, CareKind.FEED)
    assert found.told[1].endswith("the strength allows for the feed it has today.")


# What is on record


def test_a_missed_wednesday_is_named_and_saturday_is_fed(
    collection: Collection, bench: Bench, clock: FixedClock
) -> None:
    keep_a_record(collection, bench.clear)
    clock.day = SATURDAY
    view = collection.day.week(SATURDAY)
    wednesday, saturday = view.days
    assert (wednesday.is_past, wednesday.is_missed, wednesday.mix) == (True, True, None)
    assert (wednesday.missed, wednesday.done) == (2, 0)
    assert (saturday.is_today, saturday.is_missed) == (True, False)
    found = line(collection, bench.feed, SATURDAY)
    assert [cell.missed for cell in found.cells] == [True, False]
    assert verdicts(found) == [Verdict.FEED, Verdict.FEED]
    assert found.cells[1].because == Because(WEDNESDAY, How.MISSED, CareKind.FEED)
    strength = found.cells[1].strength_ppm_n
    assert found.told == (
        "On Wednesday it was to be fed, and nothing is on record.",
        (
            f"Today it is fed at {strength:g} ppm N, because no feed is on record for "
            "Wednesday."
        ),
    )
    assert not line(collection, bench.dry, SATURDAY).cells[0].missed
    assert not line(collection, bench.unseen, SATURDAY).cells[0].missed


def test_nothing_is_missed_before_the_record_begins(
    collection: Collection, bench: Bench, clock: FixedClock
) -> None:
    clock.day = SATURDAY
    view = collection.day.week(SATURDAY)
    assert not view.days[0].is_missed
    found = line(collection, bench.feed, SATURDAY)
    assert found.cells[0].sentence == "On Wednesday it would have been fed."
    assert collection.day.view().missed is None


def test_ticking_late_mends_the_rest(
    collection: Collection, bench: Bench, clock: FixedClock
) -> None:
    keep_a_record(collection, bench.clear)
    clock.day = SATURDAY
    collection.day.tick([bench.feed], WEDNESDAY)
    view = collection.day.week(SATURDAY)
    assert (view.days[0].is_missed, view.days[0].missed, view.days[0].done) == (
        False,
        1,
        1,
    )
    found = line(collection, bench.feed, SATURDAY)
    assert verdicts(found) == [Verdict.FEED, Verdict.CLEAR_WATER]
    assert found.cells[1].because == Because(WEDNESDAY, How.GIVEN, CareKind.FEED)
    given = found.cells[0].done
    assert given is not None
    assert found.told == (
        f"On Wednesday it was fed at {given.strength_ppm_n:g} ppm N.",
        (
            "Today it gets clear water, if the pot is light, because it was fed on "
            "Wednesday."
        ),
    )


def test_a_plant_passed_by_is_fed_next_and_says_so(
    collection: Collection, bench: Bench
) -> None:
    collection.day.pass_by([bench.feed], WEDNESDAY)
    found = line(collection, bench.feed)
    assert verdicts(found) == [Verdict.FEED, Verdict.FEED]
    assert found.cells[1].because == Because(WEDNESDAY, How.PASSED_BY, CareKind.FEED)
    assert found.told[0] == "Today it was passed by, still damp."
    assert found.told[1].endswith(", because it was passed by today.")


def test_something_else_given_changes_the_rest_and_says_so(
    collection: Collection, bench: Bench
) -> None:
    collection.day.give([bench.feed], WEDNESDAY, CareKind.CLEAR_WATER, None)
    found = line(collection, bench.feed)
    assert verdicts(found) == [Verdict.FEED, Verdict.FEED]
    assert found.cells[1].because == Because(WEDNESDAY, How.INSTEAD, CareKind.FEED)
    assert found.told[0] == "Today it got clear water."
    assert found.told[1].endswith(", because it was not fed today.")


# Which days


@pytest.mark.parametrize(
    ("on", "today", "past", "rounds"),
    [
        (MONDAY, MONDAY, (), (WEDNESDAY, SATURDAY)),
        (WEDNESDAY, date(2026, 5, 21), (WEDNESDAY,), (SATURDAY,)),
        (MONDAY, SATURDAY, (WEDNESDAY,), (SATURDAY,)),
        (SUNDAY, SUNDAY, (WEDNESDAY, SATURDAY), (SUNDAY,)),
        (SUNDAY, date(2026, 5, 25), (), (WEDNESDAY, SATURDAY)),
    ],
)
def test_the_days_gone_by_stand_beside_those_left(
    on: date, today: date, past: tuple[date, ...], rounds: tuple[date, ...]
) -> None:
    days = week_days(on, today, (2, 5))
    assert (days.begins, days.past, days.rounds) == (MONDAY, past, rounds)


@pytest.mark.parametrize("now", [MONDAY, SUNDAY])
@pytest.mark.parametrize("weekdays", [(0,), (6,), (0, 6), ALL_DAYS])
def test_the_week_runs_from_monday_to_sunday(
    collection: Collection,
    bench: Bench,
    clock: FixedClock,
    now: date,
    weekdays: tuple[int, ...],
) -> None:
    del bench
    clock.day = now
    water_on(collection, *weekdays)
    view = collection.day.week(now)
    days = [MONDAY + timedelta(days=number) for number in weekdays]
    wanted = days if days[-1] >= now else [*days, now]
    assert view.begins == MONDAY
    assert [day.on for day in view.days] == wanted
    assert [day.is_past for day in view.days] == [on < now for on in wanted]
    assert {len(found.cells) for found in view.lines} == {len(wanted)}
    assert view.is_this_week
    assert not collection.day.week(MONDAY - timedelta(days=1)).is_this_week
    assert not collection.day.week(SUNDAY + timedelta(days=1)).is_this_week


def test_one_watering_day_hangs_on_nothing(
    collection: Collection, bench: Bench
) -> None:
    water_on(collection, 2)
    found = line(collection, bench.feed)
    assert [(cell.verdict, cell.because) for cell in found.cells] == [
        (Verdict.FEED, None)
    ]


def test_seven_days_hang_on_the_one_that_feeds(
    collection: Collection, bench: Bench, clock: FixedClock
) -> None:
    clock.day = MONDAY
    water_on(collection, *ALL_DAYS)
    found = line(collection, bench.feed, MONDAY)
    assert verdicts(found) == [
        Verdict.FEED,
        *[Verdict.CLEAR_WATER] * 5,
        Verdict.FEED,
    ]
    fed = Because(MONDAY, How.GIVEN, CareKind.FEED)
    assert [cell.because for cell in found.cells[:6]] == [None, *[fed] * 5]
    assert found.told[1] == (
        "On Tuesday, Wednesday, Thursday, Friday and Saturday it gets clear water, if "
        "the pot is light, because today feeds it."
    )
    assert len(found.told) == 3


def test_next_week_hangs_on_this_weeks_days_by_date(
    collection: Collection, bench: Bench
) -> None:
    collection.day.pass_by([bench.feed], WEDNESDAY)
    found = line(collection, bench.feed, WEDNESDAY + timedelta(days=7))
    assert verdicts(found) == [Verdict.CLEAR_WATER, Verdict.FEED]
    assert found.cells[0].because is not None
    assert found.cells[0].because.on == SATURDAY
    assert found.told[0].endswith("because Saturday 23 May feeds it.")


def test_an_empty_collection_has_a_week(collection: Collection) -> None:
    view = collection.day.week(WEDNESDAY)
    assert view.lines == ()
    assert [(day.on, day.counts, day.done) for day in view.days] == [
        (WEDNESDAY, (), 0),
        (SATURDAY, (), 0),
    ]


def test_a_days_totals_count_its_plants(collection: Collection, bench: Bench) -> None:
    collection.day.tick([bench.clear], WEDNESDAY)
    first = collection.day.week(WEDNESDAY).days[0]
    assert dict(first.counts) == {
        Verdict.FEED: 1,
        Verdict.CLEAR_WATER: 1,
        Verdict.KEEP_DRY: 1,
        Verdict.LOOK_FIRST: 1,
    }
    assert (first.done, first.missed) == (1, 0)
    assert first.mix == collection.day.view(WEDNESDAY).mix


# What hangs on what is found by judging


def test_a_cause_is_one_that_judging_without_it_bears_out(
    collection: Collection, bench: Bench, clock: FixedClock
) -> None:
    planned = line(collection, bench.feed).cells[1]
    assert planned.because is not None
    assert planned.because.how is How.GIVEN
    clock.day = SATURDAY
    without = collection.day.view(SATURDAY).lines
    alone = next(found for found in without if found.plant_id == bench.feed)
    assert alone.verdict is not planned.verdict
    still = line(collection, bench.clear, SATURDAY).cells[-1]
    same = next(found for found in without if found.plant_id == bench.clear)
    assert (still.because, still.verdict) == (None, same.verdict)


# The paper and the screen


def _said(cell: WeekCell, tag: str) -> tuple[object, ...]:
    return (
        tag,
        cell.verdict,
        cell.water,
        cell.letter,
        cell.strength_ppm_n,
        cell.volume_l,
        cell.reason,
        cell.done,
    )


def _both(collection: Collection, on: date) -> tuple[WeekView, int]:
    """Hold a week against its sheet, line by line; give how many lines agreed."""
    view, sheet = collection.day.week(on), collection.sheet.week(on)
    assert view.begins == sheet.week_of
    past = len(view.days) - len(sheet.rounds)
    agreed = 0
    for number, each in enumerate(sheet.rounds):
        day = view.days[past + number]
        assert (day.on, day.mix) == (each.on, each.mix)
        printed = [
            (
                found.tag,
                found.verdict,
                found.water,
                found.letter,
                found.strength_ppm_n,
                found.volume_l,
                found.reason,
                found.done,
            )
            for place in each.places
            for found in place.lines
        ]
        shown = [_said(found.cells[past + number], found.tag) for found in view.lines]
        assert shown == printed
        agreed += len(shown)
    return view, agreed


@pytest.fixture(scope="module", params=["2026-01-09", "2026-05-16", "2026-10-14"])
def demo(
    request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[Collection]:
    on = date.fromisoformat(request.param)
    folder = lay_demo(tmp_path_factory.mktemp("demo") / "collection", on)
    opened = Collection.open(folder, FixedClock(on))
    yield opened
    opened.close()


def test_the_week_says_what_its_sheet_says(demo: Collection) -> None:
    today = demo.clock.today()
    plants = len(demo.day.view().lines)
    for days in (-7, -3, 0, 1, 5, 14):
        view, agreed = _both(demo, today + timedelta(days=days))
        left = [day for day in view.days if day.mix is not None]
        assert agreed == plants * len(left)
        assert agreed >= plants


def _outcomes(shown: DayView) -> list[tuple[object, ...]]:
    return [
        (
            each.plant_id,
            each.verdict,
            each.water,
            each.letter,
            each.strength_ppm_n if each.jug_ppm_n is None else each.jug_ppm_n,
            each.volume_l,
        )
        for each in shown.lines
    ]


def test_every_cell_of_the_week_is_the_days_own_line(demo: Collection) -> None:
    today = demo.clock.today()
    days = 0
    for ahead in (0, 7, 14):
        view = demo.day.week(today + timedelta(days=ahead))
        for place, each in enumerate(view.days):
            shown = demo.day.view(each.on)
            if each.on < today:
                continue
            days += 1
            assert [
                (
                    found.plant_id,
                    found.cells[place].verdict,
                    found.cells[place].water,
                    found.cells[place].letter,
                    found.cells[place].strength_ppm_n,
                    found.cells[place].volume_l,
                )
                for found in view.lines
            ] == _outcomes(shown)
            assert shown.mix == each.mix
            assert (today in shown.taken_as_done) == (
                each.on > today and _is_round(demo)
            )
    assert days >= 5


def _is_round(collection: Collection) -> bool:
    weekday = collection.clock.today().weekday()
    return weekday in collection.settings.house().watering_weekdays


def test_a_plant_on_a_day_to_come_is_told_as_its_line(demo: Collection) -> None:
    today = demo.clock.today()
    on = demo.day.next_watering_day(today)
    shown = demo.day.view(on)
    alone = demo.day.detail(shown.lines[0].plant_id, on)
    assert alone == demo.day.detail(shown.lines[0].plant_id, on, shown)
    for each in shown.lines:
        told = demo.day.detail(each.plant_id, on, shown)
        assert (told.verdict, told.water, told.pour_l) == (
            each.verdict,
            each.water,
            each.volume_l,
        )
        assert (told.letter, told.jug_ppm_n) == (each.letter, each.jug_ppm_n)
        own = None if told.strength is None else told.strength.ppm_n
        assert own == each.strength_ppm_n


def test_a_day_to_come_takes_the_rounds_before_it_as_done(
    collection: Collection, bench: Bench
) -> None:
    shown = collection.day.view(SATURDAY)
    fed = next(each for each in shown.lines if each.plant_id == bench.feed)
    assert (fed.verdict, fed.water) == (Verdict.CLEAR_WATER, Water.IF_DRY)
    assert shown.taken_as_done == (WEDNESDAY,)
    told = collection.day.detail(bench.feed, SATURDAY)
    assert (told.verdict, told.done) == (fed.verdict, None)
    assert [care.on for care in told.care] == []
    off = collection.day.view(SUNDAY)
    assert off.taken_as_done == (WEDNESDAY, SATURDAY)
    collection.day.give([bench.feed], WEDNESDAY, CareKind.CLEAR_WATER, None)
    collection.day.tick([bench.clear], WEDNESDAY)
    going_by = collection.day.view(SATURDAY)
    assert going_by.taken_as_done == ()
    now = next(each for each in going_by.lines if each.plant_id == bench.feed)
    assert now.verdict is Verdict.FEED


def test_every_sentence_is_whole(demo: Collection) -> None:
    today = demo.clock.today()
    for days in (-7, 0, 7):
        for found in demo.day.week(today + timedelta(days=days)).lines:
            assert found.told
            for said in (*found.told, *[cell.sentence for cell in found.cells]):
                assert said[0].isupper()
                assert said.endswith(".")
                assert "{" not in said
                assert "None" not in said


# The round before today


def test_a_missed_round_is_told_until_today_begins(
    collection: Collection, bench: Bench, clock: FixedClock
) -> None:
    keep_a_record(collection, bench.clear)
    clock.day = SATURDAY
    view = collection.day.view()
    assert view.missed == WEDNESDAY
    assert view.missed_told == (
        "Wednesday's round has nothing recorded; today is judged by that."
    )
    assert collection.day.view(WEDNESDAY).missed is None
    collection.day.tick([bench.feed], SATURDAY)
    assert collection.day.view().missed is None
    collection.day.untick([bench.feed], SATURDAY)
    collection.day.pass_by([bench.clear], WEDNESDAY)
    assert (collection.day.view().missed, collection.day.view().missed_told) == (
        None,
        "",
    )


def test_a_round_a_week_ago_is_told_with_its_date(
    collection: Collection, bench: Bench, clock: FixedClock
) -> None:
    keep_a_record(collection, bench.clear)
    water_on(collection, 2)
    clock.day = WEDNESDAY + timedelta(days=7)
    view = collection.day.view()
    assert view.missed == WEDNESDAY
    assert view.missed_told.startswith("Wednesday 20 May's round")


def test_a_round_with_nothing_to_pour_is_not_missed(
    collection: Collection, bench: Bench, clock: FixedClock
) -> None:
    keep_a_record(collection, bench.clear)
    collection.plants.remove([bench.feed, bench.clear])
    clock.day = SATURDAY
    assert collection.day.view().missed is None


# Counts


def _statements(collection: Collection, use: Callable[[], object]) -> int:
    counted: list[str] = []

    def count(*details: object) -> None:
        counted.append(str(details[2]))

    engine = collection.ledger.store._engine
    event.listen(engine, "before_cursor_execute", count)
    use()
    event.remove(engine, "before_cursor_execute", count)
    return len(counted)


@pytest.mark.parametrize("weekdays", [(2,), (2, 5), ALL_DAYS])
def test_a_week_takes_no_more_statements_than_a_day(
    collection: Collection, bench: Bench, weekdays: tuple[int, ...]
) -> None:
    water_on(collection, *weekdays)
    counts = []
    for more in (1, 20):
        for number in range(more):
            draft = PlantDraft(f"P{more}-{number}", "", "cattleya", bench.place)
            plant = collection.plants.add(draft).ids[0]
            grows = Look(
                WEDNESDAY,
                new_growths=NewGrowths(extending=1),
                root_tips=RootTips.RUNNING,
            )
            collection.looks.record(plant, grows)
        day = _statements(collection, lambda: collection.day.view(WEDNESDAY))
        week = _statements(collection, lambda: collection.day.week(WEDNESDAY))
        assert 4 <= week <= day
        counts.append(week)
    assert counts[0] == counts[1]


@pytest.mark.parametrize(
    "told", ["2026-01-10", "2026-05-16", "2026-07-15", "2026-11-25"]
)
def test_day_week_sheet_and_detail_pour_the_same_litres(
    tmp_path: Path, told: str
) -> None:
    """Plants due a flush are given a runoff that asks for more than their pot."""
    today = date.fromisoformat(told)
    folder = lay_demo(tmp_path / "collection", today)
    with closing(Collection.open(folder, FixedClock(today))) as demo:
        _read_high(demo, today)
        shown = {found.tag: found.volume_l for found in demo.day.view().lines}
        week = demo.day.week(today)
        place = next(n for n, each in enumerate(week.days) if each.is_today)
        assert {e.tag: e.cells[place].volume_l for e in week.lines} == shown
        rounds = demo.sheet.week(today).rounds
        printed = next(each for each in rounds if each.on == today)
        lines = [line for each in printed.places for line in each.lines]
        assert {line.tag: line.volume_l for line in lines} == shown
        details = [demo.day.detail(e.plant_id, today) for e in week.lines]
        assert {e.draft.tag: e.pour_l for e in details} == shown
        assert any(
            each.verdict is Verdict.FLUSH
            and (each.pour_l or 0.0) > (each.draft.pot_volume_l or 0.0)
            for each in details
        )


def _read_high(demo: Collection, today: date) -> None:
    for found in demo.day.view().lines:
        if found.verdict is Verdict.FLUSH:
            newest = demo.day.detail(found.plant_id, today).looks[0].look
            read = replace(newest, on=today, runoff_ec_ms_per_cm=9.0)
            demo.looks.record(found.plant_id, read)
