"""Lay the demo's shelf: tins, waters, recipes and measures, and what was taken of them.

The file names things by their names and counts days back; here both become numbers and
dates. What past rounds took is reckoned from the recipe in use, as a tick would.
"""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING, Any, NamedTuple

from growdesk.domain.conductivity import at_temperature
from growdesk.domain.expected_ec import expected_ec
from growdesk.domain.facts import CareKind
from growdesk.domain.recipe import Part, Recipe, mixture
from growdesk.services.shelf import product_of
from growdesk.services.values import TinDraft, WaterDraft
from growdesk.services.water_rows import water_analysis
from growdesk.store.schema import (
    DrawnRow,
    MeterRow,
    RecipePartRow,
    RecipeRow,
    RecipeUseRow,
    ShelfEntryRow,
    SpoonWeightRow,
    StockPartRow,
    StockRow,
    TinRow,
    ToolRow,
    VesselRow,
    WaterRow,
)

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

    from growdesk.domain.recipe import Mixture
    from growdesk.services.demo_course import Data
    from growdesk.services.demo_values import DemoCare
    from growdesk.store.journal import Writing

SPARED = 1.05
_PARENTS = frozenset({"first", "second"})
_WATERED = (CareKind.FEED, CareKind.CLEAR_WATER, CareKind.FLUSH)


class Given(NamedTuple):
    """A piece of past care with its row's number."""

    care_id: int
    entry: DemoCare


def lay_shelf(
    writing: Writing, shelf: Data, plants: dict[str, int], on: date
) -> dict[str, dict[str, int]]:
    """Write all that stands on the shelf; give the numbers by sort and name."""
    numbers: dict[str, dict[str, int]] = {}
    numbers["tin"] = _lay(writing, TinRow, shelf["tins"])
    numbers["water"] = _lay_waters(writing, shelf["waters"])
    numbers["recipe"] = _lay_recipes(writing, shelf["recipes"], numbers["tin"], plants)
    _lay_tools(writing, shelf["tools"], numbers["tin"])
    _lay(writing, VesselRow, shelf["vessels"])
    numbers["stock"] = _lay_stocks(writing, shelf["stocks"], numbers["tin"], on)
    _lay_entries(writing, shelf["entries"], numbers, on)
    _lay_meter(writing, shelf, numbers["recipe"], on)
    return numbers


def lay_drawn(
    writing: Writing,
    shelf: Data,
    numbers: dict[str, dict[str, int]],
    given: Sequence[Given],
) -> None:
    """Write what past rounds took from the tins and the water in use."""
    water_id = numbers["water"][_used(shelf["waters"])["name"]]
    per_ppm = _mixed(shelf, 100.0)
    rows: list[dict[str, Any]] = []
    for care_id, entry in given:
        if entry.care.what not in _WATERED or entry.volume_l is None:
            continue
        litres = entry.volume_l * SPARED
        rows.append({"care_id": care_id, "water_id": water_id, "amount": litres})
        strength = entry.care.strength_ppm_n
        if entry.care.what is CareKind.FEED and strength:
            rows += (
                {
                    "care_id": care_id,
                    "tin_id": numbers["tin"][product.name],
                    "amount": grams * strength / 100 * litres,
                }
                for product, grams in per_ppm.g_per_l
            )
    writing.insert_many(DrawnRow, rows)


def _lay(writing: Writing, table: Any, rows: Sequence[Data]) -> dict[str, int]:
    ids = writing.insert_many(table, rows)
    return {row["name"]: number for row, number in zip(rows, ids, strict=True)}


def _lay_waters(writing: Writing, waters: Sequence[Data]) -> dict[str, int]:
    """Write the waters; a blend names two that stand before it in the file."""
    numbers: dict[str, int] = {}
    for water in waters:
        row = {key: value for key, value in water.items() if key not in _PARENTS}
        for name in _PARENTS & water.keys():
            row[f"{name}_id"] = numbers[water[name]]
        numbers[water["name"]] = writing.insert(WaterRow, row)
    return numbers


def _lay_recipes(
    writing: Writing,
    recipes: Sequence[Data],
    tins: dict[str, int],
    plants: dict[str, int],
) -> dict[str, int]:
    numbers: dict[str, int] = {}
    for recipe in recipes:
        wanted = recipe.get("wanted", {})
        row = {key: recipe[key] for key in ("name", "in_use", "note")}
        row |= {f"wanted_{element}": amount for element, amount in wanted.items()}
        number = writing.insert(RecipeRow, row)
        numbers[recipe["name"]] = number
        for tin, share in recipe["parts"]:
            part = {"recipe_id": number, "tin_id": tins[tin], "share": share}
            writing.insert(RecipePartRow, part)
        for tag in recipe["uses"]:
            use = {"recipe_id": number, "plant_id": plants[tag]}
            writing.insert(RecipeUseRow, use)
    return numbers


def _lay_tools(writing: Writing, tools: Sequence[Data], tins: dict[str, int]) -> None:
    for tool in tools:
        row = {key: value for key, value in tool.items() if key != "g_per_level"}
        number = writing.insert(ToolRow, row)
        for tin, grams in tool.get("g_per_level", ()):
            weight = {"tool_id": number, "tin_id": tins[tin], "g_per_level": grams}
            writing.insert(SpoonWeightRow, weight)


def _lay_stocks(
    writing: Writing, stocks: Sequence[Data], tins: dict[str, int], on: date
) -> dict[str, int]:
    numbers: dict[str, int] = {}
    for stock in stocks:
        made = on - timedelta(days=stock["made_days_ago"])
        row = {
            "name": stock["name"],
            "made_on": made,
            "keep_by": made + timedelta(days=stock["keep_days"]),
            "volume_l": stock["volume_l"],
            "note": stock["note"],
        }
        number = writing.insert(StockRow, row)
        numbers[stock["name"]] = number
        for tin, mass_g in stock["parts"]:
            part = {"stock_id": number, "tin_id": tins[tin], "mass_g": mass_g}
            writing.insert(StockPartRow, part)
    return numbers


def _lay_entries(
    writing: Writing,
    entries: Sequence[Data],
    numbers: dict[str, dict[str, int]],
    on: date,
) -> None:
    rows = [
        {
            **{
                f"{sort}_id": numbers[sort][entry[sort]]
                for sort in ("tin", "stock", "water")
                if sort in entry
            },
            "day": on - timedelta(days=entry["days_ago"]),
            "what": entry["what"],
            "amount": entry["amount"],
            "price": entry.get("price"),
        }
        for entry in entries
    ]
    writing.insert_many(ShelfEntryRow, rows)


def _lay_meter(
    writing: Writing, shelf: Data, recipes: dict[str, int], on: date
) -> None:
    """Write what the meter read in past jugs, beside what was to be expected."""
    recipe_id = recipes[_used(shelf["recipes"])["name"]]
    rows = []
    for read in shelf["meter"]:
        expected = expected_ec(_mixed(shelf, read["strength_ppm_n"]))
        row = _meter_row(read, on) | {"recipe_id": recipe_id}
        if expected is not None:
            row["expected_low_ms_per_cm"] = round(expected.low_ms_per_cm, 3)
            row["expected_high_ms_per_cm"] = round(expected.high_ms_per_cm, 3)
        rows.append(row)
    writing.insert_many(MeterRow, rows)


def _meter_row(read: Data, on: date) -> dict[str, Any]:
    shown = ec_ms_per_cm = read["ec_ms_per_cm"]
    temperature_c = read["temperature_c"]
    if temperature_c is not None:
        shown = at_temperature(ec_ms_per_cm, temperature_c)
    return {
        "day": on - timedelta(days=read["days_ago"]),
        "letter": "A",
        "strength_ppm_n": read["strength_ppm_n"],
        "read_ms_per_cm": round(shown, 2),
        "temperature_c": temperature_c,
        "ec_ms_per_cm": ec_ms_per_cm,
        "note": read["note"],
    }


def _mixed(shelf: Data, strength_ppm_n: float) -> Mixture:
    """Give the recipe in use, mixed with the water in use."""
    recipe, water = _used(shelf["recipes"]), _used(shelf["waters"])
    tins = {tin["name"]: TinDraft(**tin) for tin in shelf["tins"]}
    parts = tuple(
        Part(product_of(tins[name], None), share) for name, share in recipe["parts"]
    )
    known = water_analysis(WaterDraft(**water), None)
    return mixture(Recipe(recipe["name"], parts), strength_ppm_n, known)


def _used(rows: Sequence[Data]) -> Data:
    return next(row for row in rows if row["in_use"])
