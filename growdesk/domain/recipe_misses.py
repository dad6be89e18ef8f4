"""Which elements a solved recipe misses, why, and which salt would bring them nearer.

A miss is data; its sentence is made in ``recipe_words``. The salts tried are common
ones that hold nothing but nutrients; each is tried by solving once more with it.
"""

from __future__ import annotations

from enum import StrEnum
from functools import cache
from typing import TYPE_CHECKING, Final

from msgspec import Struct

from growdesk.domain.product import Product
from growdesk.domain.recipe_solving import solve_g_per_l, weighed_against
from growdesk.domain.salt_table import analysis_of
from growdesk.domain.speech import Phrases

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from growdesk.domain.analysis import Analysis

    Amounts = Mapping[str, float]

LEAST_TOLD_SHARE: Final = 0.05
"""Misses under a twentieth of what they are held against are not worth a sentence."""

_CURED_SHARE: Final = 0.5
"""A salt is named where it takes at least half of the miss away."""

TRIED: Final = Phrases(
    {
        "Ca(NO3)2.4H2O": "calcium nitrate",
        "KNO3": "potassium nitrate",
        "KH2PO4": "monopotassium phosphate",
        "MgSO4.7H2O": "Epsom salt",
        "K2SO4": "potassium sulphate",
        "Mg(NO3)2.6H2O": "magnesium nitrate",
        "NH4H2PO4": "monoammonium phosphate",
        "NH4NO3": "ammonium nitrate",
        "CaCl2.2H2O": "calcium chloride",
    }
)
"""Salts that may be named as a help, the more usual first."""


class Cause(StrEnum):
    """Why an element comes out other than wanted."""

    NOT_BROUGHT = "not-brought"
    HELD_BACK = "held-back"
    WATER = "water"
    TIED = "tied"


class Miss(Struct, frozen=True):
    """An element that comes out other than wanted, in mg/L.

    ``product`` brings most of what is too much; ``cure`` is a salt, by name, that would
    bring it within ``cured_mg_per_l`` of what is wanted.
    """

    element: str
    wanted_mg_per_l: float
    got_mg_per_l: float
    from_water_mg_per_l: float
    cause: Cause
    product: str = ""
    cure: str = ""
    cured_mg_per_l: float = 0.0

    @property
    def off_mg_per_l(self) -> float:
        """Give how far off it is, above nothing where it is too much."""
        return self.got_mg_per_l - self.wanted_mg_per_l


def misses(
    doses: Sequence[tuple[Product, float]], wanted: Amounts, from_water: Amounts
) -> tuple[Miss, ...]:
    """Give what is missed by more than a twentieth, in the order of the label."""
    against = weighed_against(wanted)
    off = _off(doses, wanted, from_water)
    told = [e for e in wanted if abs(off[e]) > LEAST_TOLD_SHARE * against[e]]
    if not told:
        return ()
    tried = _tried(doses, wanted, from_water)
    return tuple(_miss(e, off[e], doses, wanted, from_water, tried) for e in told)


def not_needed(doses: Iterable[tuple[Product, float]]) -> tuple[str, ...]:
    """Give the names of products of which nothing is taken."""
    return tuple(product.name for product, grams in doses if grams <= 0)


def _miss(
    element: str,
    off: float,
    doses: Sequence[tuple[Product, float]],
    wanted: Amounts,
    from_water: Amounts,
    tried: Sequence[tuple[str, Amounts]],
) -> Miss:
    water = from_water.get(element, 0.0)
    brought = [(grams * p.mg_per_g().get(element, 0.0), p.name) for p, grams in doses]
    if off < 0:
        holds = any(p.mg_per_g().get(element) for p, _ in doses)
        cause = Cause.HELD_BACK if holds else Cause.NOT_BROUGHT
        product = ""
    else:
        is_water = water - wanted[element] > off / 2
        cause = Cause.WATER if is_water else Cause.TIED
        product = "" if is_water else max(brought)[1]
    cure, left = ("", 0.0) if cause is Cause.WATER else _cure(element, off, tried)
    return Miss(
        element=element,
        wanted_mg_per_l=wanted[element],
        got_mg_per_l=wanted[element] + off,
        from_water_mg_per_l=water,
        cause=cause,
        product=product,
        cure=cure,
        cured_mg_per_l=left,
    )


def _cure(
    element: str, off: float, tried: Sequence[tuple[str, Amounts]]
) -> tuple[str, float]:
    """Give the salt under which all comes nearest, where this element does too."""
    for name, found in tried:
        if abs(found[element]) <= _CURED_SHARE * abs(off):
            return name, abs(found[element])
    return "", 0.0


def _tried(
    doses: Sequence[tuple[Product, float]], wanted: Amounts, from_water: Amounts
) -> list[tuple[str, Amounts]]:
    """Solve once with each salt that is not there yet; the nearest first."""
    there = [product for product, _ in doses]
    formulas = {product.formula for product in there}
    against = weighed_against(wanted)
    found: list[tuple[float, int, str, Amounts]] = []
    for salt in _salts():
        if salt.formula in formulas:
            continue
        products = (*there, salt)
        grams = solve_g_per_l(products, wanted, from_water)
        off = _off(list(zip(products, grams, strict=True)), wanted, from_water)
        far = sum((off[e] / against[e]) ** 2 for e in wanted)
        found.append((round(far, 9), len(found), salt.name, off))
    return [(name, off) for _far, _order, name, off in sorted(found, key=_nearest)]


def _nearest(tried: tuple[float, int, str, Amounts]) -> tuple[float, int]:
    return tried[:2]


def _off(
    doses: Sequence[tuple[Product, float]], wanted: Amounts, from_water: Amounts
) -> dict[str, float]:
    got = {
        element: from_water.get(element, 0.0)
        + sum(grams * p.mg_per_g().get(element, 0.0) for p, grams in doses)
        for element in wanted
    }
    return {element: got[element] - mg for element, mg in wanted.items()}


def _salts() -> tuple[Product, ...]:
    return tuple(
        Product(name, _analysis(formula), formula) for formula, name in TRIED.items()
    )


@cache
def _analysis(formula: str) -> Analysis:
    return analysis_of(formula)
