"""The tables of a schema as a new file of it has them, to know their rows again by.

What a column may hold is asked loosely: a damaged row is to be known as well.
"""

from __future__ import annotations

import re
import sqlite3
import tempfile
from contextlib import closing
from datetime import UTC, date, datetime
from functools import cache
from pathlib import Path
from types import MappingProxyType
from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.store.migrating import create_database
from growdesk.store.migrations import MIGRATIONS
from growdesk.store.page_records import UNREADABLE, Torn

if TYPE_CHECKING:
    from collections.abc import Mapping

    from growdesk.store.page_records import Cell, Read

LIKE = 0.7
"""The share of values that must be what a table's may be."""
_ASIDE = {"migration"}
_DAY = re.compile(r"\d{4}-\d\d-\d\d")


class Shape(Struct, frozen=True):
    """A table as its schema has it: columns in their order, with what they may hold."""

    name: str
    root: int
    columns: tuple[str, ...]
    kinds: tuple[type, ...]
    needed: tuple[bool, ...]
    given: tuple[object, ...]
    indexes: dict[str, tuple[int, tuple[str, ...]]]

    def fits(self, cell: Cell) -> bool:
        """Tell whether a row looks like one of this table's."""
        values = cell.values
        if not 1 < len(values) <= len(self.columns) or values[0] is not None:
            return False
        good = sum(map(self._may_be, range(1, len(values)), values[1:]))
        return good >= LIKE * (len(values) - 1)

    def _may_be(self, at: int, value: Read) -> bool:
        if value is None:
            return not self.needed[at]
        if isinstance(value, Torn) or value is UNREADABLE:
            return True
        kind = self.kinds[at]
        if kind is float:
            return isinstance(value, int | float)
        if kind is bool:
            return value in {0, 1}
        if kind is date:
            return isinstance(value, str) and _DAY.fullmatch(value) is not None
        return isinstance(value, kind)


@cache
def shapes_of(schema: int) -> Mapping[str, Shape]:
    """Give the tables of a schema as a new file of it has them."""
    with tempfile.TemporaryDirectory(prefix="growdesk-shapes-") as made:
        path = Path(made) / "shape.sqlite"
        create_database(path, datetime.now(tz=UTC), MIGRATIONS[:schema])
        return MappingProxyType(_shapes(path))


def _shapes(path: Path) -> dict[str, Shape]:
    with closing(sqlite3.connect(path)) as connection:
        roots = dict(connection.execute("SELECT name, rootpage FROM sqlite_master"))
        tables = connection.execute(
            "SELECT name FROM sqlite_master"
            " WHERE type = 'table' AND name NOT LIKE 'sqlite_%'"
        ).fetchall()
        return {
            name: _shape(connection, name, roots)
            for (name,) in tables
            if name not in _ASIDE
        }


_KINDS: dict[str, type] = {
    "INTEGER": int,
    "BOOLEAN": bool,
    "DATE": date,
    "FLOAT": float,
    "BLOB": bytes,
}


def _shape(connection: sqlite3.Connection, name: str, roots: dict[str, int]) -> Shape:
    info = connection.execute(f"PRAGMA table_info({name})").fetchall()
    indexes: dict[str, tuple[int, tuple[str, ...]]] = {}
    for row in connection.execute(f"PRAGMA index_list({name})").fetchall():
        columns = connection.execute(f"PRAGMA index_info({row[1]})").fetchall()
        indexes[row[1]] = roots[row[1]], tuple(column[2] for column in columns)
    return Shape(
        name,
        roots[name],
        tuple(row[1] for row in info),
        tuple(_KINDS.get(row[2], str) for row in info),
        tuple(bool(row[3]) for row in info),
        tuple(_literal(connection, row[4]) for row in info),
        indexes,
    )


def _literal(connection: sqlite3.Connection, written: str | None) -> object:
    """Give the value that a schema's text says."""
    if written is None:
        return None
    return connection.execute(f"SELECT {written}").fetchone()[0]
