"""Undo and redo: put the journal's images back, knowing nothing of what they mean.

An action goes back or forth whole, the last one first. What the journal does not hold
as it was written is not put back.
"""

from __future__ import annotations

from itertools import groupby
from typing import TYPE_CHECKING

from msgspec import Struct
from sqlalchemy import delete, exists, insert, select, update

from growdesk.domain.errors import DamagedError
from growdesk.domain.speech import tr
from growdesk.store.digests import digest_of
from growdesk.store.images import Values, unpacked
from growdesk.store.journal import Change, Stamp
from growdesk.store.later import table_of
from growdesk.store.rows import lots, update_all
from growdesk.store.schema import ActionRow, ChangeRow, PlantRow

if TYPE_CHECKING:
    from collections.abc import Sequence

    from growdesk.store.session import Session

_Move = tuple[str, int, Values | None, Values | None]
"""A table, a row of it, its image before and after."""


class Moved(Struct, frozen=True):
    """What an undo or redo did: the title, and the tables and plants it touched."""

    title: str
    tables: frozenset[str]
    plants: tuple[int, ...] = ()


def next_undo(session: Session) -> tuple[int, str] | None:
    """Give the number and title of the action that undo would take back.

    One whose changes were forgotten cannot be, and nothing before it.
    """
    found = session.execute(
        select(
            ActionRow.id,
            ActionRow.title,
            exists().where(ChangeRow.action_id == ActionRow.id),
        )
        .where(ActionRow.undone.is_(False), ActionRow.is_note.is_(False))
        .order_by(ActionRow.id.desc())
        .limit(1)
    ).first()
    return (found[0], found[1]) if found is not None and found[2] else None


def next_redo(session: Session) -> tuple[int, str] | None:
    """Give the number and title of the action that redo would bring back."""
    found = session.execute(
        select(ActionRow.id, ActionRow.title)
        .where(ActionRow.undone.is_(True), ActionRow.is_note.is_(False))
        .order_by(ActionRow.id)
        .limit(1)
    ).first()
    return None if found is None else (found[0], found[1])


def undo(session: Session, stamp: Stamp | None = None) -> Moved | None:
    """Put all rows of the last action back as they were before it.

    Raises DamagedError where the journal does not hold it as it was written.
    """
    found = next_undo(session)
    if found is None:
        return None
    changes = _proved(session, found[0])
    _put_all(session, [(c.table, c.row_id, c.after, c.before) for c in changes[::-1]])
    _mark(session, found[0], stamp, undone=True)
    return _moved(found[1], changes)


def redo(session: Session, stamp: Stamp | None = None) -> Moved | None:
    """Put all rows of the action undone last as they were after it; raises as undo."""
    found = next_redo(session)
    if found is None:
        return None
    changes = _proved(session, found[0])
    _put_all(session, [(c.table, c.row_id, c.before, c.after) for c in changes])
    _mark(session, found[0], stamp, undone=False)
    return _moved(found[1], changes)


def _moved(title: str, changes: Sequence[Change]) -> Moved:
    about = (_plant_of(change) for change in changes)
    plants = dict.fromkeys(each for each in about if each is not None)
    return Moved(title, frozenset(change.table for change in changes), tuple(plants))


def _plant_of(change: Change) -> int | None:
    if change.table == PlantRow.__tablename__:
        return change.row_id
    found: int | None = (change.after or change.before or {}).get("plant_id")
    return found


def _put_all(session: Session, moves: Sequence[_Move]) -> None:
    """Take rows from one image to the next, in order; what is alike goes together."""
    for (name, is_new, is_gone, _), run in groupby(moves, key=_sort):
        table = table_of(session, name)
        images = [(row_id, image or {}) for _, row_id, _, image in run]
        if is_gone:
            for lot in lots([row_id for row_id, _ in images]):
                session.execute(delete(table).where(table.c.id.in_(lot)))
        elif is_new:
            session.execute(insert(table), [image for _, image in images])
        else:
            update_all(session, table, images)


def _sort(move: _Move) -> tuple[str, bool, bool, tuple[str, ...]]:
    """Give what moves have in common that one statement does."""
    name, _, from_image, to_image = move
    return name, from_image is None, to_image is None, tuple(to_image or ())


def _proved(session: Session, action_id: int) -> list[Change]:
    """Give the changes of an action, held against its digest where it has one."""
    action = session.execute(
        select(
            ActionRow.at_s,
            ActionRow.title,
            ActionRow.who,
            ActionRow.is_note,
            ActionRow.digest,
        ).where(ActionRow.id == action_id)
    ).one()
    rows = session.execute(
        select(
            ChangeRow.table_name, ChangeRow.row_id, ChangeRow.before, ChangeRow.after
        )
        .where(ChangeRow.action_id == action_id)
        .order_by(ChangeRow.id)
    ).all()
    written = digest_of(
        action_id,
        action.at_s,
        action.title,
        action.who,
        action.is_note,
        ((name, row_id, before, after) for name, row_id, before, after in rows),
    )
    if action.digest is not None and action.digest != written:
        raise DamagedError(
            tr("“{title}” is not in the history as it was written.").format(
                title=action.title
            ),
            tr("So it is neither undone nor done again; look the collection over."),
        )
    return [
        Change(name, row_id, *unpacked(table_of(session, name), row_id, before, after))
        for name, row_id, before, after in rows
    ]


def _mark(
    session: Session, action_id: int, stamp: Stamp | None, *, undone: bool
) -> None:
    by = stamp or Stamp(0)
    session.execute(
        update(ActionRow)
        .where(ActionRow.id == action_id)
        .values(undone=undone, moved_at_s=by.at_s or None, moved_by=by.who)
    )
