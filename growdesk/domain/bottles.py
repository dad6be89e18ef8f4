"""The way out of a stock that would fall out: the fewest bottles, or more water.

Which two products do not stand together is asked of each pair alone; the fewest bottles
are then found exactly, by trying one bottle, two, three. Order of adding is here too,
since a jug is mixed by the same knowledge.
"""

from __future__ import annotations

from enum import StrEnum
from itertools import combinations
from typing import TYPE_CHECKING, Final

from msgspec import Struct

from growdesk.domain.keeping_apart import Rule, Where, refused

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from growdesk.domain.product import Product
    from growdesk.domain.solubility import Room
    from growdesk.domain.stock_ions import Parts
    from growdesk.domain.water_analysis import WaterAnalysis

MOST_WATER: Final = 20.0
"""Past so many times the bottle more water is no way out worth telling."""

_HALVINGS: Final = 40
_OWN_FAULT: Final = frozenset({Rule.OVER})


class WayOut(Struct, frozen=True):
    """Bottles that each stay clear, and the litres in which all of it would.

    ``bottles`` is empty where dividing does not help, ``litres`` None where water does
    not, or not within reason.
    """

    bottles: tuple[tuple[Product, ...], ...] = ()
    litres: float | None = None


class Add(StrEnum):
    """A step of mixing."""

    WATER = "water"
    FIRST = "first"
    STIR_IN = "stir-in"
    CALCIUM_LAST = "calcium-last"
    FILL_UP = "fill-up"


class Step(Struct, frozen=True):
    """One step of mixing, with its product where it has one."""

    add: Add
    product: Product | None = None


def way_out(parts: Parts, water: WaterAnalysis, room: Room, volume_l: float) -> WayOut:
    """Give how a refused stock of this volume can be made after all."""
    used = tuple((product, grams) for product, grams in parts if grams > 0)
    if not refused(used, water, room):
        return WayOut()
    return WayOut(_bottles(used, water, room), _litres(used, water, room, volume_l))


def mixing_order(products: Iterable[Product]) -> tuple[Step, ...]:
    """Give the order in which products go into a jug or bottle.

    Most of the water first; phosphates and sulphates are dissolved before calcium.
    """
    named = list(products)
    calcium = [each for each in named if _holds(each, "Ca")]
    rest = [each for each in named if each not in calcium]
    rest.sort(key=lambda each: not (_holds(each, "P") or _holds(each, "S")))
    steps = [Step(Add.WATER)]
    steps += [
        Step(Add.STIR_IN if number else Add.FIRST, each)
        for number, each in enumerate(rest)
    ]
    steps += [Step(Add.CALCIUM_LAST if rest else Add.FIRST, each) for each in calcium]
    return (*steps, Step(Add.FILL_UP))


def _holds(product: Product, element: str) -> bool:
    return product.analysis.elements_percent().get(element, 0.0) > 0


def _bottles(
    parts: Parts, water: WaterAnalysis, room: Room
) -> tuple[tuple[Product, ...], ...]:
    """Give the fewest bottles in which nothing meets what it falls out with."""
    count = len(parts)
    alone = [_faults((part,), water, room) for part in parts]
    if count < 2 or any(fault - _OWN_FAULT for fault in alone):
        return ()
    apart = {
        (one, other)
        for one, other in combinations(range(count), 2)
        if _faults((parts[one], parts[other]), water, room) - alone[one] - alone[other]
    }
    for bottles in range(1, count + 1):
        chosen = _coloured(count, apart, bottles)
        if chosen is None:
            continue
        divided = tuple(
            tuple(parts[i] for i in range(count) if chosen[i] == bottle)
            for bottle in range(bottles)
        )
        if bottles > 1 and not any(refused(each, water, room) for each in divided):
            return tuple(tuple(product for product, _ in each) for each in divided)
    return ()


def _faults(parts: Parts, water: WaterAnalysis, room: Room) -> set[Rule]:
    return {each.rule for each in refused(parts, water, room)}


def _coloured(
    count: int, apart: set[tuple[int, int]], bottles: int
) -> Sequence[int] | None:
    """Give a bottle for each product with none beside what it is kept apart from."""

    def place(chosen: list[int]) -> list[int] | None:
        number = len(chosen)
        if number == count:
            return chosen
        opened = max(chosen, default=-1) + 1
        for bottle in range(min(opened + 1, bottles)):
            beside = (i for i in range(number) if chosen[i] == bottle)
            if any((i, number) in apart for i in beside):
                continue
            found = place([*chosen, bottle])
            if found is not None:
                return found
        return None

    return place([])


def _litres(
    parts: Parts, water: WaterAnalysis, room: Room, volume_l: float
) -> float | None:
    """Give the least litres that keep all of it clear, by halving."""

    def is_clear(times: float) -> bool:
        thinner = tuple((product, grams / times) for product, grams in parts)
        return not refused(thinner, water, room, Where.STOCK)

    low, high = 1.0, MOST_WATER
    if not is_clear(high):
        return None
    for _ in range(_HALVINGS):
        middle = (low * high) ** 0.5
        low, high = (low, middle) if is_clear(middle) else (middle, high)
        if high / low < 1.004:
            break
    return high * volume_l
