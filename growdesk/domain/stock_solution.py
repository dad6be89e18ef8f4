"""Stock solutions: what to weigh into a bottle, and how many millilitres then dose.

A bottle is made so many times stronger than the feed, or to grams per litre. It is
filled up to its mark. Whether it stays clear is judged in ``keeping_apart``; which one
is worth making for a small dose in ``stock_proposals``.
"""

from __future__ import annotations

import calendar
import math
from datetime import date
from typing import TYPE_CHECKING, Final

from msgspec import Struct

from growdesk.domain.errors import InputError
from growdesk.domain.measuring import OFF_LIMIT, ToolKind, measured, read_on
from growdesk.domain.phrases import listed
from growdesk.domain.speech import plain, tr

if TYPE_CHECKING:
    from collections.abc import Sequence

    from growdesk.domain.injector import Ratio
    from growdesk.domain.measuring import Measured, Tool
    from growdesk.domain.product import Product
    from growdesk.domain.stock_ions import Parts

LEAST_VOLUME_L: Final = 0.001
MOST_VOLUME_L: Final = 100.0
_DUST: Final = 1e-9


class Stock(Struct, frozen=True):
    """A bottle as it was made: grams weighed in, filled up to ``volume_l``.

    ``key`` is its number in a collection; ``left_ml`` what should still be in it.
    """

    name: str
    weighed: tuple[tuple[Product, float], ...]
    volume_l: float
    key: int | None = None
    left_ml: float | None = None

    @property
    def g_per_l(self) -> Parts:
        """Give each product's grams in a litre of the stock."""
        return tuple((each, grams / self.volume_l) for each, grams in self.weighed)

    @property
    def product(self) -> Product | None:
        """Give the product of a bottle that holds one alone."""
        return self.weighed[0][0] if len(self.weighed) == 1 else None


class Planned(Struct, frozen=True):
    """A stock to make up: what to weigh as the tools do it, and what then comes out.

    ``ml_per_l`` of stock go into a litre of finished feed.
    """

    stock: Stock
    doses: tuple[Measured, ...]
    ml_per_l: float


class FromStock(Struct, frozen=True):
    """A dose taken from a bottle: ``volume_ml`` is wanted, ``given_ml`` is measured.

    ``half_step_share`` is half a step of the tool as a share of the dose; ``loads`` how
    often it is filled. ``is_enough`` tells whether the bottle should still hold it.
    """

    stock: Stock
    mass_g: float
    given_g: float
    volume_ml: float
    given_ml: float
    tool: Tool | None = None
    half_step_share: float = 0.0
    loads: int = 1

    @property
    def is_enough(self) -> bool:
        """Tell whether what should be left covers it; True where that is not known."""
        left = self.stock.left_ml
        return left is None or left + _DUST >= self.given_ml


def stock_for_ratio(
    feed_g_per_l: Parts, ratio: Ratio, volume_l: float, tools: Sequence[Tool] = ()
) -> Planned:
    """Give the stock that an injector, or a jug dosed by hand, dilutes to this feed."""
    check_volume(volume_l)
    doses = tuple(
        measured(product, grams * ratio.times * volume_l, tools)
        for product, grams in feed_g_per_l
        if grams > 0
    )
    return Planned(_made(doses, volume_l), doses, ratio.stock_ml_per_l)


def stock_of_strength(
    g_per_l: Parts, volume_l: float, tools: Sequence[Tool] = ()
) -> tuple[Stock, tuple[Measured, ...]]:
    """Give a stock of so many grams in a litre, as the tools weigh it."""
    check_volume(volume_l)
    doses = tuple(
        measured(product, grams * volume_l, tools)
        for product, grams in g_per_l
        if grams > 0
    )
    return _made(doses, volume_l), doses


def stock_ml(stock: Stock, product: Product, mass_g: float) -> float:
    """Give the millilitres of a stock that hold so many grams of a product.

    ``InputError`` where the bottle does not hold the product.
    """
    per_ml = math.fsum(g for each, g in stock.g_per_l if _same(each, product)) / 1000
    if per_ml <= 0:
        raise InputError(
            "stock",
            stock.name,
            tr("holds no {name}").format(name=product.name),
            tr("Take another bottle."),
        )
    return mass_g / per_ml


def dose_from_stock(
    stock: Stock, mass_g: float, tools: Sequence[Tool] = (), *, never_over: bool = False
) -> FromStock:
    """Give a dose in grams as millilitres of a bottle of one product."""
    product = stock.product
    if product is None:
        raise InputError(
            "stock",
            stock.name,
            tr("holds several products, so one of them is not dosed from it"),
            tr("Take a bottle of that product alone."),
        )
    volume_ml = stock_ml(stock, product, mass_g)
    exact = FromStock(stock, mass_g, mass_g, volume_ml, volume_ml)
    found = [
        _read(exact, tool, never_over=never_over)
        for tool in tools
        if tool.kind in {ToolKind.SYRINGE, ToolKind.CYLINDER} and tool.step > 0
    ]
    return min(found, key=_how_good, default=exact)


def lasts_weeks(
    left_ml: float, ml_per_l: float, feed_l_per_week: float
) -> float | None:
    """Give the weeks a bottle lasts; None where nothing is taken from it."""
    used_ml = ml_per_l * feed_l_per_week
    return left_ml / used_ml if used_ml > 0 else None


def keep_by(made_on: date, months: int) -> date:
    """Give the day a stock is kept until; common practice, no source."""
    count = made_on.month - 1 + months
    year, month = made_on.year + count // 12, count % 12 + 1
    last = calendar.monthrange(year, month)[1]
    return date(year, month, min(made_on.day, last))


def check_volume(volume_l: float) -> float:
    """Give a bottle's litres, or say that they cannot be meant."""
    if LEAST_VOLUME_L <= volume_l <= MOST_VOLUME_L:
        return volume_l
    raise InputError(
        "volume_l",
        f"{plain(volume_l)} L",
        tr("is not the volume of a bottle"),
        tr("Write what it holds, up to {most_volume_l} L.").format(
            most_volume_l=plain(MOST_VOLUME_L)
        ),
    )


def _made(doses: Sequence[Measured], volume_l: float) -> Stock:
    weighed = tuple((dose.product, dose.given_g) for dose in doses)
    name = listed([product.name for product, _ in weighed])
    return Stock(name, weighed, volume_l)


def _read(exact: FromStock, tool: Tool, *, never_over: bool) -> FromStock:
    given_ml, loads = read_on(tool, exact.volume_ml, never_over=never_over)
    return FromStock(
        stock=exact.stock,
        mass_g=exact.mass_g,
        given_g=exact.mass_g * given_ml / exact.volume_ml,
        volume_ml=exact.volume_ml,
        given_ml=given_ml,
        tool=tool,
        half_step_share=loads * tool.step / 2 / exact.volume_ml,
        loads=loads,
    )


def _how_good(dose: FromStock) -> tuple[float, ...]:
    """Give the order of choice: well read in the fewest loads, else read best."""
    off = abs(dose.given_g - dose.mass_g) / dose.mass_g + dose.half_step_share
    if dose.given_ml <= 0 or off > OFF_LIMIT:
        return (1, dose.given_ml <= 0, off)
    return (0, dose.loads, off)


def _same(one: Product, other: Product) -> bool:
    if one.key is not None and other.key is not None:
        return one.key == other.key
    return one == other
