"""Doses in the order in which they go into a jug: calcium last, apart from the rest.

``bottles.mixing_order`` has the order of products; here are the doses by it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.bottles import Add, mixing_order

if TYPE_CHECKING:
    from collections.abc import Sequence

    from growdesk.domain.measuring import Measured
    from growdesk.domain.product import Product


def in_order(doses: Sequence[Measured]) -> tuple[Measured, ...]:
    """Give the doses in mixing order."""
    first, last = steps(doses)
    places = {product: place for place, product in enumerate((*first, *last))}
    return tuple(sorted(doses, key=lambda dose: places[dose.product]))


def steps(doses: Sequence[Measured]) -> tuple[tuple[Product, ...], tuple[Product, ...]]:
    """Give what goes in first, and the calcium that goes in last, apart."""
    ordered = [
        step
        for step in mixing_order(dose.product for dose in doses)
        if step.product is not None
    ]
    first = [each.product for each in ordered if each.add is not Add.CALCIUM_LAST]
    last = [each.product for each in ordered if each.add is Add.CALCIUM_LAST]
    return tuple(filter(None, first)), tuple(filter(None, last))
