"""Read what was typed for a stock bottle as what is wanted.

Not for the window's thread while somebody types: units are loaded on first use.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

from growdesk.domain import stock_words
from growdesk.domain.errors import InputError
from growdesk.domain.injector import Meaning, parse_ratio
from growdesk.domain.quantity_words import temperature_text
from growdesk.domain.speech import Phrases, tr
from growdesk.services.stock_values import AmountOf, StockWanted
from growdesk.ui import typed

if TYPE_CHECKING:
    from collections.abc import Mapping

    from growdesk.domain.injector import Ratio
    from growdesk.services.stock_values import StockBench

AMOUNTS = Phrases(
    {
        AmountOf.STOCK: "in a litre of the bottle",
        AmountOf.FEED: "in a litre of the feed made of it",
        AmountOf.BOTTLE: "in the whole bottle, as weighed",
    }
)
TYPED = "typed"
_UNIT = re.compile(r"\s*(g|ml)\.?$", re.IGNORECASE)


def meanings() -> tuple[tuple[Meaning | None, str], ...]:
    """Give what the R of a ratio may count, with its words."""
    known = ((each, stock_words.meaning_words(each)) for each in Meaning)
    return ((None, tr("choose what R counts")), *known)


def wanted_of(held: Mapping[str, Any]) -> StockWanted:
    """Give the stock that a form holds; ``InputError`` beside the field of a slip."""
    amount_of = AmountOf(held["amount_of"])
    in_feed = amount_of is AmountOf.FEED
    volume = typed.volume_l(held["volume_l"], "volume_l")
    if volume is None:
        raise InputError(
            "volume_l", "", tr("is empty"), tr("Write what the bottle holds.")
        )
    return StockWanted(
        name=held["name"].strip(),
        parts=tuple(_part(tin_id, text) for tin_id, text in held["parts"]),
        units=tuple(_unit(text) for _, text in held["parts"]),
        amount_of=amount_of,
        ratio=_ratio(held) if in_feed else None,
        volume_l=volume,
        water_id=held["water_id"],
        coolest_c=_coolest_c(held),
        feed_l_per_week=typed.volume_l(held["feed_l_per_week"], "feed_l_per_week")
        if in_feed
        else None,
        made_on=typed.day(held["made_on"], "made_on"),
        keep_by=typed.day(held["keep_by"], "keep_by"),
        note=held["note"].strip(),
    )


def places_offered(bench: StockBench) -> list[tuple[float | str | None, str]]:
    """Give where a bottle may be kept, by the coolest read there within a year."""
    house = degrees(bench.room.coolest_c)
    return [
        (None, tr("{house} at the coolest, the house rule").format(house=house)),
        *(
            (
                each.low_c,
                tr("{place}: {degrees} at the coolest").format(
                    place=each.place, degrees=degrees(each.low_c)
                ),
            )
            for each in bench.coolest
            if each.low_c > 0
        ),
        (TYPED, tr("elsewhere: type the coolest")),
    ]


def degrees(celsius: float) -> str:
    """Give a temperature as a choice names it."""
    return temperature_text(celsius)


def is_enough(held: Mapping[str, Any]) -> bool:
    """Tell whether enough is typed to be answered."""
    lines = held["parts"]
    full = bool(lines) and all(key is not None and text for key, text in lines)
    if held["amount_of"] == AmountOf.FEED and not held["ratio"].strip():
        return False
    return full and bool(held["volume_l"].strip())


def _coolest_c(held: Mapping[str, Any]) -> float | None:
    kept_in = held["kept_in"]
    if kept_in != TYPED:
        return None if kept_in is None else float(kept_in)
    found = typed.temperature_c(held["coolest_c"].strip(), "coolest_c")
    if found is None:
        raise InputError(
            "coolest_c", "", tr("is empty"), tr("Write the coolest it gets.")
        )
    return found


def meaning_text(ratio: str, chosen: str | None) -> str:
    """Give a ratio's meaning in numbers, both of them until one is chosen."""
    try:
        found = parse_ratio(ratio, Meaning(chosen or Meaning.PART_IN))
    except InputError:
        return ""
    if chosen is not None or "%" in ratio:
        return stock_words.ratio_text(found)
    return "\n".join(stock_words.both_texts(found.parts))


def _part(tin_id: int | None, text: str) -> tuple[int, float]:
    if tin_id is None:
        raise InputError(
            "parts", text, tr("has no product"), tr("Choose it beside it.")
        )
    amount = typed.number(_UNIT.sub("", text), "parts", "50")
    if amount is None:
        raise InputError(
            "parts", "", tr("is empty"), tr("Write an amount beside the product.")
        )
    return tin_id, amount


def _unit(text: str) -> str:
    """Give the unit typed beside an amount; empty where none is."""
    found = _UNIT.search(text)
    return {"g": "g", "ml": "mL"}[found[1].lower()] if found else ""


def _ratio(held: Mapping[str, Any]) -> Ratio | None:
    text, meaning = held["ratio"].strip(), held["meaning"]
    if not text:
        return None
    return parse_ratio(text, None if meaning is None else Meaning(meaning))
