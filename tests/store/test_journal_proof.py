"""Held against its own journal, a file shows what was changed in it by no one."""

from __future__ import annotations

import random
import sqlite3
from contextlib import closing
from datetime import UTC, date, datetime
from typing import TYPE_CHECKING

import pytest

from growdesk.store import undoing
from growdesk.store.engine import connect
from growdesk.store.journal_proof import Untrue, last_images, unlike, untrue
from growdesk.store.schema import RECORDED, CareRow, PlaceRow, PlantRow, ReadingRow
from growdesk.store.store import FILE_NAME, Store

if TYPE_CHECKING:
    import sqlite3
    from collections.abc import Callable
    from pathlib import Path

    from growdesk.store.journal_proof import Unlike


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


def on(file: Path, *statements: str) -> sqlite3.Connection:
    connection = connect(file)
    connection.execute("PRAGMA foreign_keys = OFF")
    for statement in statements:
        connection.execute(statement)
    return connection


def test_a_sound_file_says_nothing(file: Path) -> None:
    with closing(on(file)) as connection:
        assert list(untrue(connection)) == []
        assert list(unlike(connection)) == []


def test_last_images_are_the_rows(file: Path) -> None:
    with closing(on(file)) as connection:
        found = {(each.table, each.row_id): each for each in last_images(connection)}
    assert set(found) == {
        *(("place", n) for n in (1, 2, 3)),
        ("plant", 1),
        *(("care", n) for n in (1, 2, 3)),
    }
    assert all(each.is_whole for each in found.values())
    care = found["care", 2]
    assert care.values is not None
    assert (care.values["strength_ppm_n"], care.values["day"]) == (
        60.0,
        date(2026, 5, 2),
    )
    assert (care.action_id, care.at_s) == (4, int(now().timestamp()))
    assert found["care", 3].values is None
    assert found["place", 2].values is not None
    assert found["place", 2].values["name"] == "P1", "what is undone is not said"


def test_where_the_beginning_is_forgotten_what_changed_since_is_known(
    file: Path,
) -> None:
    with closing(on(file, "DELETE FROM change WHERE action_id < 4")) as connection:
        found = {(each.table, each.row_id): each for each in last_images(connection)}
        assert list(unlike(connection)) == []
        care = found["care", 2]
        assert (care.values, care.is_whole) == (
            {"plant_id": 1, "strength_ppm_n": 60.0, "note": "weak"},
            False,
        )
        connection.execute("UPDATE care SET what = 'flush', note = 'weat' WHERE id = 2")
        (only,) = unlike(connection)
        assert (only.columns, only.stands) == (("note",), {"note": "weat"})


@pytest.mark.parametrize(
    ("statement", "number", "title"),
    [
        ("UPDATE action SET title = 'Carf' WHERE id = 3", 3, "Carf"),
        ("UPDATE action SET at_s = at_s + 1 WHERE id = 3", 3, "Care"),
        ("UPDATE action SET who = 'growes' WHERE id = 3", 3, "Care"),
        ("UPDATE action SET is_note = 1 WHERE id = 3", 3, "Care"),
        ("UPDATE action SET digest = zeroblob(12) WHERE id = 3", 3, "Care"),
        ("UPDATE change SET after = replace(after, '60', '61')", 4, "Less"),
        ("UPDATE change SET row_id = 5 WHERE action_id = 2", 2, "Plant"),
        ("UPDATE change SET table_name = 'bloom' WHERE action_id = 2", 2, "Plant"),
        ("UPDATE change SET before = NULL WHERE action_id = 4", 4, "Less"),
        ("UPDATE change SET before = x'00' WHERE action_id = 4", 4, "Less"),
        ("DELETE FROM change WHERE id = 4", 2, "Plant"),
        ("DELETE FROM action WHERE id = 2", 2, ""),
    ],
)
def test_whatever_changes_in_the_journal_is_noticed(
    file: Path, statement: str, number: int, title: str
) -> None:
    with closing(on(file, statement)) as connection:
        assert list(untrue(connection)) == [Untrue(number, title)]


@pytest.mark.parametrize(
    ("statement", "told"),
    [
        (
            "UPDATE care SET strength_ppm_n = 600.0 WHERE id = 2",
            lambda each: (
                each.stands == {"strength_ppm_n": 600.0}
                and each.last.values["strength_ppm_n"] == 60.0
            ),
        ),
        (
            "UPDATE care SET day = '2026-05-06' WHERE id = 1",
            lambda each: each.columns == ("day",),
        ),
        (
            "UPDATE care SET rain_mm = 3.0 WHERE id = 1",
            lambda each: each.columns == ("rain_mm",),
        ),
        (
            "DELETE FROM care WHERE id = 1",
            lambda each: each.stands is None and each.columns == (),
        ),
        (
            "INSERT INTO care (id, plant_id, day, what, note) VALUES (3, 1, 0, 0, 0)",
            lambda each: each.last.values is None and each.stands is not None,
        ),
    ],
)
def test_a_row_that_nobody_changed_is_told_with_what_it_should_be(
    file: Path, statement: str, told: Callable[[Unlike], bool]
) -> None:
    with closing(on(file, statement)) as connection:
        (only,) = unlike(connection)
        assert told(only)
        assert list(untrue(connection)) == []


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
            noticed += bool([*untrue(connection), *unlike(connection)])
    told(f"4.4 one bit of a value: {unseen} unseen by SQLite, {noticed} by the journal")
    assert unseen > 20
    assert noticed == unseen


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
