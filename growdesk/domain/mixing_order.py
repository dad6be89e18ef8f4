"""In which order products go into a jug, so that nothing turns to mud.

Calcium goes in last, into nearly all of the water, when the rest is dissolved: strong
calcium beside phosphate or sulphate falls out (common practice for feeds mixed from
several salts, no source). How concentrated stocks are kept apart is not asked here.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

    from growdesk.domain.measuring import Measured
    from growdesk.domain.product import Product


def brings_calcium(product: Product) -> bool:
    """Tell whether it must stay apart from phosphate and sulphate while strong."""
    return product.mg_per_g().get("Ca", 0.0) > 0


def in_order(doses: Sequence[Measured]) -> tuple[Measured, ...]:
    """Give the doses in mixing order: as the recipe has them, calcium last."""
    return tuple(sorted(doses, key=lambda dose: brings_calcium(dose.product)))


def steps(doses: Sequence[Measured]) -> tuple[tuple[Product, ...], tuple[Product, ...]]:
    """Give what goes in first, and what of calcium goes in last, apart."""
    ordered = [dose.product for dose in in_order(doses)]
    last = tuple(product for product in ordered if brings_calcium(product))
    first = tuple(product for product in ordered if not brings_calcium(product))
    return first, last
