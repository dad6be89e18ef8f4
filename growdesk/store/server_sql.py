"""The steps of the file's form, said to a server: the same statements in its words.

Steps are written for SQLite in plain capitals. A server wants its own names of types,
and texts in the order of their letters' numbers, as SQLite has them, whatever country
the server was set up for.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sqlalchemy import Connection

_WORDS = {
    "INTEGER": "BIGINT",
    "FLOAT": "DOUBLE PRECISION",
    "BLOB": "BYTEA",
    "TEXT": 'TEXT COLLATE "C"',
    "BOOLEAN NOT NULL DEFAULT 0": "BOOLEAN NOT NULL DEFAULT FALSE",
    "BOOLEAN NOT NULL DEFAULT 1": "BOOLEAN NOT NULL DEFAULT TRUE",
    "?": "%s",
    "%": "%%",
}
_PARTS = re.compile(
    r"""('(?:[^']|'')*'|"(?:[^"]|"")*")|(BOOLEAN\s+NOT\s+NULL\s+DEFAULT\s+[01]\b"""
    r"""|\b(?:INTEGER|FLOAT|BLOB|TEXT)\b|[?%])"""
)


def for_server(statement: str) -> str:
    """Give a statement of a step in a server's words; what is quoted stays."""

    def said(found: re.Match[str]) -> str:
        quoted, word = found.groups()
        if word is None:
            return str(quoted).replace("%", "%%")
        return _WORDS[" ".join(word.split())]

    return _PARTS.sub(said, statement)


class Spoken:
    """What a step is given in place of a file's connection."""

    def __init__(self, connection: Connection) -> None:
        self._raw: Any = connection.connection.driver_connection

    def execute(self, statement: str, values: Sequence[object] = ()) -> Any:
        """Do a statement with ``?`` for its values; give what can be fetched."""
        return self._raw.execute(for_server(statement), values)
