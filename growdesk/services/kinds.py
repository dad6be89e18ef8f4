"""The kind table as shipped, read once."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

from growdesk import assets
from growdesk.domain.kinds import KindTable, parse_table

if TYPE_CHECKING:
    from growdesk.domain.facts import Plant
    from growdesk.domain.kinds import Kind


@cache
def table() -> KindTable:
    """Give the shipped kinds and the names that lead to them."""
    return parse_table(assets.read_text("kinds.csv"), assets.read_text("genera.csv"))


def kind_of(plant: Plant) -> tuple[Kind, bool]:
    """Give a plant's kind, and whether it is known; else the careful general one.

    A kind that was given and is unknown is not guessed at by the plant's name.
    """
    found = table().find(plant.kind or plant.name)
    return (table().general, False) if found is None else (found, True)
