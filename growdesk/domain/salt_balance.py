"""A pot as a store of water and salts, followed from one watering to the next.

The balance behind the leaching fraction of FAO Irrigation & Drainage Paper 29 (Ayers &
Westcot 1985, from memory): what is poured in and does not drain, stays. Salts count as
EC times litres, in mS/cm at 25 °C, which is near enough to be added up. It knows no
plant, no day and no limit.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from msgspec import Struct
from msgspec.structs import replace

if TYPE_CHECKING:
    from collections.abc import Iterator


class Store(Struct, frozen=True):
    """The water a pot holds once it has drained, what is in it now, and its salts.

    Litres, and mS/cm times litres.
    """

    capacity_l: float
    water_l: float
    salts: float


class Poured(Struct, frozen=True):
    """A pot after a watering, and what ran out of it."""

    store: Store
    drained_l: float
    drained_salts: float


class Assumed(Struct, frozen=True):
    """What has to be assumed of a pot: shares from 0 to 1.

    ``drying`` is lost a day of the water it can hold, up to ``driest`` in all;
    ``uptake`` is what the plant takes of a feed's salts; ``mixing`` is the share of
    what runs through that takes the pot's own salts along.
    """

    drying: float
    driest: float
    uptake: float
    mixing: float


class Watering(Struct, frozen=True):
    """One watering: days since the one before, litres, EC of the water and of the feed.

    ``feed_ec`` is what the feed adds to ``water_ec``, in mS/cm.
    """

    days: int
    volume_l: float
    water_ec: float
    feed_ec: float = 0.0


def drained_at(capacity_l: float, ec: float) -> Store:
    """Give a pot just drained that holds all it can at an EC."""
    return Store(capacity_l, capacity_l, capacity_l * ec)


def dried(store: Store, days: int, assumed: Assumed) -> Store:
    """Give the pot after some days: water goes, salts stay."""
    driest_l = store.capacity_l * (1 - assumed.driest)
    left_l = store.water_l - store.capacity_l * assumed.drying * days
    water_l = min(store.water_l, max(left_l, driest_l))
    return Store(store.capacity_l, water_l, store.salts)


def poured(store: Store, volume_l: float, ec: float, mixing: float) -> Poured:
    """Pour water of an EC on a pot: it fills up first, then drains as it mixes.

    What drains at a steady rhythm holds on average ``ec`` over the leaching fraction,
    whatever the mixing: FAO 29, from memory.
    """
    taken_l = min(volume_l, store.capacity_l - store.water_l)
    salts = store.salts + taken_l * ec
    drained_l = volume_l - taken_l
    if drained_l <= 0:
        filled = Store(store.capacity_l, store.water_l + taken_l, salts)
        return Poured(filled, 0.0, 0.0)
    capacity_l = store.capacity_l
    kept = math.exp(-mixing * drained_l / capacity_l)
    left = capacity_l * ec + (salts - capacity_l * ec) * kept
    after = Store(capacity_l, capacity_l, left)
    return Poured(after, drained_l, salts + drained_l * ec - left)


def standing_ec(store: Store, water_ec: float) -> float:
    """Give what the pot's runoff would begin at, were it filled up with clear water."""
    room_l = store.capacity_l - store.water_l
    return (store.salts + room_l * water_ec) / store.capacity_l


def leach_l(
    store: Store, water_ec: float, goal_ec: float, mixing: float
) -> float | None:
    """Give the litres of clear water that bring a pot to an EC, in a mixed reservoir.

    None where that water cannot: its own EC is the goal or above it.
    """
    if goal_ec <= water_ec:
        return None
    stands = standing_ec(store, water_ec)
    if stands <= goal_ec:
        return 0.0
    ratio = (stands - water_ec) / (goal_ec - water_ec)
    through_l = store.capacity_l * math.log(ratio) / mixing
    return store.capacity_l - store.water_l + through_l


class Course(Struct, frozen=True):
    """What happened to a pot since its EC was last known, oldest first.

    ``idle_days`` lie between the last watering and the day asked for.
    """

    capacity_l: float
    starts: tuple[float, float, float]
    waterings: tuple[Watering, ...]
    idle_days: int
    water_ec: float
    usual: Assumed
    gentle: Assumed
    harsh: Assumed


class Ended(Struct, frozen=True):
    """Where a course ends: the pot as usually assumed, and the range of its EC."""

    store: Store
    ec: float
    low: float
    high: float


def followed(store: Store, course: Course, assumed: Assumed) -> Store:
    """Give the pot at the end of a course under one set of assumptions."""
    for each in course.waterings:
        ec = each.water_ec + each.feed_ec * (1 - assumed.uptake)
        pot = dried(store, each.days, assumed)
        store = poured(pot, each.volume_l, ec, assumed.mixing).store
    return dried(store, course.idle_days, assumed)


def usual_end(course: Course) -> Store:
    """Give the pot at the end of a course as it is usually assumed."""
    start = drained_at(course.capacity_l, course.starts[1])
    return followed(start, course, course.usual)


def end_of(course: Course) -> Ended:
    """Follow a course under every set of assumptions; give its usual end and range."""
    low_ec, _, high_ec = course.starts
    usual = usual_end(course)
    ec = standing_ec(usual, course.water_ec)
    found = [ec]
    for assumed in _extremes(course):
        for start in {low_ec, high_ec}:
            store = followed(drained_at(course.capacity_l, start), course, assumed)
            found.append(standing_ec(store, course.water_ec))
    return Ended(usual, ec, min(found), max(found))


def _extremes(course: Course) -> Iterator[Assumed]:
    """Give both sets, and each with the mixing of the other.

    Poor mixing keeps old salts in the pot and new ones out of it.
    """
    gentle, harsh = course.gentle, course.harsh
    yield from (gentle, harsh)
    yield replace(gentle, mixing=harsh.mixing)
    yield replace(harsh, mixing=gentle.mixing)
