"""The exact search behind the batches: which whole strengths serve every plant best.

A ``Group`` is all plants that want much the same and accept the same strengths. Cost is
weighted relative deviation; the same sum without volumes settles ties, so that plants
of unknown volume still get a jug near their wish.

Why it is exact: with the chosen strengths given, a group is served best by the nearest
of them below its wish or the nearest above it, whichever it accepts (deviation only
grows with distance). So the cost is a sum over neighbouring pairs of chosen strengths,
and dynamic programming over them needs no guess about which plants share a jug. Within
a jug the cost is convex with kinks at the wishes, so only whole numbers beside a wish
and the ends of what is accepted need be tried.
"""

from __future__ import annotations

import math
from bisect import bisect_right
from itertools import accumulate
from typing import TYPE_CHECKING, Final, TypeAlias

from msgspec import Struct

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

Cost: TypeAlias = tuple[float, float]
Pairs: TypeAlias = "list[list[Cost]]"
Layer: TypeAlias = "dict[int, tuple[Cost, int]]"
Choice: TypeAlias = "tuple[Cost, tuple[int, ...]]"
NOTHING: Final[Cost] = (0.0, 0.0)
IMPOSSIBLE: Final[Cost] = (math.inf, math.inf)
DUST: Final = 1e-11


class Group(Struct, frozen=True):
    """Plants whose wishes lie in one half ppm and who accept the same whole strengths.

    No whole strength, nor the middle between two, lies inside a half ppm; so the sums
    of litres and of litres per wish are all that the cost of the group depends on.
    """

    half_ppm_n: int
    least: int
    most: int
    litres: float
    litres_per_ppm: float
    plants: float
    plants_per_ppm: float

    @property
    def pivot(self) -> int:
        """Give the accepted whole strength at or next below the wish."""
        return min(max(self.half_ppm_n // 2, self.least), self.most)

    def accepts(self, strength: int) -> bool:
        """Tell whether a whole strength is within what is accepted."""
        return self.least <= strength <= self.most

    def cost(self, strength: int) -> Cost:
        """Give the deviation from a whole strength, by litres and by plants."""
        by_litres = self.litres - strength * self.litres_per_ppm
        by_plants = self.plants - strength * self.plants_per_ppm
        sign = 1 if 2 * strength <= self.half_ppm_n else -1
        return sign * by_litres, sign * by_plants


def fewest_strengths(groups: Iterable[Group]) -> int:
    """Give the least number of strengths that serve every group (interval stabbing)."""
    count, reached = 0, -1
    for group in sorted(groups, key=lambda group: group.most):
        if group.least > reached:
            count, reached = count + 1, group.most
    return count


def best_strengths(groups: Sequence[Group], at_most: int) -> tuple[int, ...] | None:
    """Give the strengths of least cost, weakest first; None if no choice serves all."""
    if not groups:
        return ()
    found = best_by_count(groups, at_most)
    return found[-1][1] if found and found[-1][1] else None


def best_by_count(groups: Sequence[Group], at_most: int) -> list[Choice]:
    """Give the best choice of at most 1, 2, … strengths, each with its cost.

    A choice is empty where so few strengths cannot serve all. The list is shorter than
    ``at_most`` where there are fewer strengths to choose from.
    """
    candidates = _candidates(groups)
    pairs = _pair_costs(groups, candidates)
    layers: list[Layer] = [{0: (NOTHING, 0)}]
    best: Choice = (IMPOSSIBLE, ())
    found: list[Choice] = []
    for _ in range(min(at_most, len(candidates))):
        layers.append(_step(layers[-1], pairs))
        total, end = _ending(layers[-1], pairs)
        if clearly_less(total, best[0]):
            walk = _walk_back(layers, end)
            best = total, tuple(candidates[column - 1] for column in walk)
        found.append(best)
    return found


def _candidates(groups: Iterable[Group]) -> list[int]:
    """Give the strengths worth trying: beside a wish, and the ends of what is taken."""
    found: set[int] = set()
    for group in groups:
        beside = (group.half_ppm_n // 2, group.half_ppm_n // 2 + 1)
        found |= {group.least, group.most}
        found |= {strength for strength in beside if group.accepts(strength)}
    return sorted(found)


def _pair_costs(groups: Sequence[Group], candidates: Sequence[int]) -> Pairs:
    """Give the cost of all groups between two neighbouring choices.

    Row 0 stands for "nothing weaker chosen", the last column for "nothing stronger
    chosen"; candidate i stands at i + 1.
    """
    ordered = sorted(groups, key=lambda group: (group.pivot, group.half_ppm_n))
    past = _columns_past(candidates)
    left = [(group, past[group.pivot]) for group in ordered]
    rows = [_row(None, left, candidates, past)]
    start = 0
    for weaker in candidates:
        while start < len(ordered) and ordered[start].pivot < weaker:
            start += 1
        rows.append(_row(weaker, left[start:], candidates, past))
    return rows


def _columns_past(candidates: Sequence[int]) -> list[int]:
    """Give for each whole strength, from 0 on, the first column above it."""
    most = candidates[-1] if candidates else 0
    return [bisect_right(candidates, strength) + 1 for strength in range(most + 1)]


def _row(
    weaker: int | None,
    groups: Iterable[tuple[Group, int]],
    candidates: Sequence[int],
    past: Sequence[int],
) -> list[Cost]:
    """Give the costs of one weaker choice with each stronger one.

    A group counts from the first column past its pivot: served from above until its
    turning point, from below after it. It is entered and taken out once, and running
    sums give every column. A group that cannot be served bars all columns after.
    """
    columns = len(candidates) + 2
    above_l, above_lp, above_n, above_np, below_l, below_n = changes = [
        [0.0] * columns for _ in range(6)
    ]
    barred = columns
    for group, enter in groups:
        if enter >= barred:
            break
        taken = weaker is not None and group.least <= weaker <= group.most
        rather = group.half_ppm_n - weaker if taken and weaker else group.most
        turn = past[max(0, min(group.most, rather))]  # beyond it the weaker is nearer
        if turn > enter:
            above_l[enter] += group.litres
            above_l[turn] -= group.litres
            above_lp[enter] += group.litres_per_ppm
            above_lp[turn] -= group.litres_per_ppm
            above_n[enter] += group.plants
            above_n[turn] -= group.plants
            above_np[enter] += group.plants_per_ppm
            above_np[turn] -= group.plants_per_ppm
        else:
            turn = enter
        if weaker is None or not taken:
            barred = min(barred, turn)
        else:
            by_litres, by_plants = group.cost(weaker)
            below_l[turn] += by_litres
            below_n[turn] += by_plants
    own = 0 if weaker is None else past[weaker] - 1
    return _columns(changes, candidates, own, barred)


def _columns(
    changes: list[list[float]], candidates: Sequence[int], own: int, barred: int
) -> list[Cost]:
    """Turn the booked changes into a cost for each column past the row's own."""
    booked = [accumulate(change[own:barred]) for change in changes]
    costs = [
        (bl + y * alp - al, bn + y * anp - an) if y else (bl, bn)
        for y, al, alp, an, anp, bl, bn in zip(
            (0, *candidates, 0)[own:barred], *booked, strict=True
        )
    ]
    after = len(candidates) + 2 - max(own, barred)
    return [IMPOSSIBLE] * own + costs + [IMPOSSIBLE] * after


def _step(layer: Layer, pairs: Pairs) -> Layer:
    """Choose one more strength: the cheapest way to end at each column."""
    found: Layer = {}
    for column in range(1, len(pairs)):
        best, previous = IMPOSSIBLE, -1
        for before, ((litres, plants), _) in layer.items():
            if before >= column:
                continue
            more_litres, more_plants = pairs[before][column]
            cost = (litres + more_litres, plants + more_plants)
            if cost < best:
                best, previous = cost, before
        if previous >= 0:
            found[column] = (best, previous)
    return found


def _ending(layer: Layer, pairs: Pairs) -> tuple[Cost, int]:
    """Give the least cost with nothing stronger chosen, and the last column."""
    best, end = IMPOSSIBLE, -1
    for column, ((litres, plants), _) in layer.items():
        more_litres, more_plants = pairs[column][-1]
        cost = (litres + more_litres, plants + more_plants)
        if cost < best:
            best, end = cost, column
    return best, end


def clearly_less(cost: Cost, other: Cost) -> bool:
    """Tell whether a cost is less by more than the dust of floating point."""
    if abs(cost[0] - other[0]) > DUST * max(1.0, cost[0]):
        return cost[0] < other[0]
    return cost[1] < other[1] - DUST * max(1.0, cost[1])


def _walk_back(layers: list[Layer], end: int) -> list[int]:
    """Give the chosen columns, weakest first."""
    walk = [end]
    for layer in reversed(layers[2:]):
        walk.append(layer[walk[-1]][1])
    return walk[::-1]
