"""What was removed: read from the journal, and forgotten for good when that is asked.

Removed plants are rows still; removed records live on in the journal's images alone.
To forget them is to take the rows away with all that hangs on them, and the changes of
every action up to the last that names any of them, so that no undo brings half back.
"""

from __future__ import annotations

from collections import defaultdict
from typing import TYPE_CHECKING, Any

from msgspec import Struct
from sqlalchemy import delete, func, or_, select, update

from growdesk.store.both import image_number, image_text
from growdesk.store.images import PUT_BACK, unpacked
from growdesk.store.journal import forget_undone
from growdesk.store.later import table_of
from growdesk.store.schema import (
    RECORDED,
    ActionRow,
    Base,
    CareRow,
    ChangeRow,
    DrawnRow,
    PhotoRow,
    PlantRow,
)

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from sqlalchemy import ColumnElement, Table

    from growdesk.store.images import Values
    from growdesk.store.session import Session

Rows = dict[str, set[int]]
_LOT = 10_000


class Taken(Struct, frozen=True):
    """A row that an action took away, as it was; ``change_id`` is the change's."""

    change_id: int
    action_id: int
    table: str
    row: Values


class Shifted(Struct, frozen=True):
    """A row that the same action changed: what differs, as it was before and after."""

    table: str
    row_id: int
    before: Values
    after: Values


def standing(session: Session) -> tuple[object, ...]:
    """Give what differs once more is removed, put back, undone or done again."""
    binned = select(PlantRow.id).where(PlantRow.binned_on.is_not(None))
    taken = select(func.max(ChangeRow.id)).where(ChangeRow.after.is_(None))
    undone = select(ActionRow.id).where(ActionRow.undone.is_(True))
    return (
        frozenset(session.scalars(binned)),
        session.scalar(taken),
        frozenset(session.scalars(undone)),
    )


def removals(session: Session, tables: Sequence[str]) -> dict[int, set[int]]:
    """Give actions that took rows of these tables away and put none in their place.

    With each the numbers of its changes whose rows have not been put back since.
    """
    back = _put_back(session)
    rows = session.execute(
        select(ChangeRow.action_id, ChangeRow.id, ChangeRow.table_name)
        .join(ActionRow, ActionRow.id == ChangeRow.action_id)
        .where(
            ActionRow.undone.is_(False),
            ChangeRow.after.is_(None),
            ChangeRow.table_name.in_(tables),
        )
    ).all()
    put_in = _put_in(session, sorted({row.action_id for row in rows}))
    found: dict[int, set[int]] = defaultdict(set)
    for action_id, change_id, table in rows:
        if (action_id, table) not in put_in and change_id not in back:
            found[action_id].add(change_id)
    return dict(found)


def taken_by(session: Session, action_id: int) -> tuple[list[Taken], list[Shifted]]:
    """Give the rows an action took away and that are not back, the last one first.

    With them the rows that it changed.
    """
    back = _put_back(session)
    rows = session.execute(
        select(ChangeRow.__table__)
        .where(ChangeRow.action_id == action_id)
        .order_by(ChangeRow.id.desc())
    ).all()
    taken: list[Taken] = []
    shifted: list[Shifted] = []
    for row in rows:
        table = table_of(session, row.table_name)
        before, after = unpacked(table, row.row_id, row.before, row.after)
        if before is not None and after is None and row.id not in back:
            taken.append(Taken(row.id, action_id, row.table_name, before))
        elif before is not None and after is not None:
            shifted.append(Shifted(row.table_name, row.row_id, before, after))
    return taken, shifted


def references(table: str) -> dict[str, str]:
    """Give the columns of a table that point at rows, and at which table."""
    return {
        key.parent.name: key.column.table.name
        for key in _table(table).foreign_keys
        if key.column.table.name in RECORDED
    }


def hanging_on(session: Session, plants: Sequence[int]) -> Rows:
    """Give plants with all rows that are of them."""
    found: Rows = {PlantRow.__tablename__: set(plants)}
    for name in RECORDED:
        table = _table(name)
        if "plant_id" in table.c:
            found[name] = _where_in(session, table, "plant_id", plants)
    care = sorted(found[CareRow.__tablename__])
    found[DrawnRow.__tablename__] = _where_in(
        session, _table(DrawnRow.__tablename__), "care_id", care
    )
    return {name: ids for name, ids in found.items() if ids}


def forget(session: Session, gone: Rows) -> int:
    """Take rows away for good, and forget every action that could bring one back.

    What was undone is forgotten as well. Gives the last action that was forgotten.
    """
    forget_undone(session)
    last = _last_naming(session, gone)
    _let_go(session, gone)
    for name in _leaves_first(gone):
        table = _table(name)
        for lot in _lots(sorted(gone[name])):
            session.execute(delete(table).where(table.c.id.in_(lot)))
    session.execute(delete(ChangeRow).where(ChangeRow.action_id <= last))
    session.execute(update(ActionRow).where(ActionRow.id <= last).values(digest=None))
    return last


def photos_named(session: Session) -> set[str]:
    """Give the photos that rows name."""
    return set(session.scalars(select(PhotoRow.sha256)))


def photos_in_journal(session: Session) -> set[str]:
    """Give the photos that images of the journal name."""
    image = func.coalesce(ChangeRow.after, ChangeRow.before)
    of_photos = ChangeRow.table_name == PhotoRow.__tablename__
    named = select(image_text(image, "sha256")).where(of_photos)
    return set(session.scalars(named.distinct()))


def _put_in(session: Session, actions: list[int]) -> set[tuple[int, str]]:
    """Give the tables that actions added rows to."""
    found: set[tuple[int, str]] = set()
    for lot in _lots(actions):
        added = select(ChangeRow.action_id, ChangeRow.table_name).where(
            ChangeRow.action_id.in_(lot), ChangeRow.before.is_(None)
        )
        for number, table in session.execute(added):
            found.add((number, table))
    return found


def _put_back(session: Session) -> set[int]:
    """Give the changes whose rows were put back, and that still stands."""
    rows = session.scalars(
        select(image_number(ChangeRow.after, PUT_BACK))
        .join(ActionRow, ActionRow.id == ChangeRow.action_id)
        .where(
            ActionRow.undone.is_(False),
            ChangeRow.before.is_(None),
            ChangeRow.after.like(f'{{"{PUT_BACK}":%'),
        )
    )
    return set(rows)


def _last_naming(session: Session, gone: Rows) -> int:
    """Give the last action that took any row away, or names one of those to go."""
    last = session.scalar(
        select(func.max(ChangeRow.action_id)).where(ChangeRow.after.is_(None))
    )
    newest = last or 0
    for naming in _naming(gone):
        found = session.scalar(select(func.max(ChangeRow.action_id)).where(naming))
        newest = max(newest, found or 0)
    return newest


def _naming(gone: Rows) -> Iterator[ColumnElement[bool]]:
    """Give what changes of these rows look like, and of rows that point at them."""
    for name, ids in gone.items():
        for lot in _lots(sorted(ids)):
            yield (ChangeRow.table_name == name) & ChangeRow.row_id.in_(lot)
            for other in RECORDED:
                for column, target in references(other).items():
                    if target != name:
                        continue
                    yield (ChangeRow.table_name == other) & or_(
                        image_number(ChangeRow.before, column).in_(lot),
                        image_number(ChangeRow.after, column).in_(lot),
                    )


def _let_go(session: Session, gone: Rows) -> None:
    """Let rows that stay point at none of those that go."""
    for name in RECORDED:
        table = _table(name)
        for column, target in references(name).items():
            if not table.c[column].nullable:
                continue
            for lot in _lots(sorted(gone.get(target, ()))):
                there = update(table).where(table.c[column].in_(lot))
                session.execute(there.values({column: None}))


def _leaves_first(gone: Mapping[str, Any]) -> list[str]:
    """Give tables in an order in which no row goes before those that point at it."""
    order = [table.name for table in reversed(Base.metadata.sorted_tables)]
    return [name for name in order if name in gone]


def _where_in(
    session: Session, table: Table, column: str, wanted: Sequence[int]
) -> set[int]:
    found: set[int] = set()
    for lot in _lots(list(wanted)):
        found |= set(
            session.scalars(select(table.c.id).where(table.c[column].in_(lot)))
        )
    return found


def _lots(ids: list[int]) -> Iterator[list[int]]:
    for first in range(0, len(ids), _LOT):
        yield ids[first : first + _LOT]


def _table(name: str) -> Table:
    return Base.metadata.tables[name]
