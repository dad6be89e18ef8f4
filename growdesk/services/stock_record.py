"""The record of the shelf: what was counted, came in and was taken, of every good.

A bottle of stock solution is full on the day it was made, and what went into it was
taken from its tins and its water that day. The taken are summed by day in the database.
"""

from __future__ import annotations

from collections import defaultdict
from typing import TYPE_CHECKING, Any

from msgspec import Struct, field
from msgspec.structs import replace
from sqlalchemy import func, select

from growdesk.domain.stocktaking import Entry, Good, Sort, Taken, What, on_hand
from growdesk.services.water_rows import blended
from growdesk.store.mapping import word
from growdesk.store.schema import (
    CareRow,
    DrawnRow,
    ShelfEntryRow,
    StockPartRow,
    StockRow,
    TinRow,
)

if TYPE_CHECKING:
    from collections.abc import Mapping
    from datetime import date

    from growdesk.domain.stocktaking import OnHand
    from growdesk.store.session import Session

ML_PER_L = 1000


class StockMade(Struct, frozen=True):
    """A bottle of stock solution: its mL when made, and the grams of each tin in it.

    It was put away on ``gone_on``; ``keep_by`` is until when it is used.
    """

    stock_id: int
    name: str
    made_on: date
    volume_ml: float
    water_id: int | None
    grams: tuple[tuple[int, float], ...]
    keep_by: date | None = None
    gone_on: date | None = None

    @property
    def is_there(self) -> bool:
        """Tell whether it was not put away."""
        return self.gone_on is None


class Record(Struct, frozen=True):
    """Entries in the order they were written, and what was taken by day.

    ``stocks`` are all bottles of stock solution, those used up too.
    """

    entries: Mapping[Good, tuple[Entry, ...]] = field(default_factory=dict)
    taken: Mapping[Good, tuple[Taken, ...]] = field(default_factory=dict)
    stocks: tuple[StockMade, ...] = ()

    def on_hand(self, good: Good, on: date) -> OnHand | None:
        """Give what is on hand of a good at the end of a day."""
        taken = self.taken.get(good, ())
        return on_hand(self.entries.get(good, ()), taken, on)

    def taken_on(self, good: Good, on: date) -> float:
        """Give what a round took of a good on a day."""
        taken = self.taken.get(good, ())
        return sum(t.amount for t in taken if t.on == on and not t.for_bottle)

    def left_for_round(self, made: StockMade, on: date) -> float | None:
        """Give the mL of a bottle as the round of a day finds it; None where it is not.

        What the round took of it already is still in it, so that a round half ticked
        goes on as it was mixed, from a bottle just emptied too.
        """
        good = Good(Sort.STOCK, made.stock_id)
        hand, taken = self.on_hand(good, on), self.taken_on(good, on)
        is_away = made.gone_on is not None and made.gone_on <= on
        if hand is None or (is_away and taken <= 0):
            return None
        return max(hand.amount + taken, 0.0)

    def with_taken(self, uses: Mapping[Good, float], on: date) -> Record:
        """Give the record as it stands once a round to come has taken its part."""
        taken = dict(self.taken)
        for good, amount in uses.items():
            taken[good] = (*taken.get(good, ()), Taken(on, amount))
        return replace(self, taken=taken)


def read_record(session: Session) -> Record:
    """Read the record for what is on hand; without an entry there is none."""
    stocks = stocks_made(session)
    entries = _entries(session, stocks)
    if not entries:
        return Record()
    since = min(entry.on for of_good in entries.values() for entry in of_good)
    return Record(entries, _taken(session, stocks, since), stocks)


def read_whole_record(session: Session) -> Record:
    """Read the record with all that was ever taken, for what a week takes."""
    stocks = stocks_made(session)
    return Record(_entries(session, stocks), _taken(session, stocks, None), stocks)


def good_of(row: Any) -> Good:
    """Give the good that a row of ``drawn`` or ``shelf_entry`` is of."""
    if row.tin_id is not None:
        return Good(Sort.TIN, row.tin_id)
    if row.stock_id is not None:
        return Good(Sort.STOCK, row.stock_id)
    return Good(Sort.WATER, row.water_id)


def column_of(table: type[DrawnRow | ShelfEntryRow], sort: Sort) -> Any:
    """Give the column of a table that names goods of a sort."""
    return {
        Sort.TIN: table.tin_id,
        Sort.STOCK: table.stock_id,
        Sort.WATER: table.water_id,
    }[sort]


def stocks_made(session: Session) -> tuple[StockMade, ...]:
    """Give every bottle of stock solution ever made, those used up too."""
    grams: dict[int, list[tuple[int, float]]] = defaultdict(list)
    found = session.execute(
        select(
            StockRow.id,
            StockRow.name,
            StockRow.gone_on,
            StockRow.made_on,
            StockRow.keep_by,
            StockRow.volume_l,
            StockRow.water_id,
            StockPartRow.tin_id,
            StockPartRow.mass_g,
        )
        .join(StockPartRow, StockPartRow.stock_id == StockRow.id, isouter=True)
        .order_by(StockRow.id, StockPartRow.id),
    ).all()
    for row in found:
        if row.tin_id is not None:
            grams[row.id].append((row.tin_id, row.mass_g))
    bottles = {row.id: row for row in found}
    return tuple(
        StockMade(
            stock_id=row.id,
            name=row.name,
            made_on=row.made_on,
            volume_ml=row.volume_l * ML_PER_L,
            water_id=row.water_id,
            grams=tuple(grams[row.id]),
            keep_by=row.keep_by,
            gone_on=row.gone_on,
        )
        for row in bottles.values()
    )


def _entries(
    session: Session, stocks: tuple[StockMade, ...]
) -> dict[Good, tuple[Entry, ...]]:
    found: dict[Good, list[Entry]] = defaultdict(list)
    for made in stocks:
        full = Entry(made.made_on, What.COUNTED, made.volume_ml, after_round=False)
        found[Good(Sort.STOCK, made.stock_id)].append(full)
    rows = session.execute(select(ShelfEntryRow.__table__).order_by(ShelfEntryRow.id))
    for row in rows:
        found[good_of(row)].append(
            Entry(row.day, word(What, row.what), row.amount, row.after_round, row.price)
        )
    return {good: tuple(entries) for good, entries in found.items()}


def _taken(
    session: Session, stocks: tuple[StockMade, ...], since: date | None
) -> dict[Good, tuple[Taken, ...]]:
    """Give what was taken by day: by the rounds, and for stock solutions."""
    found: dict[Good, list[Taken]] = defaultdict(list)
    of = (DrawnRow.tin_id, DrawnRow.stock_id, DrawnRow.water_id)
    wanted = select(
        *of, CareRow.day, func.sum(DrawnRow.amount).label("amount")
    ).join_from(DrawnRow, CareRow, CareRow.id == DrawnRow.care_id)
    if since is not None:
        wanted = wanted.where(CareRow.day >= since)
    for row in session.execute(wanted.group_by(*of, CareRow.day)):
        found[good_of(row)].append(Taken(row.day, row.amount))
    if stocks:
        _take_for_stocks(found, stocks, _densities(session), blended(session))
    return {
        good: tuple(sorted(taken, key=lambda each: each.on))
        for good, taken in found.items()
    }


def _take_for_stocks(
    found: dict[Good, list[Taken]],
    stocks: tuple[StockMade, ...],
    densities: Mapping[int, float | None],
    blends: Mapping[int, tuple[tuple[int, float], ...]],
) -> None:
    for made in stocks:
        for tin_id, grams in made.grams:
            density = densities.get(tin_id)
            amount = grams if density is None else grams / density
            found[Good(Sort.TIN, tin_id)].append(
                Taken(made.made_on, amount, for_bottle=True)
            )
        if made.water_id is not None:
            litres = made.volume_ml / ML_PER_L
            for key, share in blends.get(made.water_id, ((made.water_id, 1.0),)):
                taken = Taken(made.made_on, litres * share, for_bottle=True)
                found[Good(Sort.WATER, key)].append(taken)


def _densities(session: Session) -> dict[int, float | None]:
    rows = session.execute(select(TinRow.id, TinRow.density_g_per_ml))
    return {row.id: row.density_g_per_ml for row in rows}
