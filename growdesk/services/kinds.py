"""The kind table as shipped, read once, and the kind of a plant.

What a collection has otherwise is laid over it in ``growdesk.services.kind_rows``.
"""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

from growdesk import assets
from growdesk.domain.kind_corrections import fitting
from growdesk.domain.kinds import KindTable, parse_table

if TYPE_CHECKING:
    from growdesk.domain.facts import Plant
    from growdesk.domain.kinds import Kind


@cache
def table() -> KindTable:
    """Give the shipped kinds and the names that lead to them."""
    return parse_table(assets.read_text("kinds.csv"), assets.read_text("genera.csv"))


def kind_of(plant: Plant, kinds: KindTable | None = None) -> tuple[Kind, bool]:
    """Give a plant's kind, and whether it is known; else the careful general one.

    A kind that was given and is unknown is not guessed at by the plant's name.
    ``kinds`` is the table as corrected; the plant's own corrections go before it.
    """
    used = table() if kinds is None else kinds
    found = used.find(plant.kind or plant.name)
    kind = used.general if found is None else found
    if plant.kind_fields:
        kind, _unused = fitting(kind, dict(plant.kind_fields), here=True)
    return kind, found is not None
