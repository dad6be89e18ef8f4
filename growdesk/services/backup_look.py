"""What differs between a backup and the collection as it is now, plant by plant.

Both are read as they lie and neither is changed; a backup of an older form is read by
the columns that every form has.
"""

from __future__ import annotations

import sqlite3
from contextlib import closing
from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.domain.errors import DamagedError
from growdesk.domain.speech import tr
from growdesk.services.backup_overview import database_of
from growdesk.services.place_file import file_of
from growdesk.store.backup_copy import at_rest
from growdesk.store.engine import connect

if TYPE_CHECKING:
    from growdesk.services.backup_values import Backable
    from growdesk.services.whereabouts import Where

_RECORDS = ("look", "care", "photo")


class Held(Struct, frozen=True):
    """What one plant has: its name, and how many looks, entries of care and photos."""

    name: str
    looks: int
    care: int
    photos: int


class Compared(Struct, frozen=True):
    """One plant in the backup and now; none where it is not there."""

    tag: str
    then: Held | None
    now: Held | None

    @property
    def differs(self) -> bool:
        """Tell whether the plant is not the same in both."""
        return self.then != self.now


def compare(entry: Backable, where: Where) -> tuple[Compared, ...]:
    """Give every plant of either, those that differ first, by tag."""
    path = database_of(entry)
    try:
        with closing(at_rest(path)) as connection:
            then = _plants(connection)
    except sqlite3.Error as error:
        raise DamagedError(
            tr("{path} is damaged.").format(path=path),
            tr("Look into another backup."),
        ) from error
    with file_of(where) as file, closing(connect(file, reading=True)) as connection:
        now = _plants(connection)
    both = (Compared(tag, then.get(tag), now.get(tag)) for tag in {*then, *now})
    return tuple(sorted(both, key=lambda each: (not each.differs, each.tag)))


def _plants(connection: sqlite3.Connection) -> dict[str, Held]:
    counts = [
        dict(
            connection.execute(f"SELECT plant_id, count(*) FROM {table} GROUP BY 1")  # noqa: S608 -- our own names
        )
        for table in _RECORDS
    ]
    columns = {row[1] for row in connection.execute("PRAGMA table_info(plant)")}
    kept = " WHERE binned_on IS NULL" if "binned_on" in columns else ""
    rows = connection.execute(f"SELECT id, tag, name FROM plant{kept}")  # noqa: S608 -- ditto
    return {
        tag: Held(name, *(count.get(number, 0) for count in counts))
        for number, tag, name in rows
    }
