"""What feed was used by month: each product's amount, and the grams of its elements.

What the rounds took is summed by month in the database. A stock solution's share goes
to the products it was made of.
"""

from __future__ import annotations

from collections import defaultdict
from datetime import date, timedelta
from typing import TYPE_CHECKING, Any

from sqlalchemy import func, select

from growdesk.domain.analysis import parse_analysis
from growdesk.domain.errors import InputError
from growdesk.services.chart_values import ProductUsed, UsedChart
from growdesk.services.stock_record import stocks_made
from growdesk.store.both import month_of
from growdesk.store.schema import CareRow, DrawnRow, TinRow

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from growdesk.store.session import Session

MONTHS = 12
ELEMENTS = ("N", "P", "K", "Ca", "Mg")

_Amounts = dict[int, list[float]]


def used(session: Session, on: date) -> UsedChart:
    """Give what was used in the twelve months up to a day, in three statements."""
    months = _months(on)
    tins = {row.id: row for row in session.execute(select(TinRow.__table__))}
    grams = _grams(session, months, on, tins)
    products = [_product(tins[key], amounts) for key, amounts in grams.items()]
    products.sort(key=lambda product: (-sum(product.of("N")), product.name))
    return UsedChart(on, months, tuple(products))


def _months(on: date) -> tuple[date, ...]:
    """Give the first days of the month of a day and of the eleven before it."""
    found = [on.replace(day=1)]
    while len(found) < MONTHS:
        found.append((found[-1] - timedelta(days=1)).replace(day=1))
    return tuple(reversed(found))


def _grams(
    session: Session, months: Sequence[date], on: date, tins: Mapping[int, Any]
) -> _Amounts:
    """Give the grams of each tin by month, a liquid's by its density."""
    month = month_of(CareRow.day)
    rows = session.execute(
        select(
            DrawnRow.tin_id,
            DrawnRow.stock_id,
            month.label("month"),
            func.sum(DrawnRow.amount).label("amount"),
        )
        .join_from(DrawnRow, CareRow, CareRow.id == DrawnRow.care_id)
        .where(CareRow.day.between(months[0], on), DrawnRow.water_id.is_(None))
        .group_by(DrawnRow.tin_id, DrawnRow.stock_id, month)
    )
    stocks = {made.stock_id: made for made in stocks_made(session)}
    places = {first.isoformat()[:7]: place for place, first in enumerate(months)}
    found: _Amounts = defaultdict(lambda: [0.0] * len(months))
    for row in rows:
        place = places[row.month]
        if row.tin_id is not None:
            density = tins[row.tin_id].density_g_per_ml or 1.0
            found[row.tin_id][place] += row.amount * density
            continue
        made = stocks[row.stock_id]
        for tin_id, mass_g in made.grams:
            found[tin_id][place] += mass_g * row.amount / made.volume_ml
    return dict(found)


def _product(tin: Any, grams: Sequence[float]) -> ProductUsed:
    density = tin.density_g_per_ml
    try:
        percent = parse_analysis(tin.analysis, density).elements_percent()
    except InputError:
        percent = {}
    return ProductUsed(
        name=tin.name,
        unit="g" if density is None else "mL",
        amounts=tuple(each / (density or 1.0) for each in grams),
        grams=tuple(
            (element, tuple(each * percent[element] / 100 for each in grams))
            for element in ELEMENTS
            if percent.get(element)
        ),
    )
