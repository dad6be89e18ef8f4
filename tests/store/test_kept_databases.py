"""A small real file of each released form: opened, whole, and nothing of it lost."""

from __future__ import annotations

import shutil
import sqlite3
from contextlib import closing
from datetime import UTC, date, datetime
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from growdesk.services.care_of_files import check
from growdesk.services.clock import FixedClock
from growdesk.services.collection import Collection
from growdesk.services.collection_export import export
from growdesk.services.long_work import quietly
from growdesk.services.table_forms import FILES
from growdesk.store.engine import connect
from growdesk.store.header import read_header
from growdesk.store.history_proof import prove
from growdesk.store.migrating import bring_up_to_date, create_database
from growdesk.store.migrations import MIGRATIONS, SCHEMA, Migration
from growdesk.store.store import FILE_NAME
from growdesk.store.witness import differences

if TYPE_CHECKING:
    from collections.abc import Callable

DATABASES = Path(__file__).parents[1] / "data" / "databases"
NOW = datetime(2026, 11, 26, 12, tzinfo=UTC)
KEPT = sorted(DATABASES.glob("schema-*.sqlite"))
PLANTS, CHILDREN = 2_000, 10_000


def rows(path: Path) -> dict[str, list[dict[str, object]]]:
    """Give all rows of all tables by their columns."""
    found: dict[str, list[dict[str, object]]] = {}
    with closing(sqlite3.connect(path)) as connection:
        connection.row_factory = sqlite3.Row
        for (name,) in connection.execute(
            "SELECT name FROM sqlite_master WHERE type = 'table'"
        ).fetchall():
            all_rows = connection.execute(f"SELECT * FROM {name} ORDER BY id")  # noqa: S608
            found[name] = [dict(row) for row in all_rows]
    return found


@pytest.fixture(params=KEPT, ids=lambda path: path.stem)
def kept(request: pytest.FixtureRequest, folder: Path) -> Path:
    folder.mkdir()
    copied = folder / FILE_NAME
    shutil.copy(request.param, copied)
    return copied


def test_every_value_of_every_row_is_as_before(
    kept: Path, told: Callable[[str], None]
) -> None:
    before = rows(kept)
    Collection.open(kept.parent, FixedClock(date(2026, 11, 26))).close()
    after = rows(kept)
    values = 0
    for name, old in before.items():
        now = after[name][: len(old)]
        assert len(after[name]) == len(old) or name == "migration"
        for one, two in zip(old, now, strict=True):
            assert one.items() <= two.items(), name
            values += len(one)
    assert values > 300
    told(f"kept file of form {len(before['migration'])}: {values} values as before")


def test_it_is_whole_exported_undone_and_done_again(kept: Path, tmp_path: Path) -> None:
    form = read_header(kept).schema
    with closing(Collection.open(kept.parent, FixedClock(date(2026, 11, 26)))) as made:
        assert check(kept.parent).problems == ()
        export(made, tmp_path / "out")
        assert {*FILES.values()} <= {each.name for each in (tmp_path / "out").iterdir()}
        while made.history.redo():
            pass
        strange = strange_in(kept)
        now = rows(kept)
        back = made.history.undo_to(1)
        undone = [each for each in rows(kept)["action"] if each["undone"]]
        assert len(undone) > 5 or back.problems
        while made.history.redo():
            pass
        again = rows(kept)
    assert {name: again[name] for name in FILES} == {name: now[name] for name in FILES}
    assert strange_in(kept) == strange
    laid_by_hand = {
        "place",
        "plant",
        "bloom",
        "tin",
        "water",
        "care",
        "look",
        "reading",
    }
    assert {table for table, _, _ in strange} <= (laid_by_hand if form > 1 else set())
    with closing(connect(kept)) as connection:
        proof = prove(connection, quietly)
        assert {*proof.damaged, *proof.missing, *proof.disordered} == set()


def strange_in(path: Path) -> set[tuple[str, int, str]]:
    """Give the rows that the journal does not know as they stand."""
    with closing(connect(path)) as connection:
        return {
            (each.table, each.row_id, getattr(each, "column", "?"))
            for each in differences(connection, quietly)
        }


def large(path: Path, schema: int) -> None:
    """Make a file of a form with many plants, and care that points at them."""
    create_database(path, NOW, MIGRATIONS[:schema])
    with closing(connect(path)) as connection:
        connection.execute("BEGIN")
        needed = [
            row[1]
            for row in connection.execute("PRAGMA table_info(plant)")
            if row[3] and row[4] is None and row[1] != "id"
        ]
        columns, marks = ", ".join(needed), ", ".join("?" * len(needed))
        connection.executemany(
            f"INSERT INTO plant (id, {columns}) VALUES (?, {marks})",  # noqa: S608
            ((n, *(_value(name, n) for name in needed)) for n in range(1, PLANTS + 1)),
        )
        connection.executemany(
            "INSERT INTO care (id, plant_id, day, what, note)"
            " VALUES (?, ?, '2026-05-01', 'feed', '')",
            ((n, 1 + n % PLANTS) for n in range(1, CHILDREN + 1)),
        )
        connection.execute("COMMIT")


def _value(name: str, number: int) -> object:
    return f"P{number}" if name == "tag" else "" if name in _TEXTS else 0


_TEXTS = {"name", "kind", "source", "note"}


def rebuild(connection: sqlite3.Connection) -> None:
    """Make the table of plants anew, as a step must that changes a column's kind."""
    (sql,) = connection.execute(
        "SELECT sql FROM sqlite_master WHERE name = 'plant'"
    ).fetchone()
    indexes = connection.execute(
        "SELECT sql FROM sqlite_master WHERE tbl_name = 'plant' AND type = 'index'"
        " AND sql IS NOT NULL"
    ).fetchall()
    connection.execute(sql.replace("TABLE plant", "TABLE plant_new", 1))
    connection.execute("INSERT INTO plant_new SELECT * FROM plant")
    connection.execute("DROP TABLE plant")
    connection.execute("ALTER TABLE plant_new RENAME TO plant")
    for (made,) in indexes:
        connection.execute(made)


@pytest.mark.parametrize("schema", range(1, SCHEMA + 1))
def test_a_parent_made_anew_from_any_form_loses_no_child(
    schema: int, tmp_path: Path, told: Callable[[str], None]
) -> None:
    path = tmp_path / FILE_NAME
    large(path, schema)
    step = Migration(SCHEMA + 1, "anew", compatible_from=1, run=rebuild)
    bring_up_to_date(path, NOW, (*MIGRATIONS, step))
    with closing(connect(path)) as connection:
        assert connection.execute("PRAGMA foreign_keys").fetchone() == (1,)
        counted = [
            connection.execute(f"SELECT count(*) FROM {name}").fetchone()[0]  # noqa: S608
            for name in ("plant", "care")
        ]
        assert counted == [PLANTS, CHILDREN]
        assert connection.execute("PRAGMA foreign_key_check").fetchall() == []
        with pytest.raises(sqlite3.IntegrityError):
            connection.execute("DELETE FROM plant WHERE id = 1")
    told(
        f"2.4 form {schema} to {SCHEMA + 1}, plants made anew:"
        f" {counted[0]} plants, {counted[1]} of {CHILDREN} pieces of care kept"
    )
