"""The tables of a file that a later growdesk made and allows this one to open.

Columns that it added are read, journalled and put back as they are, though nothing here
knows what they mean; so neither a removal undone nor a redo loses them.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sqlalchemy import Column, MetaData, Table
from sqlalchemy.types import NullType

from growdesk.domain.errors import StoreError
from growdesk.domain.speech import tr
from growdesk.store.images import LATER
from growdesk.store.schema import Base

if TYPE_CHECKING:
    import sqlite3

    from sqlalchemy.orm import Session

TABLES = "tables"
"""Where a session carries the tables of its file, if they are not ours."""


def table_of(session: Session, name: str) -> Table:
    """Give a table as the file of the session has it.

    Raises StoreError for one that it has not, as a damaged name may be.
    """
    tables = session.info.get(TABLES) or Base.metadata.tables
    found: Table | None = tables.get(name)
    if found is None:
        raise StoreError(
            tr("The history tells of {table}, of which nothing is here.").format(
                table=name
            ),
            tr("So it is neither undone nor done again; look the collection over."),
        )
    return found


def is_of_a_later_program(session: Session) -> bool:
    """Tell whether a later program made the file of the session."""
    return TABLES in session.info


def tables_in(connection: sqlite3.Connection) -> dict[str, Table]:
    """Give the tables of a later file by name: ours, with all that was added."""
    metadata = MetaData()
    names = connection.execute(
        "SELECT name FROM sqlite_master"
        " WHERE type = 'table' AND name NOT LIKE 'sqlite_%'"
    ).fetchall()
    return {
        name: Table(name, metadata, *_columns(connection, name)) for (name,) in names
    }


def _columns(connection: sqlite3.Connection, name: str) -> list[Column[Any]]:
    known = Base.metadata.tables.get(name)
    rows = connection.execute(
        "SELECT name, pk FROM pragma_table_info(?)", (name,)
    ).fetchall()
    return [
        Column(column, NullType(), primary_key=bool(pk), info={LATER: True})
        if known is None or column not in known.c
        else _same(known.c[column])
        for column, pk in rows
    ]


def _same(column: Column[Any]) -> Column[Any]:
    default = getattr(column.default, "arg", None)
    return Column(
        column.name, column.type, primary_key=column.primary_key, default=default
    )
