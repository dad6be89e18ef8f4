"""Writes a collection out as tables anybody can read, and as a facts file.

A folder of CSV files for spreadsheets and one JSON that ``growdesk decide --facts``
takes. Photos stay where they are: a backup has them. A folder that holds anything
else is left alone.
"""

from __future__ import annotations

import json
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

from sqlalchemy import select

from growdesk.domain.errors import ForeignError
from growdesk.domain.facts import Place
from growdesk.domain.facts_writing import facts_json
from growdesk.domain.holding import Status
from growdesk.domain.kind_corrections import in_use
from growdesk.services import csv_form, kind_rows, kinds, shelf_export
from growdesk.services.plant_rows import tag_order
from growdesk.services.plant_taking import PLANT_COLUMNS
from growdesk.services.settings import read_house
from growdesk.store.mapping import (
    STAGES,
    care_of,
    look_of,
    place_of,
    plant_of,
    reading_of,
)
from growdesk.store.schema import (
    BloomRow,
    CareRow,
    KindCorrectionRow,
    LookRow,
    MarkRow,
    PlaceRow,
    PlantCorrectionRow,
    PlantRow,
    ReadingRow,
)
from growdesk.store.trouble import plainly
from growdesk.store.whole_files import PART, write_whole

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence
    from datetime import date
    from pathlib import Path

    from sqlalchemy.orm import Session

    from growdesk.domain.facts import Look, Plant
    from growdesk.domain.kinds import KindTable
    from growdesk.services.collection import Collection
    from growdesk.store.schema import Base

PLACE_COLUMNS = (
    "name",
    "kind",
    "controlled",
    "outdoors",
    "lamps_hours",
    "lamps_ppfd",
    "facing",
    "glass",
    "shaded",
    "note",
)
READING_COLUMNS = (
    "place",
    "on",
    "mean_c",
    "low_c",
    "high_c",
    "light_mol_per_m2_d",
    "humidity_percent",
)
LOOK_COLUMNS = (
    "tag",
    "on",
    *STAGES,
    "root_tips",
    "longest_new_root_mm",
    "lead_length_mm",
    "new_leaf",
    "flowering",
    "leaves",
    "bulbs",
    "pot",
    "health",
    "runoff_ec_ms_per_cm",
    "note",
)
CARE_COLUMNS = (
    "tag",
    "on",
    "what",
    "strength_ppm_n",
    "volume_l",
    "ec_ms_per_cm",
    "note",
)
BLOOM_COLUMNS = (
    "tag",
    "spike_seen_on",
    "first_open_on",
    "last_faded_on",
    "flowers",
    "note",
)
KIND_COLUMNS = ("kind", "field", "value", "note")
PLANT_KIND_COLUMNS = ("tag", "field", "value", "note")
MARK_COLUMNS = (
    "tag",
    "on",
    "verdict",
    "rule",
    "kind",
    "better",
    "marked_on",
    "note",
)
NAMES = (
    "plants.csv",
    "places.csv",
    "readings.csv",
    "looks.csv",
    "care.csv",
    "blooms.csv",
    "kind_corrections.csv",
    "plant_corrections.csv",
    "marks.csv",
    *shelf_export.NAMES,
    "facts.json",
)


@dataclass(frozen=True, slots=True)
class Exported:
    """What was written where."""

    folder: Path
    plants: int
    looks: int
    care: int


@dataclass(frozen=True, slots=True)
class _Rows:
    """All rows of a collection that are written out, plants by tag."""

    plants: Sequence[Any]
    places: dict[int, Any]
    readings: Sequence[Any]
    looks: Sequence[Any]
    care: Sequence[Any]
    blooms: Sequence[Any]
    kinds: Sequence[Any]
    plant_kinds: Sequence[Any]
    marks: Sequence[Any]


def export(collection: Collection, folder: Path) -> Exported:
    """Write the whole collection into a folder; give what was written."""
    with plainly(folder):
        _refuse_strange(folder)
        with collection.ledger.reading() as session:
            rows = _read(session)
            house = read_house(session)
            table = kind_rows.table_of(session)
            of_shelf = shelf_export.tables(session)
        facts = facts_json(
            house,
            tuple(_with_kind_fields(each, table) for each in _plants(rows)),
            {k.key: in_use(k) for k in table.kinds.values() if k.corrected},
        )
        contents = {
            **_tables(rows),
            **of_shelf,
            "facts.json": json.dumps(facts, ensure_ascii=False, indent=1).encode(),
        }
        folder.mkdir(parents=True, exist_ok=True)
        for name in NAMES:
            write_whole(folder / name, contents[name])
    return Exported(folder, len(rows.plants), len(rows.looks), len(rows.care))


def _refuse_strange(folder: Path) -> None:
    if not folder.exists():
        return
    if not folder.is_dir():
        raise ForeignError(f"{folder} is a file, not a folder.", "Choose a folder.")
    found = sorted(path.name for path in folder.iterdir())
    strange = [name for name in found if name not in NAMES and not name.endswith(PART)]
    if strange:
        raise ForeignError(
            f"{folder} holds other files ({strange[0]}), so nothing is written to it.",
            "Choose an empty folder, a new one, or that of an earlier export.",
        )


def _read(session: Session) -> _Rows:
    plants = _all(session, PlantRow)
    kept = [plant for plant in plants if plant.binned_on is None]
    kept.sort(key=lambda plant: tag_order(plant.tag))
    order = {plant.id: place for place, plant in enumerate(kept)}

    def of_plants(table: type[Base]) -> list[Any]:
        rows = [row for row in _all(session, table) if row.plant_id in order]
        return sorted(rows, key=lambda row: order[row.plant_id])

    return _Rows(
        plants=kept,
        places={place.id: place for place in _all(session, PlaceRow)},
        readings=_all(session, ReadingRow),
        looks=of_plants(LookRow),
        care=of_plants(CareRow),
        blooms=of_plants(BloomRow),
        kinds=_all(session, KindCorrectionRow),
        plant_kinds=of_plants(PlantCorrectionRow),
        marks=of_plants(MarkRow),
    )


def _all(session: Session, table: type[Base]) -> Sequence[Any]:
    """Give all rows of a table; those of a day in the order of their days."""
    columns = table.__table__.c
    order = [columns["day"], columns["id"]] if "day" in columns else [columns["id"]]
    return session.execute(select(table.__table__).order_by(*order)).all()


def _plants(rows: _Rows) -> tuple[Plant, ...]:
    """Give the plants that grow here as facts; what left is judged no more."""
    places = {
        place_id: place_of(
            place,
            [reading_of(row) for row in rows.readings if row.place_id == place_id],
        )
        for place_id, place in rows.places.items()
    }
    looks, care = _by_plant(rows.looks), _by_plant(rows.care)
    own = _by_plant(rows.plant_kinds)
    growing = [plant for plant in rows.plants if plant.status == Status.GROWING]
    plants = (
        plant_of(
            plant,
            places.get(plant.place_id, Place()),
            _one_a_day([look_of(row) for row in looks.get(plant.id, ())]),
            [care_of(row) for row in care.get(plant.id, ())],
        )
        for plant in growing
    )
    return tuple(
        replace(
            each, kind_fields=tuple((r.field, r.value) for r in own.get(row.id, ()))
        )
        for each, row in zip(plants, growing, strict=True)
    )


def _with_kind_fields(plant: Plant, table: KindTable) -> Plant:
    """Give a plant with those of its corrections that it is judged by."""
    kind, _known = kinds.kind_of(plant, table)
    return replace(plant, kind_fields=tuple(in_use(kind, here=True).items()))


def _one_a_day(looks: list[Look]) -> list[Look]:
    """Give one look for each day: the last one, which is what the judging goes by.

    A facts file takes no two; health that only an earlier one recorded goes along.
    """
    found: dict[date, Look] = {}
    for look in looks:
        before = found.get(look.on)
        if before is not None and look.health is None:
            look = replace(look, health=before.health)  # noqa: PLW2901 -- the same look
        found[look.on] = look
    return list(found.values())


def _by_plant(rows: Sequence[Any]) -> dict[int, list[Any]]:
    found: dict[int, list[Any]] = {}
    for row in rows:
        found.setdefault(row.plant_id, []).append(row)
    return found


def _tables(rows: _Rows) -> dict[str, bytes]:
    names = {place_id: place.name for place_id, place in rows.places.items()}
    tags = {plant.id: plant.tag for plant in rows.plants}

    def dated(row: Any) -> dict[str, object]:
        return {"tag": tags[row.plant_id], "on": row.day}

    return {
        "plants.csv": _table(
            PLANT_COLUMNS, rows.plants, lambda row: {"place": names.get(row.place_id)}
        ),
        "places.csv": _table(PLACE_COLUMNS, list(rows.places.values())),
        "readings.csv": _table(
            READING_COLUMNS,
            rows.readings,
            lambda row: {"place": names[row.place_id], "on": row.day},
        ),
        "looks.csv": _table(LOOK_COLUMNS, rows.looks, dated),
        "care.csv": _table(CARE_COLUMNS, rows.care, dated),
        "blooms.csv": _table(
            BLOOM_COLUMNS, rows.blooms, lambda row: {"tag": tags[row.plant_id]}
        ),
        "kind_corrections.csv": _table(KIND_COLUMNS, rows.kinds),
        "plant_corrections.csv": _table(
            PLANT_KIND_COLUMNS,
            rows.plant_kinds,
            lambda row: {"tag": tags[row.plant_id]},
        ),
        "marks.csv": _table(MARK_COLUMNS, rows.marks, dated),
    }


def _table(
    columns: Sequence[str],
    rows: Sequence[Any],
    looked_up: Callable[[Any], Mapping[str, object]] = lambda _: {},
) -> bytes:
    """Give a CSV file; what is not in a row itself is looked up for it."""
    lines = []
    for row in rows:
        extra = looked_up(row)
        lines.append(
            [extra[name] if name in extra else getattr(row, name) for name in columns]
        )
    return csv_form.write_table(columns, lines)
