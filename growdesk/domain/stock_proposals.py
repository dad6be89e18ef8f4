"""A bottle of stock solution worth making for doses too small for the tools at hand.

When a dose is too small is decided in ``measuring``.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from msgspec import Struct

from growdesk.domain.keeping_apart import Rule, findings
from growdesk.domain.measuring import OFF_LIMIT, ToolKind
from growdesk.domain.solubility import most_g_per_l
from growdesk.domain.stock_solution import (
    FromStock,
    dose_from_stock,
    stock_of_strength,
)
from growdesk.domain.water_analysis import WaterAnalysis

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from growdesk.domain.measuring import Measured, Tool
    from growdesk.domain.product import Product
    from growdesk.domain.solubility import Room

ROUND_G_PER_L: Final = (200.0, 100.0, 50.0, 25.0, 20.0, 10.0, 5.0, 2.0, 1.0, 0.5)
"""Strengths that are easy to reckon with, strongest first."""
BOTTLES_L: Final = (0.5, 1.0, 2.0)
LABEL_MOST_G_PER_L: Final = 100.0
"""The strongest proposed of a product whose solubility is not known; common practice,
no source. A label whose calcium may fall out with its phosphate is proposed weaker."""
_UNKNOWN_STEP_ML: Final = 1.0
_UNKNOWN_SCALE_G: Final = 0.1
"""What is taken to be read and weighed to where no tool is known; ours."""
_LEAST_STEPS: Final = 10
_DUST: Final = 1e-9


class Proposed(Struct, frozen=True):
    """A bottle worth making for doses too small to weigh."""

    product: Product
    g_per_l: float
    volume_l: float
    weighed: Measured
    dose: FromStock


def proposed_stock(
    product: Product,
    dose_g: float,
    tools: Sequence[Tool],
    room: Room,
    off_limit: float = OFF_LIMIT,
) -> Proposed | None:
    """Give a bottle that makes a dose easy to measure; None where no round one does.

    The strongest round strength that stays clear, is well read on a syringe or cylinder
    and well weighed in, with as many millilitres as the tool shows in ten steps or
    more where it can be had; else the best read.
    """
    if dose_g <= 0:
        return None
    fitting = [
        each
        for each in _proposals(product, dose_g, tools, room)
        if each.dose.half_step_share <= off_limit + _DUST
        and each.weighed.half_step_share <= off_limit + _DUST
        and each.weighed.given_g > 0
    ]
    easy = [each for each in fitting if _steps(each.dose) >= _LEAST_STEPS - _DUST]
    return next(iter(easy or fitting[-1:]), None)


def _proposals(
    product: Product, dose_g: float, tools: Sequence[Tool], room: Room
) -> Iterator[Proposed]:
    scales = [tool for tool in tools if tool.kind is ToolKind.SCALE]
    for g_per_l in _strengths(product, room):
        for volume_l in BOTTLES_L:
            parts = ((product, g_per_l),)
            stock, (weighed,) = stock_of_strength(parts, volume_l, scales)
            if not scales and weighed.mass_g < _UNKNOWN_SCALE_G * _LEAST_STEPS:
                continue
            if weighed.given_g <= 0:
                continue
            dose = dose_from_stock(stock, dose_g, tools)
            if dose.tool is None:
                dose = _read_unknown(dose)
            if dose.given_ml <= volume_l * 1000:
                yield Proposed(product, g_per_l, volume_l, weighed, dose)
                break


def _strengths(product: Product, room: Room) -> list[float]:
    """Give the round strengths at which nothing is known to fall out."""
    known = None if product.formula is None else most_g_per_l(product.formula, room)
    most = LABEL_MOST_G_PER_L if known is None else known
    found = [g_per_l for g_per_l in ROUND_G_PER_L if g_per_l <= most]
    if known is None:
        found = [each for each in found if _is_clear(product, each, room)]
    return found


def _is_clear(product: Product, g_per_l: float, room: Room) -> bool:
    """Tell whether nothing speaks against a stock but what is not known of it."""
    found = findings(((product, g_per_l),), WaterAnalysis("ro"), room)
    return all(each.rule is Rule.UNKNOWN for each in found)


def _read_unknown(dose: FromStock) -> FromStock:
    """Give a dose as a measure with millilitres on it would be read."""
    off = _UNKNOWN_STEP_ML / 2 / dose.volume_ml
    return FromStock(
        dose.stock,
        dose.mass_g,
        dose.given_g,
        dose.volume_ml,
        dose.given_ml,
        half_step_share=off,
    )


def _steps(dose: FromStock) -> float:
    step = _UNKNOWN_STEP_ML if dose.tool is None else dose.tool.step
    return dose.given_ml / step
