"""Schema 6: indexes, so that nothing asked each day goes through all records."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import sqlite3

STATEMENTS = (
    "CREATE INDEX ix_care_plant_id_what_day ON care (plant_id, what, day)",
    "CREATE INDEX ix_pass_by_day ON pass_by (day)",
    "CREATE INDEX ix_plant_parent_id ON plant (parent_id)",
    "CREATE INDEX ix_action_undone_is_note ON action (undone, is_note)",
)


def found_by_index(connection: sqlite3.Connection) -> None:
    """Add the indexes of schema 6; no row changes."""
    for statement in STATEMENTS:
        connection.execute(statement)
