"""Say in words what feed was used by month."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.day_words import month_year
from growdesk.domain.stocktaking_words import amount_text

if TYPE_CHECKING:
    from collections.abc import Iterator
    from datetime import date

    from growdesk.services.chart_values import ProductUsed, UsedChart

NOTHING = (
    "No feed is on record as taken from the shelf in these twelve months. Each round "
    "that is ticked is drawn here."
)


def used_title(chart: UsedChart) -> str:
    """Give the name of the chart."""
    return f"Feed used, {_month(chart.months[0])} to {_month(chart.months[-1])}"


def used(chart: UsedChart) -> Iterator[str]:
    """Give the chart in a few sentences."""
    grams = chart.nitrogen_g
    if not chart.products:
        yield NOTHING
        return
    most = max(range(len(grams)), key=grams.__getitem__)
    months = sum(1 for each in grams if each > 0)
    if months == 0:
        yield "What was used holds no nitrogen."
    elif months == 1:
        yield (
            f"All of the {_grams(sum(grams))} of nitrogen went in "
            f"{_month(chart.months[most])}."
        )
    else:
        yield (
            f"In all {_grams(sum(grams))} of nitrogen, the most in "
            f"{_month(chart.months[most])}: {_grams(grams[most])}."
        )
    for product in chart.products:
        yield _product(product)


def _product(product: ProductUsed) -> str:
    amount = amount_text(sum(product.amounts), product.unit)
    held = [
        f"{_grams(sum(product.of(element)))} {element}" for element, _ in product.grams
    ]
    if not held:
        return f"{product.name}: {amount}."
    return f"{product.name}: {amount}, in it {', '.join(held)}."


def _month(first: date) -> str:
    return month_year(first)


def _grams(amount: float) -> str:
    digits = 0 if amount >= 100 else 1 if amount >= 1 else 2
    return f"{amount:.{digits}f} g"
