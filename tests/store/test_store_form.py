"""What a file says of its form is not believed: one plain line, and it stays so."""

from __future__ import annotations

import hashlib
import shutil
import sqlite3
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

import pytest

from growdesk.domain.errors import DamagedError, ForeignError, StoreError
from growdesk.store.header import APPLICATION_ID
from growdesk.store.migrations import SCHEMA
from growdesk.store.store import FILE_NAME, Store

DATABASES = Path(__file__).parents[1] / "data" / "databases"


def now() -> datetime:
    return datetime(2026, 11, 26, 12, tzinfo=UTC)


LOWER = f"form {SCHEMA - 2}"
LIES: list[tuple[str, int, tuple[str, ...], type[StoreError], str]] = [
    ("lower", SCHEMA, (f"PRAGMA user_version = {SCHEMA - 2}",), DamagedError, LOWER),
    ("higher", 3, ("PRAGMA user_version = 4",), DamagedError, "ends with 3"),
    ("ours", 3, (f"PRAGMA user_version = {SCHEMA}",), DamagedError, "ends with 3"),
    ("none", SCHEMA, ("PRAGMA user_version = 0",), DamagedError, "form 0"),
    (
        "much higher",
        SCHEMA,
        ("PRAGMA user_version = 900",),
        DamagedError,
        f"ends with {SCHEMA}",
    ),
    ("negative", SCHEMA, ("PRAGMA user_version = -1",), DamagedError, "form -1"),
    ("no record", SCHEMA, ("DROP TABLE migration",), DamagedError, "ends with 0"),
    ("empty record", SCHEMA, ("DELETE FROM migration",), DamagedError, "ends with 0"),
    ("gap", SCHEMA, ("DELETE FROM migration WHERE id = 2",), DamagedError, "has a gap"),
    ("old gap", 4, ("DELETE FROM migration WHERE id = 1",), DamagedError, "has a gap"),
    (
        "a column less",
        SCHEMA,
        ("ALTER TABLE plant RENAME COLUMN name TO nane",),
        DamagedError,
        "its plant should have name",
    ),
    (
        "a table less",
        SCHEMA,
        ("ALTER TABLE meter RENAME TO metre",),
        DamagedError,
        "its meter should have id",
    ),
]


def lying(folder: Path, schema: int, statements: tuple[str, ...]) -> Path:
    folder.mkdir()
    path = folder / FILE_NAME
    shutil.copy(DATABASES / f"schema-{schema}.sqlite", path)
    with closing(sqlite3.connect(path)) as connection:
        for statement in statements:
            connection.execute(statement)
        connection.commit()
    return path


@pytest.mark.parametrize("lie", LIES, ids=lambda lie: lie[0])
def test_a_file_that_lies_about_its_form_is_left_alone(
    lie: tuple[str, int, tuple[str, ...], type[StoreError], str], folder: Path
) -> None:
    _, schema, statements, kind, said = lie
    path = lying(folder, schema, statements)
    before = hashlib.sha256(path.read_bytes()).hexdigest()
    for opening in (Store.open, Store.open_to_read):
        with pytest.raises(kind) as caught:
            opening(folder, now)
        assert said in caught.value.line()
        assert "\n" not in caught.value.line()
    assert hashlib.sha256(path.read_bytes()).hexdigest() == before
    assert not (folder / "backups").exists()


def test_our_number_over_the_tables_of_another_program(folder: Path) -> None:
    folder.mkdir()
    path = folder / FILE_NAME
    with closing(sqlite3.connect(path)) as connection:
        connection.execute("CREATE TABLE stamps (id INTEGER, country TEXT)")
        connection.execute(f"PRAGMA application_id = {APPLICATION_ID}")
        connection.execute(f"PRAGMA user_version = {SCHEMA - 1}")
        connection.commit()
    before = path.read_bytes()
    for opening in (Store.open, Store.open_to_read):
        with pytest.raises(ForeignError, match="is not a growdesk collection"):
            opening(folder, now)
    assert path.read_bytes() == before
