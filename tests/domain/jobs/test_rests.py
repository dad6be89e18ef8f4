"""Rests of the calendar are the rests of the judging, on every day of a leap year."""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING, Any

import pytest
from msgspec.structs import replace

from growdesk.domain import job_words
from growdesk.domain.case import Case
from growdesk.domain.facts import (
    Care,
    CareKind,
    Health,
    House,
    Leaves,
    NewLeaf,
    RootTips,
    Size,
    Verdict,
    Water,
)
from growdesk.domain.jobs import leaching, rests
from growdesk.domain.kinds import Rest
from growdesk.services import kinds
from tests.domain.builders import (
    EMERGING,
    EQUATOR,
    HOUSE,
    MATURING,
    NOTHING,
    SOUTH,
    day,
    did,
    fed,
    judged,
    kind_of,
    look,
    moving,
    plant,
    still,
)

if TYPE_CHECKING:
    from collections.abc import Callable

    from growdesk.domain.facts import Look, Plant
    from growdesk.domain.jobs.job import Job

FIRST = date(2028, 1, 1)
YEAR = [FIRST + timedelta(days=n) for n in range(366)]
BY_REST = {
    rest: [kind.key for kind in kinds.table().kinds.values() if kind.rest is rest]
    for rest in Rest
}
HOUSES = pytest.mark.parametrize("house", [HOUSE, SOUTH], ids=["north", "south"])


def case_of(one: Plant, on: date, house: House = HOUSE) -> Case:
    return Case(one, kind_of(one), house, on)


def told(one: Plant, on: date, house: House = HOUSE, days: int = 0) -> list[Job]:
    return list(rests.jobs(case_of(one, on, house), on + timedelta(days=days)))


def keys_on(jobs: list[Job], on: date) -> set[str]:
    """Give the keys of the jobs that hold on a day."""
    return {
        job.key
        for job in jobs
        if job.on <= on and (job.until is None or on <= job.until)
    }


def rule_says(one: Plant, on: date, house: House, rule: str) -> bool:
    """Tell whether the judging of a day speaks of a rule at all."""
    return any(reason.rule == rule for reason in judged(one, on, house).reasons)


@HOUSES
@pytest.mark.parametrize(
    "kind", [*BY_REST[Rest.UNFED][:3], *BY_REST[Rest.NO_NITROGEN][:3]]
)
@pytest.mark.parametrize("seen", [still, moving], ids=["still", "moving"])
def test_an_unfed_rest_is_told_on_exactly_the_days_it_is_judged(
    kind: str, seen: Callable[..., Look], house: House
) -> None:
    assert len(YEAR) == 366
    days = 0
    for on in YEAR:
        one = plant(kind, seen(on))
        calendar = keys_on(told(one, on, house), on)
        is_judged = rule_says(one, on, house, "unfed-rest")
        assert bool(calendar) is is_judged, on
        days += bool(calendar)
    assert days > 0 or seen is moving


@HOUSES
@pytest.mark.parametrize("kind", [*BY_REST[Rest.UNFED], *BY_REST[Rest.NO_NITROGEN]])
def test_a_year_foretold_is_the_year_that_is_judged(kind: str, house: House) -> None:
    began = plant(kind, still(FIRST - timedelta(days=1)))
    ahead = told(began, FIRST, house, 365)
    foretold = {
        on for on in YEAR if keys_on(ahead, on) & {"rest-unfed", "rest-no-nitrogen"}
    }
    is_judged = {
        on
        for on in YEAR[::3]
        if any(
            reason.key.startswith(("resting", "no-nitrogen-held"))
            for reason in judged(plant(kind, still(on)), on, house).reasons
        )
    }
    assert is_judged
    assert foretold & set(YEAR[::3]) == is_judged


@HOUSES
@pytest.mark.parametrize("kind", BY_REST[Rest.REDUCED][:4])
def test_a_slow_season_follows_the_kinds_months_and_holds_no_feed(
    kind: str, house: House
) -> None:
    months = kinds.table().kinds[kind].rest_months
    for on in YEAR:
        one = plant(kind, still(on))
        north = on.month if house is HOUSE else (on.month + 5) % 12 + 1
        slow = keys_on(told(one, on, house), on)
        assert slow == ({"rest-slow"} if north in months else set()), on
        assert not rule_says(one, on, house, "unfed-rest")
        assert told(plant(kind, moving(on)), on, house) == []


@HOUSES
def test_kinds_without_a_rest_have_none(house: House) -> None:
    for kind in BY_REST[Rest.NONE]:
        assert told(plant(kind, still(FIRST)), FIRST, house, 366) == []


@HOUSES
@pytest.mark.parametrize("kind", BY_REST[Rest.LEAFLESS])
def test_a_bare_plant_is_told_as_kept_dry_on_every_day_it_is_judged_so(
    kind: str, house: House
) -> None:
    held = 0
    for on in YEAR[::3]:
        one = plant(kind, still(on, leaves=Leaves.LEAFLESS))
        calendar = keys_on(told(one, on, house), on)
        is_judged = rule_says(one, on, house, "leafless-rest")
        assert bool(calendar & {"rest-bare", "rest-bare-measured"}) is is_judged, on
        assert "rest-bare-expected" not in calendar
        held += is_judged
    assert held == len(YEAR[::3])


@HOUSES
def test_still_green_is_told_on_exactly_the_days_it_is_judged(house: House) -> None:
    seen: dict[str, Any] = {
        "new_growths": NOTHING,
        "root_tips": RootTips.NONE,
        "leaves": Leaves.FIRM,
        "new_leaf": NewLeaf.FULL,
    }
    ahead = told(plant("catasetum", look(FIRST, **seen)), FIRST, house, 366)
    foretold = {on for on in YEAR if "rest-still-green" in keys_on(ahead, on)}
    days = 0
    for on in YEAR:
        one = plant("catasetum", look(on, **seen))
        told_now = "rest-still-green" in keys_on(told(one, on, house), on)
        is_judged = rule_says(one, on, house, "still-green")
        assert told_now is is_judged, on
        days += is_judged
    assert days == (90 + 1 if house is HOUSE else 94)
    assert foretold


@HOUSES
def test_going_down_is_told_on_exactly_the_days_it_is_judged(house: House) -> None:
    for on in YEAR:
        one = plant(
            "catasetum",
            look(
                on,
                new_growths=MATURING,
                root_tips=RootTips.NONE,
                leaves=Leaves.YELLOWING,
            ),
        )
        told_now = "rest-going-down" in keys_on(told(one, on, house), on)
        assert told_now is rule_says(one, on, house, "going-down"), on


def test_a_rest_begins_and_ends_on_the_days_of_the_house() -> None:
    one = plant("dendrobium-nobile", moving("08-20"))
    (north,) = told(one, day("08-20"), HOUSE, 100)
    assert (north.on, north.until) == (day("09-15"), date(2027, 2, 28))
    holds, south = told(one, day("08-20"), SOUTH, 250)
    assert (holds.on, holds.until) == (day("03-15"), day("08-31"))
    assert (south.on, south.until) == (date(2027, 3, 15), date(2027, 8, 31))
    assert told(one, day("08-20"), HOUSE, 25) == []
    assert told(one, day("08-20"), HOUSE, 26) != []


def test_a_rest_over_a_leap_day_ends_with_february() -> None:
    one = plant("dendrobium-nobile", still("2027-12-01"))
    (rest,) = told(one, date(2027, 12, 1), HOUSE, 10)
    assert (rest.on, rest.until) == (date(2027, 9, 15), date(2028, 2, 29))


def test_near_the_equator_for_seedlings_and_where_it_is_ignored_none_is_told() -> None:
    on = day("12-10")
    one = plant("dendrobium-nobile", still("12-09"))
    assert told(one, on, HOUSE) != []
    assert told(one, on, EQUATOR, 366) == []
    seedling = plant("dendrobium-nobile", still("12-09"), size=Size.SEEDLING)
    assert told(seedling, on, HOUSE, 366) == []
    ignores = plant("dendrobium-nobile", still("12-09"), ignores_rest=True)
    assert told(ignores, on, HOUSE, 366) == []


def test_a_bare_plant_keeps_its_day_while_it_stays_bare() -> None:
    bare = [still(on, leaves=Leaves.LEAFLESS) for on in ("11-20", "12-20")]
    one = plant("catasetum", *bare)
    days = {told(one, day(on))[0].on for on in ("12-20", "12-28")}
    assert days == {day("11-20")}


def test_a_bare_plant_is_told_with_the_root_that_was_measured() -> None:
    on = "2027-04-20"
    bare = {"leaves": Leaves.LEAFLESS, "new_growths": EMERGING}
    measured = plant("catasetum", look(on, longest_new_root_mm=40.0, **bare))
    (job,) = told(measured, day(on))
    assert job_words.sentence(job, day(on)) == (
        "Kept dry since 20 April, until its new roots are 8 cm long; 4 cm was measured "
        "last."
    )
    (job,) = told(plant("catasetum", look(on, **bare)), day(on))
    assert job_words.sentence(job, day(on)) == (
        "Kept dry since 20 April, until its new roots are 8 cm long."
    )


# -- the leach before a rest, and the first water after it --------------------------


def water(one: Plant, on: str, days: int = 0, house: House = HOUSE) -> list[Job]:
    case = case_of(one, day(on), house)
    return list(leaching.jobs(case, day(on) + timedelta(days=days)))


def nobile(*care: Care, **more: Any) -> Plant:
    return plant("dendrobium-nobile", moving("08-20"), care=care, **more)


def test_the_leach_is_foretold_and_due_as_the_judging_has_it() -> None:
    fed_one = nobile(fed("08-20", 150))
    (leach,) = water(fed_one, "08-22", 30)
    assert (leach.key, leach.on, leach.until) == (
        "leach-before-rest",
        day("08-25"),
        day("09-14"),
    )
    assert leach.settled
    assert water(fed_one, "08-22", 2) == []
    for on in ("08-26", "09-14"):
        assert [job.key for job in water(fed_one, on)] == ["leach-before-rest"]
        fresh = replace(fed_one, looks=(moving(on),))
        assert judged(fresh, day(on)).verdict is Verdict.FLUSH
    assert water(fed_one, "09-15") == []


def test_a_flush_settles_the_leach_and_a_mount_needs_none() -> None:
    flushed = nobile(fed("08-20", 150), did("08-26", CareKind.FLUSH))
    assert water(flushed, "08-27") == []
    assert water(nobile(fed("08-20", 150), mounted=True), "08-22", 30) == []


def test_the_first_water_comes_the_day_after_the_rest_and_goes_once_given() -> None:
    one = plant("encyclia", still("2027-03-20"))
    (first,) = water(one, "2027-03-25", 20)
    assert (first.key, first.on) == ("first-water", date(2027, 4, 1))
    assert water(one, "2027-03-25", 6) == []
    assert [job.on for job in water(one, "2027-05-01")] == [date(2027, 4, 1)]
    assert water(one, "2027-05-02") == []
    for what, left in ((CareKind.CLEAR_WATER, 0), (CareKind.MOVE, 1)):
        given = plant("encyclia", still("2027-03-20"), care=(did("2027-04-01", what),))
        assert len(water(given, "2027-04-02")) == left
    early = plant(
        "encyclia", still("2027-03-20"), care=(did("2027-03-31", CareKind.CLEAR_WATER),)
    )
    assert len(water(early, "2027-04-02")) == 1


def test_a_rest_that_growth_ended_has_no_first_water() -> None:
    woke = plant("encyclia", moving("2027-03-20"))
    assert water(woke, "2027-03-25", 20) == []


def test_after_months_without_nitrogen_the_first_water_says_so() -> None:
    one = plant("dendrobium-nobile", still("2027-02-20"))
    (first,) = water(one, "2027-02-25", 10)
    assert (first.key, first.on) == ("first-water-no-nitrogen", date(2027, 3, 1))
    (south,) = water(one, "2027-02-25", 220, SOUTH)
    assert south.on == date(2027, 9, 1)


def test_a_bare_plant_is_measured_when_its_months_are_over() -> None:
    one = plant("catasetum", still("2027-04-20", leaves=Leaves.LEAFLESS))
    (job,) = water(one, "2027-05-01", 40)
    assert (job.key, job.on) == ("first-water-measured", date(2027, 6, 1))
    assert job.forecast
    lycaste = plant("lycaste", still("2027-02-20", leaves=Leaves.LEAFLESS))
    (job,) = water(lycaste, "2027-03-01", 40)
    assert (job.key, job.on) == ("first-water-bare", date(2027, 4, 1))
    awake = plant(
        "lycaste",
        look("2027-02-20", new_growths=EMERGING, leaves=Leaves.LEAFLESS),
    )
    assert water(awake, "2027-03-01", 40) == []


# -- what the calendar asks, against the verdict of the same day ---------------------


def first_waters(one: Plant, on: str) -> list[str]:
    return [job.key for job in water(one, on) if job.key.startswith("first-water")]


def test_the_first_water_is_asked_only_where_the_verdict_gives_it() -> None:
    resting = still("03-20")
    assert first_waters(plant("encyclia", resting), "04-03") == ["first-water"]
    grows = plant("encyclia", resting, moving("04-02"))
    assert judged(grows, "04-03").verdict is Verdict.FEED
    assert first_waters(grows, "04-03") == []
    rots = plant("encyclia", resting, still("04-02", health={Health.ROT}))
    assert judged(rots, "04-03").verdict is Verdict.KEEP_DRY
    assert first_waters(rots, "04-03") == []
    rootless = plant("encyclia", resting, still("04-02", health={Health.NO_ROOTS}))
    assert judged(rootless, "04-03").water is Water.SPARING
    assert first_waters(rootless, "04-03") == []


def test_after_the_hold_of_nitrogen_no_full_water_is_asked_before_growth() -> None:
    one = plant("dendrobium-nobile", still("02-20"))
    assert judged(one, "03-03").water is Water.SPARING
    (job,) = (job for job in water(one, "03-03") if job.key.startswith("first"))
    assert "through" not in job_words.sentence(job, day("03-03"))


def test_a_shower_that_wets_no_pot_is_no_first_water() -> None:
    def rained(mm: float) -> Plant:
        care = (Care(day("04-02"), CareKind.RAIN, rain_mm=mm),)
        return plant("encyclia", still("03-20"), care=care)

    assert first_waters(rained(HOUSE.rain_waters_mm - 0.1), "04-03") == ["first-water"]
    assert first_waters(rained(HOUSE.rain_waters_mm), "04-03") == []


def test_the_leach_waits_while_the_verdict_is_no_flush() -> None:
    care = (fed("09-20", 80), fed("09-28", 80))
    stands = plant("encyclia", still("10-12"), care=care)
    assert judged(stands, "10-14").verdict is Verdict.CLEAR_WATER
    (job,) = water(stands, "10-14")
    assert (job.key, job_words.said(job)) == ("leach-before-rest", "leach-waits")
    grows = plant("encyclia", moving("10-12"), care=care)
    assert judged(grows, "10-14").verdict is Verdict.FLUSH
    (job,) = water(grows, "10-14")
    assert job_words.said(job) == "leach-before-rest"


def test_a_plant_that_has_woken_is_not_told_to_stand_bare() -> None:
    bare = look("2027-02-01", leaves=Leaves.LEAFLESS, new_growths=EMERGING)
    out = moving("2027-04-01", longest_new_root_mm=90.0, leaves=Leaves.FIRM)
    woken = plant("catasetum", bare, out)
    on = day("2027-04-10")
    assert judged(woken, on).verdict is Verdict.FEED
    keys = [job.key for job in rests.jobs(case_of(woken, on), on)]
    assert "rest-bare-expected" not in keys
    year = list(rests.jobs(case_of(woken, on), day("2028-01-01")))
    assert [job.on for job in year if job.key == "rest-bare-expected"] == [
        date(2027, 11, 1)
    ]


def test_going_down_by_the_season_has_one_day_and_keeps_it() -> None:
    one = plant(
        "catasetum", look("06-18", leaves=Leaves.YELLOWING, new_growths=MATURING)
    )
    days = {
        job.on
        for on in ("06-22", "06-25", "06-29")
        for job in rests.jobs(case_of(one, day(on)), day(on))
        if job.key == "rest-going-down"
    }
    assert days == {date(2026, 6, 21)}


def test_water_is_not_stopped_on_a_plant_that_goes_down() -> None:
    one = plant(
        "catasetum", look("12-24", leaves=Leaves.YELLOWING, new_growths=MATURING)
    )
    on = day("12-30")
    assert judged(one, on).verdict is Verdict.CLEAR_WATER
    keys = [job.key for job in rests.jobs(case_of(one, on), on)]
    assert "rest-going-down" in keys
    assert "rest-still-green" not in keys


def test_water_given_today_is_the_first_water() -> None:
    one = plant("encyclia", still("03-20"), care=(did("04-03", CareKind.CLEAR_WATER),))
    assert first_waters(one, "04-02") == ["first-water"]
    assert first_waters(one, "04-03") == []


def test_feed_waits_from_the_day_after_the_hold() -> None:
    one = plant("dendrobium-nobile", still("02-20"))
    (job,) = rests.jobs(case_of(one, day("03-03")), day("03-03"))
    assert (job.key, job.on) == ("rest-nitrogen-waits", day("03-01"))
