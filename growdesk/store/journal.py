"""Every change of a collection, kept row by row, so that it can be taken back.

A ``Writing`` is the only way to write: it changes rows and keeps their images before
and after in the same transaction. Undo and redo put images back and know nothing of
what they mean. Order is by number, never by the clock.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from itertools import groupby
from typing import TYPE_CHECKING, Any

from sqlalchemy import bindparam, delete, exists, func, insert, select, update

from growdesk.store.digests import digest_of
from growdesk.store.images import Values, packed, unpacked, whole
from growdesk.store.later import table_of
from growdesk.store.schema import ActionRow, ChangeRow, PlantRow

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence
    from datetime import datetime

    from sqlalchemy import Table
    from sqlalchemy.orm import Session

    from growdesk.store.schema import Base

_Move = tuple[str, int, Values | None, Values | None]
"""A table, a row of it, its image before and after."""
_LOT = 10_000


@dataclass(frozen=True, slots=True)
class Stamp:
    """When something is done, and by whom: the account's name, empty if unknown."""

    at_s: int
    who: str = ""


@dataclass(frozen=True, slots=True)
class Change:
    """One row before and after; ``None`` where it was not there.

    While it is written both are whole; read back, a row that changed has those columns
    that differ. ``put_back`` is the number of the change that had taken the row away.
    """

    table: str
    row_id: int
    before: Values | None
    after: Values | None
    put_back: int = 0


@dataclass(slots=True)
class Writing:
    """The rows changed inside one transaction.

    With ``remember`` off the rows are written but no history is kept of them (a demo
    laid into a new folder has none to take back).
    """

    session: Session
    remember: bool = True
    who: str = ""
    changes: list[Change] = field(default_factory=list)

    @property
    def tables(self) -> frozenset[str]:
        """Give the names of the tables touched so far."""
        return frozenset(change.table for change in self.changes)

    def insert(self, row: type[Base], values: Mapping[str, Any]) -> int:
        """Add one row and give its number."""
        return self.insert_many(row, [values])[0]

    def insert_many(
        self, row: type[Base], rows: Sequence[Mapping[str, Any]]
    ) -> tuple[int, ...]:
        """Add rows in one statement and give their numbers."""
        if not rows:
            return ()
        table = self._table(row)
        first = (self.session.scalar(select(func.max(table.c.id))) or 0) + 1
        filled = [
            whole(table, {**values, "id": number})
            for number, values in enumerate(rows, first)
        ]
        self.session.execute(insert(table), filled)
        self.changes.extend(
            Change(table.name, values["id"], None, values) for values in filled
        )
        return tuple(values["id"] for values in filled)

    def put_back(
        self, row: type[Base], values: Mapping[str, Any], taken_by: int
    ) -> int:
        """Add a row that a change took away, under its old number where that is free.

        The journal remembers which change that was.
        """
        table = self._table(row)
        number = values["id"]
        if _rows(self.session, table, [number]):
            number = (self.session.scalar(select(func.max(table.c.id))) or 0) + 1
        filled = whole(table, {**values, "id": number})
        self.session.execute(insert(table), [filled])
        self.changes.append(Change(table.name, number, None, filled, taken_by))
        return int(number)

    def update(self, row: type[Base], row_id: int, values: Mapping[str, Any]) -> bool:
        """Change one row; say whether anything differs from before."""
        table = self._table(row)
        before = _row(self.session, table, row_id)
        after = {**before, **values}
        if after == before:
            return False
        self.session.execute(
            update(table).where(table.c.id == row_id).values(dict(values))
        )
        self.changes.append(Change(table.name, row_id, before, after))
        return True

    def update_many(
        self, row: type[Base], changes: Sequence[tuple[int, Mapping[str, Any]]]
    ) -> None:
        """Change rows in one statement; all of them give the same columns."""
        table = self._table(row)
        images = _rows(self.session, table, [row_id for row_id, _ in changes])
        differ = [
            Change(table.name, row_id, images[row_id], {**images[row_id], **values})
            for row_id, values in changes
            if {**images[row_id], **values} != images[row_id]
        ]
        if not differ:
            return
        given = changes[0][1].keys()
        rows = [
            (c.row_id, {name: (c.after or {})[name] for name in given}) for c in differ
        ]
        _update_all(self.session, table, rows)
        self.changes.extend(differ)

    def delete(self, row: type[Base], row_id: int) -> None:
        """Take one row away."""
        table = self._table(row)
        before = _row(self.session, table, row_id)
        self.session.execute(delete(table).where(table.c.id == row_id))
        self.changes.append(Change(table.name, row_id, before, None))

    def delete_many(self, row: type[Base], row_ids: Sequence[int]) -> None:
        """Take rows away in one statement."""
        if not row_ids:
            return
        table = self._table(row)
        images = _rows(self.session, table, row_ids)
        for lot in range(0, len(row_ids), _LOT):
            gone = row_ids[lot : lot + _LOT]
            self.session.execute(delete(table).where(table.c.id.in_(gone)))
        self.changes.extend(
            Change(table.name, row_id, images[row_id], None) for row_id in row_ids
        )

    def finish(self, title: str, now: datetime) -> None:
        """Keep what was changed as one action, and forget what had been undone."""
        if not self.changes or not self.remember:
            return
        _keep(self.session, title, Stamp(int(now.timestamp()), self.who), self.changes)

    def _table(self, row: type[Base]) -> Table:
        return table_of(self.session, row.__tablename__)


def note(session: Session, title: str, stamp: Stamp) -> None:
    """Keep in the history what no undo takes back: the bin was emptied, say.

    What had been undone is forgotten, as by any other action.
    """
    _keep(session, title, stamp, (), is_note=True)


@dataclass(frozen=True, slots=True)
class Moved:
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
    """Put all rows of the last action back as they were before it."""
    found = next_undo(session)
    if found is None:
        return None
    changes = _changes(session, found[0])
    _put_all(session, [(c.table, c.row_id, c.after, c.before) for c in changes[::-1]])
    _mark(session, found[0], stamp, undone=True)
    return _moved(found[1], changes)


def redo(session: Session, stamp: Stamp | None = None) -> Moved | None:
    """Put all rows of the action undone last as they were after it."""
    found = next_redo(session)
    if found is None:
        return None
    changes = _changes(session, found[0])
    _put_all(session, [(c.table, c.row_id, c.before, c.after) for c in changes])
    _mark(session, found[0], stamp, undone=False)
    return _moved(found[1], changes)


def forget_undone(session: Session) -> None:
    """Forget what was undone, so that it cannot be done again."""
    _drop_undone(session)


def _moved(title: str, changes: Sequence[Change]) -> Moved:
    about = (_plant_of(change) for change in changes)
    plants = dict.fromkeys(each for each in about if each is not None)
    return Moved(title, frozenset(change.table for change in changes), tuple(plants))


def _plant_of(change: Change) -> int | None:
    if change.table == PlantRow.__tablename__:
        return change.row_id
    found: int | None = (change.after or change.before or {}).get("plant_id")
    return found


def _row(session: Session, table: Table, row_id: int) -> Values:
    found = session.execute(select(table).where(table.c.id == row_id)).mappings().one()
    return dict(found)


def _rows(session: Session, table: Table, row_ids: Sequence[int]) -> dict[int, Values]:
    """Give rows by their number, asked for in lots that SQLite takes."""
    found: dict[int, Values] = {}
    for first in range(0, len(row_ids), _LOT):
        lot = row_ids[first : first + _LOT]
        for row in session.execute(select(table).where(table.c.id.in_(lot))).mappings():
            found[row["id"]] = dict(row)
    return found


def _put_all(session: Session, moves: Sequence[_Move]) -> None:
    """Take rows from one image to the next, in order; what is alike goes together."""
    for (name, is_new, is_gone, _), run in groupby(moves, key=_sort):
        table = table_of(session, name)
        images = [(row_id, image or {}) for _, row_id, _, image in run]
        if is_gone:
            for lot in _lots([row_id for row_id, _ in images]):
                session.execute(delete(table).where(table.c.id.in_(lot)))
        elif is_new:
            session.execute(insert(table), [image for _, image in images])
        else:
            _update_all(session, table, images)


def _sort(move: _Move) -> tuple[str, bool, bool, tuple[str, ...]]:
    """Give what moves have in common that one statement does."""
    name, _, from_image, to_image = move
    return name, from_image is None, to_image is None, tuple(to_image or ())


def _update_all(
    session: Session, table: Table, rows: Sequence[tuple[int, Mapping[str, Any]]]
) -> None:
    """Change rows in order by one statement; all of them give the same columns."""
    names = rows[0][1].keys()
    session.connection().execute(
        update(table)
        .where(table.c.id == bindparam("row_id"))
        .values({name: bindparam(f"new_{name}") for name in names}),
        [
            {"row_id": row_id} | {f"new_{name}": values[name] for name in names}
            for row_id, values in rows
        ],
    )


def _lots(row_ids: list[int]) -> Iterator[list[int]]:
    """Give row numbers in lots that SQLite takes."""
    for first in range(0, len(row_ids), _LOT):
        yield row_ids[first : first + _LOT]


def _changes(session: Session, action_id: int) -> list[Change]:
    rows = session.execute(
        select(
            ChangeRow.table_name, ChangeRow.row_id, ChangeRow.before, ChangeRow.after
        )
        .where(ChangeRow.action_id == action_id)
        .order_by(ChangeRow.id)
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


def _keep(
    session: Session,
    title: str,
    stamp: Stamp,
    changes: Sequence[Change],
    *,
    is_note: bool = False,
) -> None:
    """Write one action with its changes, sealed by its digest."""
    _drop_undone(session)
    number = (session.scalar(select(func.max(ActionRow.id))) or 0) + 1
    rows = [
        (
            change.table,
            change.row_id,
            *packed(
                table_of(session, change.table),
                change.before,
                change.after,
                change.put_back,
            ),
        )
        for change in changes
    ]
    action = {
        "id": number,
        "at_s": stamp.at_s,
        "title": title,
        "who": stamp.who,
        "is_note": is_note,
    }
    sealed = digest_of(number, stamp.at_s, title, stamp.who, is_note, rows)
    session.execute(insert(ActionRow), [{**action, "digest": sealed}])
    names = ("table_name", "row_id", "before", "after")
    if rows:
        session.execute(
            insert(ChangeRow),
            [
                {"action_id": number, **dict(zip(names, row, strict=True))}
                for row in rows
            ],
        )


def _drop_undone(session: Session) -> None:
    """Forget what was undone; below a note it leaves its title, so that none is missed.

    Numbers of actions follow one another without a gap: one that is not there is lost.
    """
    undone = ActionRow.undone.is_(True)
    gone = select(ActionRow.id).where(undone)
    session.execute(delete(ChangeRow).where(ChangeRow.action_id.in_(gone)))
    last_note = select(func.max(ActionRow.id)).where(ActionRow.is_note.is_(True))
    below = ActionRow.id < func.coalesce(last_note.scalar_subquery(), 0)
    session.execute(
        update(ActionRow).where(undone, below).values(is_note=True, digest=None)
    )
    session.execute(delete(ActionRow).where(undone, ActionRow.is_note.is_(False)))
