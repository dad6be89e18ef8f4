"""The tables of a file that a later growdesk made and allows this one to open.

Columns that it added are read, journalled and put back as they are, though nothing here
knows what they mean; so neither a removal undone nor a redo loses them.
"""

from __future__ import annotations

from itertools import groupby
from operator import itemgetter
from typing import TYPE_CHECKING, Any

from sqlalchemy import Column, MetaData, Table
from sqlalchemy.types import NullType

from growdesk.domain.errors import StoreError
from growdesk.domain.speech import tr
from growdesk.store.images import LATER
from growdesk.store.schema import Base

if TYPE_CHECKING:
    import sqlite3
    from collections.abc import Iterable

    from growdesk.store.session import Session

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
    return tables_of(
        connection.execute(
            "SELECT tables.name, columns.name, columns.pk"
            " FROM sqlite_master AS tables"
            " JOIN pragma_table_info(tables.name) AS columns"
            " WHERE tables.type = 'table' AND tables.name NOT LIKE 'sqlite_%'"
            " ORDER BY tables.name, columns.cid"
        )
    )


def tables_of(columns: Iterable[tuple[str, str, int]]) -> dict[str, Table]:
    """Give tables by the names of their columns, each with whether it is the key."""
    metadata = MetaData()
    return {
        name: Table(
            name, metadata, *(_column(name, column, key) for _, column, key in rows)
        )
        for name, rows in groupby(columns, key=itemgetter(0))
    }


def _column(table: str, name: str, key: int) -> Column[Any]:
    known = Base.metadata.tables.get(table)
    if known is None or name not in known.c:
        return Column(name, NullType(), primary_key=bool(key), info={LATER: True})
    return _same(known.c[name])


def _same(column: Column[Any]) -> Column[Any]:
    default = getattr(column.default, "arg", None)
    return Column(
        column.name, column.type, primary_key=column.primary_key, default=default
    )
