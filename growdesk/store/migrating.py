"""Bring a collection file to the schema of this program, or leave it as it was.

All pending steps, their records and the new schema number are one transaction. A file
that was there before is backed up and the backup checked first; where an earlier try
has left a backup of the same state, that one stays the one. Foreign keys are off around
the steps, or a table made anew would take with it what points at it; so they are looked
over before all is kept, and no step may take rows that it has not named.
"""

from __future__ import annotations

import errno
import logging
from contextlib import closing
from typing import TYPE_CHECKING

from growdesk import __version__
from growdesk.domain.errors import LookOnlyError, StoreError
from growdesk.domain.speech import tr
from growdesk.domain.thinning import Why
from growdesk.store.backup_sets import BACKUPS, make
from growdesk.store.engine import connect
from growdesk.store.header import APPLICATION_ID, read_header
from growdesk.store.migrations import MIGRATIONS
from growdesk.store.trouble import database_trouble, file_trouble

if TYPE_CHECKING:
    import sqlite3
    from collections.abc import Mapping, Sequence
    from datetime import datetime
    from pathlib import Path

    from growdesk.store.migrations import Migration

log = logging.getLogger(__name__)
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
    path: Path,
    now: datetime,
    migrations: Sequence[Migration] = MIGRATIONS,
    *,
    is_copy: bool = False,
) -> Path | None:
    """Run what is pending; give the backup made before, if anything was.

    A copy that is only to be looked at gets none. What fails is told in a plain line;
    where it is the room on the disk, the line lets the file be looked at.
    """
    schema = read_header(path).schema
    pending = [step for step in migrations if step.number > schema]
    if not pending:
        return None
    backup = None
    try:
        if not is_copy:
            backup = make(path, Why.BEFORE_FORM, now, anew=False).path
        with closing(connect(path)) as connection:
            _apply(connection, pending, now)
    except Exception as error:
        raise _told(error, path, pending[-1].number, backup) from error
    log.info("brought from form %s to %s", schema, pending[-1].number)
    return backup


def _told(error: Exception, path: Path, form: int, backup: Path | None) -> StoreError:
    """Say why a file kept its form, and where its backup is."""
    known = _known(error, path)
    where = tr("The backup is {backup}.").format(backup=backup) if backup else ""
    if known is None:
        message = tr(
            "{path} could not be brought to form {form} and stays as it was: {reason}."
        ).format(path=path, form=form, reason=str(error).rstrip("."))
        hint = tr("Go on with the growdesk that wrote it, and report this fault.")
        return StoreError(message, f"{hint} {where}".strip())
    kind = LookOnlyError if _is_of_full_disk(error) else type(known)
    return kind(known.message, f"{known.hint} {where}".strip())


def _known(error: Exception, path: Path) -> StoreError | None:
    if isinstance(error, StoreError):
        return error
    if isinstance(error, OSError):
        return file_trouble(error, path)
    return database_trouble(error, path)


def _is_of_full_disk(error: BaseException | None) -> bool:
    """Tell whether it was, in the end, the room on the disk."""
    while error is not None:
        if getattr(error, "sqlite_errorname", "") == "SQLITE_FULL":
            return True
        if getattr(error, "errno", 0) in {errno.ENOSPC, errno.EDQUOT}:
            return True
        error = error.__cause__
    return False


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
            check_counts(before, _counts(connection), step.takes)
        record(connection, pending, now)
        connection.execute(f"PRAGMA application_id = {APPLICATION_ID}")
        connection.execute(f"PRAGMA user_version = {pending[-1].number}")
        _check_foreign_keys(connection)
        connection.execute("COMMIT")
    except BaseException:
        if connection.in_transaction:  # on a full disk SQLite has rolled back itself
            connection.execute("ROLLBACK")
        raise
    connection.execute("PRAGMA foreign_keys = ON")


def record(
    connection: sqlite3.Connection, done: Sequence[Migration], now: datetime
) -> None:
    """Write down which steps were done, when and by which program."""
    for step in done:
        connection.execute(
            "INSERT INTO migration (id, name, compatible_from, at_s)"
            " VALUES (?, ?, ?, ?)",
            (step.number, step.name, step.compatible_from, int(now.timestamp())),
        )
    if done[-1].number >= _NAMES_PROGRAM:
        connection.execute(
            "UPDATE migration SET program = ? WHERE id >= ?",
            (__version__, done[0].number),
        )


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


def check_counts(
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
