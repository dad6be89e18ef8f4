"""A dose too small for its tool, taken from a bottle of stock solution instead.

When a dose is too small is decided in ``measuring``, how a bottle is dosed from in
``stock_solution``; here one stands in for the other.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec.structs import replace

from growdesk.domain.measuring import MILLILITRES, MOST_LOADS, Trouble
from growdesk.domain.stock_solution import dose_from_stock

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from growdesk.domain.measuring import Measured, Tool
    from growdesk.domain.stock_solution import FromStock, Stock

_DUST = 1e-9


def from_bottle(
    dose: Measured,
    bottles: Sequence[Stock],
    tools: Sequence[Tool],
    *,
    never_over: bool = False,
) -> Measured:
    """Give the dose in mL of a bottle where it is too small to be measured as it is.

    The bottle that is read best is taken, of those that hold the product alone and
    should still hold enough; where none is read better the dose stays as it was. What
    is still off by more than the house allows is ``COARSE``.
    """
    if not dose.too_small:
        return dose
    found = [
        each
        for each in _from_each(dose, bottles, tools, never_over=never_over)
        if each.given_ml > 0 and each.is_enough and each.loads <= MOST_LOADS
    ]
    if not found:
        return dose
    best = _as_measured(dose, min(found, key=lambda each: each.half_step_share))
    return best if best.worst_g < dose.worst_g else dose


def _from_each(
    dose: Measured,
    bottles: Sequence[Stock],
    tools: Sequence[Tool],
    *,
    never_over: bool,
) -> Iterator[FromStock]:
    for bottle in bottles:
        held = bottle.product
        if held is not None and held.key == dose.product.key is not None:
            yield dose_from_stock(bottle, dose.mass_g, tools, never_over=never_over)


def _as_measured(dose: Measured, taken: FromStock) -> Measured:
    is_coarse = taken.half_step_share > dose.off_limit + _DUST
    return replace(
        dose,
        given_g=taken.given_g,
        amount=taken.given_ml,
        unit=MILLILITRES,
        tool=taken.tool,
        half_step_share=taken.half_step_share,
        loads=taken.loads,
        g_per_unit=taken.mass_g / taken.volume_ml,
        trouble=Trouble.COARSE if is_coarse else None,
        bottle=taken.stock.name,
        bottle_key=taken.stock.key,
    )
