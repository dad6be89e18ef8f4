"""What the charts draw: one plant's course, and the season of its place."""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING, Any

import pytest
from msgspec.structs import replace

from growdesk.domain.errors import GrowdeskError
from growdesk.domain.facts import (
    CareKind,
    Facing,
    Flowering,
    Glass,
    Look,
    NewGrowths,
    Reading,
    RootTips,
)
from growdesk.domain.performance import Part
from growdesk.domain.season_factor import light_factor
from growdesk.domain.sun import sun
from growdesk.services import kinds
from growdesk.services.care_values import CareDraft
from growdesk.services.chart_values import Basis, Course, PlantChart, Span
from growdesk.services.plant_course import merged, since_of, spans_of
from growdesk.services.values import PlaceDraft, PlantDraft
from growdesk.store.schema import BloomRow

if TYPE_CHECKING:
    from collections.abc import Callable

    from growdesk.services.collection import Collection
    from tests.services.conftest import Bench


def back(today: date, days: int) -> date:
    return today - timedelta(days=days)


def look_growths(on: date, **counts: int) -> Look:
    return Look(on, new_growths=NewGrowths(**counts))


@pytest.fixture
def plant(collection: Collection) -> int:
    draft = PlantDraft("Q1", "Cattleya walkeriana", "cattleya")
    return collection.plants.add(draft).ids[0]


def course(chart: PlantChart, which: Course) -> tuple[Span, ...]:
    found = [seen.spans for seen in chart.seen if seen.course is which]
    return found[0] if found else ()


# -- one plant ----------------------------------------------------------------------


@pytest.mark.parametrize(
    ("on", "since"),
    [
        (date(2026, 3, 28), date(2024, 9, 28)),
        (date(2026, 8, 31), date(2025, 2, 28)),
        (date(2025, 8, 31), date(2024, 2, 29)),
        (date(2026, 7, 1), date(2025, 1, 1)),
        (date(2026, 6, 15), date(2024, 12, 15)),
    ],
)
def test_a_chart_goes_back_eighteen_months(on: date, since: date) -> None:
    assert since_of(on) == since


def test_a_plant_without_records_is_empty(
    collection: Collection, plant: int, today: date
) -> None:
    chart = collection.charts.plant(plant, today)
    assert chart.is_empty
    assert (chart.tag, chart.on) == ("Q1", today)


def test_a_plant_that_is_not_there_is_refused(
    collection: Collection, today: date
) -> None:
    for ask in (collection.charts.plant, collection.charts.season):
        with pytest.raises(GrowdeskError):
            ask(404, today)


def test_care_of_the_window_is_drawn_and_no_other(
    collection: Collection, plant: int, today: date
) -> None:
    give = collection.day.give
    give([plant], back(today, 600), CareKind.FEED, 200.0)
    give([plant], back(today, 40), CareKind.FEED, 80.0)
    give([plant], back(today, 20), CareKind.FEED, 120.0)
    give([plant], back(today, 10), CareKind.FLUSH, None)
    give([plant], back(today, 5), CareKind.CLEAR_WATER, None)
    give([plant], back(today, 4), CareKind.REPOT, None)
    give([plant], back(today, 3), CareKind.MOVE, None)
    wiped = CareDraft(back(today, 2), CareKind.TREAT, note="wiped", product="by hand")
    collection.care.add([plant], wiped)
    chart = collection.charts.plant(plant, today)
    given = [(feed.on, feed.strength_ppm_n) for feed in chart.feeds]
    assert given == [(back(today, 40), 80.0), (back(today, 20), 120.0)]
    assert chart.flushes == (back(today, 10),)
    assert chart.repots == (back(today, 4),)
    assert chart.moves == (back(today, 3),)
    assert chart.treatments == (back(today, 2),)
    earlier = collection.charts.plant(plant, back(today, 30))
    assert [feed.strength_ppm_n for feed in earlier.feeds] == [80.0]
    assert earlier.flushes == ()


def test_a_feed_of_unknown_strength_is_kept_apart_from_none(
    collection: Collection, plant: int, today: date
) -> None:
    collection.day.give([plant], today, CareKind.FEED, None)
    (feed,) = collection.charts.plant(plant, today).feeds
    assert feed.strength_ppm_n is None


def test_the_plants_own_repot_day_counts_once(
    collection: Collection, plant: int, today: date
) -> None:
    on = back(today, 30)
    draft = collection.plants.get(plant)
    collection.plants.change(plant, replace(draft, repotted_on=on))
    assert collection.charts.plant(plant, today).repots == (on,)
    collection.day.give([plant], on, CareKind.REPOT, None)
    assert collection.charts.plant(plant, today).repots == (on,)
    assert collection.charts.plant(plant, back(today, 31)).repots == ()


def test_a_new_lead_begins_a_line_of_its_own(
    collection: Collection, plant: int, today: date
) -> None:
    for days, mm in ((200, 90.0), (180, 140.0), (60, 10.0), (40, 45.0), (20, 44.0)):
        look = Look(back(today, days), lead_length_mm=mm, longest_new_root_mm=mm / 2)
        collection.looks.record(plant, look)
    chart = collection.charts.plant(plant, today)
    assert [[each.length_mm for each in run] for run in chart.leads] == [
        [90.0, 140.0],
        [10.0, 45.0, 44.0],
    ]
    assert [len(run) for run in chart.roots] == [2, 3]


def test_a_growth_is_followed_from_its_first_look_to_its_last(
    collection: Collection, plant: int, today: date
) -> None:
    for days, counts in (
        (100, {"extending": 1}),
        (80, {"extending": 2}),
        (60, {"extending": 0, "maturing": 1}),
        (40, {"extending": 1}),
    ):
        collection.looks.record(plant, look_growths(back(today, days), **counts))
    chart = collection.charts.plant(plant, today)
    assert course(chart, Course.EXTENDING) == (
        Span(back(today, 100), back(today, 80)),
        Span(back(today, 40), back(today, 40)),
    )
    assert course(chart, Course.MATURING) == (Span(back(today, 60), back(today, 60)),)
    assert course(chart, Course.EMERGING) == ()


def test_what_was_not_recorded_breaks_nothing_and_proves_nothing(
    collection: Collection, plant: int, today: date
) -> None:
    looks = (
        Look(back(today, 50), root_tips=RootTips.STARTING),
        Look(back(today, 30), root_tips=RootTips.HIDDEN),
        Look(back(today, 20)),
        Look(back(today, 10), root_tips=RootTips.RUNNING),
        Look(back(today, 3)),
    )
    for look in looks:
        collection.looks.record(plant, look)
    chart = collection.charts.plant(plant, today)
    assert course(chart, Course.ROOT_TIPS) == (Span(back(today, 50), back(today, 10)),)
    (seen,) = chart.seen
    assert seen.looks == (back(today, 50), back(today, 10))


def test_a_long_silence_is_not_bridged() -> None:
    first = date(2026, 1, 1)
    near, far = first + timedelta(days=62), first + timedelta(days=125)
    points = [(first, True), (near, True), (far, True)]
    assert spans_of(points) == (Span(first, near), Span(far, far))


def test_spans_that_touch_are_one() -> None:
    days = [date(2026, 1, day) for day in range(1, 20)]
    spans = [Span(days[9], days[12]), Span(days[0], days[4]), Span(days[5], days[6])]
    assert merged(spans) == (Span(days[0], days[6]), Span(days[9], days[12]))
    inner = [Span(days[0], days[9]), Span(days[2], days[3])]
    assert merged(inner) == (Span(days[0], days[9]),)


def record_bloom(collection: Collection, plant: int, **days: date) -> None:
    with collection.ledger.writing("Bloom") as writing:
        writing.insert(BloomRow, {"plant_id": plant, "note": "", **days})


def test_flowers_are_drawn_by_looks_and_blooms_together(
    collection: Collection, plant: int, today: date
) -> None:
    record_bloom(
        collection,
        plant,
        spike_seen_on=back(today, 330),
        first_open_on=back(today, 300),
        last_faded_on=back(today, 260),
    )
    record_bloom(collection, plant, first_open_on=back(today, 30))
    for days, stages in (
        (255, {Flowering.SPENT}),
        (261, {Flowering.FADING}),
        (40, {Flowering.BUDS}),
        (20, {Flowering.OPEN}),
        (10, {Flowering.OPEN, Flowering.BUDS}),
    ):
        look = Look(back(today, days), flowering=frozenset(stages))
        collection.looks.record(plant, look)
    chart = collection.charts.plant(plant, today)
    assert course(chart, Course.IN_FLOWER) == (
        Span(back(today, 300), back(today, 260)),
        Span(back(today, 30), back(today, 10)),
    )
    assert course(chart, Course.SPIKE) == (
        Span(back(today, 330), back(today, 300)),
        Span(back(today, 40), back(today, 40)),
        Span(back(today, 10), back(today, 10)),
    )


def test_blooms_are_cut_to_the_window(
    collection: Collection, plant: int, today: date
) -> None:
    old, since = back(today, 900), since_of(today)
    record_bloom(
        collection, plant, first_open_on=old, last_faded_on=since + timedelta(days=9)
    )
    record_bloom(
        collection, plant, first_open_on=old, last_faded_on=old + timedelta(days=30)
    )
    record_bloom(collection, plant, first_open_on=old)
    later = today + timedelta(days=40)
    record_bloom(collection, plant, first_open_on=back(today, 5), last_faded_on=later)
    chart = collection.charts.plant(plant, today)
    assert course(chart, Course.IN_FLOWER) == (
        Span(since, since + timedelta(days=9)),
        Span(back(today, 5), today),
    )


# -- the season ---------------------------------------------------------------------


def give_latitude(collection: Collection, latitude: float) -> None:
    house = replace(collection.settings.house(), latitude=latitude)
    collection.settings.save_house(house, ("latitude",))


def test_a_season_is_the_whole_year_of_the_day(
    collection: Collection, bench: Bench, today: date
) -> None:
    chart = collection.charts.season(bench.feed, today)
    assert chart.days[0].on == date(today.year, 1, 1)
    assert chart.days[-1].on == date(today.year, 12, 31)
    assert [day.on for day in chart.days] == sorted({day.on for day in chart.days})
    assert chart.shown.on == today
    assert (chart.place, chart.basis) == ("East sill", Basis.SUN)
    leap = collection.charts.season(bench.feed, date(2028, 2, 29))
    assert len(leap.days) == 366
    assert leap.shown.on == date(2028, 2, 29)


def test_the_sun_of_the_season_is_that_of_the_almanac(
    collection: Collection, bench: Bench, today: date
) -> None:
    give_latitude(collection, 48.2)
    chart = collection.charts.season(bench.feed, today)
    above = sun(48.2, today)
    assert chart.shown.day_length_h == above.sunrise_to_sunset_h
    assert chart.shown.ra_mj_per_m2_d == above.ra_mj_per_m2_d
    assert chart.latitude_given


def test_a_latitude_that_was_not_given_is_told_apart(
    collection: Collection, bench: Bench, today: date
) -> None:
    chart = collection.charts.season(bench.feed, today)
    assert not chart.latitude_given
    assert chart.latitude == collection.settings.house().latitude


def test_the_strength_is_the_judgings_own_before_rounding(
    collection: Collection, bench: Bench, today: date
) -> None:
    chart = collection.charts.season(bench.feed, today)
    ra = sun(chart.latitude, today).ra_mj_per_m2_d
    by_hand = 150 * light_factor(ra / 40, 0.4)
    assert chart.shown.strength_ppm_n == pytest.approx(by_hand)
    detail = collection.day.detail(bench.feed, today)
    assert detail.strength is not None
    off = detail.strength.ppm_n - chart.shown.strength_ppm_n
    assert abs(off) <= chart.step_ppm_n / 2


def test_the_floor_and_the_ceiling_hold_in_every_season(
    collection: Collection, bench: Bench, today: date
) -> None:
    house = replace(
        collection.settings.house(),
        latitude=66.0,
        strength_floor_ppm_n=40.0,
        strength_ceiling_ppm_n=120.0,
    )
    collection.settings.save_house(house)
    days = collection.charts.season(bench.feed, today).days
    assert min(day.strength_ppm_n for day in days) == 40.0
    assert max(day.strength_ppm_n for day in days) == 120.0


def test_south_of_the_equator_the_year_turns(
    collection: Collection, bench: Bench, today: date
) -> None:
    give_latitude(collection, -35.0)
    days = collection.charts.season(bench.feed, today).days
    june, december = days[170], days[354]
    assert june.day_length_h < december.day_length_h
    assert june.strength_ppm_n < december.strength_ppm_n


@pytest.mark.parametrize("latitude", [-90.0, -67.0, 0.0, 70.0, 90.0])
def test_no_latitude_is_too_far(
    collection: Collection, bench: Bench, today: date, latitude: float
) -> None:
    give_latitude(collection, latitude)
    days = collection.charts.season(bench.feed, today).days
    assert all(0 <= day.day_length_h <= 24 for day in days)
    assert all(day.ra_mj_per_m2_d >= 0 for day in days)
    assert all(day.strength_ppm_n > 0 for day in days)


def test_what_was_looked_at_leaves_the_season_alone(
    collection: Collection, bench: Bench, today: date
) -> None:
    before = collection.charts.season(bench.feed, today).days
    for days, mm in ((20, 20.0), (6, 24.0)):
        look = replace(look_growths(back(today, days), extending=1), lead_length_mm=mm)
        collection.looks.record(bench.feed, look)
    collection.day.give([bench.feed], back(today, 3), CareKind.REPOT, None)
    assert collection.charts.season(bench.feed, today).days == before


def test_temperatures_count_only_where_they_were_read(
    collection: Collection, bench: Bench, today: date
) -> None:
    silent = collection.charts.season(bench.feed, today)
    assert all(day.strength_read_ppm_n is None for day in silent.days)
    collection.readings.write(bench.place, Reading(back(today, 10), 14.0))
    chart = collection.charts.season(bench.feed, today)
    known = {
        day.on: day.strength_read_ppm_n
        for day in chart.days
        if day.strength_read_ppm_n is not None
    }
    assert min(known) == back(today, 10)
    assert max(known) == back(today, 10) + timedelta(days=21)
    now = known[today]
    assert now is not None
    assert now < chart.shown.strength_ppm_n
    assert [day.strength_ppm_n for day in chart.days] == [
        day.strength_ppm_n for day in silent.days
    ]


def test_days_to_come_go_by_the_temperatures_of_a_year_before(
    collection: Collection, bench: Bench, today: date
) -> None:
    read = collection.readings.write
    read(bench.place, Reading(back(today, 365 - 100), 13.0))
    chart = collection.charts.season(bench.feed, today)
    known = [day.on for day in chart.days if day.strength_read_ppm_n is not None]
    assert min(known) == today + timedelta(days=100)
    assert len(known) == 22
    read(bench.place, Reading(back(today, 365), 13.0))
    again = collection.charts.season(bench.feed, today)
    assert again.shown.strength_read_ppm_n is None, "a past day takes its own year"


@pytest.mark.parametrize(
    ("draft", "basis"),
    [
        (PlaceDraft("Shelf", lamps_hours=12, lamps_ppfd=150), Basis.LAMPS),
        (PlaceDraft("Cabinet", controlled=True), Basis.CONTROLLED),
    ],
)
def test_lamps_and_steady_places_have_no_season(
    collection: Collection, today: date, draft: PlaceDraft, basis: Basis
) -> None:
    place = collection.places.add(draft).ids[0]
    collection.readings.write(place, Reading(back(today, 2), 14.0))
    plant = PlantDraft("Q2", "Cattleya", "cattleya", place_id=place)
    chart = collection.charts.season(collection.plants.add(plant).ids[0], today)
    assert chart.basis is basis
    assert len({day.strength_ppm_n for day in chart.days}) == 1
    assert len({day.day_length_h for day in chart.days}) > 100
    is_read = chart.shown.strength_read_ppm_n is not None
    assert is_read is (basis is Basis.LAMPS)


@pytest.mark.parametrize(
    ("lamps", "basis"),
    [
        ({}, Basis.WINDOW),
        ({"lamps_hours": 4, "lamps_ppfd": 90}, Basis.LAMPS_AND_DAYLIGHT),
    ],
)
def test_a_window_has_its_own_season_with_lamps_or_without(
    collection: Collection, today: date, lamps: dict[str, Any], basis: Basis
) -> None:
    """An east window in the north: more in midsummer than in midwinter, by far."""
    draft = PlaceDraft("Bay", facing=Facing.EAST, glass=Glass.DOUBLE, **lamps)
    place = collection.places.add(draft).ids[0]
    plant = PlantDraft("Q2", "Cattleya", "cattleya", place_id=place)
    chart = collection.charts.season(collection.plants.add(plant).ids[0], today)
    assert chart.basis is basis
    by_day = {day.on: day.strength_ppm_n for day in chart.days}
    winter, summer = (by_day[date(today.year, month, 21)] for month in (12, 6))
    assert winter < 0.8 * summer


def test_a_plant_without_a_place_has_the_suns_season(
    collection: Collection, plant: int, today: date
) -> None:
    chart = collection.charts.season(plant, today)
    assert (chart.place, chart.basis) == ("", Basis.SUN)
    assert chart.shown.strength_read_ppm_n is None


def statements(collection: Collection, ask: Callable[[], object]) -> int:
    """Give how many statements a question takes."""
    from sqlalchemy import event  # noqa: PLC0415

    said: list[str] = []
    with collection.ledger.reading() as session:
        engine = session.connection().engine

    def note(*args: object) -> None:
        said.append(str(args[2]))

    event.listen(engine, "before_cursor_execute", note)
    try:
        ask()
    finally:
        event.remove(engine, "before_cursor_execute", note)
    return len(said)


def test_reading_a_chart_takes_a_handful_of_statements(
    collection: Collection, bench: Bench, today: date
) -> None:
    charts = collection.charts
    assert statements(collection, lambda: charts.plant(bench.feed, today)) <= 11
    assert statements(collection, lambda: charts.season(bench.feed, today)) <= 14
    few = statements(collection, lambda: charts.place(bench.place, today))
    assert few <= 9
    for number in range(12):
        kind = ("vanda", "lycaste", "disa")[number % 3]
        draft = PlantDraft(f"Q{number}", kind, kind, place_id=bench.place)
        collection.plants.add(draft)
        collection.readings.write(bench.place, Reading(back(today, number), 18.0))
    assert statements(collection, lambda: charts.place(bench.place, today)) == few


# -- rates of growth ----------------------------------------------------------------


def measure(collection: Collection, plant: int, on: date, mm: float) -> None:
    look = Look(
        on,
        new_growths=NewGrowths(extending=1),
        root_tips=RootTips.RUNNING,
        lead_length_mm=mm,
        longest_new_root_mm=mm / 2,
    )
    collection.looks.record(plant, look)


def test_rates_are_told_look_by_look_against_the_kinds_usual(
    collection: Collection, plant: int, today: date
) -> None:
    """By hand: 14 mm in 14 days is 7 a week; then 28 mm in 28 days again is 7."""
    for days, mm in ((28, 20.0), (14, 34.0), (0, 48.0)):
        measure(collection, plant, back(today, days), mm)
    lead, roots = collection.charts.plant(plant, today).growth
    assert (lead.part, roots.part) == (Part.LEAD, Part.ROOTS)
    (run,) = lead.rates
    assert [rate.on for rate in run] == [back(today, 14), today]
    assert [rate.mm_per_week for rate in run] == pytest.approx([7.0, 7.0])
    assert lead.newest.on == today
    assert roots.newest.mm_per_week == pytest.approx(3.5)
    kind = kinds.table().kinds["cattleya"]
    assert lead.best is not None
    assert (lead.best.mm_per_week, lead.best.is_own) == (
        kind.lead_rate_mm_per_week,
        False,
    )
    assert (lead.counts, roots.counts) == (True, False)


def test_an_own_season_is_the_yardstick_and_a_silence_breaks_the_line(
    collection: Collection, plant: int, today: date
) -> None:
    """Last year 42 mm in 14 days, 21 a week; this year 14 in 14, 7 a week."""
    for days, mm in ((400, 20.0), (386, 62.0), (14, 30.0), (0, 44.0)):
        measure(collection, plant, back(today, days), mm)
    lead = collection.charts.plant(plant, today).growth[0]
    assert [len(run) for run in lead.rates] == [1, 1]
    assert lead.best is not None
    assert lead.best.is_own
    assert lead.best.mm_per_week == pytest.approx(21.0)


def test_one_length_tells_no_rate(
    collection: Collection, plant: int, today: date
) -> None:
    measure(collection, plant, today, 20.0)
    chart = collection.charts.plant(plant, today)
    assert chart.leads
    assert chart.growth == ()


def test_the_newest_rate_is_the_one_in_the_strength(
    collection: Collection, bench: Bench, today: date
) -> None:
    for days, mm in ((20, 20.0), (0, 30.0)):
        measure(collection, bench.feed, back(today, days), mm)
    lead = collection.charts.plant(bench.feed, today).growth[0]
    strength = collection.day.detail(bench.feed, today).strength
    assert strength is not None
    (step,) = [s for s in strength.steps if s.key.startswith("performance-lead")]
    assert step.values["rate"] == lead.newest.mm_per_week
    assert lead.best is not None
    assert step.values["best"] == lead.best.mm_per_week
    assert lead.counts


def test_a_steady_place_and_a_maturing_growth_let_no_rate_count(
    collection: Collection, today: date
) -> None:
    place = collection.places.add(PlaceDraft("Cabinet", controlled=True)).ids[0]
    draft = PlantDraft("Q3", "Cattleya", "cattleya", place_id=place)
    steady = collection.plants.add(draft).ids[0]
    free = collection.plants.add(replace(draft, tag="Q4", place_id=None)).ids[0]
    for plant in (steady, free):
        measure(collection, plant, back(today, 14), 20.0)
        measure(collection, plant, back(today, 1), 34.0)
    collection.looks.record(free, look_growths(today, maturing=1))
    for plant in (steady, free):
        growth = collection.charts.plant(plant, today).growth
        assert [each.counts for each in growth] == [False, False]


def test_rates_before_the_window_are_not_drawn(
    collection: Collection, plant: int, today: date
) -> None:
    for days, mm in ((600, 20.0), (580, 60.0)):
        measure(collection, plant, back(today, days), mm)
    assert collection.charts.plant(plant, today).growth == ()
