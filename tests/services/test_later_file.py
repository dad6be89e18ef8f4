"""A file that a later growdesk made and lets this one open: what it added stays."""

from __future__ import annotations

from contextlib import closing
from typing import TYPE_CHECKING

import pytest

from growdesk.domain.facts import Look
from growdesk.services.care_of_files import backup, check
from growdesk.services.collection import Collection
from growdesk.services.collection_export import export
from growdesk.store.engine import connect
from growdesk.store.store import FILE_NAME
from tests.conftest import TODAY

if TYPE_CHECKING:
    from pathlib import Path

    from growdesk.services.clock import FixedClock
    from tests.services.conftest import Bench

pytestmark = pytest.mark.file

LATER = (
    "ALTER TABLE look ADD COLUMN scent TEXT NOT NULL DEFAULT 'none'",
    "CREATE TABLE pest (id INTEGER PRIMARY KEY, plant_id INTEGER, name TEXT)",
    "INSERT INTO pest VALUES (1, 1, 'scale')",
    (
        "INSERT INTO migration (id, name, compatible_from, at_s, program)"
        " SELECT 1000, 'later', max(compatible_from), 0, '9.0' FROM migration"
    ),
    (
        "INSERT INTO action (id, at_s, title, undone)"
        " SELECT max(id) + 1, 0, 'Pest named', 0 FROM action"
    ),
    (
        "INSERT INTO change (action_id, table_name, row_id, after)"
        """ SELECT max(id), 'pest', 1, '{"plant_id":1,"name":"scale"}' FROM action"""
    ),
    "PRAGMA user_version = 1000",
)


def raw(folder: Path, statement: str) -> list[tuple[object, ...]]:
    with closing(connect(folder / FILE_NAME)) as connection:
        return connection.execute(statement).fetchall()


def test_what_it_added_is_put_back_undone_backed_up_and_told(
    collection: Collection, bench: Bench, clock: FixedClock, tmp_path: Path
) -> None:
    collection.looks.record(bench.feed, Look(TODAY), "first")
    collection.close()
    folder = collection.folder
    for statement in LATER:
        raw(folder, statement)
    raw(folder, "UPDATE look SET scent = 'honey' WHERE note = 'first'")
    before = raw(folder, "SELECT * FROM look")
    with closing(Collection.open(folder, clock)) as again:
        look = again.day.detail(bench.feed, TODAY).looks[0].look_id
        again.looks.delete(look)
        again.bin.put_back(again.bin.view().entries[0].key)
        assert raw(folder, "SELECT * FROM look") == before
        exported = export(again, tmp_path / "out")
        assert any("newer growdesk" in each for each in exported.notices)
        assert b"honey" not in (tmp_path / "out" / "looks.csv").read_bytes()
        assert check(folder).problems == ()
        again.history.undo()
        again.history.undo()
        assert raw(folder, "SELECT * FROM look") == before
        page = again.history.page().actions
        assert page[2].title == "Pest named"
        assert page[2].tags == ("A1",)
        again.history.undo()
        assert raw(folder, "SELECT * FROM pest") == []
        again.history.redo()
        assert raw(folder, "SELECT * FROM pest") == [(1, 1, "scale")]
        file = backup(again, tmp_path / "backup.zip").file
    assert file.exists()
    assert raw(folder, "PRAGMA user_version") == [(1000,)]


def test_one_of_ours_tells_nothing_of_a_newer_one(
    collection: Collection, bench: Bench, tmp_path: Path
) -> None:
    assert bench.feed
    assert export(collection, tmp_path / "out").notices == ()
