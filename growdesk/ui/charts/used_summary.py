"""Say in words what feed was used by month."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.day_words import month_year
from growdesk.domain.speech import fixed, mark, tr
from growdesk.domain.stocktaking_words import amount_text

if TYPE_CHECKING:
    from collections.abc import Iterator

    from growdesk.services.chart_values import ProductUsed, UsedChart

NOTHING = mark(
    "No feed is on record as taken from the shelf in these twelve months. Each round "
    "that is ticked is drawn here."
)


def used_title(chart: UsedChart) -> str:
    """Give the name of the chart."""
    return tr("Feed used, {first} to {last}").format(
        first=month_year(chart.months[0]), last=month_year(chart.months[-1])
    )


def used(chart: UsedChart) -> Iterator[str]:
    """Give the chart in a few sentences."""
    grams = chart.nitrogen_g
    if not chart.products:
        yield tr(NOTHING)
        return
    most = max(range(len(grams)), key=grams.__getitem__)
    months = sum(1 for each in grams if each > 0)
    if months == 0:
        yield tr("What was used holds no nitrogen.")
    elif months == 1:
        yield tr("All of the {grams} of nitrogen went in {month}.").format(
            grams=_grams(sum(grams)), month=month_year(chart.months[most])
        )
    else:
        yield tr("In all {total} of nitrogen, the most in {month}: {most}.").format(
            total=_grams(sum(grams)),
            month=month_year(chart.months[most]),
            most=_grams(grams[most]),
        )
    if months > 1:
        told = [
            tr("{month} {grams}").format(month=month_year(first), grams=_grams(amount))
            for first, amount in zip(chart.months, grams, strict=True)
            if amount > 0
        ]
        yield tr("Nitrogen by month: {months}.").format(months=", ".join(told))
    for product in chart.products:
        yield _product(product)


def _product(product: ProductUsed) -> str:
    amount = amount_text(sum(product.amounts), product.unit)
    held = [
        f"{_grams(sum(product.of(element)))} {element}" for element, _ in product.grams
    ]
    if not held:
        return f"{product.name}: {amount}."
    return tr("{name}: {amount}, in it {list}.").format(
        name=product.name, amount=amount, list=", ".join(held)
    )


def _grams(amount: float) -> str:
    digits = 0 if amount >= 100 else 1 if amount >= 1 else 2
    return f"{fixed(amount, digits)} g"
