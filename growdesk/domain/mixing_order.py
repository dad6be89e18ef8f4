"""Doses in the order in which they go into a jug: calcium last, apart from the rest.

``bottles.mixing_order`` has the order of products; here are the doses by it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.bottles import Add, mixing_order

if TYPE_CHECKING:
    from collections.abc import Sequence

    from growdesk.domain.measuring import Measured


def in_order(doses: Sequence[Measured]) -> tuple[Measured, ...]:
    """Give the doses in mixing order."""
    first, last = steps(doses)
    return (*first, *last)


def steps(
    doses: Sequence[Measured],
) -> tuple[tuple[Measured, ...], tuple[Measured, ...]]:
    """Give what goes in first, and the calcium that goes in last, apart."""
    ordered = [
        step
        for step in mixing_order(dose.product for dose in doses)
        if step.product is not None
    ]
    last = {each.product for each in ordered if each.add is Add.CALCIUM_LAST}
    places = {each.product: place for place, each in enumerate(ordered)}
    found = sorted(doses, key=lambda dose: places[dose.product])
    return (
        tuple(dose for dose in found if dose.product not in last),
        tuple(dose for dose in found if dose.product in last),
    )
