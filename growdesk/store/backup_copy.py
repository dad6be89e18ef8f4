"""A checked copy of a database in use, and what must hold of it: counts, marks, form.

Counts are of the very state that is copied. While the copy is made others may write:
then it is begun anew, and the third time they wait for it. The database's own file is
never opened beside SQLite: closing it would let go of the program's locks on it
(sqlite.org/howtocorrupt.html, 2.2).
"""

from __future__ import annotations

import sqlite3
from contextlib import closing
from hashlib import sha256
from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.domain.errors import DamagedError, ForeignError
from growdesk.domain.speech import mark, tr
from growdesk.store import beside
from growdesk.store.backups import copy_database
from growdesk.store.engine import connect
from growdesk.store.header import APPLICATION_ID
from growdesk.store.trouble import plainly

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

NOTHING_WRITTEN = "0-0"
"""The mark of a history that is empty."""
_DIGEST = "digest"
_TRIES_BESIDE_WRITERS = 2
_NOT_WHOLE = mark(
    "{path} is damaged, so no backup is made of it; those made before stay."
)
_LOOK = mark("Look it over with: growdesk check. Bring back a backup if it must be.")


class Snapshot(Struct, frozen=True):
    """What is true of one state of a database: form, rows of each table, history.

    ``mark`` alters with each write that the journal knows, and with each undo. Since a
    number that was undone is given again, it holds what the last action was.
    """

    schema: int
    mark: str
    rows: dict[str, int]


class _WrittenMeanwhileError(Exception):
    """Somebody wrote while the copy was made."""


def take_snapshot(
    source: Path, target: Path, between: Callable[[], object]
) -> Snapshot:
    """Copy a database that may be in use, and give what its copy was held against.

    Raises DamagedError where it is not whole; then there is no copy.
    """
    try:
        with plainly(source):
            _refuse_foreign(beside.journal_of(source))
            return _taken(source, target, between)
    except DamagedError as error:
        target.unlink(missing_ok=True)
        raise DamagedError(tr(_NOT_WHOLE).format(path=source), tr(_LOOK)) from error


def _refuse_foreign(journal: Path) -> None:
    """Let SQLite play nothing back that would lead it to another file."""
    if beside.is_foreign(journal):
        raise DamagedError(tr("{path} is damaged.").format(path=journal))


def read_snapshot(source: Path) -> Snapshot:
    """Give what is true of a database as it stands now."""
    with plainly(source), closing(connect(source)) as connection:
        connection.execute("BEGIN")
        return _look(connection, source)


def at_rest(database: Path) -> sqlite3.Connection:
    """Open a database that nobody writes; no trace is left beside it."""
    uri = f"{database.absolute().as_uri()}?mode=ro&immutable=1"
    connection = sqlite3.connect(uri, uri=True, check_same_thread=False)
    connection.execute("PRAGMA trusted_schema = OFF").fetchall()
    return connection


def look_at_rest(database: Path) -> Snapshot:
    """Read a database that nobody writes to its last page, and give what it holds."""
    with closing(at_rest(database)) as connection:
        found = connection.execute("PRAGMA integrity_check(1)").fetchone()[0]
        if found != "ok":
            raise DamagedError(tr("{path} is damaged.").format(path=database))
        return _look(connection, database)


def _taken(source: Path, target: Path, between: Callable[[], object]) -> Snapshot:
    for attempt in range(_TRIES_BESIDE_WRITERS + 1):
        try:
            holding = attempt == _TRIES_BESIDE_WRITERS
            snapshot = _copied(source, target, between, holding=holding)
        except _WrittenMeanwhileError:
            continue
        if look_at_rest(target) != snapshot:
            raise DamagedError(tr("{path} is damaged.").format(path=target))
        return snapshot
    raise AssertionError  # the last attempt holds the writers off


def _copied(
    source: Path, target: Path, between: Callable[[], object], *, holding: bool
) -> Snapshot:
    with closing(connect(source)) as connection:
        connection.execute("BEGIN")
        snapshot, version = _look(connection, source), _version(connection)
        if not holding:
            connection.execute("COMMIT")

        def check() -> None:
            between()
            if not holding and _version(connection) != version:
                raise _WrittenMeanwhileError

        copy_database(connection, target, check, checked=False)
        check()
        if holding:
            connection.execute("COMMIT")
    return snapshot


def _look(connection: sqlite3.Connection, path: Path) -> Snapshot:
    """Read form, counts and mark; a file of another program is none of ours."""
    owner = connection.execute("PRAGMA application_id").fetchone()[0]
    if owner != APPLICATION_ID:
        raise ForeignError(tr("{path} belongs to another program.").format(path=path))
    names = connection.execute(
        "SELECT name FROM sqlite_master WHERE type = 'table'"
        " AND name NOT LIKE 'sqlite~_%' ESCAPE '~' ORDER BY name"
    ).fetchall()
    rows = {name: _count(connection, name) for (name,) in names}
    schema = connection.execute("PRAGMA user_version").fetchone()[0]
    return Snapshot(schema, _mark(connection), rows)


def _mark(connection: sqlite3.Connection) -> str:
    last, undone = connection.execute(
        "SELECT coalesce(max(id), 0), total(undone) FROM action"
    ).fetchone()
    if not last:
        return NOTHING_WRITTEN
    columns = {row[1] for row in connection.execute("PRAGMA table_info(action)")}
    is_digested = _DIGEST if _DIGEST in columns else "NULL"
    at_s, title, digest = connection.execute(
        f"SELECT at_s, title, {is_digested} FROM action WHERE id = ?",  # noqa: S608 -- a column of ours
        (last,),
    ).fetchone()
    was = sha256(repr((at_s, title, digest)).encode()).hexdigest()
    return f"{last}-{undone:.0f}-{was[:16]}"


def _count(connection: sqlite3.Connection, table: str) -> int:
    quoted = table.replace('"', '""')
    found = connection.execute(f'SELECT count(*) FROM "{quoted}"')  # noqa: S608 -- a table's own name
    return int(found.fetchone()[0])


def _version(connection: sqlite3.Connection) -> int:
    return int(connection.execute("PRAGMA data_version").fetchone()[0])
