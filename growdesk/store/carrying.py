"""Carries all rows of a collection into an empty one, whatever either is kept in.

What arrived is read back and held against what was read, table by table: how many rows,
and one digest over all their values. Numbers stay, so the history goes on as it was and
proves as it did. It knows tables and no place.
"""

from __future__ import annotations

import sqlite3
from contextlib import closing, contextmanager
from functools import partial
from hashlib import sha256
from typing import TYPE_CHECKING, Any

from msgspec import Struct
from sqlalchemy import (
    Connection,
    StaticPool,
    bindparam,
    create_engine,
    delete,
    event,
    func,
    insert,
    select,
    update,
)

from growdesk.domain.errors import StoreError
from growdesk.domain.speech import tr
from growdesk.store.schema import RECORDED, ActionRow, Base, MigrationRow

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence
    from pathlib import Path

    from sqlalchemy import MetaData, Table

    Step = Callable[[int, int], object]

_AT_ONCE = 2000


class Carried(Struct, frozen=True):
    """What a table came to: how many rows, and a digest over all their values."""

    rows: int
    digest: str


def is_empty(connection: Connection) -> bool:
    """Tell whether a collection holds nothing yet, and nothing was ever done in it."""
    tables = [Base.metadata.tables[name] for name in RECORDED]
    tables.append(Base.metadata.tables[ActionRow.__tablename__])
    return not any(connection.scalar(select(table.c.id).limit(1)) for table in tables)


def carry(
    source: Connection,
    target: Connection,
    step: Step,
    metadata: MetaData = Base.metadata,
) -> dict[str, Carried]:
    """Copy all rows into an empty collection of the same form; give what was copied.

    ``metadata`` tells the tables, where they are of an older form than ours.

    Both are inside transactions of the caller's; whatever fails leaves the target as
    it was once that is rolled back. Raises StoreError where something did not arrive
    as it was.
    """
    tables = metadata.sorted_tables
    telling = _Telling(step, 2 * sum(_count(source, each) for each in tables))
    target.execute(delete(metadata.tables[MigrationRow.__tablename__]))
    gone = {each.name: _copy(source, target, each, telling) for each in tables}
    came = {each.name: _read(target, each, telling) for each in tables}
    for name, carried in gone.items():
        if came[name] != carried:
            raise StoreError(
                tr("Not all of {table} arrived as it was: nothing was kept.").format(
                    table=name
                ),
                tr("Try it again; all is still where it was."),
            )
    return gone


@contextmanager
def into_file(path: Path) -> Iterator[Connection]:
    """Give a connection that fills a new file in passing, in one transaction.

    Nothing is brought to the disk before the end: half a file is worth nothing.
    """
    with closing(sqlite3.connect(path, isolation_level=None)) as plain:
        for pragma in ("journal_mode = MEMORY", "synchronous = OFF"):
            plain.execute(f"PRAGMA {pragma}").fetchall()
        engine = create_engine(
            "sqlite://",
            creator=lambda: plain,
            poolclass=StaticPool,
            hide_parameters=True,  # an error must not repeat what a grower typed
        )
        begin = partial(Connection.exec_driver_sql, statement="BEGIN IMMEDIATE")
        event.listen(engine, "begin", begin)
        with engine.begin() as connection:
            yield connection
        plain.execute("PRAGMA synchronous = FULL").fetchall()


class _Telling:
    """Tells how many rows are done of how many, a lot at a time."""

    def __init__(self, step: Step, of: int) -> None:
        self._step = step
        self._of = of
        self._done = 0

    def more(self, rows: int) -> None:
        self._done += rows
        self._step(min(self._done, self._of), self._of)


def _count(connection: Connection, table: Table) -> int:
    return connection.scalar(select(func.count()).select_from(table)) or 0


def _lots(connection: Connection, table: Table) -> Iterator[Sequence[Any]]:
    """Give a table's rows by their numbers, some at a time, never all at once."""
    asked = select(table).order_by(table.c.id)
    found = connection.execute(asked, execution_options={"yield_per": _AT_ONCE})
    yield from found.partitions()


def _copy(
    source: Connection, target: Connection, table: Table, telling: _Telling
) -> Carried:
    own = [
        key.parent.name
        for key in table.foreign_keys
        if key.column.table is table  # a row may point at one that comes after it
    ]
    summing, count, links = sha256(), 0, []
    for lot in _lots(source, table):
        count += len(lot)
        _sum(summing, lot)
        rows = [dict(each._mapping) for each in lot]  # noqa: SLF001 -- its public name
        for row in rows:
            found = {name: row[name] for name in own if row[name] is not None}
            if found:
                links.append((row["id"], found))
                row.update(dict.fromkeys(found))
        target.execute(insert(table), rows)
        telling.more(len(lot))
    for name in own:
        linked = [
            {"row_id": number, "to": found[name]}
            for number, found in links
            if name in found
        ]
        if linked:
            wanted = update(table).where(table.c.id == bindparam("row_id"))
            target.execute(wanted.values({name: bindparam("to")}), linked)
    return Carried(count, summing.hexdigest())


def _read(connection: Connection, table: Table, telling: _Telling) -> Carried:
    summing, count = sha256(), 0
    for lot in _lots(connection, table):
        count += len(lot)
        _sum(summing, lot)
        telling.more(len(lot))
    return Carried(count, summing.hexdigest())


def _sum(summing: Any, lot: Sequence[Any]) -> None:
    for row in lot:
        summing.update(repr(tuple(row)).encode("utf-8", "surrogatepass"))
