"""The table of solubilities as shipped, read once, and the room of a collection."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

from growdesk import assets
from growdesk.domain.solubility import Room, parse_solubilities

if TYPE_CHECKING:
    from collections.abc import Mapping

    from growdesk.domain.facts import House
    from growdesk.domain.solubility import Salt


@cache
def solubilities() -> Mapping[str, Salt]:
    """Give the salts whose solubility is known, by formula."""
    return parse_solubilities(assets.read_text("solubility.csv"))


def room_of(house: House, coolest_c: float | None = None) -> Room:
    """Give where stocks are kept; the house says how cool where nothing else does."""
    cool = house.stock_coolest_c if coolest_c is None else coolest_c
    return Room(solubilities(), cool, house.stock_share)
