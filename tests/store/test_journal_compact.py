"""What the journal keeps of a row: little, for good, enough to put it back exactly."""

from __future__ import annotations

import json
from contextlib import closing
from datetime import UTC, date, datetime
from typing import TYPE_CHECKING

import pytest
from sqlalchemy import Column, Integer, MetaData, Table, Text, select, update

from growdesk.domain.errors import StoreError
from growdesk.store import undoing
from growdesk.store.engine import connect
from growdesk.store.images import absent, packed, unpacked
from growdesk.store.journal import note
from growdesk.store.schema import (
    RECORDED,
    ActionRow,
    Base,
    CareRow,
    ChangeRow,
    PlaceRow,
    PlantRow,
)
from growdesk.store.store import FILE_NAME, Store

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

    from growdesk.store.images import Values

CARE = Base.metadata.tables["care"]
DEFAULTS = {
    "bench.at_glass": False,
    "bench.note": "",
    "bloom.award": "",
    "bloom.note": "",
    "care.note": "",
    "care.product": "",
    "job_done.note": "",
    "kind_correction.note": "",
    "look.note": "",
    "mark.note": "",
    "meter.note": "",
    "photo.file_name": "",
    "photo.note": "",
    "place.controlled": False,
    "place.note": "",
    "place.outdoors": False,
    "plant.hybrid": False,
    "plant.ignores_rest": False,
    "plant.left_why": "",
    "plant.mounted": False,
    "plant.note": "",
    "plant.papers": "",
    "plant.parentage": "",
    "plant.source": "",
    "plant.status": "growing",
    "plant.under_cover": False,
    "plant_correction.note": "",
    "recipe.in_use": False,
    "recipe.note": "",
    "shelf_entry.after_round": True,
    "shelf_entry.note": "",
    "stock.note": "",
    "tin.in_use": False,
    "tin.note": "",
    "vessel.how_many": 1,
    "water.in_use": False,
    "water.note": "",
}
"""What an image of schema 5 means by leaving a column out, beside nothing."""


def now() -> datetime:
    return datetime(2026, 5, 20, 12, tzinfo=UTC)


@pytest.fixture
def store(folder: Path) -> Iterator[Store]:
    made = Store.open(folder, now, create=True)
    made.who = lambda: "grower"
    yield made
    made.close()


def images(store: Store) -> list[tuple[Values | None, Values | None]]:
    with store.reading() as session:
        rows = session.execute(
            select(ChangeRow.before, ChangeRow.after).order_by(ChangeRow.id)
        )
        return [
            (json.loads(before or "null"), json.loads(after or "null"))
            for before, after in rows
        ]


def test_an_image_holds_what_is_said_and_no_more(store: Store) -> None:
    with store.writing("One", now) as writing:
        place = writing.insert(PlaceRow, {"name": "Sill", "kind": "windowsill"})
        plant = writing.insert(
            PlantRow, {"tag": "A1", "name": "", "kind": "", "place_id": place}
        )
        care = writing.insert(
            CareRow, {"plant_id": plant, "day": date(2026, 5, 1), "what": "feed"}
        )
        writing.update(CareRow, care, {"note": "weak", "what": "feed"})
        writing.update(PlantRow, plant, {"name": "Cattleya"})
        writing.delete(CareRow, care)
    told = {"plant_id": 1, "day": "2026-05-01", "what": "feed"}
    assert images(store) == [
        (None, {"name": "Sill", "kind": "windowsill"}),
        (None, {"tag": "A1", "name": "", "kind": "", "place_id": 1}),
        (None, told),
        ({"note": ""}, {"plant_id": 1, "note": "weak"}),
        ({"name": ""}, {"tag": "A1", "name": "Cattleya"}),
        ({**told, "note": "weak"}, None),
    ]


def test_a_default_once_kept_never_changes() -> None:
    """An image that leaves a column out means this for ever; new columns may join."""
    found = {
        f"{name}.{column.name}": absent(column)
        for name in RECORDED
        for column in Base.metadata.tables[name].c
        if absent(column) is not None
    }
    assert DEFAULTS.items() <= found.items()
    kept = {name.split(".")[0] for name in DEFAULTS}
    for name in found.keys() - DEFAULTS.keys():
        table, column = name.split(".")
        made = Base.metadata.tables[table].c[column].server_default
        assert made is not None or table not in kept, name


def test_a_column_that_may_be_nothing_has_no_default() -> None:
    """Else an image that leaves it out could not tell one from the other."""
    for name in RECORDED:
        for column in Base.metadata.tables[name].c:
            assert not (column.nullable and absent(column) is not None), column
            server = getattr(column.server_default, "arg", None)
            if server is not None:
                assert str(server).strip("'") == str(absent(column)), column


def test_an_image_of_today_means_the_same_after_columns_were_added() -> None:
    row = {"plant_id": 3, "day": date(2026, 5, 1), "what": "feed", "note": ""}
    before, _ = packed(CARE, row | {"rain_mm": None}, None)
    later = Table(
        "care",
        MetaData(),
        *(Column(c.name, c.type, default=absent(c)) for c in CARE.c),
        Column("colour", Text, nullable=False, default="green"),
        Column("depth_mm", Integer),
    )
    image, nothing = unpacked(later, 9, before, None)
    assert nothing is None
    assert image is not None
    assert image == dict.fromkeys(CARE.c.keys()) | {
        **row,
        "id": 9,
        "product": "",
        "colour": "green",
        "depth_mm": None,
    }


def test_an_image_in_full_as_schema_4_kept_it_is_read_alike() -> None:
    row = {"id": 9, "plant_id": 3, "day": date(2026, 5, 1), "what": "feed"}
    filled = dict.fromkeys(CARE.c.keys()) | {"note": "", "product": ""} | row
    old = json.dumps({k: str(v) if k == "day" else v for k, v in filled.items()})
    assert unpacked(CARE, 9, old, None) == (filled, None)
    assert unpacked(CARE, 9, packed(CARE, filled, None)[0], None) == (filled, None)
    assert unpacked(CARE, 9, old, old) == (filled, filled)
    gone = old.replace('"what"', '"a_column_taken_away_since"')
    image, _ = unpacked(CARE, 9, gone, None)
    assert image == filled | {"what": None}


def test_what_changes_again_and_again_is_put_back_exactly(store: Store) -> None:
    states = []

    def keep() -> None:
        with store.reading() as session:
            found = session.execute(select(PlaceRow.__table__).order_by(PlaceRow.id))
            states.append([tuple(row) for row in found])

    keep()
    with store.writing("Two", now) as writing:
        one, two = writing.insert_many(
            PlaceRow,
            [
                {"name": "Sill", "kind": "windowsill", "lamps_hours": 0.0},
                {"name": "Tent", "kind": "tent", "controlled": True},
            ],
        )
    keep()
    steps: list[tuple[int, Values]] = [
        (one, {"lamps_hours": None, "note": "x"}),
        (two, {"note": "x"}),
        (one, {"note": "", "outdoors": True}),
        (two, {"name": "Tent 2", "controlled": False, "lamps_hours": 12.0}),
    ]
    for row_id, values in steps:
        with store.writing("Changed", now) as writing:
            writing.update(PlaceRow, row_id, values)
        keep()
    with store.writing("All at once", now) as writing:
        for row_id, values in [*steps, (one, {"lamps_hours": 0.0})]:
            writing.update(PlaceRow, row_id, values)
        writing.update_many(PlaceRow, [(one, {"note": "y"}), (two, {"note": "x"})])
        writing.delete(PlaceRow, two)
    keep()
    _walk(store, undoing.undo, states[::-1])
    _walk(store, undoing.redo, states)


def _walk(
    store: Store, move: Callable[..., object], states: list[list[tuple[object, ...]]]
) -> None:
    for state in states:
        with store.reading() as session:
            rows = session.execute(select(PlaceRow.__table__).order_by(PlaceRow.id))
            assert [tuple(row) for row in rows] == state
        with store.unrecorded() as session:
            more = move(session)
        assert (more is None) == (state is states[-1])


def test_who_did_it_and_who_undid_it_is_kept(store: Store) -> None:
    with store.writing("One", now) as writing:
        writing.insert(PlaceRow, {"name": "Sill", "kind": "windowsill"})
    store.who = lambda: "helper"
    with store.unrecorded() as session:
        undoing.undo(session, store.stamp(now()))
    at_s = int(now().timestamp())
    with store.reading() as session:
        one = session.execute(select(ActionRow.__table__)).one()
        assert (one.who, one.moved_by, one.moved_at_s) == ("grower", "helper", at_s)


def test_a_note_stands_in_the_history_and_no_undo_stops_at_it(store: Store) -> None:
    for name in ("One", "Two"):
        with store.writing(name, now) as writing:
            writing.insert(PlaceRow, {"name": name, "kind": "windowsill"})
    with store.unrecorded() as session:
        note(session, "Brought back", store.stamp(now()), forgets=False)
        moved = undoing.undo(session)
        assert moved is not None
        assert moved.title == "Two"
        assert undoing.next_redo(session) == (2, "Two")
    with store.writing("Three", now) as writing:
        writing.insert(PlaceRow, {"name": "Three", "kind": "windowsill"})
    with store.reading() as session:
        rows = session.execute(select(ActionRow.__table__).order_by(ActionRow.id)).all()
        assert [(row.id, row.title, row.is_note, row.undone) for row in rows] == [
            (1, "One", False, False),
            (2, "Two", True, True),
            (3, "Brought back", True, False),
            (4, "Three", False, False),
        ]
        assert (rows[2].who, rows[2].at_s) == ("grower", int(now().timestamp()))
        assert undoing.next_redo(session) is None
        assert undoing.next_undo(session) == (4, "Three")


def later_file(folder: Path) -> None:
    """Make the file one of a later program that lets this one in."""
    with closing(connect(folder / FILE_NAME)) as connection:
        connection.execute(
            "ALTER TABLE place ADD COLUMN colour TEXT NOT NULL DEFAULT 'white'"
        )
        connection.execute("ALTER TABLE place ADD COLUMN depth_mm INTEGER DEFAULT 7")
        connection.execute("CREATE TABLE pest (id INTEGER PRIMARY KEY, name TEXT)")
        connection.execute("PRAGMA user_version = 1000")
        connection.execute(
            "INSERT INTO migration (id, name, compatible_from, at_s, program)"
            " SELECT 1000, 'later', max(compatible_from), 0, '9.0' FROM migration"
        )
        connection.execute("INSERT INTO pest VALUES (1, 'scale')")
        connection.execute(
            "INSERT INTO action (id, at_s, title, undone)"
            " VALUES (2, 0, 'A pest was named', 0)"
        )
        connection.execute(
            "INSERT INTO change (action_id, table_name, row_id, after)"
            """ VALUES (2, 'pest', 1, '{"name":"scale"}')"""
        )


def raw(folder: Path, table: str) -> list[tuple[object, ...]]:
    with closing(connect(folder / FILE_NAME, reading=True)) as connection:
        return connection.execute(f"SELECT * FROM {table}").fetchall()  # noqa: S608


def test_what_a_later_program_added_is_lost_by_no_undo(folder: Path) -> None:
    store = Store.open(folder, now, create=True)
    with store.writing("One", now) as writing:
        writing.insert(PlaceRow, {"name": "Sill", "kind": "windowsill"})
    store.close()
    later_file(folder)
    with closing(connect(folder / FILE_NAME)) as connection:
        connection.execute("UPDATE place SET colour = 'red', depth_mm = NULL")
    store = Store.open(folder, now)
    before = raw(folder, "place")
    with store.writing("Renamed", now) as writing:
        writing.update(PlaceRow, 1, {"name": "Shelf"})
    with store.writing("Removed", now) as writing:
        writing.delete(PlaceRow, 1)
    with store.writing("Added", now) as writing:
        writing.insert(PlaceRow, {"name": "Tent", "kind": "tent"})
    assert raw(folder, "place")[0][-2:] == ("white", 7)
    for _ in range(3):
        with store.unrecorded() as session:
            undoing.undo(session)
    assert raw(folder, "place") == before
    assert before[0][-2:] == ("red", None)
    with store.unrecorded() as session:
        undone = undoing.undo(session)
    assert undone is not None
    assert undone.title == "A pest was named"
    assert undone.tables == {"pest"}
    assert raw(folder, "pest") == []
    for _ in range(4):
        with store.unrecorded() as session:
            undoing.redo(session)
    assert raw(folder, "pest") == [(1, "scale")]
    assert raw(folder, "place")[0][-2:] == ("white", 7)
    store.close()


def test_a_table_that_is_not_there_is_one_plain_line(store: Store) -> None:
    with store.writing("One", now) as writing:
        writing.insert(PlaceRow, {"name": "Sill", "kind": "windowsill"})
    with store.unrecorded() as session:
        session.execute(update(ActionRow).values(digest=None))
        session.execute(update(ChangeRow).values(table_name="qlace"))
    with (
        pytest.raises(StoreError, match="tells of qlace, of which nothing is here"),
        store.unrecorded() as session,
    ):
        undoing.undo(session)
