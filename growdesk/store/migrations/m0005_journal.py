"""Schema 5: who did it, a digest of each action, notes, the program of a migration."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import sqlite3

STATEMENTS = (
    "ALTER TABLE action ADD COLUMN who TEXT NOT NULL DEFAULT ''",
    "ALTER TABLE action ADD COLUMN is_note BOOLEAN NOT NULL DEFAULT 0",
    "ALTER TABLE action ADD COLUMN digest BLOB",
    "ALTER TABLE action ADD COLUMN moved_at_s INTEGER",
    "ALTER TABLE action ADD COLUMN moved_by TEXT NOT NULL DEFAULT ''",
    "ALTER TABLE migration ADD COLUMN program TEXT NOT NULL DEFAULT ''",
)


def journal_for_good(connection: sqlite3.Connection) -> None:
    """Add what schema 5 keeps; nothing that was there changes."""
    for statement in STATEMENTS:
        connection.execute(statement)
