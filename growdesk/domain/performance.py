"""How fast a plant grows against its own best, from measured leads and roots.

Measured growth beats the calendar. It is silent while a growth matures, without two
lengths inside the window (35 days by the default), and without a yardstick.

A rate several times its own best and its kind's is a slip of the ruler, and the
measures are left out (smaller ones: ``growdesk.domain.pace``). A rate is never under 0,
and a lead that stands still has none.
"""

from __future__ import annotations

from datetime import timedelta
from enum import StrEnum
from itertools import pairwise
from math import inf
from operator import attrgetter
from typing import TYPE_CHECKING, NamedTuple

from msgspec import Struct

from growdesk.domain import pace, signs
from growdesk.domain.explain import Reason, Role
from growdesk.domain.facts import RootTips
from growdesk.domain.once import once_for

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping, Sequence
    from datetime import date

    from growdesk.domain.case import Case
    from growdesk.domain.facts import Look
    from growdesk.domain.kinds import Kind
    from growdesk.domain.pace import Points

RULE = "performance"
MOST = 1.0

SLIP_TIMES = 4.0
"""A rate so many times its own best and its kind's is a slip (from memory)."""


class Part(StrEnum):
    """What is measured of a plant."""

    LEAD = "lead"
    ROOTS = "roots"


class Rate(Struct, frozen=True):
    """A rate as a look told it, by the lengths of the weeks before it."""

    on: date
    mm_per_week: float


class Yardstick(Struct, frozen=True):
    """The rate that counts as full growth: the plant's own best, else its kind's."""

    mm_per_week: float
    is_own: bool


class Measured(Struct, frozen=True):
    """A rate now and its yardstick, both in mm per week, and whose yardstick it is."""

    what: Part
    rate_mm_per_week: float
    best_mm_per_week: float
    own_best: bool
    usual_mm_per_week: float | None = None

    @property
    def is_slip(self) -> bool:
        """Tell whether neither this plant nor its kind grows nearly as fast."""
        known = max(self.best_mm_per_week, self.usual_mm_per_week or 0.0)
        return self.rate_mm_per_week > SLIP_TIMES * known

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
        attrgetter("lead_length_mm"),
        _extending,
        lambda kind: kind.lead_rate_mm_per_week,
    ),
    Part.ROOTS: _Way(
        attrgetter("longest_new_root_mm"),
        _running,
        lambda kind: kind.root_rate_mm_per_week,
    ),
}


def measured(case: Case) -> Measured | None:
    """Give the lead's rate, else the roots', where it can be told and is no slip."""
    found = _found(case)
    return None if found is None or found.is_slip else found


def slip(case: Case) -> Reason | None:
    """Tell of measures that were left out since nothing grows so fast."""
    if case.plant.place.controlled:
        return None
    found = _found(case)
    if found is None or not found.is_slip:
        return None
    lengths = _lengths(case.looks, found.what)
    days = case.house.performance_window_days
    newest = _newest(lengths, case.on.toordinal(), days)
    (day, before), (later, after) = max(
        ((one, other) for one, other in pairwise(newest) if other[0] > one[0]),
        key=lambda pair: (pair[1][1] - pair[0][1]) / (pair[1][0] - pair[0][0]),
    )
    values = {"before": before, "after": after, "days": int(later - day)}
    return Reason(RULE, Role.UNKNOWN, f"slip-{found.what}", values)


@once_for
def _found(case: Case) -> Measured | None:
    if case.signs.maturing:
        return None
    lead = _against(case, Part.LEAD) if _lead_moves(case) else None
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
    return _yardstick(case, part, _lengths(case.looks, part))


def _yardstick(
    case: Case, part: Part, lengths: Iterable[tuple[date, float]]
) -> Yardstick | None:
    earlier = case.on - timedelta(days=case.house.earlier_season_days)
    before = [each for each in lengths if each[0] <= earlier]
    usual = _WAYS[part].usual(case.kind)
    most = SLIP_TIMES * usual if usual else inf
    own = pace.best(before, case.house.performance_window_days, most)
    best = own if own is not None else usual
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


def _lead_moves(case: Case) -> bool:
    """Tell whether a growth extends and the lead that was measured is none at rest."""
    stands = signs.lead_stands_still
    return bool(case.signs.extending) and not stands(case.looks, case.house.stall_days)


def _against(case: Case, part: Part) -> Measured | None:
    days = case.house.performance_window_days
    if not _measured_twice(case, part, days):
        return None
    lengths = _lengths(case.looks, part)
    rate = _rate_on(lengths, case.on.toordinal(), days)
    if rate is None:
        return None
    best = _yardstick(case, part, lengths)
    if best is None:
        return None
    usual = _WAYS[part].usual(case.kind)
    return Measured(part, rate, best.mm_per_week, best.is_own, usual)


def _measured_twice(case: Case, part: Part, days: int) -> bool:
    """Tell whether a part was measured twice in some days, without which no rate is."""
    way, on, times = _WAYS[part], case.on, 0
    for look in reversed(case.looks):
        if times == 2 or (on - look.on).days > days:
            break
        times += way.length(look) is not None and way.counts(look)
    return times == 2


def _lengths(looks: Iterable[Look], part: Part) -> list[tuple[date, float]]:
    length, counts, _usual = _WAYS[part]
    return [
        (look.on, mm)
        for look in looks
        if (mm := length(look)) is not None and counts(look)
    ]


def _rate_on(
    lengths: Sequence[tuple[date, float]], day: int, window_days: int
) -> float | None:
    """Give the rate of the newest lead or roots over a window that ends on a day.

    No length grows less: what was read shorter has not grown.
    """
    rate = pace.rate_mm_per_week(_newest(lengths, day, window_days))
    return None if rate is None else max(0.0, rate)


def _newest(
    lengths: Sequence[tuple[date, float]], day: int, window_days: int
) -> Points:
    runs = pace.runs(lengths, window_days)
    newest = runs[-1] if runs else []
    return [each for each in newest if each[0] >= day - window_days]
