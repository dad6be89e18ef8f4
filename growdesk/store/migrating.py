"""Bring a collection file to the schema of this program, or leave it as it was.

All pending steps, their records and the new schema number are one transaction. A file
that was there before is backed up and the backup checked first; where an earlier try
has left a backup of the same state, that one stays the one.
"""

from __future__ import annotations

from contextlib import closing
from typing import TYPE_CHECKING

from growdesk import __version__
from growdesk.domain.errors import StoreError
from growdesk.domain.speech import tr
from growdesk.domain.thinning import Why
from growdesk.store.backup_sets import BACKUPS, make
from growdesk.store.engine import connect
from growdesk.store.header import APPLICATION_ID, read_header
from growdesk.store.migrations import MIGRATIONS

if TYPE_CHECKING:
    import sqlite3
    from collections.abc import Mapping, Sequence
    from datetime import datetime
    from pathlib import Path

    from growdesk.store.migrations import Migration

__all__ = ["BACKUPS", "bring_up_to_date", "create_database"]
_NAMES_PROGRAM = 5
"""From this schema on a migration's record names the program that did it."""


def create_database(
    path: Path, now: datetime, migrations: Sequence[Migration] = MIGRATIONS
) -> None:
    """Make a new, empty database with all tables."""
    with closing(connect(path, create=True)) as connection:
        _apply(connection, migrations, now)
        connection.execute("PRAGMA journal_mode = DELETE").fetchall()


def bring_up_to_date(
    path: Path, now: datetime, migrations: Sequence[Migration] = MIGRATIONS
) -> Path | None:
    """Run what is pending; give the backup made before, if anything was."""
    schema = read_header(path).schema
    pending = [step for step in migrations if step.number > schema]
    if not pending:
        return None
    backup = make(path, Why.BEFORE_FORM, now, anew=False).path
    with closing(connect(path)) as connection:
        try:
            _apply(connection, pending, now)
        except StoreError as error:
            raise StoreError(
                error.message, tr("The backup is {backup}.").format(backup=backup)
            ) from error
    return backup


def _apply(
    connection: sqlite3.Connection, pending: Sequence[Migration], now: datetime
) -> None:
    """Run the steps and record them in one transaction, foreign keys off around it."""
    connection.execute("PRAGMA foreign_keys = OFF")
    connection.execute("BEGIN IMMEDIATE")
    try:
        for step in pending:
            before = _counts(connection)
            step.run(connection)
            _check_counts(before, _counts(connection), step.takes)
            connection.execute(
                "INSERT INTO migration (id, name, compatible_from, at_s)"
                " VALUES (?, ?, ?, ?)",
                (step.number, step.name, step.compatible_from, int(now.timestamp())),
            )
        if pending[-1].number >= _NAMES_PROGRAM:
            connection.execute(
                "UPDATE migration SET program = ? WHERE id >= ?",
                (__version__, pending[0].number),
            )
        connection.execute(f"PRAGMA application_id = {APPLICATION_ID}")
        connection.execute(f"PRAGMA user_version = {pending[-1].number}")
        _check_foreign_keys(connection)
        connection.execute("COMMIT")
    except BaseException:
        if connection.in_transaction:  # on a full disk SQLite has rolled back itself
            connection.execute("ROLLBACK")
        raise
    connection.execute("PRAGMA foreign_keys = ON")


def _counts(connection: sqlite3.Connection) -> dict[str, int]:
    """Give how many rows each table has."""
    tables = connection.execute(
        "SELECT name FROM sqlite_master"
        " WHERE type = 'table' AND name NOT LIKE 'sqlite_%'"
    ).fetchall()
    return {
        name: connection.execute(f'SELECT count(*) FROM "{name}"').fetchone()[0]  # noqa: S608 -- a table of the file
        for (name,) in tables
    }


def _check_counts(
    before: Mapping[str, int], after: Mapping[str, int], takes: frozenset[str]
) -> None:
    """Refuse to keep a step that took rows it had not named beforehand."""
    for table, count in before.items():
        if table not in takes and after.get(table, 0) < count:
            raise StoreError(
                tr(
                    "The collection could not be brought to this program's form:"
                    " {lost} of {count} rows of {table} would be lost."
                ).format(lost=count - after.get(table, 0), count=count, table=table)
            )


def _check_foreign_keys(connection: sqlite3.Connection) -> None:
    """Refuse to keep a step that left rows pointing at nothing."""
    broken = connection.execute("PRAGMA foreign_key_check").fetchone()
    if broken is not None:
        raise StoreError(
            tr(
                "The collection could not be brought to this program's form:"
                " a row of {table} points at a row of {other} that is not there."
            ).format(table=broken[0], other=broken[2])
        )
