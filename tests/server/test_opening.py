"""What is met at the opening of a database: foreign, newer, none, of an older form."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from datetime import UTC, date, datetime
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from sqlalchemy import select

from growdesk.domain.errors import (
    DamagedError,
    ForeignError,
    GoneError,
    LookOnlyError,
    StoreError,
    TooNewError,
)
from growdesk.services.clock import FixedClock
from growdesk.services.collection import Collection
from growdesk.services.values import PlaceDraft, PlantDraft
from growdesk.store.migrations import MIGRATIONS, SCHEMA, Migration
from growdesk.store.schema import Base, PlaceRow
from growdesk.store.server import ServerStore
from growdesk.store.server_address import parsed
from growdesk.store.server_engine import make_server_engine, writer_of
from growdesk.store.server_opening import bring_up
from growdesk.store.server_sql import Spoken

if TYPE_CHECKING:
    from tests.server_store import Databases

NOW = datetime(2026, 11, 26, 12, tzinfo=UTC)
DATABASES = Path(__file__).parents[1] / "data" / "databases"
KEPT = sorted(DATABASES.glob("schema-*.sqlite"))


def name_of(address: str) -> str:
    return address.rpartition("/")[2]


def opened(address: str, *, create: bool = False) -> ServerStore:
    return ServerStore.open(address, Path("photos"), lambda: NOW, create=create)


def test_an_empty_database_is_made_a_collection_only_where_told(address: str) -> None:
    with pytest.raises(StoreError, match="no collection in"):
        opened(address)
    opened(address, create=True).close()
    store = opened(address)
    assert (store.looking, store.notice, store.full_check_due) == ("", "", False)
    assert store.file is None
    store.close()
    store.close()
    with pytest.raises(StoreError, match="no longer open here"), store.reading():
        pass


def test_tables_are_as_the_schema_says(address: str, databases: Databases) -> None:
    opened(address, create=True).close()
    with databases.alone(name_of(address)) as execute:
        found = execute(
            "SELECT table_name, column_name, data_type, collation_name, is_nullable"
            " FROM information_schema.columns WHERE table_schema = 'public'"
        )
        columns = {(row[0], row[1]): row[2:] for row in found}  # type: ignore[attr-defined]
    kinds = {
        int: ("bigint", None),
        str: ("text", "C"),
        float: ("double precision", None),
        bool: ("boolean", None),
        bytes: ("bytea", None),
    }
    for table in Base.metadata.sorted_tables:
        for column in table.c:
            *told, nullable = columns.pop((table.name, column.name))
            wanted = kinds.get(column.type.python_type, ("date", None))
            assert tuple(told) == wanted, column
            assert (nullable == "YES") is bool(column.nullable), column
    assert columns == {}


def test_what_belongs_to_another_is_left_as_it_was(
    address: str, databases: Databases
) -> None:
    with databases.alone(name_of(address)) as execute:
        execute("CREATE TABLE invoice (id INTEGER)")
        for create in (False, True):
            with pytest.raises(ForeignError, match="belongs to another program"):
                opened(address, create=create)
        execute("CREATE TABLE migration (version TEXT)")
        with pytest.raises(ForeignError, match="belongs to another program"):
            opened(address, create=True)
        found = execute("SELECT count(*) FROM pg_tables WHERE schemaname = 'public'")
        assert found.scalar_one() == 2  # type: ignore[attr-defined]


def test_a_later_form_is_refused_in_the_files_own_words(
    address: str, databases: Databases
) -> None:
    opened(address, create=True).close()
    with databases.alone(name_of(address)) as execute:
        later = SCHEMA + 1
        execute(f"INSERT INTO migration VALUES ({later}, 'next', {later}, 0, '9.9.0')")  # noqa: S608 -- numbers
        with pytest.raises(TooNewError, match=r"was written by growdesk 9\.9\.0"):
            opened(address)
        execute(f"UPDATE migration SET compatible_from = 1 WHERE id = {later}")  # noqa: S608 -- a number
        execute("ALTER TABLE place ADD COLUMN floor TEXT DEFAULT 'ground'")
    made = Collection(opened(address), _clock())
    made.places.add(PlaceDraft("East sill"))
    made.history.undo()
    made.history.redo()
    with databases.alone(name_of(address)) as execute:
        execute("UPDATE place SET floor = 'attic'")
    place = made.places.all()[0]
    made.places.remove(place.place_id)
    made.history.undo()
    made.close()
    with databases.alone(name_of(address)) as execute:
        assert execute("SELECT floor FROM place").scalar_one() == "attic"  # type: ignore[attr-defined]


def test_records_with_a_gap_and_lost_columns_are_damage(
    address: str, databases: Databases
) -> None:
    opened(address, create=True).close()
    with databases.alone(name_of(address)) as execute:
        execute("ALTER TABLE look RENAME COLUMN pods TO peas")
        with pytest.raises(DamagedError, match="look should have pods"):
            opened(address)
        execute("DELETE FROM migration WHERE id = 2")
        with pytest.raises(DamagedError, match="has a gap"):
            opened(address)


@pytest.mark.parametrize("kept", KEPT, ids=lambda path: path.stem)
def test_each_released_form_is_brought_up_with_all_its_rows(
    kept: Path, address: str
) -> None:
    """The rows of a kept file are put under its own form there, and brought up."""
    with closing(sqlite3.connect(kept)) as file:
        (form,) = file.execute("PRAGMA user_version").fetchone()
        before = _of_form(file, address, form)
    asked: list[int] = []
    store = ServerStore.open(
        address, Path("photos"), lambda: NOW, before_form=asked.append
    )
    assert asked == ([] if form == SCHEMA else [form])
    with store.reading() as session:
        for name, old in before.items():
            table = Base.metadata.tables[name]
            rows = session.execute(table.select().order_by(table.c.id)).mappings().all()
            assert len(rows) == len(old) or name == "migration"
            for one, two in zip(old, rows, strict=False):
                assert one == {key: _plain(two[key]) for key in one}, name
    made = Collection(store, _clock())
    while made.history.redo():
        pass
    view = made.day.view()
    back = made.history.undo_to(1)
    assert made.day.view() != view or back.problems
    while made.history.redo():
        pass
    assert made.day.view() == view
    made.close()


def test_a_step_that_fails_leaves_all_as_it_was(address: str) -> None:
    made = Collection(opened(address, create=True), _clock())
    made.places.add(PlaceDraft("East sill"))
    made.close()

    def fails(connection: sqlite3.Connection) -> None:
        connection.execute("ALTER TABLE place ADD COLUMN floor TEXT")
        connection.execute("INSERT INTO nowhere VALUES (1)")

    def takes(connection: sqlite3.Connection) -> None:
        connection.execute("DELETE FROM place")

    for run, words in ((fails, "could not be brought to form"), (takes, "1 of 1 rows")):
        step = Migration(SCHEMA + 1, "next", SCHEMA + 1, run)
        store = opened(address)
        with pytest.raises(StoreError, match=words):
            bring_up(store._writer, store.place, NOW, (*MIGRATIONS, step))
        store.close()
    again = Collection(opened(address), _clock())
    with again.ledger.reading() as session:
        assert session.scalars(select(PlaceRow.name)).all() == ["East sill"]
    again.close()


def test_a_backup_that_cannot_be_kept_leaves_the_form(address: str) -> None:
    opened(address, create=True).close()
    step = Migration(SCHEMA + 1, "next", SCHEMA + 1, lambda _: None)
    store = opened(address)

    def full(form: int) -> None:
        raise StoreError(f"no room for form {form}")

    with pytest.raises(StoreError, match=f"no room for form {SCHEMA}"):
        bring_up(store._writer, store.place, NOW, (*MIGRATIONS, step), before=full)
    store.close()
    opened(address).close()


def test_who_is_not_let_in_is_told_why_and_shown_no_password(address: str) -> None:
    start, _, name = address.rpartition("/")
    user, _, host = start.rpartition("@")
    wrong = f"{user[: user.rindex(':')]}:sekret@{host}/{name}"
    nowhere = f"{user}@127.0.0.1:1/{name}"
    for typed, kind, words in (
        (wrong, StoreError, "does not know this name and password"),
        (f"{start}/no_such_orchids", StoreError, "no database"),
        (nowhere, GoneError, "cannot be reached"),
    ):
        with pytest.raises(kind, match=words) as caught:
            opened(typed)
        assert caught.value.hint
        error: BaseException | None = caught.value
        while error is not None:
            assert "sekret" not in str(error)
            error = error.__cause__ or error.__context__


def test_who_may_only_look_looks(address: str, databases: Databases) -> None:
    made = Collection(opened(address, create=True), _clock())
    made.plants.add(PlantDraft("A1", "", "cattleya"))
    made.close()
    role, password = f"guest_{name_of(address)}", "for-the-test"
    with databases.alone(name_of(address)) as execute:
        execute(f"DROP ROLE IF EXISTS {role}")
        execute(f"CREATE ROLE {role} LOGIN PASSWORD '{password}'")
        execute(f"GRANT SELECT ON ALL TABLES IN SCHEMA public TO {role}")
    guest = f"postgresql://{role}:{password}@{address.rpartition('@')[2]}"
    looking = Collection(opened(guest), _clock())
    assert "may not be written by this name" in looking.looking
    assert [plant.tag for _, plant in looking.plants.all()] == ["A1"]
    with pytest.raises(LookOnlyError):
        looking.plants.add(PlantDraft("A2", "", ""))
    looking.close()
    with databases.alone(name_of(address)) as execute:
        execute(f"DROP OWNED BY {role}")
        execute(f"DROP ROLE {role}")


def test_a_database_of_few_letters_is_refused(databases: Databases) -> None:
    name = f"{name_of(databases.address('few'))}_latin"
    with databases.alone() as execute:
        execute(f"DROP DATABASE IF EXISTS {name}")
        execute(
            f"CREATE DATABASE {name} TEMPLATE template0 ENCODING 'LATIN1'"
            " LOCALE_PROVIDER libc LOCALE 'C'"
        )
    with pytest.raises(ForeignError, match="letters of all languages"):
        opened(databases.address(name), create=True)
    databases.take_away(name)


def _clock() -> FixedClock:
    return FixedClock(date(2026, 5, 20))


def _plain(value: object) -> object:
    if isinstance(value, date):
        return value.isoformat()
    return int(value) if isinstance(value, bool) else value


def _of_form(
    file: sqlite3.Connection, address: str, form: int
) -> dict[str, list[dict[str, object]]]:
    """Make the tables of a form there and put a file's rows into them."""
    file.row_factory = sqlite3.Row
    engine = make_server_engine(parsed(address))
    steps = [step for step in MIGRATIONS if step.number <= form]
    bring_up(writer_of(engine), "there", NOW, steps, create=True)
    found: dict[str, list[dict[str, object]]] = {}
    with engine.begin() as connection:
        connection.exec_driver_sql("DELETE FROM migration")
        for table in Base.metadata.sorted_tables:
            columns = file.execute(f"PRAGMA table_info({table.name})").fetchall()
            if not columns:
                continue
            names = [row["name"] for row in columns]
            rows = file.execute(f"SELECT * FROM {table.name} ORDER BY id").fetchall()  # noqa: S608 -- of our own
            found[table.name] = [dict(row) for row in rows]
            marks = ", ".join("?" * len(names))
            quoted = ", ".join(f'"{name}"' for name in names)
            spoken = Spoken(connection)
            for row in rows:
                given = [
                    bool(value)
                    if table.c[name].type.python_type is bool and value is not None
                    else value
                    for name, value in zip(names, row, strict=True)
                ]
                spoken.execute(
                    f'INSERT INTO "{table.name}" ({quoted}) VALUES ({marks})',  # noqa: S608
                    given,
                )
    engine.dispose()
    return found
