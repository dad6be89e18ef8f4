"""Holds each row against what the history says of it.

A flipped bit in a number is another number to SQLite. The journal has the same number
in its own words, so that it is a second witness beside the row.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

from msgspec import Struct

from growdesk.store.accounts import Told, accounts
from growdesk.store.schema import RECORDED

if TYPE_CHECKING:
    import sqlite3
    from collections.abc import Callable, Iterator, Mapping, Sequence
    from collections.abc import Set as AbstractSet

    from sqlalchemy import Table

    from growdesk.store.accounts import Plain

_LOT = 400


class Difference(Struct, frozen=True):
    """A row that the history has otherwise than it stands.

    ``column`` is empty where the whole row is gone (``row`` is what the history has of
    it), or stands though it was taken out (``row`` is what stands).
    """

    table: str
    row_id: int
    column: str
    stands: Plain
    told: Plain
    row: Mapping[str, Plain]
    action_id: int
    is_gone: bool = False


class BrokenImage(Struct, frozen=True):
    """A change of the history that cannot be read."""

    table: str
    row_id: int
    action_id: int


def differences(
    connection: sqlite3.Connection,
    step: Callable[[int, int], None],
    damaged: AbstractSet[int] = frozenset(),
) -> Iterator[Difference | BrokenImage]:
    """Give each place where a row and what the history says of it are not the same.

    Of rows that a ``damaged`` action touched nothing is said.
    """
    of = connection.execute("SELECT count(*) FROM change").fetchone()[0]
    done = 0
    for name, lot in accounts(connection, damaged):
        step(min(done, of), of)
        done += len(lot)
        standing = rows_by_id(connection, name, [told.row_id for told in lot])
        table = RECORDED[name].metadata.tables[name]
        for told in lot:
            broken = set(told.broken) - damaged
            yield from (BrokenImage(name, told.row_id, each) for each in broken)
            if not told.broken:
                yield from _differing(table, told, standing.get(told.row_id))
    step(of, of)


def rows_by_id(
    connection: sqlite3.Connection, name: str, row_ids: Sequence[int]
) -> dict[int, dict[str, Any]]:
    """Give rows of a table by their number."""
    found: dict[int, dict[str, Any]] = {}
    for first in range(0, len(row_ids), _LOT):
        lot = row_ids[first : first + _LOT]
        marks = ",".join("?" * len(lot))
        cursor = connection.execute(
            f"SELECT * FROM {name} WHERE id IN ({marks})",  # noqa: S608 -- a table of ours
            lot,
        )
        columns = [column[0] for column in cursor.description]
        for values in cursor:
            row = dict(zip(columns, values, strict=True))
            found[row["id"]] = row
    return found


def same(stands: object, told: object) -> bool:
    """Tell whether a value stands as the history has it, whatever its form."""
    if isinstance(stands, str) != isinstance(told, str):
        return stands is not None and told is not None and str(stands) == str(told)
    if isinstance(stands, float) and isinstance(told, float):
        return stands == told or (math.isnan(stands) and math.isnan(told))
    return stands == told


def _differing(
    table: Table, told: Told, row: Mapping[str, Any] | None
) -> Iterator[Difference]:
    if row is None:
        if told.is_there is not False:
            known = {"id": told.row_id, **told.values}
            yield Difference(
                table.name,
                told.row_id,
                "",
                None,
                None,
                known,
                told.action_id,
                is_gone=True,
            )
        return
    if told.is_there is False:
        yield Difference(table.name, told.row_id, "", None, None, row, told.action_id)
        return
    for column, value in told.values.items():
        if column in row and not same(row[column], value):
            yield Difference(
                table.name,
                told.row_id,
                column,
                row[column],
                value,
                row,
                told.by[column],
            )
