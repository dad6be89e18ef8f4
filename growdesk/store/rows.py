"""Read and change rows by their numbers, in lots that SQLite takes in one statement."""

from __future__ import annotations

from operator import itemgetter
from typing import TYPE_CHECKING, Any

from sqlalchemy import bindparam, insert, select, update

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from sqlalchemy import Table

    from growdesk.store.images import Values
    from growdesk.store.session import Session

_LOT = 10_000
_MANY = 50


def row_of(session: Session, table: Table, row_id: int) -> Values:
    """Give one row that is there."""
    found = session.execute(select(table).where(table.c.id == row_id)).mappings().one()
    return dict(found)


def rows_of(
    session: Session, table: Table, row_ids: Sequence[int]
) -> dict[int, Values]:
    """Give rows by their number, asked for in lots that SQLite takes."""
    found: dict[int, Values] = {}
    for lot in lots(row_ids):
        for row in session.execute(select(table).where(table.c.id.in_(lot))).mappings():
            found[row["id"]] = dict(row)
    return found


def insert_all(
    session: Session, table: Table, rows: Sequence[Mapping[str, Any]]
) -> None:
    """Add rows by one statement; all of them give the same columns.

    A driver that takes values by their order is handed many rows past what SQLAlchemy
    does for each, which would be as much again.
    """
    connection = session.connection()
    if len(rows) < _MANY or not connection.dialect.positional:
        connection.execute(insert(table), rows)
        return
    dialect = connection.dialect
    columns = [column for column in table.c if column.name in rows[0]]
    names = [column.name for column in columns]
    said = insert(table).compile(dialect=dialect, column_keys=names)
    turns = [
        (at, turn)
        for at, column in enumerate(columns)
        if (turn := column.type.dialect_impl(dialect).bind_processor(dialect))
    ]
    in_order = itemgetter(*names)
    lines = []
    for row in rows:
        line = list(in_order(row))
        for at, turn in turns:
            line[at] = turn(line[at])
        lines.append(tuple(line))
    connection.exec_driver_sql(str(said), lines)


def update_all(
    session: Session, table: Table, rows: Sequence[tuple[int, Mapping[str, Any]]]
) -> None:
    """Change rows in order by one statement; all of them give the same columns."""
    names = rows[0][1].keys()
    session.execute(
        update(table)
        .where(table.c.id == bindparam("row_id"))
        .values({name: bindparam(f"new_{name}") for name in names}),
        [
            {"row_id": row_id} | {f"new_{name}": values[name] for name in names}
            for row_id, values in rows
        ],
    )


def lots(row_ids: Sequence[int]) -> Iterator[Sequence[int]]:
    """Give row numbers in lots that SQLite takes."""
    for first in range(0, len(row_ids), _LOT):
        yield row_ids[first : first + _LOT]
