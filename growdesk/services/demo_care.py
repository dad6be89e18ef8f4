"""The demo's care: the weekly rounds of eighteen months, and what was done besides.

The grower feeds what grows once a week, gives clear water in between, and flushes every
so often; a plant whose growth ends is flushed once.
"""

from __future__ import annotations

import math
from datetime import date, timedelta
from typing import TYPE_CHECKING

from growdesk.domain.facts import Care, CareKind
from growdesk.services.demo_course import YEAR_DAYS, day_of_year
from growdesk.services.demo_values import DemoCare

if TYPE_CHECKING:
    from collections.abc import Iterable

    from growdesk.services.demo_course import Course, Data


def care_of(
    plant: Data, course: Course, weekdays: tuple[int, ...], history_days: int
) -> tuple[DemoCare, ...]:
    """Give all care of a plant, oldest first."""
    own = [_own_care(entry, plant, course.on) for entry in plant.get("care", [])]
    rounds = _rounds(plant, course, weekdays, history_days // 7)
    return oldest_first([*rounds, *own])


def oldest_first(care: Iterable[DemoCare]) -> tuple[DemoCare, ...]:
    """Give care in the order of its days."""
    return tuple(sorted(care, key=lambda entry: entry.care.on))


def _own_care(entry: Data, plant: Data, on: date) -> DemoCare:
    what = CareKind(entry["what"])
    return DemoCare(
        Care(
            on=on - timedelta(days=entry["days_ago"]),
            what=what,
            strength_ppm_n=entry.get("strength_ppm_n"),
        ),
        volume_l=_volume(plant) if what is CareKind.FEED else None,
        note=entry["note"],
        product=entry.get("product", ""),
        repeat_on=_repeat(entry, on),
    )


def _repeat(entry: Data, on: date) -> date | None:
    """Give the day a treatment is to be done again."""
    if "repeat_days" not in entry:
        return None
    return on + timedelta(days=entry["repeat_days"] - entry["days_ago"])


def _rounds(
    plant: Data, course: Course, weekdays: tuple[int, ...], weeks: int
) -> list[DemoCare]:
    """Give the weekly rounds, oldest first: feed while it grows, a flush now and then.

    A plant whose growth ends is flushed once; between two feeds it gets clear water.
    """
    given: list[DemoCare] = []
    fed_before = False
    for back in range(weeks - 1, plant["rounds_from"] - 1, -1):
        if back in plant["skipped_rounds"]:
            continue
        ago = timedelta(days=7 * back + plant["rounds_lag_days"])
        day = _watering_day(course.on - ago, weekdays)
        gives = course.at(day)[0]["gives"]
        what = _round_gives(plant, gives, back, fed_before=fed_before)
        fed_before = gives == "feed"
        if what is None:
            continue
        given.append(_given(plant, day, what))
        between = _watering_day(day + timedelta(days=4), weekdays)
        if fed_before and day < between < course.on:
            given.append(_given(plant, between, CareKind.CLEAR_WATER))
    return given


def _round_gives(
    plant: Data, gives: str, back: int, *, fed_before: bool
) -> CareKind | None:
    flushed_at = plant.get("flush_at")
    if gives != "feed":
        if fed_before and flushed_at is not None:
            return CareKind.FLUSH
        return None if gives == "none" else CareKind.CLEAR_WATER
    between = 2 if plant.get("medium") == "sphagnum" else 3
    if flushed_at is not None and back % (between + 1) == flushed_at:
        return CareKind.FLUSH
    return CareKind.FEED


def _given(plant: Data, day: date, what: CareKind) -> DemoCare:
    strength = _strength(plant, day) if what is CareKind.FEED else None
    volume_l = _volume(plant)
    if what is CareKind.FLUSH and volume_l is not None:
        volume_l = round(volume_l * 4, 2)
    return DemoCare(Care(on=day, what=what, strength_ppm_n=strength), volume_l)


def _volume(plant: Data) -> float | None:
    if "volume_l" in plant:
        return float(plant["volume_l"])
    pot_l = plant.get("pot_volume_l")
    return None if pot_l is None else round(pot_l / 4, 2)


def _strength(plant: Data, day: date) -> float:
    """Give what was poured then: full in June, about half in December, in tens."""
    season = 0.75 - 0.25 * math.cos(2 * math.pi * (day_of_year(day) + 10) / YEAR_DAYS)
    return max(30.0, float(round(plant["full_ppm_n"] * season / 10)) * 10)


def _watering_day(day: date, weekdays: tuple[int, ...]) -> date:
    """Give the latest watering day up to a day."""
    return next(
        earlier
        for earlier in (day - timedelta(days=back) for back in range(7))
        if earlier.weekday() in weekdays
    )
