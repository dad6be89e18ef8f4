"""The shelf as tables for spreadsheets: tins to meter readings, and what rounds took.

What a row refers to is told by its name; where several have one name, each carries its
number behind it.
"""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING, Any

from sqlalchemy import select

from growdesk.services import csv_form
from growdesk.store.schema import (
    CareRow,
    DrawnRow,
    MeterRow,
    PlaceRow,
    PlantRow,
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
    from collections.abc import Mapping, Sequence

    from sqlalchemy.orm import Session

    from growdesk.store.schema import Base

    Names = Mapping[str, Mapping[int, str]]

_TABLES: Mapping[str, type[Base]] = {
    "tins.csv": TinRow,
    "waters.csv": WaterRow,
    "recipes.csv": RecipeRow,
    "recipe_parts.csv": RecipePartRow,
    "recipe_uses.csv": RecipeUseRow,
    "tools.csv": ToolRow,
    "spoon_weights.csv": SpoonWeightRow,
    "vessels.csv": VesselRow,
    "stocks.csv": StockRow,
    "stock_parts.csv": StockPartRow,
    "shelf_entries.csv": ShelfEntryRow,
    "meter.csv": MeterRow,
}
DRAWN = "drawn.csv"
NAMES = (*_TABLES, DRAWN)
_DRAWN_COLUMNS = ("tag", "on", "care", "tin", "stock", "water", "amount")
_NAMED: Mapping[str, str] = {
    "tin_id": "tin",
    "water_id": "water",
    "recipe_id": "recipe",
    "tool_id": "tool",
    "stock_id": "stock",
    "plant_id": "plant",
    "place_id": "place",
    "first_id": "water",
    "second_id": "water",
}
"""What a column that refers to another row refers to."""
_HEADS: Mapping[str, str] = {
    "first_id": "first_water",
    "second_id": "second_water",
    "day": "on",
}
_OWN: Mapping[type[Base], str] = {
    TinRow: "tin",
    WaterRow: "water",
    RecipeRow: "recipe",
    ToolRow: "tool",
    StockRow: "stock",
}
"""Tables that others refer to, whose names are told apart."""


def tables(session: Session) -> dict[str, bytes]:
    """Give every table of the shelf as the content of its CSV file."""
    names = _names(session)
    found = {name: _table(session, kind, names) for name, kind in _TABLES.items()}
    found[DRAWN] = _drawn(session, names)
    return found


def _names(session: Session) -> Names:
    def named(kind: type[Base], *fields: str) -> dict[int, str]:
        rows = session.execute(select(kind.__table__)).all()
        plain = {
            row.id: next(
                (getattr(row, each) for each in fields if getattr(row, each)), ""
            )
            for row in rows
        }
        often = Counter(plain.values())
        return {
            key: text if often[text] == 1 else f"{text} #{key}"
            for key, text in plain.items()
        }

    return {
        "tin": named(TinRow, "name"),
        "water": named(WaterRow, "name", "kind"),
        "recipe": named(RecipeRow, "name"),
        "tool": named(ToolRow, "name"),
        "stock": named(StockRow, "name"),
        "plant": named(PlantRow, "tag"),
        "place": named(PlaceRow, "name"),
    }


def _table(session: Session, kind: type[Base], names: Names) -> bytes:
    fields = [column.name for column in kind.__table__.c if column.name != "id"]
    own = _OWN.get(kind)
    rows = session.execute(select(kind.__table__).order_by(kind.__table__.c.id))
    lines: list[Sequence[object]] = []
    for row in rows:
        cells = [_cell(row, field, names) for field in fields]
        if own is not None:
            cells[fields.index("name")] = names[own][row.id]
        lines.append(cells)
    heads = [_HEADS.get(each) or _NAMED.get(each) or each for each in fields]
    return csv_form.write_table(heads, lines)


def _cell(row: Any, field: str, names: Names) -> object:
    value = getattr(row, field)
    if field not in _NAMED or value is None:
        return value
    return names[_NAMED[field]].get(value, "")


def _drawn(session: Session, names: Names) -> bytes:
    rows = session.execute(
        select(
            CareRow.plant_id,
            CareRow.day,
            CareRow.what,
            DrawnRow.tin_id,
            DrawnRow.stock_id,
            DrawnRow.water_id,
            DrawnRow.amount,
        )
        .join_from(DrawnRow, CareRow, CareRow.id == DrawnRow.care_id)
        .order_by(CareRow.day, DrawnRow.id)
    )
    lines = [
        (
            names["plant"].get(row.plant_id, ""),
            row.day,
            row.what,
            *(_cell(row, field, names) for field in ("tin_id", "stock_id", "water_id")),
            row.amount,
        )
        for row in rows
    ]
    return csv_form.write_table(_DRAWN_COLUMNS, lines)
