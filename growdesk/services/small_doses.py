"""Doses too small for the tools at hand: from a bottle there is, or one to make."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

from growdesk.domain.from_bottle import from_bottle
from growdesk.domain.stock_solution import proposed_stock
from growdesk.domain.stock_words import proposed_text
from growdesk.services.solubilities import room_of
from growdesk.services.stock_rows import stocks_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from growdesk.domain.facts import House
    from growdesk.domain.measuring import Measured
    from growdesk.services.shelf import Shelf


def from_bottles(
    doses: Sequence[Measured], shelf: Shelf, *, never_over: bool = False
) -> tuple[Measured, ...]:
    """Give the doses, those too small in mL of a bottle on the shelf that holds them.

    What is left in a bottle goes by all that is on record.
    """
    if not any(dose.too_small for dose in doses):
        return tuple(doses)
    bottles = stocks_of(shelf, date.max)
    return tuple(
        from_bottle(dose, bottles, shelf.tools, never_over=never_over) for dose in doses
    )


def proposal(dose: Measured, house: House, shelf: Shelf) -> str:
    """Say which bottle is worth making for a dose too small; nothing where none is."""
    if not dose.too_small:
        return ""
    made = proposed_stock(
        dose.product, dose.mass_g, shelf.tools, room_of(house), dose.off_limit
    )
    return "" if made is None else proposed_text(made)
