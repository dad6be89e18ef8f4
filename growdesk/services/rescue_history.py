"""What of the history goes into a rescued collection, and how far it is believed.

Numbers of changes follow one another without a gap; where one is missing, the history
is not believed on anything it said before. What can no longer be undone safely keeps
its titles, as after the bin was emptied.
"""

from __future__ import annotations

import sqlite3
from typing import TYPE_CHECKING

from growdesk.store.history_proof import prove
from growdesk.store.witness import differences

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from growdesk.services.long_work import Step
    from growdesk.services.rescue_rows import Note
    from growdesk.store.accounts import Told
    from growdesk.store.salvage import Salvaged

_NEVER = 1 << 62


def surely(read: sqlite3.Connection, found: Salvaged) -> Callable[[Told], bool]:
    """Give what tells whether nothing after the history's word on a row is lost."""
    gap = last_gap(read)
    torn = {row_id for name, row_id in found.unsure if name == "change"}
    gap = max([gap, *torn])

    def is_sure(told: Told) -> bool:
        return told.change_id > gap and not told.broken

    return is_sure


def last_gap(read: sqlite3.Connection) -> int:
    """Give the highest number of a change that is missing; 0 where none is."""
    try:
        first, last = read.execute("SELECT min(id), max(id) FROM change").fetchone()
        if last is None:
            return 0
        if _later_without_changes(read, last):
            return _NEVER
        orphans = read.execute(
            "SELECT max(id) FROM change WHERE action_id NOT IN (SELECT id FROM action)"
        ).fetchone()[0]
        inner = read.execute(
            "SELECT max(c.id) FROM change c WHERE c.id > ? AND NOT EXISTS"
            " (SELECT 1 FROM change p WHERE p.id = c.id - 1)",
            (first,),
        ).fetchone()[0]
    except (sqlite3.DatabaseError, TypeError):
        return _NEVER
    return max(orphans or 0, (inner or 1) - 1)


def _later_without_changes(read: sqlite3.Connection, last: int) -> bool:
    """Tell whether an action after the last change has lost its own."""
    columns = {row[1] for row in read.execute("PRAGMA table_info(action)")}
    notes = " AND NOT is_note" if "is_note" in columns else ""
    return bool(
        read.execute(
            "SELECT count(*) FROM action WHERE NOT undone AND id >"  # noqa: S608 -- a column of ours
            f" (SELECT action_id FROM change WHERE id = ?){notes}",
            (last,),
        ).fetchone()[0]
    )


def keep(
    read: sqlite3.Connection,
    into: sqlite3.Connection,
    found: Salvaged,
    notes: Sequence[Note],
    step: Step,
) -> bool:
    """Copy actions and changes; forget those that could no longer be undone whole.

    Gives whether nothing had to be forgotten.
    """
    _copy(read, into, "action", ("at_s", "title", "undone"))
    _copy(read, into, "change", ("action_id", "table_name", "row_id"))
    into.execute("DELETE FROM change WHERE action_id NOT IN (SELECT id FROM action)")
    gap = last_gap(read)
    torn = [row_id for name, row_id in found.unsure if name in {"change", "action"}]
    forget = 0
    if gap or torn:
        forget = _forget(into, _action_at(read, gap), *map(_at(read), torn))
    proof = prove(into, step)
    bad = proof.damaged | proof.disordered | proof.missing
    if bad:
        forget = _forget(into, forget, *bad)
    while differs := [each.action_id for each in differences(into, step)]:
        forget = _forget(into, forget, *differs)
    return not forget and not notes


def _copy(
    read: sqlite3.Connection,
    into: sqlite3.Connection,
    name: str,
    needed: tuple[str, ...],
) -> None:
    columns = [row[1] for row in into.execute(f"PRAGMA table_info({name})")]
    there = {row[1] for row in read.execute(f"PRAGMA table_info({name})")}
    columns = [column for column in columns if column in there]
    wanted = " AND ".join(f"{column} IS NOT NULL" for column in needed)
    rows = read.execute(
        f"SELECT {','.join(columns)} FROM {name} WHERE {wanted} ORDER BY id"  # noqa: S608 -- tables and columns of ours
    )
    marks = ",".join("?" * len(columns))
    into.executemany(
        f"INSERT OR IGNORE INTO {name} ({','.join(columns)}) VALUES ({marks})",  # noqa: S608 -- ditto
        rows,
    )


def _at(read: sqlite3.Connection) -> Callable[[int], int]:
    return lambda change_id: _action_at(read, change_id)


def _action_at(read: sqlite3.Connection, change_id: int) -> int:
    """Give the last action that has a change of this number or one below it."""
    row = read.execute(
        "SELECT max(action_id) FROM change WHERE id <= ?", (change_id,)
    ).fetchone()
    return int(row[0] or 0) if isinstance(row[0], int | None) else 0


def _forget(into: sqlite3.Connection, *actions: int) -> int:
    """Forget the changes of actions up to the last of these, and what was undone."""
    last = max(actions)
    undone = "SELECT id FROM action WHERE undone"
    into.execute(
        f"DELETE FROM change WHERE action_id <= ? OR action_id IN ({undone})",  # noqa: S608 -- ditto
        (last,),
    )
    into.execute("DELETE FROM action WHERE undone")
    columns = {row[1] for row in into.execute("PRAGMA table_info(action)")}
    if "digest" in columns:
        into.execute("UPDATE action SET digest = NULL WHERE id <= ?", (last,))
    return max(last, 1)
