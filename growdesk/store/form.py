"""Hold the form that a file says it has against the tables that are in it.

The form in the header, the records of migrations and the tables can only disagree where
something else wrote the file or it is damaged. Then it is refused by one plain line,
before a migration makes more of it.
"""

from __future__ import annotations

import re
import sqlite3
from typing import TYPE_CHECKING

from growdesk.domain.errors import DamagedError, ForeignError
from growdesk.domain.speech import tr
from growdesk.store.header import OTHER, RESTORE
from growdesk.store.migrations import SCHEMA
from growdesk.store.schema import Base

if TYPE_CHECKING:
    from pathlib import Path

_PLAIN = re.compile(r"CREATE (TABLE|(UNIQUE )?INDEX)\s|$", re.IGNORECASE)
"""How SQLite writes tables and indexes down; its own indexes have no text."""


def check_form(connection: sqlite3.Connection, path: Path) -> None:
    """Refuse a file whose form, records and tables do not fit one another."""
    refuse_rules(connection, path)
    (form,) = connection.execute("PRAGMA user_version").fetchone()
    columns = connection.execute(
        "SELECT tables.name, columns.name FROM sqlite_master AS tables"
        " JOIN pragma_table_info(tables.name) AS columns WHERE tables.type = 'table'"
    ).fetchall()
    tables = {table for table, _ in columns}
    if not tables & Base.metadata.tables.keys():
        raise ForeignError(
            tr("{path} is not a growdesk collection.").format(path=path),
            tr(OTHER),
        )
    check_records(_recorded(connection), form, path)
    if form >= SCHEMA:
        check_columns(set(columns), path)


def check_records(recorded: list[int], form: int, path: Path | str) -> None:
    """Refuse records of forms that have a gap, or do not end with the form."""
    if not recorded or recorded[-1] != form:
        raise _damaged(
            tr(
                "{path} is damaged: it says it has form {form}, and its own record of"
                " its forms ends with {last}."
            ).format(path=path, form=form, last=recorded[-1] if recorded else 0)
        )
    known = [number for number in recorded if number <= SCHEMA]
    if known != list(range(1, min(form, SCHEMA) + 1)):
        raise _damaged(
            tr("{path} is damaged: its own record of its forms has a gap.").format(
                path=path
            )
        )


def rules_in(connection: sqlite3.Connection) -> list[str]:
    """Name what a file would do or compute of itself: no form of ours does.

    A trigger alters records as we write; views and virtual tables run as we read.
    SQLite goes by the text of each, whatever a file says of its sort.
    """
    found = connection.execute("SELECT name, sql FROM sqlite_master ORDER BY name")
    return [str(name) for name, sql in found if not _PLAIN.match(str(sql or ""))]


def refuse_rules(connection: sqlite3.Connection, path: Path) -> None:
    """Refuse a file that would do something of itself."""
    if found := rules_in(connection):
        raise _damaged(
            tr(
                "{path} is not as growdesk made it: it brings a rule of its own"
                " ({name}) that could change records unasked."
            ).format(path=path, name=found[0])
        )


def _recorded(connection: sqlite3.Connection) -> list[int]:
    try:
        rows = connection.execute("SELECT id FROM migration ORDER BY id").fetchall()
    except sqlite3.OperationalError:  # there is no such table
        return []
    return [number for (number,) in rows]


def check_columns(found: set[tuple[str, str]], path: Path | str) -> None:
    """Refuse tables that lack what this program keeps in them."""
    for table in Base.metadata.sorted_tables:
        for column in table.c:
            if (table.name, column.name) not in found:
                raise _damaged(
                    tr(
                        "{path} is damaged: where its {table} should have {column}"
                        " there is nothing."
                    ).format(path=path, table=table.name, column=column.name)
                )


def _damaged(message: str) -> DamagedError:
    return DamagedError(message, tr(RESTORE))
