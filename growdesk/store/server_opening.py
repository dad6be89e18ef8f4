"""Opening a collection on a server: whose it is, its form, and bringing that up.

What is in the database is looked at first, and only where it lacks our tables or steps
of our form are they made, in one transaction under the writers' own lock: of two
programs that start at once the second finds all done. A server rolls back whole.
"""

from __future__ import annotations

import logging
from typing import TYPE_CHECKING, cast

from msgspec import Struct
from sqlalchemy.exc import SQLAlchemyError

from growdesk.domain.errors import ForeignError, StoreError
from growdesk.domain.speech import tr
from growdesk.store.form import check_columns, check_records
from growdesk.store.header import too_new
from growdesk.store.later import TABLES, tables_of
from growdesk.store.migrating import check_counts, record
from growdesk.store.migrations import MIGRATIONS, SCHEMA
from growdesk.store.server_sql import Spoken
from growdesk.store.server_trouble import may_not_write, server_trouble

if TYPE_CHECKING:
    import sqlite3
    from collections.abc import Callable, Sequence
    from datetime import datetime

    from sqlalchemy import Connection, Engine

    from growdesk.store.migrations import Migration

log = logging.getLogger(__name__)
_RECORD = {"id", "name", "compatible_from", "at_s"}
_COLUMNS = """
    SELECT tables.relname, columns.attname, coalesce(keys.indisprimary, FALSE)
    FROM pg_class AS tables
    JOIN pg_attribute AS columns ON columns.attrelid = tables.oid
    LEFT JOIN pg_index AS keys ON keys.indrelid = tables.oid
        AND keys.indisprimary AND columns.attnum = ANY(keys.indkey)
    JOIN pg_namespace AS names ON names.oid = tables.relnamespace
    WHERE names.nspname = current_schema()
        AND tables.relkind IN ('r', 'p', 'f', 'v', 'm')
        AND columns.attnum > 0 AND NOT columns.attisdropped
    ORDER BY tables.relname, columns.attnum
"""


class Found(Struct, frozen=True):
    """What a database holds: its form, the oldest program for it, all its columns."""

    form: int
    recorded: tuple[int, ...]
    compatible_from: int
    program: str
    columns: tuple[tuple[str, str, bool], ...]

    @property
    def is_ours(self) -> bool:
        """Tell whether a collection is there."""
        return bool(self.columns)

    @property
    def is_up_to_date(self) -> bool:
        """Tell whether it lacks no step of this program's form."""
        return self.form >= SCHEMA

    @property
    def info(self) -> dict[str, object]:
        """Give what sessions carry where a later program made the form."""
        return {TABLES: tables_of(self.columns)} if self.form > SCHEMA else {}


def look(connection: Connection, place: str) -> Found:
    """Look at what a database holds; refuse one that is not ours, or too new."""
    encoding = connection.exec_driver_sql("SHOW server_encoding").scalar_one()
    if encoding != "UTF8":
        raise ForeignError(
            tr(
                "The database of {place} cannot keep the letters of all languages."
            ).format(place=place),
            tr("Let whoever keeps the server make one with the encoding UTF8."),
        )
    columns = tuple(
        (table, column, key)
        for table, column, key in connection.exec_driver_sql(_COLUMNS)
    )
    if not columns:
        return Found(0, (), 0, "", ())
    if not {name for table, name, _ in columns if table == "migration"} >= _RECORD:
        raise ForeignError(
            tr("{path} belongs to another program.").format(path=place),
            tr("Choose another database; this one was left as it is."),
        )
    program = "program" if ("migration", "program", False) in columns else "''"
    rows = connection.exec_driver_sql(
        f"SELECT id, compatible_from, {program} FROM migration ORDER BY id"  # noqa: S608 -- one of two words of ours
    ).all()
    recorded = tuple(row[0] for row in rows)
    form = recorded[-1] if recorded else 0
    oldest = max((row[1] for row in rows), default=0)
    found = Found(form, recorded, oldest, rows[-1][2] if rows else "", columns)
    if form > SCHEMA and oldest > SCHEMA:
        raise too_new(place, form, found.program, SCHEMA)
    check_records(list(recorded), form, place)
    if form >= SCHEMA:
        check_columns({(table, name) for table, name, _ in columns}, place)
    return found


def why_only_looking(connection: Connection, place: str) -> str:
    """Say why this name may not write here; nothing where it may."""
    stands, may = connection.exec_driver_sql(
        "SELECT pg_is_in_recovery(), has_table_privilege('action', 'INSERT')"
    ).one()
    if not stands and may:
        return ""
    return may_not_write(place, stands=stands).line()


def bring_up(
    writer: Engine,
    place: str,
    now: datetime,
    migrations: Sequence[Migration] = MIGRATIONS,
    *,
    create: bool = False,
    before: Callable[[int], None] | None = None,
) -> None:
    """Do the steps that a database lacks, all or none.

    ``before`` is called with the form that is there before the first step is done, and
    while nobody can write: it keeps a backup, and what it raises leaves all as it was.
    """
    with writer.begin() as connection:
        found = look(connection, place)
        pending = [step for step in migrations if step.number > found.form]
        if not pending:
            return
        if not found.form and not create:
            raise none_there(place)
        if found.form and before is not None:
            before(found.form)
        try:
            _apply(connection, pending, now)
        except Exception as error:
            raise _told(error, place, pending[-1].number) from error
    log.info("brought from form %s to %s", found.form, pending[-1].number)


def none_there(place: str) -> StoreError:
    """Give the line for a database without a collection."""
    return StoreError(
        tr("There is no collection in {folder}.").format(folder=place),
        tr("Look at the name of the database, or make a new collection in it."),
    )


def _apply(connection: Connection, pending: Sequence[Migration], now: datetime) -> None:
    spoken = cast("sqlite3.Connection", Spoken(connection))
    for step in pending:
        before = _counts(connection)
        step.run(spoken)
        check_counts(before, _counts(connection), step.takes)
    record(spoken, pending, now)


def _counts(connection: Connection) -> dict[str, int]:
    """Give how many rows each table has."""
    names = connection.exec_driver_sql(
        "SELECT tablename FROM pg_tables WHERE schemaname = current_schema()"
    ).scalars()
    return {
        name: connection.exec_driver_sql(f'SELECT count(*) FROM "{name}"').scalar_one()  # noqa: S608 -- a table there
        for name in names.all()
    }


def _told(error: Exception, place: str, form: int) -> StoreError:
    """Say why a collection kept its form."""
    if isinstance(error, StoreError):
        return error
    is_the_servers = isinstance(error, SQLAlchemyError) or hasattr(error, "sqlstate")
    if is_the_servers and (known := server_trouble(error, place)) is not None:
        return known
    return StoreError(
        tr(
            "{path} could not be brought to form {form} and stays as it was: {reason}."
        ).format(path=place, form=form, reason=str(error).rstrip(".")),
        tr("Go on with the growdesk that wrote it, and report this fault."),
    )
