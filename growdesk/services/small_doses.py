"""Doses too small for the tools at hand: from a bottle there is, or one to make."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec.structs import replace

from growdesk.domain.from_bottle import from_bottle
from growdesk.domain.measure_words import trouble, what_is_wrong
from growdesk.domain.stock_proposals import proposed_stock
from growdesk.domain.stock_solution import dose_from_stock
from growdesk.domain.stock_words import proposed_text
from growdesk.services.jug_values import BottleToMake
from growdesk.services.solubilities import room_of
from growdesk.services.stock_rows import stocks_of

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from growdesk.domain.facts import House
    from growdesk.domain.measuring import Measured, Tool
    from growdesk.domain.product import Product
    from growdesk.domain.stock_proposals import Proposed
    from growdesk.services.shelf import Shelf
    from growdesk.services.values import Jug


def from_bottles(
    doses: Sequence[Measured], shelf: Shelf, *, never_over: bool = False
) -> tuple[Measured, ...]:
    """Give the doses, those too small in mL of a bottle on the shelf that holds them.

    What is left in a bottle goes by the day of the shelf.
    """
    if not any(dose.too_small for dose in doses):
        return tuple(doses)
    bottles = stocks_of(shelf, shelf.on)
    return tuple(
        from_bottle(dose, bottles, shelf.tools, never_over=never_over) for dose in doses
    )


def with_proposals(jugs: Sequence[Jug], house: House, shelf: Shelf) -> tuple[Jug, ...]:
    """Give the jugs, each told which bottle is worth making for what is too small.

    One bottle of a product serves all jugs of the round: it is made for the least dose.
    """
    bottles = _proposed(jugs, house, shelf)
    return tuple(_with_proposal(jug, bottles, shelf.tools) for jug in jugs)


def bottles_to_make(
    jugs: Sequence[Jug], house: House, shelf: Shelf
) -> tuple[BottleToMake, ...]:
    """Give the bottles that ``with_proposals`` tells of, of tins on the shelf."""
    return tuple(
        BottleToMake(
            product.key,
            product.name,
            product.volume_ml(made.weighed.given_g) or made.weighed.given_g,
            made.volume_l,
        )
        for product, made in _proposed(jugs, house, shelf).items()
        if made is not None and product.key is not None
    )


def _proposed(
    jugs: Sequence[Jug], house: House, shelf: Shelf
) -> Mapping[Product, Proposed | None]:
    least: dict[Product, Measured] = {}
    for dose in (dose for jug in jugs for dose in _too_small(jug)):
        known = least.get(dose.product)
        if known is None or dose.mass_g < known.mass_g:
            least[dose.product] = dose
    return {
        product: proposed_stock(
            product, dose.mass_g, shelf.tools, room_of(house), dose.off_limit
        )
        for product, dose in least.items()
    }


def _with_proposal(
    jug: Jug, bottles: Mapping[Product, Proposed | None], tools: Sequence[Tool]
) -> Jug:
    """Put the bottle in the place of the ways out that name none."""
    told: dict[str, str] = {}
    for dose in _too_small(jug):
        made = bottles[dose.product]
        if made is None:
            continue
        taken = dose_from_stock(made.dose.stock, dose.mass_g, tools)
        if taken.given_ml <= made.volume_l * 1000:
            said = proposed_text(replace(made, dose=taken))
            told[trouble(dose)] = f"{what_is_wrong(dose)} {said}"
    if not told:
        return jug
    return replace(jug, warnings=tuple(told.get(w, w) for w in jug.warnings))


def _too_small(jug: Jug) -> tuple[Measured, ...]:
    """Give the doses too small to be measured well, of each mix where there are any."""
    parts = [each.doses for each in jug.fills] or [jug.doses]
    return tuple(dose for doses in parts for dose in doses if dose.too_small)
