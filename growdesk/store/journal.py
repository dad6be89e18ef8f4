"""Every change of a collection, kept row by row, so that it can be taken back.

A ``Writing`` is the only way to write: it changes rows and keeps their images before
and after in the same transaction. Order is by number, never by the clock.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from msgspec import Struct, field
from sqlalchemy import delete, exists, func, insert, select, update

from growdesk.store.digests import digest_of
from growdesk.store.images import packed, whole
from growdesk.store.later import table_of
from growdesk.store.rows import insert_all, lots, row_of, rows_of, update_all
from growdesk.store.schema import ActionRow, ChangeRow

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from datetime import datetime

    from sqlalchemy import Table

    from growdesk.store.images import Values
    from growdesk.store.schema import Base
    from growdesk.store.session import Session


_UNDONE = ActionRow.undone.is_(True)
_NEWEST = select(
    select(func.max(ActionRow.id)).scalar_subquery(),
    select(func.max(ChangeRow.id)).scalar_subquery(),
    exists().where(_UNDONE),
)
"""The numbers of the newest action and change, from which the next ones are counted,
and whether anything was undone."""


class Stamp(Struct, frozen=True):
    """When something is done, and by whom: the account's name, empty if unknown."""

    at_s: int
    who: str = ""


class Change(Struct, frozen=True):
    """One row before and after; ``None`` where it was not there.

    While it is written both are whole; read back, a row that changed has those columns
    that differ. ``put_back`` is the number of the change that had taken the row away.
    """

    table: str
    row_id: int
    before: Values | None
    after: Values | None
    put_back: int = 0


class Writing(Struct):
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
        insert_all(self.session, table, filled)
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
        if rows_of(self.session, table, [number]):
            number = (self.session.scalar(select(func.max(table.c.id))) or 0) + 1
        filled = whole(table, {**values, "id": number})
        self.session.execute(insert(table), [filled])
        self.changes.append(Change(table.name, number, None, filled, taken_by))
        return int(number)

    def update(self, row: type[Base], row_id: int, values: Mapping[str, Any]) -> bool:
        """Change one row; say whether anything differs from before."""
        table = self._table(row)
        before = row_of(self.session, table, row_id)
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
        images = rows_of(self.session, table, [row_id for row_id, _ in changes])
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
        update_all(self.session, table, rows)
        self.changes.extend(differ)

    def delete(self, row: type[Base], row_id: int) -> None:
        """Take one row away."""
        table = self._table(row)
        before = row_of(self.session, table, row_id)
        self.session.execute(delete(table).where(table.c.id == row_id))
        self.changes.append(Change(table.name, row_id, before, None))

    def delete_many(self, row: type[Base], row_ids: Sequence[int]) -> None:
        """Take rows away in one statement."""
        if not row_ids:
            return
        table = self._table(row)
        images = rows_of(self.session, table, row_ids)
        for lot in lots(row_ids):
            self.session.execute(delete(table).where(table.c.id.in_(lot)))
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


def note(session: Session, title: str, stamp: Stamp, *, forgets: bool = True) -> None:
    """Keep in the history what no undo takes back: the bin was emptied, say.

    What had been undone is forgotten, as by any other action, unless that stays true of
    the rows: they are a backup's own.
    """
    _keep(session, title, stamp, (), is_note=True, forgets=forgets)


def _keep(
    session: Session,
    title: str,
    stamp: Stamp,
    changes: Sequence[Change],
    *,
    is_note: bool = False,
    forgets: bool = True,
) -> None:
    """Write one action with its changes, sealed by its digest."""
    action_id, change_id, some_undone = session.execute(_NEWEST).one()
    if forgets and some_undone:
        forget_undone(session)
        action_id, change_id, _ = session.execute(_NEWEST).one()
    number = (action_id or 0) + 1
    tables = {change.table for change in changes}
    table = {name: table_of(session, name) for name in tables}
    rows = [
        (
            change.table,
            change.row_id,
            *packed(table[change.table], change.before, change.after, change.put_back),
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
        insert_all(
            session,
            ChangeRow.__table__,
            [
                {"id": of, "action_id": number, **dict(zip(names, row, strict=True))}
                for of, row in enumerate(rows, (change_id or 0) + 1)
            ],
        )


def forget_undone(session: Session) -> None:
    """Forget what was undone, so that it cannot be done again.

    Below a note its title stays: numbers of actions follow one another without a gap,
    and one that is not there is lost.
    """
    gone = select(ActionRow.id).where(_UNDONE)
    session.execute(delete(ChangeRow).where(ChangeRow.action_id.in_(gone)))
    last_note = select(func.max(ActionRow.id)).where(ActionRow.is_note.is_(True))
    below = ActionRow.id < func.coalesce(last_note.scalar_subquery(), 0)
    session.execute(
        update(ActionRow).where(_UNDONE, below).values(is_note=True, digest=None)
    )
    session.execute(delete(ActionRow).where(_UNDONE, ActionRow.is_note.is_(False)))
