"""What cannot be in the rows of the shelf: tins, waters, recipes, tools, counts, draws.

A form would have refused such a value; a file that another program wrote may hold one.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

from growdesk.domain.analysis import parse_analysis
from growdesk.domain.errors import InputError
from growdesk.domain.facts_fields import Range
from growdesk.domain.measuring import ToolKind
from growdesk.domain.phrases import listed
from growdesk.domain.salts import known_formula
from growdesk.domain.speech import plain, tr
from growdesk.domain.stocktaking import What
from growdesk.domain.vessels import VesselKind
from growdesk.domain.wanted_text import LEAST_N
from growdesk.domain.water_blend import Aim

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping
    from enum import StrEnum

Row = dict[str, Any]

_MOST = 1e9
_ANY = Range(0, _MOST)
_SOME = Range(0, _MOST, above=True)
_SHARE = Range(0, 1)
_EC = Range(0, 200)

WORDS: Mapping[str, Mapping[str, type[StrEnum]]] = {
    "shelf_entry": {"what": What},
    "tool": {"kind": ToolKind},
    "vessel": {"kind": VesselKind},
    "water": {"aim": Aim},
}
"""Columns that hold one word of their own table's."""

RANGES: Mapping[str, Mapping[str, Range]] = {
    "tin": {
        "density_g_per_ml": Range(0.5, 3),
        "ec_per_100_ppm_n_ms_per_cm": _SOME,
        "price": _ANY,
        "pack_amount": _SOME,
    },
    "water": {
        "ec_ms_per_cm": _EC,
        "capacity_l": _SOME,
        "first_share": _SHARE,
        "aim_value": _ANY,
        **{
            f"{each}_mg_per_l": _ANY
            for each in (
                *("alkalinity", "hardness", "ca", "mg", "k", "na", "cl"),
                *("so4", "no3"),
            )
        },
    },
    "recipe": {
        "wanted_n": Range(LEAST_N, _MOST),
        **{f"wanted_{each}": _ANY for each in ("p", "k", "ca", "mg")},
    },
    "recipe_part": {"share": _ANY},
    "tool": {"step": _SOME, "most": _SOME},
    "spoon_weight": {"g_per_level": _SOME},
    "vessel": {"volume_l": _SOME, "how_many": Range(1, 1000), "step_ml": _SOME},
    "stock": {"volume_l": _SOME},
    "stock_part": {"mass_g": _SOME},
    "drawn": {"amount": _ANY},
    "shelf_entry": {"amount": _ANY, "price": _ANY},
    "meter": {
        "strength_ppm_n": Range(0, 10_000),
        "expected_low_ms_per_cm": _EC,
        "expected_high_ms_per_cm": _EC,
        "read_ms_per_cm": _EC,
        "temperature_c": Range(-5, 60),
        "ec_ms_per_cm": _EC,
    },
}
_GOODS = ("tin_id", "stock_id", "water_id")
_MONTH_DAY = re.compile(r"(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])")


def shelf_problems(name: str, row: Row) -> Iterator[str]:
    """Give a line for each value of a row that cannot be meant."""
    yield from _wrong_words(name, row)
    yield from _out_of_range(name, row)
    if name in {"drawn", "shelf_entry"}:
        yield from _of_one_good(row)
    if name == "shelf_entry":
        yield from _wrong_price(row)
    if name == "tin":
        yield from _wrong_tin(row)
    if name == "water":
        yield from _wrong_blend(row)
    if name == "tool":
        yield from _wrong_step(row)
    if name == "recipe_use":
        yield from _wrong_season(row)


def _wrong_words(name: str, row: Row) -> Iterator[str]:
    for field, words in WORDS.get(name, {}).items():
        text = row[field]
        if isinstance(text, str) and text not in list(words):
            yield tr("{field}: {text!r} is none of {list}.").format(
                field=field, text=text[:60], list=", ".join(words)
            )


def _out_of_range(name: str, row: Row) -> Iterator[str]:
    for field, allowed in RANGES.get(name, {}).items():
        value = row[field]
        is_number = isinstance(value, int | float)
        if is_number and not allowed.holds(value):
            yield tr("{field}: {value} cannot be meant; it is {allowed}.").format(
                field=field, value=plain(value), allowed=allowed
            )


def _of_one_good(row: Row) -> Iterator[str]:
    named = [field for field in _GOODS if row[field] is not None]
    if len(named) != 1:
        found = listed(named) or tr("nothing")
        yield tr("names {found}, where one tin, stock or water belongs.").format(
            found=found
        )


def _wrong_price(row: Row) -> Iterator[str]:
    if row["price"] is not None and row["what"] != What.ADDED:
        yield tr("price: belongs to what was added only.")


def _wrong_tin(row: Row) -> Iterator[str]:
    try:
        if isinstance(row["analysis"], str):
            parse_analysis(row["analysis"], row["density_g_per_ml"])
        if isinstance(row["formula"], str):
            known_formula(row["formula"], "formula")
    except InputError as error:
        yield f"{error.field}: {str(error.value)[:60]!r} {error.problem}."
    except TypeError:
        return  # a column of the wrong type is told on its own


def _wrong_blend(row: Row) -> Iterator[str]:
    two = (row["first_id"], row["second_id"])
    if (two[0] is None) != (two[1] is None):
        yield tr("is blended of one water, where two belong.")
    elif row["id"] in two:
        yield tr("is blended of itself.")


def _wrong_step(row: Row) -> Iterator[str]:
    try:
        if row["most"] is not None and row["step"] > row["most"]:
            yield tr("step: is more than the most that it holds.")
    except TypeError:
        return  # a column of the wrong type is told on its own


def _wrong_season(row: Row) -> Iterator[str]:
    days = (row["from_day"], row["until_day"])
    if (days[0] is None) != (days[1] is None):
        yield tr("has one end of its season only.")
    for field in ("from_day", "until_day"):
        text = row[field]
        if isinstance(text, str) and not _MONTH_DAY.fullmatch(text):
            yield tr("{field}: {text!r} is no day of the year, as 09-15.").format(
                field=field, text=text[:60]
            )
