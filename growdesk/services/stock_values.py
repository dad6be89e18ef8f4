"""Frozen values of stock bottles: what is wanted, what it comes to, what there is."""

from __future__ import annotations

from enum import StrEnum
from typing import TYPE_CHECKING

from msgspec import Struct

if TYPE_CHECKING:
    from datetime import date

    from growdesk.domain.injector import Ratio
    from growdesk.domain.measuring import Tool
    from growdesk.domain.recipe import Recipe
    from growdesk.domain.solubility import Room
    from growdesk.domain.stock_solution import Stock
    from growdesk.services.values import TinView, WaterView


class AmountOf(StrEnum):
    """What the amounts of a wanted stock are in."""

    FEED = "feed"
    STOCK = "stock"
    BOTTLE = "bottle"


class StockWanted(Struct, frozen=True):
    """A stock bottle as a form holds it.

    ``parts`` are tins with an amount each, in g, of a liquid in mL: in a litre of feed
    that the stock is diluted to by ``ratio``, in a litre of the stock, or in the
    bottle. ``coolest_c`` is of where it is kept and ``keep_by`` its last day; the house
    rules say them where they are None. ``units`` are those that were typed beside the
    amounts, empty where none was.
    """

    name: str = ""
    parts: tuple[tuple[int, float], ...] = ()
    amount_of: AmountOf = AmountOf.STOCK
    ratio: Ratio | None = None
    volume_l: float = 0.0
    water_id: int | None = None
    coolest_c: float | None = None
    feed_l_per_week: float | None = None
    made_on: date | None = None
    keep_by: date | None = None
    note: str = ""
    units: tuple[str, ...] = ()


class StockAnswer(Struct, frozen=True):
    """What a wanted stock comes to, in whole sentences.

    ``weigh`` is what to do, ``refused`` why it would not stay clear, ``way_out`` how it
    can be made after all, ``beware`` what else to know, ``order`` how it is mixed.
    """

    stock: Stock
    weigh: tuple[str, ...]
    refused: tuple[str, ...]
    way_out: tuple[str, ...]
    beware: tuple[str, ...]
    order: str
    use: tuple[str, ...]
    held_against: str
    keep_by: date


class StockView(Struct, frozen=True):
    """A bottle that is there: its number, what was weighed in, how much is left.

    ``weighed`` are tins with their grams. ``age_days`` counts from the day it was made.
    """

    stock_id: int
    name: str
    stock: Stock
    weighed: tuple[tuple[int, float], ...]
    water_id: int | None
    made_on: date
    keep_by: date | None
    note: str
    left_ml: float
    age_days: int
    is_past: bool


class CoolestRead(Struct, frozen=True):
    """The coolest that was read at a place within a year."""

    place: str
    low_c: float


class StockBench(Struct, frozen=True):
    """All that making stock bottles asks for, on a day."""

    today: date
    bottles: tuple[StockView, ...]
    tins: tuple[TinView, ...]
    waters: tuple[WaterView, ...]
    tools: tuple[Tool, ...]
    room: Room
    keep_months: int
    coolest: tuple[CoolestRead, ...] = ()
    water_id: int | None = None
    recipes: tuple[Recipe, ...] = ()
