"""What was written to a collection between two of its states.

It is told by the history in the file itself, so that it holds for what another process
or another computer wrote, too. What cannot be told for certain (an undo, a redo, the
bin emptied, very much at once) may have touched everything.
"""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

from msgspec import Struct
from sqlalchemy import func, select

from growdesk.store.schema import ActionRow, ChangeRow, PlantRow

if TYPE_CHECKING:
    from growdesk.store.session import Session
    from growdesk.store.states import State

MOST_ROWS = 2_000
"""Of more rows written since, it is not asked whose they are."""


class Touched(Struct, frozen=True):
    """The tables that were written, and the plants that the rows are of."""

    tables: frozenset[str] = frozenset()
    plants: frozenset[int] = frozenset()


def touched_since(session: Session, before: State, now: State) -> Touched | None:
    """Give what was written since an earlier state; None where it may be anything."""
    if before == now:
        return Touched()
    if not _goes_on(session, before, now):
        return None
    rows = session.execute(
        select(
            ChangeRow.table_name,
            ChangeRow.row_id,
            ChangeRow.before,
            ChangeRow.after,
            ChangeRow.action_id,
        )
        .where(ChangeRow.action_id.between(before.newest + 1, now.newest))
        .limit(MOST_ROWS + 1)
    ).all()
    if len(rows) > MOST_ROWS:
        return None
    if len({row.action_id for row in rows}) != now.newest - before.newest:
        return None  # an action that says nothing of what it wrote
    plants = (_plant_of(*row[:4]) for row in rows)
    return Touched(
        frozenset(row.table_name for row in rows),
        frozenset(each for each in plants if each is not None),
    )


def _goes_on(session: Session, before: State, now: State) -> bool:
    """Tell whether the later state is the earlier one and whole actions after it."""
    if before.newest >= now.newest or before.newest != before.standing:
        return False
    if now.newest != now.standing:
        return False
    if before.newest:
        kept = session.execute(
            select(ActionRow.digest, ActionRow.undone).where(
                ActionRow.id == before.newest
            )
        ).first()
        if kept is None or kept.undone or kept.digest != before.digest:
            return False
    plain = session.scalar(
        select(func.count()).where(
            ActionRow.id.between(before.newest + 1, now.newest),
            ActionRow.undone.is_(False),
            ActionRow.is_note.is_(False),
        )
    )
    return plain == now.newest - before.newest


def _plant_of(
    table: str, row_id: int, before: str | None, after: str | None
) -> int | None:
    if table == PlantRow.__tablename__:
        return row_id
    found: int | None = json.loads(after or before or "{}").get("plant_id")
    return found
