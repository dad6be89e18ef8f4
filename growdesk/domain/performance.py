"""How fast a plant grows against its own best, from measured leads and roots.

Measured growth beats the calendar. It is silent while a growth matures, without two
lengths inside the window (35 days by the default), and without a yardstick.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta
from typing import TYPE_CHECKING

from growdesk.domain.facts import RootTips

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from growdesk.domain.case import Case
    from growdesk.domain.facts import Look

MOST = 1.0

Points = list[tuple[float, float]]


@dataclass(frozen=True, slots=True)
class Measured:
    """A rate now and its yardstick, both in mm per week, and whose yardstick it is."""

    what: str
    rate_mm_per_week: float
    best_mm_per_week: float
    own_best: bool

    def share(self, least: float) -> float:
        """Give the share of the best rate, from the least that counts to 1."""
        return min(MOST, max(least, self.rate_mm_per_week / self.best_mm_per_week))


def measured(case: Case) -> Measured | None:
    """Give the lead's rate, else the roots', where it can be told."""
    if case.signs.maturing:
        return None
    lead: Measured | None = None
    if case.signs.extending:
        lead = _by(case, "lead", lambda k: k.lead_length_mm, _extending)
    if lead is None and case.signs.tips is RootTips.RUNNING:
        return _by(case, "roots", lambda k: k.longest_new_root_mm, _running)
    return lead


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


def _extending(look: Look) -> bool:
    return bool(look.new_growths and look.new_growths.extending)


def _running(look: Look) -> bool:
    return look.root_tips is RootTips.RUNNING


def _by(
    case: Case,
    what: str,
    length: Callable[[Look], float | None],
    counts: Callable[[Look], bool],
) -> Measured | None:
    house = case.house
    since = case.on - timedelta(days=house.performance_window_days)
    points = _points([k for k in case.looks if k.on >= since], length, counts)
    rate = rate_mm_per_week(points)
    if rate is None:
        return None
    earlier = case.on - timedelta(days=house.earlier_season_days)
    looks = [k for k in case.looks if k.on <= earlier]
    own = _best(looks, house.performance_window_days, length, counts)
    kind = case.kind
    typical = (
        kind.lead_rate_mm_per_week if what == "lead" else kind.root_rate_mm_per_week
    )
    best = own if own is not None else typical
    if best is None or best <= 0:
        return None
    return Measured(what, rate, best, own is not None)


def _points(
    looks: Sequence[Look],
    length: Callable[[Look], float | None],
    counts: Callable[[Look], bool],
) -> Points:
    """Give day and length of one lead's or root set's run, newest run only."""
    points: Points = []
    for look in looks:
        mm = length(look)
        if mm is None or not counts(look):
            continue
        if points and mm < points[-1][1] * 0.8:
            points = []  # shorter by a fifth: another lead
        points.append((float(look.on.toordinal()), mm))
    return points


def rate_mm_per_week(points: Points) -> float | None:
    """Give the median of the slopes between all pairs (Theil-Sen), in mm per week.

    The median leaves one bad reading without effect once there are enough.
    """
    slopes = sorted(
        (mm2 - mm1) / (day2 - day1) * 7
        for i, (day1, mm1) in enumerate(points)
        for day2, mm2 in points[i + 1 :]
        if day2 > day1
    )
    if not slopes:
        return None
    middle = len(slopes) // 2
    if len(slopes) % 2:
        return slopes[middle]
    return (slopes[middle - 1] + slopes[middle]) / 2


def _best(
    looks: Sequence[Look],
    window_days: int,
    length: Callable[[Look], float | None],
    counts: Callable[[Look], bool],
) -> float | None:
    """Give the best rate over any window of earlier looks."""
    best: float | None = None
    for last in looks:
        since = last.on - timedelta(days=window_days)
        window = [k for k in looks if since <= k.on <= last.on]
        rate = rate_mm_per_week(_points(window, length, counts))
        if rate is not None and rate > 0 and (best is None or rate > best):
            best = rate
    return best
