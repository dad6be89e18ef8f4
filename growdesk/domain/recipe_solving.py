"""How much of each product comes nearest to what is wanted, none of it less than none.

Nitrogen is met exactly, since a feed's strength is its nitrogen. The other elements are
met as nearly as may be in least squares, each miss against what is wanted of it. What
the water brings is taken off first. What the answer means in words is not told here.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from growdesk.domain.least_squares import least_not_negative

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from growdesk.domain.product import Product

LEAST_WANTED_SHARE_OF_N = 0.1
"""A miss is held against the wanted amount, and never against less than this part of
the nitrogen, so that an element of which little or none is wanted does not rule the
rest. House practice, no source."""

_DUST = 1e-9


def weighed_against(wanted_mg_per_l: Mapping[str, float]) -> dict[str, float]:
    """Give the mg/L that a miss of each element is held against."""
    least = LEAST_WANTED_SHARE_OF_N * wanted_mg_per_l["N"]
    return {element: max(mg, least) for element, mg in wanted_mg_per_l.items()}


def solve_g_per_l(
    products: Sequence[Product],
    wanted_mg_per_l: Mapping[str, float],
    from_water_mg_per_l: Mapping[str, float],
) -> tuple[float, ...]:
    """Give the grams of each product in a litre; elements not wanted do not matter.

    Where the water alone has the nitrogen, products that hold any are left out. One
    product at least must hold nitrogen where some is still needed.
    """
    needed = wanted_mg_per_l["N"] - from_water_mg_per_l.get("N", 0.0)
    if needed > 0:
        return _with_nitrogen(products, wanted_mg_per_l, from_water_mg_per_l, needed)
    free = [product for product in products if not product.mg_per_g().get("N")]
    solved = iter(_solved(*_misses(free, wanted_mg_per_l, from_water_mg_per_l)))
    return tuple(
        0.0 if product.mg_per_g().get("N") else next(solved, 0.0)
        for product in products
    )


def _with_nitrogen(
    products: Sequence[Product],
    wanted_mg_per_l: Mapping[str, float],
    from_water_mg_per_l: Mapping[str, float],
    needed: float,
) -> tuple[float, ...]:
    """Solve with the nitrogen as an equality, without a heavy weight.

    With n the nitrogen of each product over what is needed, n·x = 1, so that the miss
    A x - b is (A - b n) x: a form without a constant, M x. Its least on n·x = 1 lies
    along the x that makes ``|M x|² + (n·x - 1)²`` least over all x not below nothing:
    for x = s y with n·y = 1 that is s²q + (s - 1)², least over s at q/(1 + q), which
    rises with q = ``|M y|²``. So one NNLS gives x, and it is scaled to n·x = 1.
    """
    amounts, lacking = _misses(products, wanted_mg_per_l, from_water_mg_per_l)
    nitrogen = [product.mg_per_g().get("N", 0.0) / needed for product in products]
    rows = [
        [amount - lack * n for amount, n in zip(row, nitrogen, strict=True)]
        for row, lack in zip(amounts, lacking, strict=True)
    ]
    found = _solved([*rows, nitrogen], [0.0] * len(rows) + [1.0])
    scale = 1.0 / math.fsum(n * x for n, x in zip(nitrogen, found, strict=True))
    least = _DUST * scale * math.fsum(found)
    return tuple(0.0 if x * scale < least else x * scale for x in found)


def _misses(
    products: Sequence[Product],
    wanted_mg_per_l: Mapping[str, float],
    from_water_mg_per_l: Mapping[str, float],
) -> tuple[list[list[float]], list[float]]:
    """Give what a gram of each product brings, and what is lacking, both weighed."""
    against = weighed_against(wanted_mg_per_l)
    elements = [element for element in wanted_mg_per_l if element != "N"]
    brings = [product.mg_per_g() for product in products]
    amounts = [[each.get(e, 0.0) / against[e] for each in brings] for e in elements]
    lacking = [
        (wanted_mg_per_l[e] - from_water_mg_per_l.get(e, 0.0)) / against[e]
        for e in elements
    ]
    return amounts, lacking


def _solved(matrix: list[list[float]], right: list[float]) -> list[float]:
    return least_not_negative(list(zip(*matrix, strict=True)), right)
