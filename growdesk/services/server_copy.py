"""Reads all that a server holds: into a file as any collection's is, or as numbers.

Each reading is of one moment, whoever writes meanwhile, and keeps nobody from writing.
"""

from __future__ import annotations

from contextlib import contextmanager
from hashlib import sha256
from typing import TYPE_CHECKING

from msgspec import Struct
from sqlalchemy import MetaData, func, select

from growdesk.domain.errors import StoreError
from growdesk.domain.speech import tr
from growdesk.services.clock import SystemClock
from growdesk.store.backup_copy import NOTHING_WRITTEN, Snapshot
from growdesk.store.carrying import carry, into_file
from growdesk.store.migrating import create_database
from growdesk.store.migrations import MIGRATIONS, SCHEMA
from growdesk.store.schema import ActionRow, Base, MigrationRow, PhotoRow
from growdesk.store.trouble import plainly

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping
    from pathlib import Path

    from sqlalchemy import Connection

    from growdesk.services.long_work import Step
    from growdesk.services.whereabouts import OnServer


class Numbers(Struct, frozen=True):
    """What a report tells of a server: its version, and no name of anything."""

    version: str
    form: int
    rows: Mapping[str, int]
    photos: frozenset[str]


def copy_server(
    where: OnServer, path: Path, step: Step, form: int | None = None
) -> None:
    """Copy a server's rows into a new file, and hold the two against each other.

    ``form`` is that of the server where it is still to be brought up to ours.
    """
    with _reading(where) as source:
        asked = form or _form(source)
        if asked > SCHEMA:
            raise StoreError(
                tr("{place} was written by a newer growdesk.").format(
                    place=where.address.called
                ),
                tr("Back it up with that one."),
            )
        copy_rows(source, path, step, asked)


def copy_rows(
    source: Connection, path: Path, step: Step, form: int = SCHEMA
) -> dict[str, int]:
    """Copy a connection's rows into a new file of that form; give how many of each."""
    with plainly(path):
        create_database(path, SystemClock().now(), MIGRATIONS[:form])
        metadata = Base.metadata
        try:
            with into_file(path) as target:
                if form != SCHEMA:
                    metadata = MetaData()
                    metadata.reflect(target)
                carried = carry(source, target, step, metadata)
        except BaseException:
            path.unlink(missing_ok=True)
            raise
    return {name: each.rows for name, each in carried.items()}


def holds_collection(where: OnServer) -> bool:
    """Tell whether a collection lies on a server, so that there is one to open."""
    from growdesk.store.server_opening import look  # noqa: PLC0415 -- with a server

    with _connected(where) as source:
        return look(source, where.address.called).is_ours


def server_snapshot(where: OnServer) -> Snapshot:
    """Give what is true of a server as it stands now, as of a file."""
    with _reading(where) as source:
        last, undone = source.execute(
            select(
                func.max(ActionRow.id),
                func.count(ActionRow.id).filter(ActionRow.undone.is_(True)),
            )
        ).one()
        return Snapshot(_form(source), _mark(source, last, undone), _rows(source))


def numbers_of(where: OnServer) -> Numbers:
    """Give the numbers that a report tells."""
    with _reading(where) as source:
        return Numbers(
            ".".join(map(str, source.dialect.server_version_info or ())),
            _form(source),
            _rows(source),
            frozenset(source.scalars(select(PhotoRow.sha256))),
        )


@contextmanager
def _reading(where: OnServer) -> Iterator[Connection]:
    """Give a connection that sees one moment of a collection that is there."""
    from growdesk.store.server_opening import look, none_there  # noqa: PLC0415 -- ditto

    with _connected(where) as connection:
        place = where.address.called
        if not look(connection, place).is_ours:
            raise none_there(place)
        yield connection


@contextmanager
def _connected(where: OnServer) -> Iterator[Connection]:
    from growdesk.store.server_address import parsed  # noqa: PLC0415 -- with a server
    from growdesk.store.server_engine import (  # noqa: PLC0415 -- ditto
        make_server_engine,
        reader_of,
    )
    from growdesk.store.server_trouble import plainly_on_server  # noqa: PLC0415 -- ditto

    engine = make_server_engine(parsed(where.address.url))
    try:
        with (
            plainly_on_server(where.address.called),
            reader_of(engine).connect() as connection,
        ):
            yield connection
    finally:
        engine.dispose()


def _form(source: Connection) -> int:
    return source.scalar(select(func.max(MigrationRow.id))) or 0


def _rows(source: Connection) -> dict[str, int]:
    return {
        name: source.scalar(select(func.count()).select_from(table)) or 0
        for name, table in sorted(Base.metadata.tables.items())
    }


def _mark(source: Connection, last: int | None, undone: int) -> str:
    """Give the same mark that ``backup_copy`` gives a file of the same history."""
    if not last:
        return NOTHING_WRITTEN
    asked = select(ActionRow.at_s, ActionRow.title, ActionRow.digest)
    told = source.execute(asked.where(ActionRow.id == last)).one()
    was = sha256(repr(tuple(told)).encode()).hexdigest()
    return f"{last}-{undone}-{was[:16]}"
