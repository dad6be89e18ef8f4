"""A shelf for the window's tests: a tin that is short, a barrel, a bottle uncounted."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

from growdesk.domain.stocktaking import Basis, Entry, Good, OnHand, Rate, Sort, What
from growdesk.services.stocktaking_values import (
    EntryDraft,
    EntryView,
    ShelfRow,
    ShelfView,
)
from growdesk.ui.dialogs.shelf_entry import EntryStart

if TYPE_CHECKING:
    from growdesk.services.stocktaking_values import EntryDraft as Draft

ON = date(2026, 5, 20)
TIN, BOTTLE = Good(Sort.TIN, 1), Good(Sort.STOCK, 2)
BARREL = Good(Sort.WATER, 3)


def shelf_view() -> ShelfView:
    """Give the three rows with what they cost."""
    return ShelfView(
        on=ON,
        round_on=ON,
        rows=(
            ShelfRow(
                good=TIN,
                name="Green tin",
                unit="g",
                in_use=True,
                hand=OnHand(9.0, Entry(ON, What.COUNTED, 9.0, after_round=False)),
                rate=Rate(14.0, Basis.RECENT),
                needed=14.0,
                is_short=True,
                days_left=4,
                lasts_until=date(2026, 5, 24),
                unit_price=0.0125,
                cost_round=0.175,
                cost_year=9.1,
                capacity_l=None,
                began="Counted today: 9 g, before the round.",
                rate_told="14 g a week, as in the last eight weeks.",
                lasts_told="Lasts until about 24 May, 4 days from now.",
            ),
            ShelfRow(
                good=BOTTLE,
                name="Epsom bottle",
                unit="mL",
                in_use=False,
                hand=None,
                rate=Rate(0.0, Basis.PLAN),
                needed=0.0,
                is_short=False,
                days_left=None,
                lasts_until=None,
                unit_price=None,
                cost_round=None,
                cost_year=None,
                capacity_l=None,
                began="Not counted yet.",
                rate_told="Not used now.",
                lasts_told="",
            ),
            ShelfRow(
                good=BARREL,
                name="Rain barrel",
                unit="L",
                in_use=True,
                hand=OnHand(120.4, Entry(ON, What.COUNTED, 150.0)),
                rate=Rate(0.3, Basis.PLAN),
                needed=8.9,
                is_short=False,
                days_left=None,
                lasts_until=None,
                unit_price=None,
                cost_round=None,
                cost_year=None,
                capacity_l=200.0,
                began="Counted today: 150 L, after the round.",
                rate_told="300 mL a week, as planned now.",
                lasts_told="Lasts more than two years.",
            ),
        ),
        short=("Green tin runs short: the round needs 14 g, 9 g is on hand.",),
        currency="EUR",
        cost_round=0.175,
        cost_year=9.1,
        unpriced=("Epsom bottle",),
    )


def counted() -> Draft:
    """Give a count as it is kept."""
    return EntryDraft(TIN, ON, What.COUNTED, 420.0, note="with the kitchen scale")


def entry_views() -> tuple[EntryView, ...]:
    """Give a count and what came in before it."""
    bought = EntryDraft(TIN, date(2026, 5, 1), What.ADDED, 1000.0, False, 14.5)
    return EntryView(7, counted()), EntryView(3, bought)


def entry_start(what: What) -> EntryStart:
    """Give what an entry's form opens with."""
    return EntryStart(TIN, "Green tin", "g", what, ON)
