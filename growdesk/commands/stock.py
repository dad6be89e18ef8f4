"""Tells whether salts stay clear together as a stock, and the way out where not."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from growdesk.commands import output, reading
from growdesk.domain import stock_words
from growdesk.domain.bottles import mixing_order, way_out
from growdesk.domain.facts import House
from growdesk.domain.facts_fields import Range
from growdesk.domain.keeping_apart import Severity, findings
from growdesk.domain.product import Product
from growdesk.domain.salt_table import analysis_of
from growdesk.domain.salts import SALTS_EXAMPLE, parse_salts
from growdesk.domain.solubility import check_temperature, most_g_per_l
from growdesk.domain.water_analysis import WaterAnalysis
from growdesk.services.salts import salt_named
from growdesk.services.solubilities import room_of

if TYPE_CHECKING:
    from argparse import Namespace

    from growdesk.commands.desk import Desk
    from growdesk.domain.bottles import WayOut
    from growdesk.domain.keeping_apart import Apart
    from growdesk.domain.solubility import Room
    from growdesk.domain.stock_ions import Parts

_COOLEST = Range(0, 45, above=True)


def run(arguments: Namespace, desk: Desk) -> None:  # noqa: ARG001 -- commands share one form
    """Print what falls out of a litre of stock, and how it can be made after all."""
    told = reading.json_file("--salts", arguments.salts, f"Write {SALTS_EXAMPLE}.")
    salts = parse_salts(told)
    coolest_c = None
    if arguments.coolest is not None:
        coolest_c = reading.number("--coolest", arguments.coolest, _COOLEST)
    elif isinstance(told, Mapping) and told.get("temperature_c") is not None:
        coolest_c = check_temperature(salts.temperature_c)
    room = room_of(House(), coolest_c)
    water = salts.water or WaterAnalysis(kind="")
    parts = tuple((_product(f), grams) for f, grams in salts.salts_g_per_l)
    found = findings(parts, water, room)
    out = way_out(parts, water, room, 1.0)
    if arguments.json:
        output.say_json(_report(parts, found, out, room))
        return
    for line in _lines(parts, found, out, room):
        output.say(line)


def _product(formula: str) -> Product:
    salt = salt_named(formula)
    name = formula if salt is None else salt.name
    return Product(name, analysis_of(formula), formula=formula)


def _is_clear(found: tuple[Apart, ...]) -> bool:
    return not any(each.severity is Severity.REFUSE for each in found)


def _report(
    parts: Parts, found: tuple[Apart, ...], out: WayOut, room: Room
) -> dict[str, object]:
    return {
        "clear": _is_clear(found),
        "coolest_c": room.coolest_c,
        "share_of_solubility": room.share,
        "findings": [
            {
                "rule": each.rule.value,
                "severity": each.severity.value,
                "bring": list(each.bring),
                "meet": list(each.meet),
                "sentence": stock_words.apart_text(each),
            }
            for each in found
        ],
        "bottles": [[product.formula for product in bottle] for bottle in out.bottles],
        "clear_from_l": None if out.litres is None else round(out.litres, 3),
        "most_g_per_l": {product.formula: _most(product, room) for product, _ in parts},
        "order": list(
            stock_words.order_texts(mixing_order(product for product, _ in parts))
        ),
    }


def _most(product: Product, room: Room) -> float | None:
    most = most_g_per_l(product.formula or "", room)
    return None if most is None else round(most, 1)


def _lines(
    parts: Parts, found: tuple[Apart, ...], out: WayOut, room: Room
) -> list[str]:
    told = [stock_words.apart_text(each) for each in found]
    if _is_clear(found):
        order = stock_words.order_text(mixing_order(product for product, _ in parts))
        told = ["It stays clear.", *told, *([order] if order else [])]
    else:
        told += stock_words.way_out_texts(out)
    return [*told, stock_words.room_text(room)]
