"""What the numbers say: the value held against its limit, and how cost grows.

A bar is broken only where the medians and the best runs both say so: one run beside
another program's work breaks nothing.
"""

from __future__ import annotations

import math
from collections import defaultdict
from statistics import median
from typing import TYPE_CHECKING

from msgspec import Struct

from tests.bench.bars import Unit

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tests.bench.bars import Bar, Taken

MOST_EXPONENT = 1.15
"""What a cost may fit to; over few plants n log n itself fits to a little more."""
_NOISE = 0.1
"""What the exponent between the two largest sizes may be more than that of n log n."""
_CONSTANT_S = 0.002


class Said(Struct, frozen=True):
    """One line of the table: the number, and whether it keeps to the limit."""

    taken: Taken
    value: float
    best: float
    holds: bool


class Growth(Struct, frozen=True):
    """How the cost of a bar grows: n to this power over the sizes."""

    bar: Bar
    exponent: float
    last: float
    holds: bool


def judged(taken: Taken) -> Said:
    """Hold what was taken against the bar's limit."""
    limit = taken.bar.most
    best_of = max if limit.unit is Unit.PER_S else min
    value = _value(taken, median(taken.ours), median(taken.base or (1.0,)))
    best = _value(taken, best_of(taken.ours), min(taken.base or (1.0,)))
    return Said(taken, value, best, limit.holds(value) or limit.holds(best))


def _value(taken: Taken, ours: float, base: float) -> float:
    limit = taken.bar.most
    if limit.unit is Unit.TIMES:
        return ours / base
    if limit.unit is Unit.SHARE:
        return base / ours
    return ours * 1000 if limit.unit is Unit.MS else ours


def growths(all_taken: Sequence[Taken]) -> list[Growth]:
    """Fit each growing bar's seconds over its sizes by least squares on logarithms."""
    by_bar: dict[str, list[Taken]] = defaultdict(list)
    for taken in all_taken:
        if taken.bar.grows and not taken.bar.most.is_given:
            by_bar[taken.bar.key].append(taken)
    return [_growth(group) for group in by_bar.values() if len(group) > 1]


def _growth(group: Sequence[Taken]) -> Growth:
    points = sorted((taken.plants, median(taken.ours)) for taken in group)
    allowed = [(n, n * math.log(n)) for n, _ in points]
    slope, last = _slope(points), _slope(points[-2:])
    holds = (
        slope <= max(MOST_EXPONENT, _slope(allowed))
        and last <= _slope(allowed[-2:]) + _NOISE
    )
    return Growth(group[0].bar, slope, last, holds or points[-1][1] < _CONSTANT_S)


def _slope(costs: Sequence[tuple[float, float]]) -> float:
    """Give the power of n that fits costs best, by least squares on logarithms."""
    points = [(math.log(n), math.log(cost)) for n, cost in costs]
    mean_x = sum(x for x, _ in points) / len(points)
    mean_y = sum(y for _, y in points) / len(points)
    above = sum((x - mean_x) * (y - mean_y) for x, y in points)
    return above / sum((x - mean_x) ** 2 for x, _ in points)
