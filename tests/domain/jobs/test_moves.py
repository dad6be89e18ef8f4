"""Out and in, by the nights of the place: both sides of each limit, both halves."""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING, Any

import pytest
from msgspec.structs import replace

from growdesk.domain import job_words
from growdesk.domain.jobs import moves
from growdesk.domain.jobs.moves import Outdoors
from growdesk.domain.kinds import Warmth
from tests.domain.builders import EQUATOR, HOUSE, SOUTH, day

if TYPE_CHECKING:
    from collections.abc import Mapping

    from growdesk.domain.facts import House
    from growdesk.domain.jobs.job import Job

HERE = {Warmth.INTERMEDIATE: ("A1", "A2")}


def nights(*lows: tuple[str, int, float]) -> dict[date, float]:
    """Give so many nights from a day on at one low, laid over one another."""
    read: dict[date, float] = {}
    for first, count, low in lows:
        read |= {day(first) + timedelta(days=n): low for n in range(count)}
    return read


def told(
    lows: dict[date, float],
    on: str,
    house: House = HOUSE,
    days: int = 366,
    *,
    here: Mapping[Warmth, tuple[str, ...]] | None = None,
    home: Mapping[Warmth, tuple[str, ...]] | None = None,
) -> list[Job]:
    read = {night: low for night, low in lows.items() if night <= day(on)}
    place = Outdoors("Balcony", read, here or {}, home or {})
    return list(moves.jobs(place, house, day(on), day(on) + timedelta(days=days)))


def test_three_nights_in_a_row_below_bring_plants_in() -> None:
    lows = nights(("08-01", 60, 15.0), ("09-20", 3, 12.9))
    assert told(lows, "09-21", here=HERE) == []
    (job,) = told(lows, "09-22", here=HERE)
    assert (job.key, job.on, job.place) == (
        "move-in-intermediate",
        day("09-22"),
        "Balcony",
    )
    assert job_words.sentence(job, day("09-22")) == (
        "3 nights in a row were below 13 °C at Balcony. Bring in the intermediate "
        "growers A1 and A2; look for pests first."
    )
    at_limit = nights(("08-01", 60, 15.0), ("09-20", 3, 13.0))
    assert told(at_limit, "09-22", here=HERE) == []
    two = replace(HOUSE, nights_below=2)
    assert [job.on for job in told(lows, "09-21", two, here=HERE)] == [day("09-21")]


def test_a_night_that_was_not_read_breaks_the_row() -> None:
    lows = nights(("08-01", 60, 15.0), ("09-20", 4, 10.0))
    del lows[day("09-22")]
    assert told(lows, "09-23", here=HERE) == []


def test_the_day_stays_while_it_is_cold_and_goes_when_it_was_a_snap() -> None:
    lows = nights(("08-01", 92, 15.0), ("09-20", 3, 10.0))
    assert [job.on for job in told(lows, "10-06", here=HERE)] == [day("09-22")]
    (expected,) = told(lows, "10-07", here=HERE)  # a fortnight of warm nights since
    assert job_words.said(expected) == "move-in-expected"
    cold = nights(("08-01", 50, 15.0), ("09-20", 40, 10.0))
    assert [job.on for job in told(cold, "10-25", here=HERE)] == [day("09-22")]


@pytest.mark.parametrize(
    ("warmth", "rule", "limit"),
    [
        (Warmth.WARM, "nights_warm_c", 15.5),
        (Warmth.INTERMEDIATE, "nights_intermediate_c", 13.0),
        (Warmth.COOL, "nights_cool_c", 4.0),
    ],
)
def test_each_warmth_has_its_own_limit(warmth: Warmth, rule: str, limit: float) -> None:
    here = {warmth: ("A1",)}
    below = nights(("09-20", 3, limit - 0.1))
    assert len(told(below, "09-22", here=here)) == 1
    assert told(nights(("09-20", 3, limit)), "09-22", here=here) == []
    changed: dict[str, Any] = {rule: limit - 1}
    lower = replace(HOUSE, **changed)
    assert told(below, "09-22", lower, here=here) == []


def test_seven_nights_that_hold_let_plants_out() -> None:
    lows = nights(("04-01", 40, 8.0), ("05-10", 7, 13.0))
    assert told(lows, "05-15", home=HERE) == []
    (job,) = told(lows, "05-16", home=HERE)
    assert (job.key, job.on) == ("move-out-intermediate", day("05-16"))
    assert job_words.sentence(job, day("05-16")) == (
        "7 nights in a row held 13 °C or more at Balcony. The intermediate growers A1 "
        "and A2 may go out again, to deep shade first."
    )
    lows[day("05-17")] = 12.9
    assert [job_words.said(each) for each in told(lows, "05-17", home=HERE)] == [
        "move-out-expected"
    ]
    shorter = replace(HOUSE, nights_hold=6)
    assert [each.on for each in told(lows, "05-15", shorter, home=HERE)] == [
        day("05-15")
    ]


def test_cool_growers_go_out_at_nights_of_their_own() -> None:
    cool = {Warmth.COOL: ("C1",)}
    assert told(nights(("05-10", 7, 6.9)), "05-16", home=cool) == []
    assert len(told(nights(("05-10", 7, 7.0)), "05-16", home=cool)) == 1
    later = replace(HOUSE, nights_cool_out_c=9.0)
    assert told(nights(("05-10", 7, 7.0)), "05-16", later, home=cool) == []


def test_a_record_that_begins_in_the_cold_does_not_say_when_it_came() -> None:
    cold = nights(("2025-10-20", 30, 10.0))
    assert told(cold, "08-01", here=HERE) == []
    turned = nights(("2025-10-19", 1, 13.0)) | cold
    assert [job.on for job in told(turned, "08-01", here=HERE)] == [day("10-22")]


def test_a_cold_spring_is_no_autumn_and_a_warm_autumn_no_spring() -> None:
    spring = nights(("03-01", 10, 15.0), ("03-20", 10, 10.0))
    assert told(spring, "05-20", here=HERE) == []
    autumn = nights(("08-01", 5, 10.0), ("08-08", 20, 14.0))
    assert told(autumn, "10-20", home=HERE) == []
    summer = nights(("05-01", 9, 8.0), ("05-10", 60, 14.0))
    (may,) = told(summer, "06-18", home=HERE)
    assert (may.on, may.until) == (day("05-16"), day("06-19"))
    late = told(summer, "06-20", home=HERE)
    assert [job_words.said(job) for job in late] == ["move-out-expected"]


def test_readings_of_long_ago_say_nothing_of_today() -> None:
    lows = nights(("05-01", 9, 8.0), ("05-10", 7, 14.0))
    assert job_words.said(told(lows, "05-30", home=HERE)[0]) == "move-out"
    later = told(lows, "05-31", home=HERE)
    assert [job_words.said(job) for job in later] == ["move-out-expected"]


def test_the_day_it_came_last_year_is_told_for_this_one() -> None:
    lows = nights(("2025-07-01", 82, 15.0), ("2025-09-20", 30, 10.0))
    lows |= nights(("07-01", 40, 16.0))
    (job,) = told(lows, "08-01", here=HERE)
    assert (job_words.said(job), job.on) == ("move-in-expected", day("09-22"))
    assert job.forecast
    assert job.values["last"] == date(2025, 9, 22)
    assert told(lows, "08-01", days=51, here=HERE) == []
    assert len(told(lows, "08-01", days=52, here=HERE)) == 1
    assert told(lows, "09-22", here=HERE) == []


def test_seasons_turn_in_the_south_and_are_none_at_the_equator() -> None:
    autumn = nights(("03-01", 19, 16.0), ("03-20", 3, 10.0))
    assert [job.on for job in told(autumn, "03-22", SOUTH, here=HERE)] == [day("03-22")]
    spring = nights(("10-01", 40, 8.0), ("11-10", 7, 14.0))
    assert [job.on for job in told(spring, "11-16", SOUTH, home=HERE)] == [day("11-16")]
    assert [job.on for job in told(autumn, "03-22", EQUATOR, here=HERE)] == [
        day("03-22")
    ]
    last_southern = nights(("2025-03-10", 10, 15.0), ("2025-03-20", 30, 10.0))
    (job,) = told(last_southern, "01-10", SOUTH, here=HERE)
    assert job.on == day("03-22")


def test_a_place_without_readings_or_plants_says_nothing() -> None:
    assert told({}, "09-22", here=HERE, home=HERE) == []
    assert told(nights(("09-20", 3, 1.0)), "09-22") == []


def test_many_plants_are_told_by_their_ends() -> None:
    many = {Warmth.WARM: tuple(f"W{n}" for n in range(1, 8))}
    (job,) = told(nights(("09-20", 3, 5.0)), "09-22", here=many)
    assert "the warm growers, 7 plants from W1 to W7;" in job_words.sentence(
        job, day("09-22")
    )
    one = {Warmth.WARM: ("W1",)}
    lows = nights(("2025-09-01", 9, 17.0), ("2025-09-20", 3, 5.0))
    (job,) = told(lows, "08-01", here=one)
    assert "The warm grower W1 stands out there." in job_words.sentence(
        job, day("08-01")
    )


def test_near_the_equator_a_long_cold_keeps_its_day() -> None:
    lows = nights(("2026-01-01", 10, 18.0), ("2026-01-11", 200, 10.0))
    days = {
        job.on
        for on in ("02-10", "04-20", "06-30")
        for job in told(lows, on, EQUATOR, here=HERE)
    }
    assert days == {date(2026, 1, 13)}


def test_near_the_equator_no_move_is_foretold_by_last_year() -> None:
    lows = nights(("2025-12-01", 30, 18.0), ("2025-12-31", 10, 10.0))
    lows |= nights(("2026-01-10", 60, 18.0))
    assert told(lows, "02-10", EQUATOR, here=HERE) == []
