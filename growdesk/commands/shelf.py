"""Tells what is on the shelf: on hand, used a week, until when, and what it costs."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.commands import output
from growdesk.domain.stocktaking_words import amount_text

if TYPE_CHECKING:
    from argparse import Namespace

    from growdesk.commands.desk import Desk
    from growdesk.services.stocktaking_values import ShelfRow, ShelfView

_DIGITS = 4


def run(arguments: Namespace, desk: Desk) -> None:
    """Print the shelf of today, with what the next round needs of it."""
    with desk.reading(desk.today) as collection:
        view = collection.stocktaking.view()
    if arguments.json:
        output.say_json(_report(view))
        return
    for text in _lines(view):
        output.say(text)


def _report(view: ShelfView) -> dict[str, object]:
    return {
        "on": view.on.isoformat(),
        "next_round": view.round_on.isoformat(),
        "currency": view.currency,
        "cost_round": _rounded(view.cost_round),
        "cost_year": _rounded(view.cost_year),
        "short": list(view.short),
        "goods": [_good(row) for row in view.rows],
    }


def _good(row: ShelfRow) -> dict[str, object]:
    hand = row.hand
    return {
        "sort": row.good.sort.value,
        "name": row.name,
        "unit": row.unit,
        "in_use": row.in_use,
        "on_hand": None if hand is None else _rounded(hand.there),
        "overdrawn": hand is not None and hand.is_overdrawn,
        "known_since": None if hand is None else hand.since.on.isoformat(),
        "used_a_week": _rounded(row.rate.per_week),
        "rate_by": row.rate.basis.value,
        "lasts_until": None if row.lasts_until is None else row.lasts_until.isoformat(),
        "needed_next": _rounded(row.needed),
        "short": row.is_short,
        "cost_round": _rounded(row.cost_round),
        "cost_year": _rounded(row.cost_year),
    }


def _rounded(value: float | None) -> float | None:
    return None if value is None else round(value, _DIGITS)


def _lines(view: ShelfView) -> list[str]:
    told = [f"On the shelf on {view.on:%A} {view.on.isoformat()}"]
    if not view.rows:
        told.append("Nothing stands there yet.")
    told += output.columns([_cells(row) for row in view.rows])
    told += view.short
    for what, cost in (("The next round", view.cost_round), ("A year", view.cost_year)):
        if cost is not None:
            told.append(f"{what} costs {cost:.2f} {view.currency}".rstrip() + ".")
    return told


def _cells(row: ShelfRow) -> tuple[str, ...]:
    hand = "not counted"
    if row.hand is not None:
        hand = amount_text(row.hand.there, row.unit)
    used = f"{amount_text(row.rate.per_week, row.unit)} a week"
    return (
        row.name,
        hand,
        used if row.rate.per_week > 0 else "not used now",
        row.lasts_told,
    )
