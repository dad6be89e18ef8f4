"""Say the shelf in short texts for tables: amounts, rates, ends, costs, entries."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.speech import Lines, fixed, tr
from growdesk.domain.stocktaking import What
from growdesk.domain.stocktaking_words import amount_text
from growdesk.ui import words

if TYPE_CHECKING:
    from growdesk.services.stocktaking_values import EntryView, ShelfRow, ShelfView

COLUMNS = Lines(
    "What",
    "On hand",
    "Used a week",
    "Lasts until",
    "Next round",
    "A round",
    "A year",
)
ENTRY_COLUMNS = Lines("Day", "What", "Amount", "Price", "Note")


def row_texts(row: ShelfRow) -> tuple[str, ...]:
    """Give one good as the cells of the table."""
    used = row.rate.per_week
    return (
        row.name,
        on_hand(row),
        amount_text(used, row.unit) if used > 0 else tr("none"),
        lasts(row),
        needed(row),
        money(row.cost_round or None),
        money(row.cost_year or None),
    )


def on_hand(row: ShelfRow) -> str:
    """Give what is on hand; of a barrel, beside what it holds."""
    if row.hand is None:
        return tr("not counted")
    if row.hand.is_overdrawn:
        return tr("count it again")
    there = amount_text(row.hand.there, row.unit)
    if row.capacity_l is None:
        return there
    return tr("{there} of {amount}").format(
        there=there, amount=amount_text(row.capacity_l, row.unit)
    )


def lasts(row: ShelfRow) -> str:
    """Give the day until which a good lasts."""
    if row.hand is None or row.hand.is_overdrawn:
        return ""
    if row.hand.there <= 0:
        return tr("used up")
    if row.lasts_until is not None:
        return words.short_day(row.lasts_until) if row.days_left else tr("today")
    return tr("over two years") if row.rate.per_week > 0 else ""


def needed(row: ShelfRow) -> str:
    """Give what the next round takes, and whether it does not reach."""
    if row.needed <= 0:
        return ""
    text = amount_text(row.needed, row.unit)
    return tr("{text}, short").format(text=text) if row.is_short else text


def told(row: ShelfRow) -> str:
    """Give what a good's row cannot hold, in sentences."""
    used = tr("In use.") if row.in_use else ""
    parts = (used, row.began, row.rate_told, row.lasts_told)
    return " ".join(part for part in parts if part)


def money(amount: float | None, currency: str = "") -> str:
    """Give a sum with two places, or that it is less than can be paid."""
    if amount is None:
        return ""
    text = f"{fixed(amount, 2)}" if amount >= 0.01 or amount <= 0 else tr("under 0.01")
    return f"{text} {currency}".strip()


def price_text(price: float | None) -> str:
    """Give a price as it is typed, nothing of it lost."""
    if price is None:
        return ""
    return f"{fixed(price, 2)}" if round(price, 2) == price else f"{price:.10g}"


def costs(view: ShelfView) -> str:
    """Say what a round and a year cost, and what is not in it."""
    if view.cost_round is None or view.cost_year is None:
        return tr(
            "What a round costs stands here once a tin has its price and pack size, "
            "or a price is written with what came in."
        )
    a_round = money(view.cost_round, view.currency)
    a_year = money(view.cost_year, view.currency)
    said = tr("The next round costs {a_round}, a year {a_year}.").format(
        a_round=a_round, a_year=a_year
    )
    if view.unpriced:
        without = tr("Without a price, and not in it: {list}.")
        said = f"{said} {without.format(list=', '.join(view.unpriced))}"
    return said


def entry_texts(view: EntryView, unit: str) -> tuple[str, ...]:
    """Give one entry as the cells of its table."""
    draft = view.draft
    is_count = draft.what is What.COUNTED
    counted = (
        tr("counted, after the round")
        if draft.after_round
        else tr("counted, before the round")
    )
    return (
        words.short_day(draft.on),
        counted if is_count else tr("came in"),
        amount_text(draft.amount, unit),
        money(draft.price),
        draft.note,
    )
