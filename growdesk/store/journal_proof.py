"""Hold a file against its own journal: is that as written, and do the rows follow it.

A changed bit in a number is another number to SQLite. Here it shows: each action is
held against its digest, and each row against what the journal last said of it. All is
read one action or one row at a time, from a plain connection, and nothing is changed.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from itertools import groupby
from operator import itemgetter
from typing import TYPE_CHECKING, Any

from growdesk.store.digests import digest_of
from growdesk.store.images import unpacked
from growdesk.store.schema import Base

if TYPE_CHECKING:
    import sqlite3
    from collections.abc import Iterator

    from sqlalchemy import Table

    from growdesk.store.images import Values


@dataclass(frozen=True, slots=True)
class Untrue:
    """An action that is not as it was written; ``title`` is empty where it is gone."""

    action_id: int
    title: str


@dataclass(frozen=True, slots=True)
class Last:
    """A row as the journal last said; ``values`` is ``None`` where it was taken away.

    Where not ``is_whole`` only those columns are known that were changed since.
    """

    table: str
    row_id: int
    values: Values | None
    is_whole: bool
    action_id: int
    at_s: int


@dataclass(frozen=True, slots=True)
class Unlike:
    """A row that is not as the journal last said: what stands there in these columns.

    ``stands`` is ``None`` where the row is not there at all.
    """

    last: Last
    stands: Values | None

    @property
    def columns(self) -> tuple[str, ...]:
        """Give the columns that differ; none where the row is missing or too many."""
        if self.stands is None or self.last.values is None:
            return ()
        return tuple(self.stands)


def untrue(connection: sqlite3.Connection) -> Iterator[Untrue]:
    """Give the actions that are not as they were written, and those that are missing.

    What was written before there were digests, or was forgotten on purpose, is taken
    as it stands.
    """
    expected = 1
    actions = connection.execute(
        "SELECT id, at_s, title, who, is_note, digest FROM action ORDER BY id"
    )
    for number, at_s, title, who, is_note, digest in actions:
        for missing in range(expected, number):
            yield Untrue(missing, "")
        expected = number + 1
        if digest is None:
            continue
        changes = connection.execute(
            "SELECT table_name, row_id, before, after FROM change"
            " WHERE action_id = ? ORDER BY id",
            (number,),
        )
        if _digest(number, at_s, title, who, is_note, changes) != digest:
            yield Untrue(number, str(title))


def last_images(connection: sqlite3.Connection) -> Iterator[Last]:
    """Give each row that the journal names as it last said, table by table."""
    tables = Base.metadata.tables
    changes = connection.execute(
        "SELECT change.table_name, change.row_id, before, after, action.id, at_s"
        " FROM change JOIN action ON action.id = action_id WHERE NOT undone"
        " ORDER BY change.table_name, change.row_id, change.id"
    )
    for (name, row_id), run in groupby(changes, key=itemgetter(0, 1)):
        if name in tables:
            yield _folded(tables[name], row_id, run)


def unlike(connection: sqlite3.Connection) -> Iterator[Unlike]:
    """Give the rows that are not as the journal last said."""
    for last in last_images(connection):
        row = _row(connection, last)
        if last.values is None or row is None:
            if (last.values is None) != (row is None):
                yield Unlike(last, row)
            continue
        stands = {
            name: row.get(name)
            for name, value in last.values.items()
            if name not in row or row[name] != _as_stored(value)
        }
        if stands:
            yield Unlike(last, stands)


def _folded(table: Table, row_id: int, run: Iterator[Any]) -> Last:
    values: Values | None = None
    is_whole = False
    action_id = at_s = 0
    for change in run:
        before, after, action_id, at_s = change[2:]
        one, two = unpacked(table, row_id, before, after)
        if two is None:
            values, is_whole = None, True
        elif one is None:
            values, is_whole = two, True
        else:
            values = {**(values or {}), **two}
    is_whole = is_whole or (values is not None and values.keys() >= set(table.c.keys()))
    return Last(table.name, row_id, values, is_whole, action_id, at_s)


def _row(connection: sqlite3.Connection, last: Last) -> Values | None:
    cursor = connection.execute(
        f'SELECT * FROM "{last.table}" WHERE id = ?',  # noqa: S608 -- a table of ours
        (last.row_id,),
    )
    found = cursor.fetchone()
    names = (column[0] for column in cursor.description)
    return None if found is None else dict(zip(names, found, strict=True))


def _as_stored(value: object) -> object:
    return value.isoformat() if isinstance(value, date) else value


def _digest(
    number: int,
    at_s: int,
    title: str,
    who: str,
    is_note: int,
    changes: sqlite3.Cursor,
) -> bytes | None:
    """Give the digest; nothing where a value is none that was ever written."""
    try:
        return digest_of(number, at_s, title, who, bool(is_note), changes)
    except TypeError:
        return None
