"""Bottles of stock solution as the domain takes them, read from the record."""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING

from msgspec import Struct
from sqlalchemy import func, select

from growdesk.domain.stock_solution import Stock
from growdesk.domain.stocktaking import Good, Sort
from growdesk.services import shelf
from growdesk.services.stock_record import ML_PER_L, read_record
from growdesk.services.stock_values import CoolestRead, StockView
from growdesk.services.values import TinDraft
from growdesk.store.schema import PlaceRow, ReadingRow, StockRow, TinRow

if TYPE_CHECKING:
    from collections.abc import Mapping

    from growdesk.domain.product import Product
    from growdesk.services.shelf import Shelf
    from growdesk.services.stock_record import StockMade
    from growdesk.store.session import Session

_YEAR = timedelta(days=365)


class _Kept(Struct, frozen=True):
    keep_by: date | None
    note: str


def stocks_of(kept: Shelf, on: date | None = None) -> tuple[Stock, ...]:
    """Give the bottles of a shelf, as the round of a day finds them, to dose from.

    A bottle of a tin that is no longer on the shelf is left out. Without a day what is
    left goes by all that is on record.
    """
    products = shelf.products_of({view.tin_id: view.draft for view in kept.tins})
    found = []
    for made in kept.record.stocks:
        if any(key not in products for key, _ in made.grams):
            continue
        left_ml = kept.record.left_for_round(made, on or date.max)
        if left_ml is not None:
            found.append(_stock(made, products, left_ml))
    return tuple(found)


def bottles(session: Session, on: date) -> tuple[StockView, ...]:
    """Give every bottle that is there, the newest first."""
    record = read_record(session)
    there = [made for made in record.stocks if made.is_there]
    if not there:
        return ()
    products = shelf.products_of(_all_tins(session))
    kept = {
        row.id: _Kept(row.keep_by, row.note)
        for row in session.execute(
            select(StockRow.id, StockRow.keep_by, StockRow.note).where(
                StockRow.gone_on.is_(None)
            )
        )
    }
    found = []
    for made in there:
        hand = record.on_hand(Good(Sort.STOCK, made.stock_id), on)
        left_ml = made.volume_ml if hand is None else hand.there
        known = kept[made.stock_id]
        found.append(
            StockView(
                stock_id=made.stock_id,
                name=made.name,
                stock=_stock(made, products, left_ml),
                weighed=made.grams,
                water_id=made.water_id,
                made_on=made.made_on,
                keep_by=known.keep_by,
                note=known.note,
                left_ml=left_ml,
                age_days=(on - made.made_on).days,
                is_past=known.keep_by is not None and on > known.keep_by,
            )
        )
    return tuple(sorted(found, key=lambda each: (each.made_on, each.stock_id)))[::-1]


def coolest_read(session: Session, on: date) -> tuple[CoolestRead, ...]:
    """Give the coolest read at each place within a year, the coolest place first."""
    rows = session.execute(
        select(
            PlaceRow.name,
            func.min(func.coalesce(ReadingRow.low_c, ReadingRow.mean_c)).label("low"),
        )
        .join(ReadingRow, ReadingRow.place_id == PlaceRow.id)
        .where(ReadingRow.day > on - _YEAR, ReadingRow.day <= on)
        .group_by(PlaceRow.id)
    )
    found = [CoolestRead(row.name, row.low) for row in rows if row.low is not None]
    return tuple(sorted(found, key=lambda each: each.low_c))


def _stock(
    made: StockMade, products: Mapping[int, Product], left_ml: float | None
) -> Stock:
    weighed = tuple((products[k], grams) for k, grams in made.grams if k in products)
    litres = made.volume_ml / ML_PER_L
    return Stock(made.name, weighed, litres, made.stock_id, left_ml)


def _all_tins(session: Session) -> dict[int, TinDraft]:
    """Give every tin ever kept, those gone from the shelf too."""
    rows = session.execute(
        select(
            TinRow.id,
            TinRow.name,
            TinRow.analysis,
            TinRow.density_g_per_ml,
            TinRow.formula,
        )
    )
    return {
        row.id: TinDraft(
            row.name,
            row.analysis,
            row.density_g_per_ml,
            in_use=False,
            formula=row.formula,
        )
        for row in rows
    }
