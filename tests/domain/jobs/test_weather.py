"""Cover for dry rests in the open, and plants to shelter from a typed night or day."""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING, Any

import pytest

from growdesk.domain import job_words
from growdesk.domain.case import Case
from growdesk.domain.facts import Flowering, House, Leaves, Place
from growdesk.domain.jobs import weather
from growdesk.domain.jobs.job import Sort
from growdesk.domain.night import Expected, Standing
from growdesk.services import kinds
from tests.domain.builders import (
    EXTENDING,
    HOUSE,
    SOUTH,
    day,
    kind_of,
    look,
    plant,
    still,
)

if TYPE_CHECKING:
    from growdesk.domain.facts import Look
    from growdesk.domain.jobs.job import Job

YARD = Place("Yard", outdoors=True)
SILL = Place("Sill")


def case_of(
    kind: str, *looks: Look, on: str, house: House = HOUSE, **more: Any
) -> Case:
    stands = {"place": YARD, **more}
    one = plant(kind, *looks, **stands)
    return Case(one, kind_of(one), house, day(on))


def covers(case: Case, days: int = 0) -> list[Job]:
    return list(weather.cover(case, case.on + timedelta(days=days)))


def test_a_rest_that_holds_asks_for_cover_since_it_began() -> None:
    case = case_of("rhyncholaelia", still("10-20"), on="11-26")
    (job,) = covers(case)
    assert (job.key, job.sort, job.tag) == ("under-cover", Sort.WEATHER, "T1")
    assert (job.on, job.settled, job.forecast) == (day("10-01"), True, False)
    assert job_words.sentence(job, case.on) == (
        "Is to have little or no water from 1 October, but stands in the open at Yard, "
        "where rain waters it. Bring it under a cover and say so in its form, or move "
        "it."
    )
    assert weather.harmed_by_rain(case)


def test_a_rest_to_come_asks_for_cover_on_its_first_day() -> None:
    case = case_of("rhyncholaelia", still("09-20"), on="09-25")
    assert covers(case) == []
    assert not weather.harmed_by_rain(case)
    (job,) = covers(case, days=30)
    assert job.on == day("10-01")


def test_south_of_the_equator_it_is_half_a_year_later() -> None:
    case = case_of("rhyncholaelia", still("03-20"), on="03-25", house=SOUTH)
    (job,) = covers(case, days=30)
    assert job.on == day("04-01")


@pytest.mark.parametrize("more", [{"place": SILL}, {"under_cover": True}])
def test_indoors_or_covered_nothing_is_asked(more: dict[str, Any]) -> None:
    assert covers(case_of("rhyncholaelia", still("10-20"), on="11-26", **more)) == []


def test_a_bare_bulb_in_the_open_is_to_be_covered() -> None:
    bare = look("11-10", leaves=Leaves.LEAFLESS)
    case = case_of("catasetum", bare, on="11-26")
    assert [job.on for job in covers(case)] == [day("11-10")]
    assert weather.harmed_by_rain(case)


def test_what_moves_or_only_slows_may_be_rained_on() -> None:
    moved = look("11-20", new_growths=EXTENDING)
    assert covers(case_of("rhyncholaelia", moved, on="11-26")) == []
    slow = case_of("cattleya", still("11-20"), on="12-10")
    assert covers(slow, days=366) == []


def test_buds_in_a_rest_without_nitrogen_bring_the_water_back() -> None:
    dry = case_of("dendrobium-nobile", still("01-10"), on="01-20")
    assert weather.harmed_by_rain(dry)
    budded = still("01-10", Flowering.BUDS)
    assert not weather.harmed_by_rain(case_of("dendrobium-nobile", budded, on="01-20"))


def standing(tag: str, kind: str, *, at_glass: bool = False) -> Standing:
    found = kinds.table().find(kind)
    assert found is not None
    return Standing(tag, found, at_glass, outdoors=False)


def told(expected: Expected, *stand: Standing) -> list[tuple[str, str]]:
    on = date(2026, 11, 26)
    jobs = list(weather.shelter("Sill", on, expected, (stand, HOUSE)))
    assert all((j.on, j.until, j.place) == (on, on, "Sill") for j in jobs)
    assert not any(job.settled or job.forecast for job in jobs)
    return [(job.key, job_words.sentence(job, on)) for job in jobs]


def test_a_cold_night_names_what_to_take_off_the_glass_and_what_away() -> None:
    limit_c = standing("A1", "phalaenopsis").kind.least_night_c
    pane = standing("A1", "phalaenopsis", at_glass=True)
    room = standing("A2", "phalaenopsis")
    ((key, sentence),) = told(Expected(limit_c, None), pane, room)
    assert key == "cold-from-glass"
    assert sentence == (
        f"{limit_c:g} °C is expected at Sill in the night, and less at the glass. "
        "Take A1 off it. Do not water late: wet plants chill first."
    )
    ((key, sentence),) = told(Expected(limit_c - 1, None), pane, room)
    assert key == "cold-elsewhere"
    assert "Take A1 and A2 somewhere warmer." in sentence


def test_a_hot_day_is_told_apart_from_the_night() -> None:
    limit_c = standing("A1", "phalaenopsis").kind.most_day_c
    pane = standing("A1", "phalaenopsis", at_glass=True)
    assert [key for key, _ in told(Expected(25, limit_c), pane)] == ["heat-from-glass"]
    assert [key for key, _ in told(Expected(25, limit_c + 1), pane)] == [
        "heat-elsewhere"
    ]


def test_many_are_counted_after_the_first_six() -> None:
    stand = [standing(f"A{n}", "phalaenopsis") for n in range(1, 10)]
    ((_key, sentence),) = told(Expected(0, None), *stand)
    assert "Take A1, A2, A3, A4, A5, A6 and 3 more somewhere warmer." in sentence
