"""What a person calls an entry of the collection, its fields and its values.

Used where damage is told, of a row read as it stands.
"""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING, Any

from growdesk.domain.day_words import short_dated_text
from growdesk.domain.speech import Phrases, plain, tr
from growdesk.store.schema import RECORDED

if TYPE_CHECKING:
    from collections.abc import Mapping

_SHOWN_CHARACTERS = 60
ENTRIES = Phrases(
    {
        "place": "place",
        "bench": "bench",
        "plant": "plant",
        "look": "look",
        "care": "care",
        "pass_by": "pass by",
        "photo": "photo",
        "reading": "reading",
        "bloom": "bloom",
        "saved_view": "saved view",
        "job_done": "job done",
        "forecast": "forecast",
        "kind_correction": "kind correction",
        "plant_correction": "plant correction",
        "mark": "mark",
        "tin": "tin",
        "water": "water",
        "recipe": "recipe",
        "recipe_part": "part of a recipe",
        "recipe_use": "use of a recipe",
        "tool": "tool",
        "spoon_weight": "weight of a spoon",
        "vessel": "vessel",
        "stock": "stock bottle",
        "stock_part": "part of a stock bottle",
        "drawn": "use of the shelf",
        "shelf_entry": "count of the shelf",
        "meter": "meter reading",
        "setting": "setting",
    },
    "what an entry of the collection is",
)
"""One entry of each table, as it is called in a sentence."""
_FIELDS = Phrases(
    {
        "day": "day",
        "name": "name",
        "tag": "tag",
        "kind": "kind",
        "note": "note",
        "place_id": "place",
        "bench_id": "bench",
        "bench": "number on the bench",
        "plant_id": "plant",
        "parent_id": "taken from",
        "pot_volume_l": "pot",
        "volume_l": "water",
        "medium": "medium",
        "size": "size",
        "hybrid": "hybrid",
        "mounted": "mounted",
        "repotted_on": "day of repotting",
        "acquired_on": "day of acquiring",
        "left_on": "day it left",
        "binned_on": "day of removing",
        "source": "source",
        "strength_ppm_n": "strength",
        "ec_ms_per_cm": "EC",
        "what": "what was done",
        "root_tips": "root tips",
        "new_leaf": "new leaf",
        "flowering": "flowering",
        "leaves": "leaves",
        "bulbs": "bulbs",
        "pot": "pot",
        "health": "health",
        "amount": "amount",
        "price": "price",
        "value": "value",
        "analysis": "analysis",
        "low_c": "lowest",
        "high_c": "highest",
        "mean_c": "mean",
    },
    "a field of an entry",
)
_UNITS = {
    "_mg_per_l": "mg/L",
    "_ms_per_cm": "mS/cm",
    "_g_per_ml": "g/mL",
    "_ppm_n": "ppm N",
    "_percent": "%",
    "_mm": "mm",
    "_ml": "mL",
    "_l": "L",
    "_c": "°C",
    "_g": "g",
}


class Owners:
    """The plants and places that entries belong to, by number."""

    def __init__(self, plants: Mapping[int, str], places: Mapping[int, str]) -> None:
        self._plants = plants
        self._places = places

    def owner(self, table: str, row: Mapping[str, Any]) -> str:
        """Give the plant or place that an entry is or belongs to; empty if none."""
        plant = row.get("tag") if table == "plant" else self._tag(row)
        if plant is not None:
            return tr("Plant {tag}").format(tag=plant)
        place = row.get("name") if table == "place" else self._place(row)
        return "" if place is None else tr("Place {name}").format(name=place)

    def whose(self, table: str, row: Mapping[str, Any]) -> str:
        """Give what a list of damage goes by: a plant, a place, or a sort of entry."""
        owner = self.owner(table, row)
        if owner:
            return owner
        shown = large(ENTRIES[table])
        named = row.get("name") or row.get("key")
        return f"{shown} {named or row.get('id', '')}".strip()

    def called(self, table: str, row: Mapping[str, Any]) -> str:
        """Give what a person calls an entry: whose it is, what, and of which day."""
        whose = self.whose(table, row)
        apart = self._tag(row) is not None or self._place(row) is not None
        if table not in {"plant", "place"} and apart:
            whose = tr("{owner}, {entry}").format(owner=whose, entry=ENTRIES[table])
        day = _day(row.get("day"))
        if day is None:
            return whose
        return tr("{owner} of {day}").format(owner=whose, day=short_dated_text(day))

    def _tag(self, row: Mapping[str, Any]) -> str | None:
        plant = row.get("plant_id")
        return self._plants.get(plant) if isinstance(plant, int) else None

    def _place(self, row: Mapping[str, Any]) -> str | None:
        if row.get("plant_id") is not None or "tag" in row:
            return None
        place = row.get("place_id")
        return self._places.get(place) if isinstance(place, int) else None


def field_word(column: str) -> str:
    """Give what a person calls a field, small as inside a sentence."""
    if column in _FIELDS:
        return _FIELDS[column]
    for unit in _UNITS:
        column = column.removesuffix(unit)
    return column.replace("_id", "").replace("_", " ")


def value_text(table: str, column: str, value: object) -> str:
    """Give a value as it is read: a day as a day, an amount with its unit."""
    if value is None:
        return tr("nothing")
    kind = RECORDED[table].metadata.tables[table].c[column].type.python_type
    if kind is bool and value in {0, 1}:
        return tr("yes") if value else tr("no")
    if kind is date and (day := _day(value)) is not None:
        return short_dated_text(day)
    if isinstance(value, int | float):
        shown = plain(value) if isinstance(value, float) else str(value)
        unit = next((_UNITS[end] for end in _UNITS if column.endswith(end)), "")
        return f"{shown} {unit}".strip()
    text = value if isinstance(value, str) else repr(value)
    short = text if len(text) <= _SHOWN_CHARACTERS else f"{text[:_SHOWN_CHARACTERS]}…"
    return tr("“{text}”").format(text=" ".join(short.split()))


def _day(value: object) -> date | None:
    try:
        return date.fromisoformat(value)  # type: ignore[arg-type]
    except (TypeError, ValueError):
        return None


def large(text: str) -> str:
    """Give a text as it begins a line."""
    return text[:1].upper() + text[1:]
