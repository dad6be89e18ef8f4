"""The table of common single salts as shipped, read once."""

from __future__ import annotations

from functools import cache

from growdesk import assets
from growdesk.domain.salt_table import Salt, parse_salt_table


@cache
def salt_table() -> tuple[Salt, ...]:
    """Give the salts in the order in which they are offered."""
    return parse_salt_table(assets.read_text("salts.csv"))


def salt_named(formula: str) -> Salt | None:
    """Give the salt of a formula; None where the table has none."""
    return next((salt for salt in salt_table() if salt.formula == formula), None)
