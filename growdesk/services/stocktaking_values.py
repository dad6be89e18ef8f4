"""Frozen values of the shelf: what is on hand, its entries, and what was used.

Amounts are in the good's unit: g of a dry tin, mL of a liquid or a stock solution, L of
a water. Prices are bare numbers; the currency is the grower's word.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct

if TYPE_CHECKING:
    from datetime import date

    from growdesk.domain.stocktaking import Good, OnHand, Rate, What


class ShelfRow(Struct, frozen=True):
    """One good on the shelf.

    ``hand`` is None where nothing was ever entered. ``needed`` is what the next round
    takes of it, and ``is_short`` tells that it does not reach. ``days_left`` is None
    beyond two years, or where nothing is used or counted. ``unit_price`` is of one g,
    mL or L; ``cost_round`` and ``cost_year`` go by it, and all three are None without
    a price. The texts say the same in words.
    """

    good: Good
    name: str
    unit: str
    in_use: bool
    hand: OnHand | None
    rate: Rate
    needed: float
    is_short: bool
    days_left: int | None
    lasts_until: date | None
    unit_price: float | None
    cost_round: float | None
    cost_year: float | None
    capacity_l: float | None
    began: str
    rate_told: str
    lasts_told: str


class ShelfView(Struct, frozen=True):
    """All that stands on the shelf, as of a day.

    ``round_on`` is the next round, ``short`` what runs short for it. The costs are of
    all that has a price; None where nothing has one. ``unpriced`` are used without one.
    """

    on: date
    round_on: date
    rows: tuple[ShelfRow, ...]
    short: tuple[str, ...]
    currency: str
    cost_round: float | None
    cost_year: float | None
    unpriced: tuple[str, ...]


class EntryDraft(Struct, frozen=True):
    """A count, or what came in, as a form holds it; a price only of what came in."""

    good: Good
    on: date
    what: What
    amount: float
    after_round: bool = True
    price: float | None = None
    note: str = ""


class EntryView(Struct, frozen=True):
    """An entry with its number."""

    entry_id: int
    draft: EntryDraft
