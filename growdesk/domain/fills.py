"""A batch split into mixes that fit the grower's jugs, and carried in his cans.

The fewest mixes come first; then those that a jug's scale can show, the fewest walks
with a can, the least left over, and mixes as equal as the scale shows. All of it is
tried, in whole steps of the scale; so it is exact. A jug without a scale shows one
thing only, that it is full. Nothing is known here of products and strengths.
"""

from __future__ import annotations

import math
from itertools import combinations_with_replacement
from typing import TYPE_CHECKING, TypeAlias

from msgspec import Struct

from growdesk.domain.vessels import Vessel, VesselKind

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

_MOST_TRIED = 6
"""With more mixes than this, or more canfuls in one, walks with a can are not saved."""
_DUST_ML = 1e-6

Ranked: TypeAlias = "tuple[tuple[float, ...], tuple[Fill, ...]]"


class Fill(Struct, frozen=True):
    """One mix: its litres, the vessel it is mixed in, how many cans carry it.

    ``is_read`` tells whether the vessel shows so much, by its scale or by being full.
    """

    volume_l: float
    vessel: Vessel
    cans: int = 1
    is_read: bool = True


def mixing_vessels(vessels: Iterable[Vessel]) -> tuple[Vessel, ...]:
    """Give what feed is mixed in: the jugs, or the cans where there is no jug."""
    found = tuple(vessel for vessel in vessels if vessel.volume_l > 0)
    jugs = tuple(each for each in found if each.kind is VesselKind.JUG)
    return jugs or tuple(each for each in found if each.kind is VesselKind.CAN)


def fills(volume_l: float, vessels: Sequence[Vessel]) -> tuple[Fill, ...]:
    """Give the mixes of a batch, largest first; none where no vessel is known."""
    mixed_in = mixing_vessels(vessels)
    needed_ml = volume_l * 1000
    if not mixed_in or needed_ml <= _DUST_ML:
        return ()
    can = carrying_can(vessels)
    can_ml = math.inf if can is None else can.volume_l * 1000
    tried = [each for vessel in mixed_in for each in _of(vessel, needed_ml, can_ml)]
    tried += [
        each for vessel in mixed_in for each in _full(vessel, mixed_in, needed_ml)
    ]
    ranked = [_ranked(each, needed_ml, can_ml) for each in tried]
    return min(ranked, key=lambda each: each[0])[1]


def fills_at_once(
    volumes_l: Sequence[float], vessels: Sequence[Vessel]
) -> tuple[tuple[Fill, ...], ...]:
    """Give the mixes of batches that stand ready together, each in jugs of its own.

    The largest batch chooses first. A jug is rinsed and used again only where another
    would take more mixes or could not show them.
    """
    free = {vessel: vessel.how_many for vessel in mixing_vessels(vessels)}
    found: dict[int, tuple[Fill, ...]] = {}
    for index in sorted(range(len(volumes_l)), key=lambda i: (-volumes_l[i], i)):
        volume_l = volumes_l[index]
        chosen = fills(volume_l, vessels)
        own = fills(volume_l, [each for each in vessels if free.get(each, 1) > 0])
        if own and own[0].vessel in free and _trouble(own) <= _trouble(chosen):
            chosen = own
        for vessel in {fill.vessel for fill in chosen}:
            free[vessel] -= 1
        found[index] = chosen
    return tuple(found[index] for index in range(len(volumes_l)))


def _trouble(found: Sequence[Fill]) -> tuple[int, int]:
    return len(found), sum(not each.is_read for each in found)


def carrying_can(vessels: Iterable[Vessel]) -> Vessel | None:
    """Give the largest can; None where feed is mixed in cans, or there is none."""
    found = tuple(vessels)
    if any(each.kind is VesselKind.JUG for each in found):
        cans = (each for each in found if each.kind is VesselKind.CAN)
        return max(cans, key=lambda can: can.volume_l, default=None)
    return None


def _of(vessel: Vessel, needed_ml: float, can_ml: float) -> Iterator[tuple[Fill, ...]]:
    """Give splits into readings of one vessel's scale that hold just enough."""
    step_ml = _step_ml(vessel)
    if step_ml is None:
        return
    steps = math.ceil(needed_ml / step_ml - _DUST_ML)
    most = math.floor(vessel.volume_l * 1000 / step_ml + _DUST_ML)
    count = math.ceil(steps / most)
    for limits in _limits(count, most, can_ml / step_ml):
        split = _most_equal(steps, limits)
        if split:
            yield tuple(Fill(each * step_ml / 1000, vessel) for each in split)


def _limits(count: int, most: int, can_steps: float) -> Iterator[tuple[int, ...]]:
    """Give the most that each mix may hold, for each way to load the cans."""
    yield (most,) * count
    if not 1 <= can_steps < most or count > _MOST_TRIED:
        return
    loads = range(1, math.ceil(most / can_steps) + 1)
    if len(loads) > _MOST_TRIED:
        return
    tops = [min(most, math.floor(load * can_steps + _DUST_ML)) for load in loads]
    yield from combinations_with_replacement(tops, count)


def _most_equal(steps: int, limits: Sequence[int]) -> tuple[int, ...]:
    """Share steps out as equally as the limits let it be, largest first."""
    if sum(limits) < steps:
        return ()
    left, found = steps, []
    for index, limit in enumerate(sorted(limits)):
        share = min(limit, left // (len(limits) - index))
        found.append(share)
        left -= share
    return tuple(sorted(found, reverse=True)) if min(found) > 0 else ()


def _full(
    vessel: Vessel, vessels: Sequence[Vessel], needed_ml: float
) -> Iterator[tuple[Fill, ...]]:
    """Give full vessels and a rest, for a vessel without a scale."""
    if _step_ml(vessel) is not None:
        return
    count = math.floor(needed_ml / 1000 / vessel.volume_l + _DUST_ML)
    full = (Fill(vessel.volume_l, vessel),) * count
    rest_l = round(needed_ml / 1000 - count * vessel.volume_l, 6)
    if rest_l <= 0:
        yield full
        return
    for other in vessels:
        read = _read(other, rest_l)
        if read is not None:
            yield (*full, read)


def _read(vessel: Vessel, volume_l: float) -> Fill | None:
    """Give the least that a vessel shows and that is enough; None where it overflows.

    Without a scale the volume is measured some other way.
    """
    step_ml = _step_ml(vessel)
    if step_ml is not None:
        steps = math.ceil(volume_l * 1000 / step_ml - _DUST_ML)
        volume_l = steps * step_ml / 1000
    if volume_l > vessel.volume_l + _DUST_ML:
        return None
    is_full = volume_l >= vessel.volume_l - _DUST_ML
    return Fill(volume_l, vessel, is_read=is_full or step_ml is not None)


def _step_ml(vessel: Vessel) -> float | None:
    """Give the step of a scale that shows something; else None."""
    step_ml = vessel.step_ml
    if step_ml is None or step_ml <= 0 or step_ml > vessel.volume_l * 1000 + _DUST_ML:
        return None
    return step_ml


def _ranked(found: Sequence[Fill], needed_ml: float, can_ml: float) -> Ranked:
    """Give a split, with its cans, under what it is chosen by."""
    carried = tuple(
        Fill(each.volume_l, each.vessel, _cans(each.volume_l, can_ml), each.is_read)
        for each in sorted(found, key=lambda each: -each.volume_l)
    )
    volumes = [each.volume_l for each in carried]
    rank = (
        len(carried),
        sum(not each.is_read for each in carried),
        sum(each.cans for each in carried),
        round(math.fsum(volumes) * 1000 - needed_ml, 3),
        round((max(volumes) - min(volumes)) * 1000, 3),
        max(each.vessel.volume_l for each in carried),
        sum(each.vessel.volume_l for each in carried),
    )
    return rank, carried


def _cans(volume_l: float, can_ml: float) -> int:
    return max(1, math.ceil(volume_l * 1000 / can_ml - _DUST_ML))
