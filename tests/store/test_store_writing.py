"""Writing: whole with its history, or not at all; and what disks do to it."""

from __future__ import annotations

import errno
import sqlite3
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing
from datetime import UTC, date, datetime
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from sqlalchemy import event, func, select, text
from sqlalchemy.exc import IntegrityError, OperationalError

from growdesk.domain.errors import (
    BusyError,
    DamagedError,
    FullError,
    InputError,
    StoreError,
)
from growdesk.store import undoing
from growdesk.store.engine import connect
from growdesk.store.schema import (
    RECORDED,
    ActionRow,
    Base,
    ChangeRow,
    PlaceRow,
    ReadingRow,
)
from growdesk.store.store import FILE_NAME, Store
from growdesk.store.trouble import database_trouble, plainly

if TYPE_CHECKING:
    from collections.abc import Iterator

SILL = {"name": "Sill", "kind": "windowsill"}


def now() -> datetime:
    return datetime(2026, 5, 20, 12, tzinfo=UTC)


@pytest.fixture
def store(folder: Path) -> Iterator[Store]:
    opened = Store.open(folder, now, create=True)
    yield opened
    opened.close()


def names(store: Store) -> list[str]:
    with store.reading() as session:
        return sorted(session.scalars(select(PlaceRow.name)))


def titles(store: Store) -> list[str]:
    with store.reading() as session:
        return list(session.scalars(select(ActionRow.title).order_by(ActionRow.id)))


def undo(store: Store) -> undoing.Moved | None:
    with store.unrecorded() as session:
        return undoing.undo(session)


def redo(store: Store) -> undoing.Moved | None:
    with store.unrecorded() as session:
        return undoing.redo(session)


def test_pragmas_hold_on_every_connection(store: Store) -> None:
    wanted = {
        "foreign_keys": 1,
        "journal_mode": "truncate",
        "synchronous": 2,
        "busy_timeout": 5000,
        "trusted_schema": 0,
        "cell_size_check": 1,
    }
    with store.reading() as one, store.reading() as two:
        for session in (one, two):
            found = {
                pragma: session.execute(text(f"PRAGMA {pragma}")).scalar()
                for pragma in wanted
            }
            assert found == wanted


def test_foreign_keys_are_held(store: Store) -> None:
    lost = {"place_id": 99, "day": date(2026, 5, 1)}
    with (
        pytest.raises(IntegrityError),
        store.writing("Lost", now) as writing,
    ):
        writing.insert(ReadingRow, lost)


def leave_half(store: Store) -> None:
    with store.unrecorded() as session:
        session.execute(text("CREATE TABLE half (id INTEGER)"))
        raise RuntimeError


def slip(store: Store, name: str) -> None:
    """Write a place and fail after it."""
    with store.writing(name, now) as writing:
        writing.insert(PlaceRow, {**SILL, "name": name})
        raise InputError("name", name, "is wrong")


def test_a_change_of_tables_is_rolled_back_with_the_rest(store: Store) -> None:
    with pytest.raises(RuntimeError):
        leave_half(store)
    with store.reading() as session:
        found = session.execute(text("SELECT name FROM sqlite_master")).scalars()
        assert "half" not in set(found)


def test_a_failing_write_leaves_neither_rows_nor_history(store: Store) -> None:
    with pytest.raises(InputError):
        slip(store, "Half")
    assert names(store) == []
    assert titles(store) == []


def test_undo_and_redo_restore_rows_exactly(store: Store) -> None:
    with store.writing("Added", now) as writing:
        place = writing.insert(PlaceRow, {**SILL, "lamps_hours": 12.5, "note": "é\n"})
        writing.insert(
            ReadingRow, {"place_id": place, "day": date(2026, 2, 28), "mean_c": 18.0}
        )
    with store.writing("Changed", now) as writing:
        assert writing.update(PlaceRow, place, {"name": "Shelf", "controlled": True})
        assert not writing.update(PlaceRow, place, {"name": "Shelf"})
    with store.writing("Gone", now) as writing:
        writing.delete(ReadingRow, 1)
        writing.delete(PlaceRow, place)
    states = [dump(store)]
    while undo(store):
        states.append(dump(store))
    assert [len(state) for state in states] == [0, 2, 2, 0]
    again = [dump(store)]
    while redo(store):
        again.append(dump(store))
    assert again == states[::-1]
    assert states[2][0]["name"] == "Sill"
    assert states[1][0]["name"] == "Shelf"
    assert states[1][0]["controlled"] is True
    assert states[2][1]["day"] == date(2026, 2, 28)


def test_rows_go_together_in_one_statement_and_come_back(store: Store) -> None:
    with store.writing("Added", now) as writing:
        places = [writing.insert(PlaceRow, {**SILL, "name": f"S{n}"}) for n in range(5)]
    before = dump(store)
    seen: list[str] = []

    def note(*details: object) -> None:
        seen.append(str(details[2])[:17])

    event.listen(store._engine, "before_cursor_execute", note)
    with store.writing("Gone", now) as writing:
        writing.delete_many(PlaceRow, [])
        assert writing.changes == []
        writing.delete_many(PlaceRow, places[1:4])
    assert seen.count("DELETE FROM place") == 1
    assert [row["name"] for row in dump(store)] == ["S0", "S4"]
    undo(store)
    assert dump(store) == before
    redo(store)
    assert [row["name"] for row in dump(store)] == ["S0", "S4"]
    with (
        pytest.raises(KeyError),
        store.writing("Gone twice", now) as writing,
    ):
        writing.delete_many(PlaceRow, [places[0], places[1]])
    assert [row["name"] for row in dump(store)] == ["S0", "S4"]


def dump(store: Store) -> list[dict[str, object]]:
    with store.reading() as session:
        return [
            dict(row._mapping)
            for table in (PlaceRow, ReadingRow)
            for row in session.execute(select(table.__table__))
        ]


def test_what_takes_the_place_of_another_goes_back_and_forth_in_order(
    store: Store,
) -> None:
    with store.writing("Two places", now) as writing:
        one, two = writing.insert_many(PlaceRow, [SILL, {**SILL, "name": "Shelf"}])
    with store.writing("All at once", now) as writing:
        writing.update(PlaceRow, one, {"name": "Old"})
        writing.update(PlaceRow, two, {"name": SILL["name"]})
        writing.update(PlaceRow, one, {"name": "Shelf"})
        writing.delete(PlaceRow, two)
        writing.insert(PlaceRow, SILL)
    after = dump(store)
    undo(store)
    assert names(store) == ["Shelf", SILL["name"]]
    redo(store)
    assert dump(store) == after


def test_a_new_action_forgets_what_was_undone(store: Store) -> None:
    for name in ("One", "Two", "Three"):
        with store.writing(name, now) as writing:
            writing.insert(PlaceRow, {**SILL, "name": name})
    undo(store)
    undo(store)
    with store.writing("Four", now) as writing:
        writing.insert(PlaceRow, {**SILL, "name": "Four"})
    assert redo(store) is None
    assert titles(store) == ["One", "Four"]
    assert names(store) == ["Four", "One"]
    with store.reading() as session:
        assert session.scalar(select(func.count()).select_from(ChangeRow)) == 2


def test_writing_nothing_keeps_what_can_be_redone(store: Store) -> None:
    with store.writing("One", now) as writing:
        writing.insert(PlaceRow, SILL)
    undo(store)
    with store.writing("Nothing", now):
        pass
    moved = redo(store)
    assert moved is not None
    assert moved.title == "One"
    assert moved.tables == {"place"}


def test_history_survives_closing(folder: Path) -> None:
    store = Store.open(folder, now, create=True)
    with store.writing("One", now) as writing:
        writing.insert(PlaceRow, SILL)
    store.close()
    store = Store.open(folder, now)
    assert undo(store) is not None
    store.close()
    store = Store.open(folder, now)
    assert names(store) == []
    assert redo(store) is not None
    assert names(store) == ["Sill"]
    store.close()


def test_together_is_one_action_and_reads_its_own_rows(store: Store) -> None:
    with store.together("Import", now):
        for name in ("One", "Two"):
            with store.writing(name, now) as writing:
                writing.insert(PlaceRow, {**SILL, "name": name})
        assert names(store) == ["One", "Two"]
    assert titles(store) == ["Import"]
    undo(store)
    assert names(store) == []


def test_a_slip_inside_together_takes_back_only_its_own_rows(store: Store) -> None:
    with store.together("Import", now):
        with store.writing("Good", now) as writing:
            writing.insert(PlaceRow, SILL)
        with pytest.raises(InputError):
            slip(store, "Bad")
    assert names(store) == ["Sill"]
    undo(store)
    assert names(store) == []
    redo(store)
    assert names(store) == ["Sill"]


def test_together_unremembered_leaves_no_history(store: Store) -> None:
    with store.together("Demo", now, remember=False) as writing:
        writing.insert_many(PlaceRow, [{**SILL, "name": str(n)} for n in range(50)])
    assert len(names(store)) == 50
    assert titles(store) == []
    with (
        pytest.raises(RuntimeError),
        store.together("A", now),
        store.together("B", now),
    ):
        pass


def test_an_unknown_column_is_a_bug_not_a_loss(store: Store) -> None:
    with pytest.raises(KeyError, match="colour"), store.writing("x", now) as writing:
        writing.insert(PlaceRow, {**SILL, "colour": "green"})


def test_every_table_of_the_grower_is_recorded() -> None:
    ours = {"migration", "action", "change"}
    assert set(RECORDED) == set(Base.metadata.tables) - ours


def test_a_full_disk_is_one_line_and_loses_nothing(store: Store) -> None:
    with store.writing("Before", now) as writing:
        writing.insert(PlaceRow, SILL)
    with store.reading() as session:
        pages = session.execute(text("PRAGMA page_count")).scalar()
    with pytest.raises(StoreError, match="disk is full") as caught:
        fill(store, pages)
    assert "Free some space" in caught.value.line()
    assert names(store) == ["Sill"]
    assert titles(store) == ["Before"]
    undo(store)
    assert names(store) == []


def fill(store: Store, pages: object) -> None:
    """Write far more than the pages the file may have."""
    with store.writing("Too much", now) as writing:
        writing.session.execute(text(f"PRAGMA max_page_count = {pages}"))
        writing.insert_many(
            PlaceRow, [{**SILL, "name": f"{n}" * 900} for n in range(1000, 1200)]
        )


def test_another_writer_is_busy_not_a_traceback(store: Store, folder: Path) -> None:
    give_up_at_once(store)
    with closing(connect(folder / FILE_NAME)) as other:
        other.execute("BEGIN EXCLUSIVE")
        with pytest.raises(BusyError, match="busy"):
            names(store)
        other.execute("ROLLBACK")
    assert names(store) == []


def give_up_at_once(store: Store) -> None:
    """Let the store's pooled connection give up at once instead of in 5 seconds."""
    raw = store._engine.raw_connection()
    cursor = raw.cursor()
    cursor.execute("PRAGMA busy_timeout = 1")
    cursor.close()
    raw.close()


@pytest.mark.parametrize(
    ("name", "kind"),
    [
        ("SQLITE_FULL", FullError),
        ("SQLITE_IOERR_WRITE", StoreError),
        ("SQLITE_READONLY_DBMOVED", StoreError),
        ("SQLITE_CANTOPEN", StoreError),
        ("SQLITE_BUSY_SNAPSHOT", BusyError),
        ("SQLITE_LOCKED", BusyError),
        ("SQLITE_CORRUPT_VTAB", DamagedError),
        ("SQLITE_NOTADB", DamagedError),
    ],
)
def test_each_family_of_errors_has_its_line(name: str, kind: type[StoreError]) -> None:
    error = sqlite3.OperationalError("inner words")
    error.sqlite_errorname = name
    told = database_trouble(OperationalError("SELECT", {}, error), Path("c.sqlite"))
    assert type(told) is kind
    assert "c.sqlite" in told.line()
    assert "inner words" not in told.line()


def test_a_bug_is_not_dressed_up() -> None:
    error = sqlite3.OperationalError("no such table")
    error.sqlite_errorname = "SQLITE_ERROR"
    assert database_trouble(error, Path("c.sqlite")) is None
    assert database_trouble(ValueError("x"), Path("c.sqlite")) is None
    with pytest.raises(sqlite3.OperationalError), plainly(Path("c.sqlite")):
        raise error


@pytest.mark.parametrize(
    ("number", "told"),
    [
        (errno.ENOSPC, "disk is full"),
        (errno.EROFS, "may only be read"),
        (errno.EIO, "would not read or write"),
    ],
)
def test_files_have_their_lines_too(number: int, told: str) -> None:
    with pytest.raises(StoreError, match=told), plainly(Path("c.sqlite")):
        raise OSError(number, "inner")


def test_a_file_that_may_not_be_written_says_so(store: Store) -> None:
    raw = store._engine.raw_connection()
    cursor = raw.cursor()
    cursor.execute("PRAGMA query_only = ON")
    cursor.close()
    raw.close()
    with pytest.raises(StoreError, match="may not be written"):
        slip(store, "Any")
    assert names(store) == []


def test_threads_read_while_one_writes(store: Store) -> None:
    def write(number: int) -> None:
        for step in range(10):
            with store.writing(f"{number}.{step}", now) as writing:
                writing.insert(PlaceRow, {**SILL, "name": f"{number}.{step}"})

    def read(_: int) -> int:
        return max(len(names(store)) for _ in range(20))

    with ThreadPoolExecutor(4) as pool:
        reads = [pool.submit(read, number) for number in range(2)]
        writes = [pool.submit(write, number) for number in range(2)]
        for written in writes:
            written.result()
        assert max(found.result() for found in reads) <= 20
    assert len(names(store)) == 20
    assert len(titles(store)) == 20
