"""Every change of a collection, kept row by row, so that it can be taken back.

A ``Writing`` is the only way to write: it changes rows and keeps their images before
and after in the same transaction. Undo and redo put images back and know nothing of
what they mean. Order is by number, never by the clock.
"""

from __future__ import annotations

import json
from dataclasses import dataclass, field
from datetime import date
from itertools import groupby
from typing import TYPE_CHECKING, Any

from sqlalchemy import bindparam, delete, exists, func, insert, select, update

from growdesk.store.schema import RECORDED, ActionRow, Base, ChangeRow, PlantRow

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence
    from datetime import datetime

    from sqlalchemy import Table
    from sqlalchemy.orm import Session

Values = dict[str, Any]
_Move = tuple[str, int, Values | None, Values | None]
"""A table, a row of it, its image before and after."""
_LOT = 10_000
PUT_BACK = "_put_back"
"""What an image says of the change that its row was put back from."""


@dataclass(frozen=True, slots=True)
class Change:
    """One row before and after; ``None`` where it was not there.

    ``put_back`` is the number of the change that had taken the row away.
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
        table = _table(row)
        first = (self.session.scalar(select(func.max(table.c.id))) or 0) + 1
        whole = [
            _whole(table, {**values, "id": number})
            for number, values in enumerate(rows, first)
        ]
        self.session.execute(insert(table), whole)
        self.changes.extend(
            Change(table.name, values["id"], None, values) for values in whole
        )
        return tuple(values["id"] for values in whole)

    def put_back(
        self, row: type[Base], values: Mapping[str, Any], taken_by: int
    ) -> int:
        """Add a row that a change took away, under its old number where that is free.

        The journal remembers which change that was.
        """
        table = _table(row)
        number = values["id"]
        if _rows(self.session, table, [number]):
            number = (self.session.scalar(select(func.max(table.c.id))) or 0) + 1
        whole = _whole(table, {**values, "id": number})
        self.session.execute(insert(table), [whole])
        self.changes.append(Change(table.name, number, None, whole, taken_by))
        return int(number)

    def update(self, row: type[Base], row_id: int, values: Mapping[str, Any]) -> bool:
        """Change one row; say whether anything differs from before."""
        table = _table(row)
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
        table = _table(row)
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
        table = _table(row)
        before = _row(self.session, table, row_id)
        self.session.execute(delete(table).where(table.c.id == row_id))
        self.changes.append(Change(table.name, row_id, before, None))

    def delete_many(self, row: type[Base], row_ids: Sequence[int]) -> None:
        """Take rows away in one statement."""
        if not row_ids:
            return
        table = _table(row)
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
        _drop_undone(self.session)
        number = (self.session.scalar(select(func.max(ActionRow.id))) or 0) + 1
        self.session.execute(
            insert(ActionRow),
            [{"id": number, "at_s": int(now.timestamp()), "title": title}],
        )
        self.session.execute(
            insert(ChangeRow),
            [
                {
                    "action_id": number,
                    "table_name": change.table,
                    "row_id": change.row_id,
                    "before": _packed(change.before),
                    "after": _packed(change.after, change.put_back),
                }
                for change in self.changes
            ],
        )


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
        .where(ActionRow.undone.is_(False))
        .order_by(ActionRow.id.desc())
        .limit(1)
    ).first()
    return (found[0], found[1]) if found is not None and found[2] else None


def next_redo(session: Session) -> tuple[int, str] | None:
    """Give the number and title of the action that redo would bring back."""
    found = session.execute(
        select(ActionRow.id, ActionRow.title)
        .where(ActionRow.undone.is_(True))
        .order_by(ActionRow.id)
        .limit(1)
    ).first()
    return None if found is None else (found[0], found[1])


def undo(session: Session) -> Moved | None:
    """Put all rows of the last action back as they were before it."""
    found = next_undo(session)
    if found is None:
        return None
    changes = _changes(session, found[0])
    _put_all(session, [(c.table, c.row_id, c.after, c.before) for c in changes[::-1]])
    _mark(session, found[0], undone=True)
    return _moved(found[1], changes)


def redo(session: Session) -> Moved | None:
    """Put all rows of the action undone last as they were after it."""
    found = next_redo(session)
    if found is None:
        return None
    changes = _changes(session, found[0])
    _put_all(session, [(c.table, c.row_id, c.before, c.after) for c in changes])
    _mark(session, found[0], undone=False)
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


def _table(row: type[Base]) -> Table:
    return Base.metadata.tables[row.__tablename__]


def _whole(table: Table, values: Mapping[str, Any]) -> Values:
    """Give the values of all columns, the column's own default where none is given."""
    unknown = values.keys() - table.c.keys()
    if unknown:
        raise KeyError(f"{table.name} has no column {sorted(unknown)}")
    return {
        column.name: values.get(column.name, getattr(column.default, "arg", None))
        for column in table.c
    }


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
    alike = groupby(moves, key=lambda m: (m[0], m[2] is None, m[3] is None))
    for (name, is_new, is_gone), run in alike:
        table = _table(RECORDED[name])
        images = [(row_id, image or {}) for _, row_id, _, image in run]
        if is_gone:
            for lot in _lots([row_id for row_id, _ in images]):
                session.execute(delete(table).where(table.c.id.in_(lot)))
        elif is_new:
            session.execute(insert(table), [image for _, image in images])
        else:
            _update_all(session, table, images)


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
        Change(name, row_id, unpacked(name, before), unpacked(name, after))
        for name, row_id, before, after in rows
    ]


def _mark(session: Session, action_id: int, *, undone: bool) -> None:
    session.execute(
        update(ActionRow).where(ActionRow.id == action_id).values(undone=undone)
    )


def _drop_undone(session: Session) -> None:
    gone = select(ActionRow.id).where(ActionRow.undone.is_(True))
    session.execute(delete(ChangeRow).where(ChangeRow.action_id.in_(gone)))
    session.execute(delete(ActionRow).where(ActionRow.undone.is_(True)))


def _plain(value: object) -> str:
    if isinstance(value, date):
        return value.isoformat()
    raise TypeError(f"{value!r} cannot be kept in the journal")


def _packed(image: Values | None, put_back: int = 0) -> str | None:
    if image is None:
        return None
    if put_back:
        image = {PUT_BACK: put_back, **image}
    return json.dumps(image, default=_plain, separators=(",", ":"), ensure_ascii=False)


def unpacked(name: str, text: str | None) -> Values | None:
    """Give an image back with its days as days, columns of today's schema only."""
    if text is None:
        return None
    columns = _table(RECORDED[name]).c
    kept: Values = {}
    for key, value in json.loads(text).items():
        if key not in columns:
            continue
        is_day = value is not None and columns[key].type.python_type is date
        kept[key] = date.fromisoformat(value) if is_day else value
    return kept
