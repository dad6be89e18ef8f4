"""Migrations: whole or not at all, with a checked copy of what was there before."""

from __future__ import annotations

import shutil
import sqlite3
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest
from msgspec.structs import replace
from sqlalchemy import create_engine, func, select

from growdesk import __version__
from growdesk.domain.errors import LookOnlyError, StoreError, TooNewError
from growdesk.domain.thinning import Why
from growdesk.store import migrating
from growdesk.store.backup_listing import kept_in, prove
from growdesk.store.engine import connect
from growdesk.store.header import check_not_newer, read_header
from growdesk.store.migrating import bring_up_to_date, create_database
from growdesk.store.migrations import MIGRATIONS, SCHEMA, Migration
from growdesk.store.schema import Base, PlantRow
from growdesk.store.store import Store

NOW = datetime(2026, 5, 20, 12, tzinfo=UTC)
DATABASES = Path(__file__).parents[1] / "data" / "databases"


def shape(connection: sqlite3.Connection) -> dict[str, object]:
    """Give all that makes up the tables: columns, indexes, keys and conditions."""
    tables = [
        row[0]
        for row in connection.execute(
            "SELECT name FROM sqlite_master WHERE type = 'table' ORDER BY name"
        )
    ]
    found: dict[str, object] = {}
    for table in tables:
        for pragma in ("table_xinfo", "foreign_key_list"):
            rows = connection.execute(f"PRAGMA {pragma}({table})").fetchall()
            is_keys = pragma == "foreign_key_list"
            found[f"{table} {pragma}"] = (
                sorted(row[1:] for row in rows) if is_keys else rows
            )
        indexes = connection.execute(f"PRAGMA index_list({table})").fetchall()
        found[f"{table} indexes"] = sorted(
            (
                unique,
                partial,
                tuple(connection.execute(f"PRAGMA index_info({name})").fetchall()),
                name if origin == "c" else origin,
            )
            for _, name, unique, origin, partial in indexes
        )
    return found


def test_migrations_make_what_the_schema_describes(tmp_path: Path) -> None:
    migrated, described = tmp_path / "migrated", tmp_path / "described"
    create_database(migrated, NOW)
    engine = create_engine(f"sqlite:///{described}")
    Base.metadata.create_all(engine)
    engine.dispose()
    with (
        closing(sqlite3.connect(migrated)) as one,
        closing(sqlite3.connect(described)) as two,
    ):
        assert shape(one) == shape(two)
        assert len(shape(one)) > 30


def test_each_migration_is_recorded(tmp_path: Path) -> None:
    path = tmp_path / "new.sqlite"
    create_database(path, NOW)
    with closing(sqlite3.connect(path)) as connection:
        rows = connection.execute("SELECT id, name, at_s FROM migration").fetchall()
    assert rows == [
        (step.number, step.name, int(NOW.timestamp())) for step in MIGRATIONS
    ]
    assert [step.number for step in MIGRATIONS] == list(range(1, SCHEMA + 1))


def later(number: int, *statements: str) -> Migration:
    def run(connection: sqlite3.Connection) -> None:
        for statement in statements:
            connection.execute(statement)

    return Migration(number=number, name=f"step {number}", compatible_from=1, run=run)


@pytest.fixture
def old(tmp_path: Path) -> Path:
    path = tmp_path / "collection.sqlite"
    create_database(path, NOW)
    with closing(connect(path)) as connection:
        connection.execute(
            "INSERT INTO place (id, name, kind, controlled, outdoors, note)"
            " VALUES (1, 'Sill', 'windowsill', 0, 0, '')"
        )
        connection.execute(
            "INSERT INTO reading (place_id, day, mean_c) VALUES (1, '2026-05-01', 20)"
        )
    return path


def test_a_pending_migration_runs_behind_a_checked_backup(old: Path) -> None:
    step = later(SCHEMA + 1, "ALTER TABLE place ADD COLUMN colour TEXT")
    backup = bring_up_to_date(old, NOW, (*MIGRATIONS, step))
    assert backup is not None
    with closing(sqlite3.connect(old)) as connection:
        assert connection.execute("PRAGMA user_version").fetchone() == (SCHEMA + 1,)
        assert connection.execute("SELECT colour FROM place").fetchall() == [(None,)]
    with closing(sqlite3.connect(backup / "collection.sqlite")) as connection:
        assert connection.execute("PRAGMA user_version").fetchone() == (SCHEMA,)
        assert connection.execute("SELECT name FROM place").fetchall() == [("Sill",)]
    (kept,) = kept_in(backup.parent)
    assert (kept.path, kept.manifest.why) == (backup, Why.BEFORE_FORM)
    assert prove(kept) == ""


def test_a_migration_tried_again_and_again_keeps_one_backup(old: Path) -> None:
    bad = later(SCHEMA + 1, "CREATE NONSENSE")
    for _ in range(3):
        with pytest.raises(StoreError, match="could not be brought to form"):
            bring_up_to_date(old, NOW, (*MIGRATIONS, bad))
    (kept,) = kept_in(old.parent / "backups")
    (kept.path / "collection.sqlite").write_bytes(b"rot")
    with pytest.raises(StoreError, match="could not be brought to form"):
        bring_up_to_date(old, NOW, (*MIGRATIONS, bad))
    whole = [each for each in kept_in(old.parent / "backups") if not prove(each)]
    assert len(whole) == 1


def test_nothing_pending_touches_nothing(old: Path) -> None:
    before = old.read_bytes()
    assert bring_up_to_date(old, NOW) is None
    assert old.read_bytes() == before
    assert not (old.parent / "backups").exists()


def test_a_failing_migration_rolls_back_wholly(old: Path) -> None:
    with closing(sqlite3.connect(old)) as connection:
        before = list(connection.iterdump())
    good = later(
        SCHEMA + 1, "CREATE TABLE added (id INTEGER)", "ALTER TABLE place ADD c TEXT"
    )
    bad = later(SCHEMA + 2, "CREATE TABLE more (id INTEGER)", "CREATE NONSENSE")
    with pytest.raises(StoreError, match="stays as it was: near") as caught:
        bring_up_to_date(old, NOW, (*MIGRATIONS, good, bad))
    (backup,) = kept_in(old.parent / "backups")
    assert str(backup.path) in caught.value.line()
    assert "\n" not in caught.value.line()
    with closing(sqlite3.connect(old)) as connection:
        assert list(connection.iterdump()) == before
        assert connection.execute("PRAGMA user_version").fetchone() == (SCHEMA,)
    assert bring_up_to_date(old, NOW, (*MIGRATIONS, good)) is not None


def test_a_migration_that_orphans_rows_is_rolled_back(old: Path) -> None:
    step = replace(later(SCHEMA + 1, "DELETE FROM place"), takes=frozenset({"place"}))
    with pytest.raises(StoreError, match="reading") as caught:
        bring_up_to_date(old, NOW, (*MIGRATIONS, step))
    assert "backup is" in caught.value.hint
    with closing(sqlite3.connect(old)) as connection:
        assert connection.execute("SELECT count(*) FROM place").fetchone() == (1,)


def test_a_table_may_be_made_anew_without_losing_what_points_at_it(old: Path) -> None:
    step = later(
        SCHEMA + 1,
        "CREATE TABLE place_new AS SELECT * FROM place",
        "DROP TABLE place",
        "CREATE TABLE place (id INTEGER NOT NULL PRIMARY KEY, name TEXT)",
        "INSERT INTO place SELECT id, name FROM place_new",
        "DROP TABLE place_new",
    )
    bring_up_to_date(old, NOW, (*MIGRATIONS, step))
    with closing(sqlite3.connect(old)) as connection:
        assert connection.execute("SELECT count(*) FROM reading").fetchone() == (1,)


def test_there_is_one_kept_database_for_every_released_schema() -> None:
    kept = {path.name for path in DATABASES.glob("schema-*.sqlite")}
    assert kept == {f"schema-{number}.sqlite" for number in range(1, SCHEMA + 1)}


@pytest.mark.parametrize(
    "path", sorted(DATABASES.glob("*.sqlite")), ids=lambda p: p.stem
)
def test_every_released_schema_still_comes_up_to_date(
    path: Path, tmp_path: Path
) -> None:
    copy, new = tmp_path / "collection.sqlite", tmp_path / "new.sqlite"
    shutil.copy(path, copy)
    bring_up_to_date(copy, NOW)
    create_database(new, NOW)
    with (
        closing(sqlite3.connect(copy)) as one,
        closing(sqlite3.connect(new)) as two,
    ):
        assert shape(one) == shape(two)
        assert one.execute("SELECT count(*) FROM plant").fetchone()[0] >= 3


def test_a_full_disk_is_told_as_such_and_nothing_changes(old: Path) -> None:
    """SQLite takes all back itself where the disk is full; so none is left to take."""
    before = old.read_bytes()

    def fill(connection: sqlite3.Connection) -> None:
        (pages,) = connection.execute("PRAGMA page_count").fetchone()
        connection.execute(f"PRAGMA max_page_count = {pages + 1}").fetchall()
        connection.execute("CREATE TABLE added (id INTEGER, what BLOB)")
        connection.execute("INSERT INTO added VALUES (1, randomblob(100000))")

    step = Migration(number=SCHEMA + 1, name="full", compatible_from=1, run=fill)
    with pytest.raises(LookOnlyError, match="disk is full") as caught:
        bring_up_to_date(old, NOW, (*MIGRATIONS, step))
    assert "Free some space and do it again" in caught.value.hint
    assert "The backup is" in caught.value.hint
    assert old.read_bytes() == before


def test_a_step_may_take_only_rows_that_it_names(old: Path) -> None:
    """Foreign keys find no leaf that is gone; so rows are counted."""
    step = later(SCHEMA + 1, "DELETE FROM reading")
    with pytest.raises(StoreError, match="1 of 1 rows of reading") as caught:
        bring_up_to_date(old, NOW, (*MIGRATIONS, step))
    assert "The backup is" in caught.value.hint
    with closing(connect(old)) as connection:
        assert connection.execute("SELECT count(*) FROM reading").fetchone() == (1,)
        assert connection.execute("PRAGMA user_version").fetchone() == (SCHEMA,)
    dropped = later(SCHEMA + 1, "DROP TABLE reading")
    with pytest.raises(StoreError, match="1 of 1 rows of reading"):
        bring_up_to_date(old, NOW, (*MIGRATIONS, dropped))
    named = replace(step, takes=frozenset({"reading"}))
    bring_up_to_date(old, NOW, (*MIGRATIONS, named))
    with closing(connect(old)) as connection:
        assert connection.execute("SELECT count(*) FROM reading").fetchone() == (0,)


def test_a_bug_in_a_step_is_one_plain_line_too(old: Path) -> None:
    def slip(_connection: sqlite3.Connection) -> None:
        raise KeyError("colour")

    step = Migration(number=SCHEMA + 1, name="slip", compatible_from=1, run=slip)
    with pytest.raises(StoreError, match="stays as it was: 'colour'") as caught:
        bring_up_to_date(old, NOW, (*MIGRATIONS, step))
    assert isinstance(caught.value.__cause__, KeyError)
    with pytest.raises(StoreError) as caught:
        bring_up_to_date(old, NOW, (*MIGRATIONS, step), is_copy=True)
    assert "backup" not in caught.value.hint


def test_where_the_disk_is_full_the_old_form_is_looked_at(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "c" / "collection.sqlite"
    path.parent.mkdir()
    shutil.copy(DATABASES / f"schema-{SCHEMA - 1}.sqlite", path)
    real = migrating._apply

    def full(connection: sqlite3.Connection, *rest: Any) -> None:
        (file,) = [row[2] for row in connection.execute("PRAGMA database_list")]
        if Path(file) == path:
            error = sqlite3.OperationalError("database or disk is full")
            error.sqlite_errorname = "SQLITE_FULL"
            raise error
        real(connection, *rest)

    monkeypatch.setattr(migrating, "_apply", full)
    with closing(Store.open(path.parent, lambda: NOW)) as store:
        assert "disk is full" in store.looking
        with store.reading() as session:
            assert session.scalar(select(func.count()).select_from(PlantRow)) == 4
    monkeypatch.undo()
    with closing(connect(path, reading=True)) as connection:
        assert connection.execute("PRAGMA user_version").fetchone() == (SCHEMA - 1,)
    with closing(Store.open(path.parent, lambda: NOW)) as store:
        assert store.looking == ""


def test_the_program_is_named_that_made_the_form(old: Path) -> None:
    with closing(connect(old)) as connection:
        programs = connection.execute("SELECT DISTINCT program FROM migration")
        assert programs.fetchall() == [(__version__,)]
        connection.execute(f"PRAGMA user_version = {SCHEMA + 2}")
        connection.execute(
            "INSERT INTO migration VALUES (?, 'later', ?, 0, '9.0.1')",
            (SCHEMA + 2, SCHEMA + 2),
        )
    with pytest.raises(TooNewError) as caught:
        check_not_newer(old, read_header(old), SCHEMA)
    assert "written by growdesk 9.0.1 (form" in caught.value.message
    assert caught.value.hint.startswith("Open it with growdesk 9.0.1 or a newer one;")
    with closing(connect(old)) as connection:
        connection.execute("UPDATE migration SET program = '<b>9</b>'")
    with pytest.raises(TooNewError, match="by a newer growdesk"):
        check_not_newer(old, read_header(old), SCHEMA)
