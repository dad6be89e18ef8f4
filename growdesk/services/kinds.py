"""The kind table as shipped, read once."""

from __future__ import annotations

from functools import cache

from growdesk import assets
from growdesk.domain.kinds import KindTable, parse_table


@cache
def table() -> KindTable:
    """Give the shipped kinds and the names that lead to them."""
    return parse_table(assets.read_text("kinds.csv"), assets.read_text("genera.csv"))
