"""All rows of a collection that go out as tables, in their order, and their names.

Plants go by tag, what belongs to a plant by plant and day, all else as it was entered.
What lies in the bin stays behind, and what refers to it.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from operator import itemgetter
from typing import TYPE_CHECKING

from sqlalchemy import select

from growdesk.services import table_cells
from growdesk.services.exported_views import by_name
from growdesk.services.plants import tag_order
from growdesk.services.table_forms import FORMS, NAMED, Names
from growdesk.store.mapping import WORD_SETS

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from growdesk.services.table_forms import Cell, Form, Row
    from growdesk.store.session import Session

_FIRST = date.min


@dataclass(frozen=True)
class Book:
    """The rows of each table, and what they are called. ``binned`` plants are not."""

    rows: dict[str, list[Row]]
    binned: int
    names: Names
    care: dict[int, Row]

    def lines(self, form: Form) -> Iterator[list[object]]:
        """Give the lines of a table's file."""
        parts = [part for cell in form.cells for part in self._parts(cell)]
        for row in self.rows[form.name]:
            yield [part(row) for part in parts]

    def _parts(self, cell: Cell) -> list[Callable[[Row], object]]:
        """Give what tells the columns of the file that a column of the table makes."""
        name, of, care = cell.name, self.names.of, self.care
        if cell.refers_to == "care":
            return [
                lambda row: of("plant", care[row[name]]["plant_id"]),
                lambda row: care[row[name]]["day"],
                lambda row: of("care", row[name]),
            ]
        if cell.refers_to:
            return [lambda row: of(cell.refers_to, row[name])]
        if name == "sha256":
            return [lambda row: f"{row[name]}.{row['ext']}"]
        if name == "ext":
            return []
        if name in WORD_SETS:
            return [lambda row: table_cells.told(cell.column, row[name])]
        return [itemgetter(name)]


def read_book(session: Session) -> Book:
    """Read all that goes out, in one statement a table."""
    plants = _all(session, "plant")
    kept = [row for row in plants if row["binned_on"] is None]
    kept.sort(key=lambda row: (tag_order(row["tag"]), row["id"]))
    order = {row["id"]: place for place, row in enumerate(kept)}
    rows: dict[str, list[Row]] = {"plant": kept}
    for form in FORMS:
        if form.name != "plant":
            rows[form.name] = _of_plants(_all(session, form.name), order)
    _mend(rows, order)
    place = {row["id"]: at for at, row in enumerate(rows["care"])}
    drawn = [row for row in rows["drawn"] if row["care_id"] in place]
    drawn.sort(key=lambda row: (place[row["care_id"]], row["id"]))
    rows["drawn"] = drawn
    names = Names()
    for table in NAMED:
        names.add(table, rows[table])
    care = {row["id"]: row for row in rows["care"]}
    return Book(rows, len(plants) - len(kept), names, care)


def _mend(rows: dict[str, list[Row]], order: dict[int, int]) -> None:
    """Let nothing refer to what is not told, or to the bench of another place."""
    places = {row["id"]: row["place_id"] for row in rows["bench"]}
    owners = {row["id"]: row["plant_id"] for row in rows["look"]}
    for row in rows["plant"]:
        if row["parent_id"] not in order:
            row["parent_id"] = None
        if places.get(row["bench_id"], 0) != row["place_id"]:
            row["bench_id"] = None
    called = {row["id"]: row["name"] for row in rows["place"]}
    for row in rows["saved_view"]:
        row["what"] = by_name(row["what"], lambda key: called.get(key, ""))
    for row in rows["photo"]:
        if owners.get(row["look_id"]) != row["plant_id"]:
            row["look_id"] = None


def _all(session: Session, table: str) -> list[Row]:
    form = next(form for form in FORMS if form.name == table)
    found = session.execute(select(form.table).order_by(form.table.c.id))
    return [dict(row) for row in found.mappings()]


def _of_plants(rows: list[Row], order: dict[int, int]) -> list[Row]:
    """Give the rows that belong to no plant in the bin, by plant, day and entry."""
    if not rows or "plant_id" not in rows[0]:
        return sorted(rows, key=lambda row: (row.get("day") or _FIRST, row["id"]))
    kept = [row for row in rows if row["plant_id"] in order or row["plant_id"] is None]
    return sorted(
        kept,
        key=lambda row: (
            order.get(row["plant_id"], -1),
            row.get("day") or _FIRST,
            row["id"],
        ),
    )
