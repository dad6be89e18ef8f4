"""The shelf as rows: of each good what is on hand, used, needed next, and its cost."""

from __future__ import annotations

import math
from datetime import timedelta
from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.domain import stocktaking_words as words
from growdesk.domain.shortage import is_short
from growdesk.domain.speech import tr
from growdesk.domain.stocktaking import (
    YEAR_DAYS,
    Basis,
    Good,
    Sort,
    What,
    days_left,
    rate,
    unit_price,
)
from growdesk.services import drawing_down, shortages
from growdesk.services.stocktaking_values import ShelfRow, ShelfView

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping
    from datetime import date

    from growdesk.domain.stocktaking import OnHand, Rate
    from growdesk.services.drawing_down import Uses
    from growdesk.services.shelf import Shelf
    from growdesk.services.values import MixPlan

_WEEKS = YEAR_DAYS / 7
_NOTHING = 1e-6


class Basics(Struct, frozen=True):
    """What the rows are made from; ``rounds`` are those left of the week, in order."""

    on: date
    shelf: Shelf
    rounds: tuple[tuple[date, MixPlan], ...]
    rounds_a_week: int
    currency: str


def view(basics: Basics) -> ShelfView:
    """Give the whole shelf."""
    shelf = basics.shelf
    round_on, mix = next(_still_to_do(basics), basics.rounds[0])
    need = shortages.rest_of(mix, shelf, round_on)
    whole = drawing_down.of_round(mix, shelf)
    planned = _planned_per_week(basics)
    prices = _unit_prices(shelf)
    rows = tuple(
        _row(
            basics,
            good,
            _Taking(
                need.get(good, 0.0),
                whole.get(good, 0.0),
                planned.get(good, 0.0),
                prices.get(good),
            ),
        )
        for good in _goods(shelf)
    )
    return ShelfView(
        on=basics.on,
        round_on=round_on,
        rows=rows,
        short=shortages.with_short(mix, shelf, round_on).short,
        currency=basics.currency,
        cost_round=_total(row.cost_round for row in rows),
        cost_year=_total(row.cost_year for row in rows),
        unpriced=tuple(
            row.name
            for row in rows
            if row.unit_price is None
            and row.good.sort is not Sort.WATER
            and (row.rate.per_week > 0 or row.needed > 0)
        ),
    )


def is_something_left(basics: Basics) -> bool:
    """Tell whether a round is left that still takes something."""
    return next(_still_to_do(basics), None) is not None


def _still_to_do(basics: Basics) -> Iterator[tuple[date, MixPlan]]:
    for on, mix in basics.rounds:
        rest = shortages.rest_of(mix, basics.shelf, on)
        if any(amount > _NOTHING for amount in rest.values()):
            yield on, mix


class _Taking(Struct, frozen=True):
    """Of one good: what is still needed, what a round and a week take, its price."""

    needed: float
    a_round: float
    a_week: float
    price: float | None


def _goods(shelf: Shelf) -> Iterator[Good]:
    """Give the goods in the order of the shelf: tins, bottles, waters; no blends."""
    for tin in shelf.tins:
        yield Good(Sort.TIN, tin.tin_id)
    for made in shelf.record.stocks:
        if made.is_there:
            yield Good(Sort.STOCK, made.stock_id)
    for water in shelf.waters:
        if water.draft.first_id is None:
            yield Good(Sort.WATER, water.water_id)


def _row(basics: Basics, good: Good, taking: _Taking) -> ShelfRow:
    shelf, on = basics.shelf, basics.on
    unit = shortages.unit_of(good, shelf)
    hand = shelf.record.on_hand(good, on)
    used = rate(shelf.record.taken.get(good, ()), on, taking.a_week)
    left = None if hand is None else days_left(hand.there, used)
    capacity_l, in_use = _of_draft(good, shelf)
    price = taking.price
    return ShelfRow(
        good=good,
        name=shortages.named(good, shelf),
        unit=unit,
        in_use=in_use,
        hand=hand,
        rate=used,
        needed=taking.needed,
        is_short=hand is not None and is_short(taking.needed, hand.there),
        days_left=left,
        lasts_until=None if left is None else on + timedelta(days=left),
        unit_price=price,
        cost_round=None if price is None else price * taking.a_round,
        cost_year=_cost_year(good, price, used),
        capacity_l=capacity_l,
        began=words.began(hand, unit, on),
        rate_told=words.rate_text(used, unit),
        lasts_told=_lasts_told(hand, left, used, on),
    )


def _lasts_told(hand: OnHand | None, left: int | None, used: Rate, on: date) -> str:
    if hand is None:
        return ""
    if hand.is_overdrawn:
        return tr(words.OVERDRAWN)
    if hand.there > 0 and used.per_week <= 0 and not used.by_day:
        return ""
    return words.lasts_text(left, on, hand.there)


def _of_draft(good: Good, shelf: Shelf) -> tuple[float | None, bool]:
    """Give what a water's barrel holds, and whether a good is the one in use."""
    if good.sort is Sort.TIN:
        return None, good.key == shelf.tin_id
    if good.sort is Sort.STOCK:
        return None, False
    view = shelf.water_view(good.key)
    holds = None if view is None else view.draft.capacity_l
    return holds, good.key == shelf.water_id


def _cost_year(good: Good, price: float | None, used: Rate) -> float | None:
    """Give what a year costs; a bottle's is its tins' once they are on record."""
    if price is None or (good.sort is Sort.STOCK and used.basis is not Basis.PLAN):
        return None
    if used.by_day:
        return price * math.fsum(used.by_day)
    return price * used.per_week * _WEEKS


def _planned_per_week(basics: Basics) -> Uses:
    """Give what a week takes by the rounds that are left of it."""
    share = basics.rounds_a_week / len(basics.rounds)
    each = (drawing_down.of_round(mix, basics.shelf) for _, mix in basics.rounds)
    total = drawing_down.added(each)
    return {good: amount * share for good, amount in total.items()}


def _unit_prices(shelf: Shelf) -> dict[Good, float]:
    """Give what one g, mL or L costs: by what came in last with a price, else the pack.

    A bottle of stock solution costs what went into it.
    """
    found: dict[Good, float] = {}
    for view in shelf.tins:
        price = unit_price(view.draft.price, view.draft.pack_amount)
        if price is not None:
            found[Good(Sort.TIN, view.tin_id)] = price
    for good, entries in shelf.record.entries.items():
        priced = [e for e in entries if e.what is What.ADDED and e.price is not None]
        if priced:
            last = max(priced, key=lambda entry: entry.on)
            price = unit_price(last.price, last.amount)
            if price is not None:
                found[good] = price
    return found | _stock_prices(shelf, found)


def _stock_prices(shelf: Shelf, prices: Mapping[Good, float]) -> dict[Good, float]:
    densities = {v.tin_id: v.draft.density_g_per_ml or 1.0 for v in shelf.tins}
    found: dict[Good, float] = {}
    for made in shelf.record.stocks:
        parts = [
            (prices.get(Good(Sort.TIN, key)), grams / densities.get(key, 1.0))
            for key, grams in made.grams
        ]
        if parts and all(price is not None for price, _ in parts):
            whole = math.fsum((price or 0.0) * amount for price, amount in parts)
            found[Good(Sort.STOCK, made.stock_id)] = whole / made.volume_ml
    return found


def _total(costs: Iterable[float | None]) -> float | None:
    known = [cost for cost in costs if cost is not None]
    return math.fsum(known) if known else None
