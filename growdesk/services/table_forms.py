"""Every table of a collection as a CSV file: its name, its columns, what they refer to.

All follows from the schema, so that no column can be forgotten. A row that others refer
to is called by what a person calls it: a plant by its tag, a tin by its name, a look by
its day. Where several have one name, each carries its number among them. Reading a
folder back makes the same names from the same rows.
"""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, Any

from growdesk.store.schema import RECORDED

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from sqlalchemy import Column, Table

Row = dict[str, Any]
Scope = tuple[object, ...]

FILES: Mapping[str, str] = {
    "place": "places.csv",
    "bench": "benches.csv",
    "plant": "plants.csv",
    "look": "looks.csv",
    "care": "care.csv",
    "pass_by": "pass_bys.csv",
    "photo": "photos.csv",
    "reading": "readings.csv",
    "bloom": "blooms.csv",
    "saved_view": "saved_views.csv",
    "job_done": "jobs_done.csv",
    "forecast": "forecasts.csv",
    "kind_correction": "kind_corrections.csv",
    "plant_correction": "plant_corrections.csv",
    "mark": "marks.csv",
    "tin": "tins.csv",
    "water": "waters.csv",
    "recipe": "recipes.csv",
    "recipe_part": "recipe_parts.csv",
    "recipe_use": "recipe_uses.csv",
    "tool": "tools.csv",
    "spoon_weight": "spoon_weights.csv",
    "vessel": "vessels.csv",
    "stock": "stocks.csv",
    "stock_part": "stock_parts.csv",
    "drawn": "drawn.csv",
    "shelf_entry": "shelf_entries.csv",
    "meter": "meter.csv",
    "setting": "house_rules.csv",
}
"""The file of each table that the journal keeps, in the order they are read back."""
_HEADS: Mapping[str, str] = {
    "day": "on",
    "plant_id": "tag",
    "bench_id": "bench_name",
    "parent_id": "parent",
    "first_id": "first_water",
    "second_id": "second_water",
}
_LEFT_OUT = frozenset({"id", "binned_on"})
_ONE_NAME = frozenset({"plant", "place", "bench"})
"""Tables in which no name stands twice."""
_NUMBERED = re.compile(r"#[0-9]+\Z")


@dataclass(frozen=True)
class Cell:
    """A column of a file. ``refers_to`` names the table of which it calls a row."""

    head: str
    column: Column[Any]
    refers_to: str = ""

    @property
    def name(self) -> str:
        """Give the name of the column in the table."""
        return self.column.name


@dataclass(frozen=True)
class Form:
    """One table as a file. What a plant took is told by plant, day and care."""

    name: str
    file: str

    @property
    def table(self) -> Table:
        """Give the table as the schema has it."""
        return RECORDED[self.name].metadata.tables[self.name]

    @cached_property
    def cells(self) -> tuple[Cell, ...]:
        """Give the columns of the file that are columns of the table."""
        return tuple(
            Cell(_head(column), column, _target(column))
            for column in self.table.c
            if column.name not in _LEFT_OUT
        )

    @cached_property
    def heads(self) -> tuple[str, ...]:
        """Give the header of the file."""
        heads: list[str] = []
        for cell in self.cells:
            if cell.refers_to == "care":
                heads += ["tag", "on"]
            if self.name == "photo" and cell.name in {"sha256", "ext"}:
                heads += ["file"] if cell.name == "sha256" else []
            else:
                heads.append(cell.head)
        return tuple(heads)


def _head(column: Column[Any]) -> str:
    return _HEADS.get(column.name) or column.name.removesuffix("_id")


def _target(column: Column[Any]) -> str:
    return next((key.column.table.name for key in column.foreign_keys), "")


FORMS: tuple[Form, ...] = tuple(Form(name, file) for name, file in FILES.items())


def called(table: str, row: Row) -> tuple[Scope, str]:
    """Give what a row is called, and among which rows."""
    if table == "plant":
        return (), row["tag"]
    if table == "bench":
        return (row["place_id"],), row["name"]
    if table == "look":
        return (row["plant_id"],), row["day"].isoformat()
    if table == "care":
        return (row["plant_id"], row["day"]), row["what"]
    return (), row["name"] or row.get("kind") or ""


class Names:
    """What rows are called in tables, and which row a name calls."""

    def __init__(self) -> None:
        self._names: dict[str, dict[int, str]] = {}
        self._rows: dict[str, dict[tuple[Scope, str], int]] = {}

    def add(self, table: str, rows: Iterable[Row]) -> Row | None:
        """Name the rows of a table; give the first whose one name is taken already."""
        entries = [(row, *called(table, row)) for row in rows]
        often = Counter((scope, text) for _, scope, text in entries)
        place: Counter[Scope] = Counter()
        names: dict[int, str] = {}
        found: dict[tuple[Scope, str], int] = {}
        for row, scope, text in entries:
            place[scope] += 1
            alone = often[scope, text] == 1 and text and not _NUMBERED.search(text)
            plain = table in _ONE_NAME or alone
            name = text if plain else f"{text} #{place[scope]}".strip()
            if (scope, name) in found:
                return row
            names[row["id"]] = name
            found[scope, name] = row["id"]
        self._names[table], self._rows[table] = names, found
        return None

    def of(self, table: str, row_id: int | None) -> str:
        """Give what a row is called; nothing for a row that is not told."""
        return "" if row_id is None else self._names[table].get(row_id, "")

    def find(self, table: str, scope: Scope, name: str) -> int | None:
        """Give the row that a name calls."""
        return self._rows[table].get((scope, name))


NAMED = tuple(
    dict.fromkeys(
        cell.refers_to for form in FORMS for cell in form.cells if cell.refers_to
    )
)
"""The tables of which others call rows."""


def scope_of(target: str, row: Row) -> Scope:
    """Give among which rows of a table a name in this row is looked for."""
    if target == "bench":
        return (row["place_id"],)
    if target == "look":
        return (row["plant_id"],)
    if target == "care":
        return (row["plant_id"], row["day"])
    return ()
