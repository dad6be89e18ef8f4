"""How fast a plant grows against its own best, from measured leads and roots.

Measured growth beats the calendar. It is silent while a growth matures, without two
lengths inside the window (35 days by the default), and without a yardstick.

One bad reading: among four lengths or more it moves the rate of steady growth by
nothing, unless it is the newest and short by a fifth, which reads as another lead and
gives no rate. Of three, the first and the last are believed.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta
from enum import StrEnum
from statistics import median
from typing import TYPE_CHECKING, NamedTuple

from growdesk.domain.facts import RootTips

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
    from datetime import date

    from growdesk.domain.case import Case
    from growdesk.domain.facts import Look
    from growdesk.domain.kinds import Kind

MOST = 1.0

SAME_SHARE = 0.8
"""A length under this share of the one before is of another lead, or a slip."""

STEADY_FROM = 4
"""Lengths from which the repeated median holds one bad reading off."""

Point = tuple[float, float]
Points = list[Point]


class Part(StrEnum):
    """What is measured of a plant."""

    LEAD = "lead"
    ROOTS = "roots"


@dataclass(frozen=True, slots=True)
class Rate:
    """A rate as a look told it, by the lengths of the weeks before it."""

    on: date
    mm_per_week: float


@dataclass(frozen=True, slots=True)
class Yardstick:
    """The rate that counts as full growth: the plant's own best, else its kind's."""

    mm_per_week: float
    is_own: bool


@dataclass(frozen=True, slots=True)
class Measured:
    """A rate now and its yardstick, both in mm per week, and whose yardstick it is."""

    what: Part
    rate_mm_per_week: float
    best_mm_per_week: float
    own_best: bool

    def share(self, least: float) -> float:
        """Give the share of the best rate, from the least that counts to 1."""
        return min(MOST, max(least, self.rate_mm_per_week / self.best_mm_per_week))


class _Way(NamedTuple):
    """How one part is measured: its length, the looks that count, its kind's rate."""

    length: Callable[[Look], float | None]
    counts: Callable[[Look], bool]
    usual: Callable[[Kind], float | None]


def _extending(look: Look) -> bool:
    return bool(look.new_growths and look.new_growths.extending)


def _running(look: Look) -> bool:
    return look.root_tips is RootTips.RUNNING


_WAYS: Mapping[Part, _Way] = {
    Part.LEAD: _Way(
        lambda look: look.lead_length_mm,
        _extending,
        lambda kind: kind.lead_rate_mm_per_week,
    ),
    Part.ROOTS: _Way(
        lambda look: look.longest_new_root_mm,
        _running,
        lambda kind: kind.root_rate_mm_per_week,
    ),
}


def measured(case: Case) -> Measured | None:
    """Give the lead's rate, else the roots', where it can be told."""
    if case.signs.maturing:
        return None
    lead = _against(case, Part.LEAD) if case.signs.extending else None
    if lead is None and case.signs.tips is RootTips.RUNNING:
        return _against(case, Part.ROOTS)
    return lead


def rates(case: Case, part: Part) -> tuple[Rate, ...]:
    """Give the rate at each look that measured a part, as it could be told that day.

    A look from which none can be told gives none. It is held against the yardstick only
    by ``measured``, which asks more of the day's signs.
    """
    lengths = _lengths(case.looks, part)
    days = case.house.performance_window_days
    told = (
        (on, _rate_on(lengths[: number + 1], on.toordinal(), days))
        for number, (on, _mm) in enumerate(lengths)
    )
    newest = {on: rate for on, rate in told if rate is not None}
    return tuple(Rate(on, rate) for on, rate in newest.items())


def yardstick(case: Case, part: Part) -> Yardstick | None:
    """Give what a rate of today is held against; nothing where neither is known."""
    earlier = case.on - timedelta(days=case.house.earlier_season_days)
    looks = [look for look in case.looks if look.on <= earlier]
    own = _best(_lengths(looks, part), case.house.performance_window_days)
    best = own if own is not None else _WAYS[part].usual(case.kind)
    return None if best is None or best <= 0 else Yardstick(best, own is not None)


def factor(
    case: Case, found: Measured, season: float
) -> tuple[str, float, Mapping[str, object]]:
    """Give the factor that takes the season's place.

    Without lamps it may lower freely and raise by a quarter at most: long soft shoots
    in gloom are no vigour.
    """
    share = found.share(case.house.performance_least)
    most = season * case.house.performance_most_raise
    whose = "own" if found.own_best else "kind"
    key = f"performance-{found.what}-{whose}"
    if case.plant.place.lamps is None and share > most:
        share = most
        key = f"{key}-in-season"
    values = {
        "rate": found.rate_mm_per_week,
        "best": found.best_mm_per_week,
        "season": season,
    }
    return key, share, values


def _against(case: Case, part: Part) -> Measured | None:
    days = case.house.performance_window_days
    rate = _rate_on(_lengths(case.looks, part), case.on.toordinal(), days)
    if rate is None:
        return None
    best = yardstick(case, part)
    if best is None:
        return None
    return Measured(part, rate, best.mm_per_week, best.is_own)


def _lengths(looks: Iterable[Look], part: Part) -> list[tuple[date, float]]:
    way = _WAYS[part]
    found = ((look.on, way.length(look)) for look in looks if way.counts(look))
    return [(on, mm) for on, mm in found if mm is not None]


def _rate_on(
    lengths: Sequence[tuple[date, float]], day: int, window_days: int
) -> float | None:
    """Give the rate of the newest lead or roots over a window that ends on a day."""
    runs = _runs(lengths, window_days)
    newest = runs[-1] if runs else []
    return rate_mm_per_week([each for each in newest if each[0] >= day - window_days])


def _runs(lengths: Iterable[tuple[date, float]], window_days: int) -> list[Points]:
    """Give day and length of each lead or root set in turn, without plain slips.

    A length that leaps, or drops by a fifth, is a slip if within the window the next
    goes on from the one before it; else a drop begins another lead.
    """
    runs: list[Points] = []
    for on, mm in lengths:
        point = (float(on.toordinal()), mm)
        run = runs[-1] if runs else []
        before = runs[-2] if len(runs) > 1 and len(run) == 1 else []
        if not run:
            runs.append([point])
        elif mm < run[-1][1] * SAME_SHARE:
            if len(run) > 1 and _goes_on(run[-2], point, window_days):
                run[-1] = point
            else:
                runs.append([point])
        elif before and _goes_on(before[-1], point, window_days):
            runs.pop()
            before.append(point)
        else:
            run.append(point)
    return runs


def _goes_on(before: Point, point: Point, window_days: int) -> bool:
    """Tell whether a length is soon after another and not under it."""
    return point[0] - before[0] <= window_days and point[1] >= before[1]


def rate_mm_per_week(points: Points) -> float | None:
    """Give the slope of lengths over days by medians, in mm per week.

    From four lengths on the repeated median (Siegel 1982, from memory), whose slope
    one bad reading cannot move; of fewer the median of the slopes between all
    pairs (Theil and Sen).
    """
    slopes = [list(_slopes(points, point)) for point in points]
    told = [each for each in slopes if each]
    if not told:
        return None
    if len(points) < STEADY_FROM:
        return median(slope for each in told for slope in each)
    return median(median(each) for each in told)


def _slopes(points: Points, point: Point) -> Iterator[float]:
    """Give the slopes from one point to all of other days, in mm per week."""
    day, mm = point
    return (
        (other_mm - mm) / (other_day - day) * 7
        for other_day, other_mm in points
        if other_day != day
    )


def _best(lengths: Sequence[tuple[date, float]], window_days: int) -> float | None:
    """Give the best rate over any window of lengths that no other window holds."""
    found = [
        rate
        for run in _runs(lengths, window_days)
        for window in _windows(run, window_days)
        if (rate := rate_mm_per_week(window)) is not None and rate > 0
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
