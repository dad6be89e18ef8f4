"""Which days the week has: the watering days left in it, gone by, and those before it.

Only the calendar is known here. Weekdays count from Monday, 0, as dates do.
"""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.domain.day_words import week_start

if TYPE_CHECKING:
    from collections.abc import Collection
    from datetime import date

WALK_DAYS = 28
"""A week further off is judged as it stands: by then every look is out of date."""


class WeekDays(Struct, frozen=True):
    """The rounds of a week, and the watering days between today and its Monday.

    ``past`` are this week's watering days that have gone by: on no sheet any more.
    """

    begins: date
    before: tuple[date, ...]
    rounds: tuple[date, ...]
    past: tuple[date, ...] = ()


def week_days(on: date, today: date, weekdays: Collection[int]) -> WeekDays:
    """Give the days of the week that holds ``on``.

    Of this week only what is left counts, today included. A week without a watering
    day (left) has one round, on the day asked for.
    """
    begins = week_start(on)
    watering = _watering(begins, begins + timedelta(days=7), weekdays)
    this_week = begins <= today < begins + timedelta(days=7)
    first = today if this_week else begins
    rounds = tuple(day for day in watering if day >= first)
    past = tuple(day for day in watering if day < first)
    if not rounds:
        rounds = (max(on, first),)
    return WeekDays(begins, _before(begins, today, weekdays), rounds, past)


def _before(begins: date, today: date, weekdays: Collection[int]) -> tuple[date, ...]:
    if not today < begins <= today + timedelta(days=WALK_DAYS):
        return ()
    return _watering(today, begins, weekdays)


def _watering(first: date, end: date, weekdays: Collection[int]) -> tuple[date, ...]:
    days = (first + timedelta(days=number) for number in range((end - first).days))
    return tuple(day for day in days if day.weekday() in weekdays)
