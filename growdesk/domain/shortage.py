"""What runs short before a round: what the rest still makes, and what could stand in.

A round's need is known by jug, in the order in which they are mixed. What is on hand
is handed in; the shelf is not known here.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from msgspec import Struct

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from growdesk.domain.product import Product

_SLIGHT = 0.005
"""What a jug may lack of a good without anybody being able to measure it."""
ALIKE = 0.9
"""From this likeness on one tin may stand in for another; ours."""
_COMPARED = ("N", "P", "K", "Ca", "Mg")


class JugNeed(Struct, frozen=True):
    """What one jug takes of a good, and its litres."""

    letter: str
    volume_l: float
    amount: float


class StandIn(Struct, frozen=True):
    """Another tin that could make the jugs; ``there`` is what is on hand of it."""

    name: str
    unit: str
    needed: float
    there: float


class Short(Struct, frozen=True):
    """A good that does not reach for a round.

    ``whole`` are the jugs that it still makes, ``part`` the next one and its litres.
    ``is_rest`` tells that part of the round is done already, ``is_overdrawn`` that by
    the record more went than there was.
    """

    name: str
    unit: str
    needed: float
    there: float
    is_rest: bool = False
    is_overdrawn: bool = False
    whole: tuple[str, ...] = ()
    part: tuple[str, float] | None = None
    stand_in: StandIn | None = None


def is_short(needed: float, there: float) -> bool:
    """Tell whether what is there falls short of what is needed, beyond measuring."""
    return needed - max(there, 0.0) > _SLIGHT * needed


def reaches(
    jugs: Iterable[JugNeed], there: float
) -> tuple[tuple[str, ...], tuple[str, float] | None]:
    """Give the jugs that an amount makes whole, and the next with the litres it makes.

    Jugs that take nothing of the good are left out.
    """
    whole: list[str] = []
    left = max(there, 0.0)
    for jug in jugs:
        if jug.amount <= 0:
            continue
        if is_short(jug.amount, left):
            litres = jug.volume_l * left / jug.amount
            return tuple(whole), (jug.letter, litres) if litres > 0 else None
        whole.append(jug.letter)
        left = max(left - jug.amount, 0.0)
    return tuple(whole), None


def alike(one: Product, other: Product) -> float:
    """Give how alike two products feed, from 0 to 1: the cosine of their elements."""
    ours, theirs = one.mg_per_g(), other.mg_per_g()
    dot = math.fsum(ours.get(e, 0.0) * theirs.get(e, 0.0) for e in _COMPARED)
    sizes = [
        math.sqrt(math.fsum(of.get(e, 0.0) ** 2 for e in _COMPARED))
        for of in (ours, theirs)
    ]
    return dot / (sizes[0] * sizes[1]) if all(sizes) else 0.0


def stand_in(
    product: Product, mass_g: float, others: Sequence[tuple[Product, float]]
) -> StandIn | None:
    """Give the tin most alike that reaches for the same nitrogen; None for none.

    ``others`` come with what is on hand of each, in g or, of a liquid, in mL.
    """
    nitrogen_mg = mass_g * product.mg_per_g().get("N", 0.0)
    found: list[tuple[float, StandIn]] = []
    for other, there in others:
        mg_per_g = other.mg_per_g().get("N", 0.0)
        if nitrogen_mg <= 0 or mg_per_g <= 0 or alike(product, other) < ALIKE:
            continue
        grams = nitrogen_mg / mg_per_g
        millilitres = other.volume_ml(grams)
        needed = grams if millilitres is None else millilitres
        if not is_short(needed, there):
            unit = "g" if millilitres is None else "mL"
            told = StandIn(other.name, unit, needed, there)
            found.append((alike(product, other), told))
    return max(found, key=lambda each: each[0])[1] if found else None
