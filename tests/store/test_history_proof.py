"""Held against its own journal, a file shows what was changed in it by no one."""

from __future__ import annotations

import random
import sqlite3
from contextlib import closing
from datetime import UTC, date, datetime
from typing import TYPE_CHECKING

import pytest

from growdesk.domain.errors import StoreError
from growdesk.services.long_work import quietly
from growdesk.store import undoing
from growdesk.store.engine import connect
from growdesk.store.form import check_form
from growdesk.store.history_proof import prove
from growdesk.store.journal import note
from growdesk.store.schema import RECORDED, CareRow, PlaceRow, PlantRow, ReadingRow
from growdesk.store.store import FILE_NAME, Store
from growdesk.store.witness import Difference, differences

if TYPE_CHECKING:
    import sqlite3
    from collections.abc import Callable
    from pathlib import Path

    from growdesk.store.witness import BrokenImage


BACK = "INSERT INTO care (id, plant_id, day, what, note) VALUES (3, 1, 0, 0, 0)"


def now() -> datetime:
    return datetime(2026, 5, 20, 12, tzinfo=UTC)


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Give a closed collection: three places, a plant, care, one thing undone."""
    folder = tmp_path_factory.mktemp("made") / "collection"
    store = Store.open(folder, now, create=True)
    store.who = lambda: "grower"
    with store.writing("Three places", now) as writing:
        writing.insert_many(
            PlaceRow,
            [{"name": f"P{n}", "kind": "tent", "lamps_hours": 12.0} for n in range(3)],
        )
    with store.writing("Plant", now) as writing:
        writing.insert(PlantRow, {"tag": "A1", "name": "x", "kind": "", "place_id": 1})
    with store.writing("Care", now) as writing:
        for day in (1, 2, 3):
            given = {"plant_id": 1, "day": date(2026, 5, day), "what": "feed"}
            writing.insert(CareRow, {**given, "strength_ppm_n": 100.0})
    with store.writing("Less", now) as writing:
        writing.update(CareRow, 2, {"strength_ppm_n": 60.0, "note": "weak"})
        writing.delete(CareRow, 3)
    with store.writing("Undone", now) as writing:
        writing.insert(ReadingRow, {"place_id": 1, "day": date(2026, 5, 1)})
        writing.update(PlaceRow, 2, {"name": "Other"})
    with store.unrecorded() as session:
        undoing.undo(session)
    store.close()
    return folder / FILE_NAME


@pytest.fixture
def file(made: Path, tmp_path: Path) -> Path:
    copied = tmp_path / FILE_NAME
    copied.write_bytes(made.read_bytes())
    return copied


def untrue(connection: sqlite3.Connection) -> list[int]:
    proof = prove(connection, quietly)
    return sorted({*proof.damaged, *proof.missing, *proof.disordered})


def unlike(connection: sqlite3.Connection) -> list[Difference | BrokenImage]:
    return list(differences(connection, quietly))


def on(file: Path, *statements: str) -> sqlite3.Connection:
    connection = connect(file)
    connection.execute("PRAGMA foreign_keys = OFF")
    for statement in statements:
        connection.execute(statement)
    return connection


def test_a_sound_file_says_nothing(file: Path) -> None:
    with closing(on(file)) as connection:
        assert untrue(connection) == []
        assert unlike(connection) == []


def test_an_undo_below_a_note_is_no_disorder(folder: Path) -> None:
    store = Store.open(folder, now, create=True)
    for name in ("One", "Two"):
        with store.writing(name, now) as writing:
            writing.insert(PlaceRow, {"name": name, "kind": "tent"})
    with store.unrecorded() as session:
        note(session, "Bin emptied", store.stamp(now()))
    with store.unrecorded() as session:
        undoing.undo(session)
    store.close()
    with closing(on(folder / FILE_NAME)) as connection:
        assert untrue(connection) == []
        assert unlike(connection) == []
    store = Store.open(folder, now)
    with store.writing("Three", now) as writing:
        writing.insert(PlaceRow, {"name": "Three", "kind": "tent"})
    store.close()
    with closing(on(folder / FILE_NAME)) as connection:
        assert untrue(connection) == []
        connection.execute("UPDATE action SET undone = 1 WHERE id = 1")
        assert untrue(connection) == [1], "a later one stands done"


@pytest.mark.parametrize(
    ("statement", "number"),
    [
        ("UPDATE action SET title = 'Carf' WHERE id = 3", 3),
        ("UPDATE action SET at_s = at_s + 1 WHERE id = 3", 3),
        ("UPDATE action SET who = 'growes' WHERE id = 3", 3),
        ("UPDATE action SET is_note = 1 WHERE id = 3", 3),
        ("UPDATE action SET digest = zeroblob(12) WHERE id = 3", 3),
        ("UPDATE change SET after = replace(after, '60', '61')", 4),
        ("UPDATE change SET row_id = 5 WHERE action_id = 2", 2),
        ("UPDATE change SET table_name = 'bloom' WHERE action_id = 2", 2),
        ("UPDATE change SET before = NULL WHERE action_id = 4", 4),
        ("UPDATE change SET before = x'00' WHERE action_id = 4", 4),
        ("DELETE FROM change WHERE id = 4", 2),
        ("DELETE FROM action WHERE id = 2", 2),
    ],
)
def test_whatever_changes_in_the_journal_is_noticed(
    file: Path, statement: str, number: int
) -> None:
    with closing(on(file, statement)) as connection:
        assert number in untrue(connection)


@pytest.mark.parametrize(
    ("statement", "column", "stands", "told"),
    [
        ("UPDATE care SET strength_ppm_n = 6.0 WHERE id = 2", "strength_ppm_n", 6, 60),
        ("UPDATE care SET day = '2026-1' WHERE id = 1", "day", "2026-1", "2026-05-01"),
        ("UPDATE care SET rain_mm = 3.0 WHERE id = 1", "rain_mm", 3, None),
        ("UPDATE place SET lamps_hours = NULL WHERE id = 1", "lamps_hours", None, 12),
        ("DELETE FROM care WHERE id = 1", "", None, None),
        (BACK, "", None, None),
    ],
)
def test_a_row_that_nobody_changed_is_told_with_what_it_should_be(
    file: Path, statement: str, column: str, stands: object, told: object
) -> None:
    with closing(on(file, statement)) as connection:
        (only,) = unlike(connection)
        assert isinstance(only, Difference)
        assert (only.column, only.stands, only.told) == (column, stands, told)
        assert only.is_gone == statement.startswith("DELETE")
        assert untrue(connection) == []


def test_damage_that_sqlite_cannot_see_is_seen(
    file: Path, tmp_path: Path, told: Callable[[str], None]
) -> None:
    """Flip one bit of what rows hold; ``integrity_check`` finds few of them."""
    whole = file.read_bytes()
    chance = random.Random(11)  # noqa: S311 -- a test's
    values = [
        place
        for word in (b"feed", b"weak", b"tent", b"grower")
        for place in _places(whole, word)
    ]
    with closing(on(file)) as connection:
        before = content(connection)
    copy = tmp_path / "copy.sqlite"
    unseen = noticed = 0
    for place in chance.sample(values, min(60, len(values))):
        damaged = bytearray(whole)
        damaged[place] ^= 1 << chance.randrange(5)
        copy.write_bytes(damaged)
        with closing(on(copy)) as connection:
            if connection.execute("PRAGMA integrity_check").fetchone() != ("ok",):
                continue
            if content(connection) == before:
                continue
            unseen += 1
            noticed += is_noticed(connection, copy)
    told(f"4.4 one bit of a value: {unseen} unseen by SQLite, {noticed} by the journal")
    assert unseen > 20
    assert noticed == unseen


def is_noticed(connection: sqlite3.Connection, path: Path) -> bool:
    try:
        check_form(connection, path)
    except StoreError:
        return True
    return bool(untrue(connection) or unlike(connection))


def content(connection: sqlite3.Connection) -> list[object]:
    tables = connection.execute("SELECT name, sql FROM sqlite_master").fetchall()
    return [
        tables,
        *(
            connection.execute(f"SELECT * FROM {name}").fetchall()  # noqa: S608
            for name, _ in tables
            if name in {*RECORDED, "action", "change"}
        ),
    ]


def _places(content: bytes, word: bytes) -> list[int]:
    found: list[int] = []
    start = content.find(word)
    while start >= 0:
        found.extend(range(start, start + len(word)))
        start = content.find(word, start + 1)
    return found
