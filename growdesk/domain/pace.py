"""The rate of lengths over days, held against bad readings by medians.

One bad length among four or more moves no rate, unless it is the newest and short by a
fifth, or the first of four and so long that the second is taken for the bad one. Of
three, the first and the last are believed. Rates are in mm per week.
"""

from __future__ import annotations

from statistics import median
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence
    from datetime import date

SAME_SHARE = 0.8
"""A length under this share of the one before is of another lead, or a slip."""

STEADY_FROM = 4
"""Lengths from which the repeated median holds one bad reading off."""

Point = tuple[float, float]
Points = list[Point]


def runs(lengths: Iterable[tuple[date, float]], window_days: int) -> list[Points]:
    """Give day and length of each lead or root set in turn, without plain slips.

    A length that leaps, or drops by a fifth, is a slip if within the window the next
    goes on from the one before it; else a drop begins another lead.
    """
    found: list[Points] = []
    for on, mm in lengths:
        point = (float(on.toordinal()), mm)
        run = found[-1] if found else []
        before = found[-2] if len(found) > 1 and len(run) == 1 else []
        if not run:
            found.append([point])
        elif mm < run[-1][1] * SAME_SHARE:
            if len(run) > 1 and _goes_on(run[-2], point, window_days):
                run[-1] = point
            else:
                found.append([point])
        elif before and _goes_on(before[-1], point, window_days):
            found.pop()
            before.append(point)
        else:
            run.append(point)
    return found


def _goes_on(before: Point, point: Point, window_days: int) -> bool:
    """Tell whether a length is soon after another and not under it."""
    return point[0] - before[0] <= window_days and point[1] >= before[1]


def rate_mm_per_week(points: Points) -> float | None:
    """Give the slope of lengths over days by medians, in mm per week.

    From four lengths on the repeated median (Siegel 1982, from memory), whose slope
    one bad reading cannot move; of fewer the median of the slopes between all
    pairs (Theil and Sen).
    """
    slopes = [_slopes(points, point) for point in points]
    told = [each for each in slopes if each]
    if not told:
        return None
    if len(points) < STEADY_FROM:
        return median(slope for each in told for slope in each)
    return median(median(each) for each in told)


def _slopes(points: Points, point: Point) -> list[float]:
    """Give the slopes from one point to all of other days, in mm per week."""
    day, mm = point
    return [
        (other_mm - mm) / (other_day - day) * 7
        for other_day, other_mm in points
        if other_day != day
    ]


def best(
    lengths: Sequence[tuple[date, float]], window_days: int, most: float
) -> float | None:
    """Give the best rate, slips apart, over any window that no other window holds."""
    found = [
        rate
        for run in runs(lengths, window_days)
        for window in _windows(run, window_days)
        if (rate := rate_mm_per_week(window)) is not None and 0 < rate <= most
    ]
    return max(found, default=None)


def _windows(run: Points, window_days: int) -> Iterator[Points]:
    reached = 0
    for first, (day, _mm) in enumerate(run):
        end = next(
            (n for n, each in enumerate(run) if each[0] > day + window_days), len(run)
        )
        if end > reached:
            yield run[first:end]
        reached = end
