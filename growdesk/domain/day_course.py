"""How one quantity ran through each day, from samples by the logger's own clock.

The mean is weighted by time (trapezoids between the day's own samples), so that it does
not matter how often the logger wrote. A day read for less than 75 % of its hours has a
course that is not whole: nothing should be made of it. Light needs 75 % of the hours
from 6 to 18 as well, or a lost noon would pass for a dull day. The limits are ours, no
source.
"""

from __future__ import annotations

from collections import defaultdict
from itertools import pairwise
from statistics import fmean, median
from typing import TYPE_CHECKING

from msgspec import Struct

if TYPE_CHECKING:
    from collections.abc import Iterable
    from datetime import date, datetime

LEAST_SHARE = 0.75
_NEVER_A_GAP_H = 1.0
_LONGEST_STEP_H = 2.0
_BRIGHT_FROM_H, _BRIGHT_TO_H = 6.0, 18.0

Point = tuple[float, float]
"""An hour of the day, 0 to 24, and what was read then."""


class Course(Struct, frozen=True):
    """One quantity on one day, in the quantity's own unit.

    ``hours`` were read, ``bright_hours`` of them between 6 and 18; ``sum_h`` is the
    integral in unit hours from the first sample to the last.
    """

    mean: float
    low: float
    high: float
    sum_h: float
    hours: float
    bright_hours: float

    @property
    def is_whole(self) -> bool:
        """Tell whether enough of the day was read for a mean, a low and a high."""
        return self.hours >= LEAST_SHARE * 24

    @property
    def is_whole_for_light(self) -> bool:
        """Tell whether enough of the day and of its bright half was read."""
        bright = LEAST_SHARE * (_BRIGHT_TO_H - _BRIGHT_FROM_H)
        return self.is_whole and self.bright_hours >= bright

    @property
    def dli_mol_per_m2(self) -> float:
        """Give the day's light in mol m-2 of a course of PPFD in µmol m-2 s-1."""
        return self.sum_h * 3600 / 1_000_000


def courses(samples: Iterable[tuple[datetime, float]]) -> dict[date, Course]:
    """Give each day's course; samples may come in any order.

    What was read twice at one moment (the clock set back, say) counts as its mean.
    """
    days: dict[date, dict[float, list[float]]] = defaultdict(lambda: defaultdict(list))
    for at, value in samples:
        days[at.date()][_hour(at)].append(value)
    points = {
        on: [(hour, fmean(read)) for hour, read in sorted(by_hour.items())]
        for on, by_hour in days.items()
    }
    step_h = _step_h(points.values())
    extremes = {
        on: (min(map(min, by_hour.values())), max(map(max, by_hour.values())))
        for on, by_hour in days.items()
    }
    return {on: _course(points[on], extremes[on], step_h) for on in sorted(points)}


def _hour(at: datetime) -> float:
    return at.hour + at.minute / 60 + (at.second + at.microsecond / 1e6) / 3600


def _step_h(days: Iterable[list[Point]]) -> float:
    """Give the usual time between two samples in hours, 2 at most."""
    steps = [after[0] - before[0] for day in days for before, after in pairwise(day)]
    return min(median(steps), _LONGEST_STEP_H) if steps else 0.0


def _course(points: list[Point], extremes: Point, step_h: float) -> Course:
    longest_h = max(_NEVER_A_GAP_H, 2 * step_h) + 1e-6
    sum_h = hours = bright_hours = 0.0
    for (start, before), (end, after) in pairwise(points):
        sum_h += (end - start) * (before + after) / 2
        if end - start <= longest_h:
            hours += end - start
            bright = min(end, _BRIGHT_TO_H) - max(start, _BRIGHT_FROM_H)
            bright_hours += max(bright, 0.0)
    span_h = points[-1][0] - points[0][0]
    return Course(
        mean=sum_h / span_h if span_h else points[0][1],
        low=extremes[0],
        high=extremes[1],
        sum_h=sum_h,
        hours=min(hours + step_h, 24.0),
        bright_hours=bright_hours,
    )
