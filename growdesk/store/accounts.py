"""What the history says of each row: its images folded, in order of table and row.

The newest images of what is done, and where there are none, the oldest before of what
was undone. Columns no image names, and rows it never met (a demo's, and all of before
the bin was last emptied), are not told of. An image of a row that came or went may
leave out what is absent, one of a row that changed may hold only what changed.

All is read in lots, so that a million changes need no more memory than one lot of them.
"""

from __future__ import annotations

import json
from functools import lru_cache
from itertools import groupby
from operator import itemgetter
from typing import TYPE_CHECKING

from msgspec import Struct, field

from growdesk.store.schema import RECORDED

if TYPE_CHECKING:
    import sqlite3
    from collections.abc import Iterator, Sequence
    from collections.abc import Set as AbstractSet

    from sqlalchemy import Table

Plain = int | float | str | None
_LOT = 400
_NEVER = 1 << 62


class Told(Struct):
    """The last that the history says of one row.

    ``is_there`` is ``None`` where it only knows of changes. ``values`` are as SQLite
    holds them, ``by`` the action that gave each, ``change_id`` the newest change read.
    ``broken`` are the actions whose images of this row cannot be read.
    """

    row_id: int
    is_there: bool | None = None
    values: dict[str, Plain] = field(default_factory=dict)
    by: dict[str, int] = field(default_factory=dict)
    action_id: int = 0
    change_id: int = 0
    broken: list[int] = field(default_factory=list)


def accounts(
    connection: sqlite3.Connection,
    damaged: AbstractSet[int] = frozenset(),
    only: str = "",
) -> Iterator[tuple[str, list[Told]]]:
    """Give all that the history says, by table and row, in lots of one table.

    ``only`` names a table where the others are not asked for. What a ``damaged`` action
    says of a row makes the row's account a broken one.
    """
    undone = connection.execute("SELECT id FROM action WHERE undone")
    actions = _Actions({row[0] for row in undone}, damaged)
    brief = _first_brief(connection)
    keys = connection.execute(
        "SELECT table_name, row_id, id FROM change WHERE table_name = ? OR ? = ''"
        " ORDER BY table_name, row_id, id",
        (only, only),
    )
    for name, of_table in groupby(keys, key=itemgetter(0)):
        if name not in RECORDED:
            continue
        table = RECORDED[name].metadata.tables[name]
        for rows in _lots(of_table):
            images = _images(connection, rows, brief)
            lot = []
            for row_id, of_row in groupby(rows, key=itemgetter(1)):
                own = [images[key[2]] for key in of_row]
                lot.append(_told(table, row_id, own, actions))
            yield name, lot


class _Actions(Struct, frozen=True):
    """Which actions do not count as done, and which cannot be believed."""

    undone: AbstractSet[int]
    damaged: AbstractSet[int]


class _Image(Struct, frozen=True):
    number: int
    action_id: int
    before: str | None
    after: str | None
    is_brief: bool


def _first_brief(connection: sqlite3.Connection) -> int:
    """Give the first action whose images leave out what is absent.

    Such an action has a digest; one without has all columns there were at its time.
    """
    columns = {row[1] for row in connection.execute("PRAGMA table_info(action)")}
    if "digest" not in columns:
        return _NEVER
    query = "SELECT min(id) FROM action WHERE digest IS NOT NULL"
    found = connection.execute(query).fetchone()[0]
    return _NEVER if found is None else int(found)


def _lots(keys: Iterator[tuple[str, int, int]]) -> Iterator[list[tuple[str, int, int]]]:
    """Give keys in lots that never part the changes of one row."""
    lot: list[tuple[str, int, int]] = []
    for key in keys:
        if len(lot) >= _LOT and key[1] != lot[-1][1]:
            yield lot
            lot = []
        lot.append(key)
    if lot:
        yield lot


def _images(
    connection: sqlite3.Connection, keys: Sequence[tuple[str, int, int]], brief: int
) -> dict[int, _Image]:
    numbers = [number for *_, number in keys]
    found: dict[int, _Image] = {}
    for first in range(0, len(numbers), _LOT):
        lot = numbers[first : first + _LOT]
        marks = ",".join("?" * len(lot))
        rows = connection.execute(
            "SELECT id, action_id, before, after, action_id >= ? FROM change"  # noqa: S608 -- marks only
            f" WHERE id IN ({marks})",
            (brief, *lot),
        )
        found |= {each[0]: _Image(*each) for each in rows}
    return found


def _told(
    table: Table, row_id: int, images: Sequence[_Image], actions: _Actions
) -> Told:
    """Fold the images of one row: what is done forward, then what undone had before."""
    told = Told(row_id)
    for image in images:
        if image.action_id in actions.damaged:
            told.broken.append(image.action_id)
        if image.action_id not in actions.undone:
            _fold(table, told, image)
    if told.is_there is False:
        return told
    back = [image for image in images if image.action_id in actions.undone]
    if back and back[0].before is None and told.is_there is None and not told.values:
        told.is_there = False
    for image in back:
        if image.before is None or not _fold_back(table, told, image):
            break
    return told


def _fold_back(table: Table, told: Told, image: _Image) -> bool:
    """Take what an undone action had found, where nothing done says more."""
    before = _read(table, image.before, told, image)
    if before is None:
        return False
    if image.after is None and image.is_brief:
        before = _blank(table) | before
    for column, value in before.items():
        if column not in told.values:
            told.values[column] = value
            told.by[column] = image.action_id
    told.change_id = max(told.change_id, image.number)
    told.action_id = told.action_id or image.action_id
    return True


def _fold(table: Table, told: Told, image: _Image) -> None:
    told.action_id, told.change_id = image.action_id, image.number
    if image.after is None:
        told.is_there = False
        told.values, told.by = {}, {}
        return
    after = _read(table, image.after, told, image)
    if after is None:
        return
    if image.before is None:
        told.is_there = True
        told.values, told.by = {}, {}
        after = (_blank(table) if image.is_brief else {}) | after
    told.values |= after
    told.by |= dict.fromkeys(after, image.action_id)


@lru_cache(128)
def _blank(table: Table) -> dict[str, Plain]:
    """Give what an image of a row that came or went leaves out, of all its columns."""
    blank = {
        column.name: getattr(column.default, "arg", None)
        for column in table.c
        if column.name != "id"
    }
    return {
        name: int(value) if isinstance(value, bool) else value
        for name, value in blank.items()
    }


def _read(
    table: Table, text: str | None, told: Told, image: _Image
) -> dict[str, Plain] | None:
    """Give an image's values of columns that are there today; none if unreadable."""
    columns = _blank(table)
    try:
        return {
            key: int(value) if isinstance(value, bool) else value
            for key, value in json.loads(text or "").items()
            if key in columns
        }
    except (ValueError, AttributeError, RecursionError):
        told.broken.append(image.action_id)
        return None
