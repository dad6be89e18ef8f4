"""A collection on a server: verdicts from there, and all of it carried over.

There are bars only where ``GROWDESK_POSTGRES`` names the folder of a server that
``.ci/postgres start`` has made.
"""

from __future__ import annotations

import os
import sqlite3
from contextlib import closing, contextmanager
from datetime import timedelta
from itertools import count
from pathlib import Path
from typing import TYPE_CHECKING, Any

from sqlalchemy import Boolean, Date, Float, Integer, LargeBinary

from growdesk.domain.remembered import REMEMBERED
from growdesk.services.carrying_over import carry_over
from growdesk.services.collection import Collection
from growdesk.services.judged_day import judged_day
from growdesk.services.known import READINGS_DAYS
from growdesk.services.servers import find_server
from growdesk.store.folder_names import FILE_NAME
from growdesk.store.many import CARE_COLUMNS, LOOK_COLUMNS, READING_COLUMNS
from growdesk.store.schema import Base, PhotoRow
from tests.bench.bars import Bar, Limit, Pair

if TYPE_CHECKING:
    from collections.abc import Iterator

    from growdesk.services.whereabouts import OnServer
    from tests.bench.ground import Ground

_HERE = "p.binned_on IS NULL AND p.status = 'growing'"
_KINDS = (
    (Boolean, "BIGINT"),
    (Integer, "BIGINT"),
    (Float, "DOUBLE PRECISION"),
    (Date, "TEXT"),
    (LargeBinary, "BYTEA"),
)
_NUMBERS = count(1)


def _server() -> str:
    """Give the address of the server's own database; nothing where none is given."""
    home = os.environ.get("GROWDESK_POSTGRES", "")
    file = Path(home) / "url"
    return file.read_text().strip() if home and file.exists() else ""


def _plain(address: str) -> Any:
    """Give a connection by the driver alone."""
    import psycopg  # noqa: PLC0415 -- with a server only

    return psycopg.connect(address.replace("+psycopg", ""), autocommit=True)


@contextmanager
def _made(ground: Ground) -> Iterator[OnServer]:
    """Give an empty database of the ground's own, taken away at the end."""
    name = f"growdesk_bench_{ground.plants}_{next(_NUMBERS)}"
    shared = ground.tmp / name
    shared.mkdir()
    with closing(_plain(_server())) as server:
        server.execute(f'DROP DATABASE IF EXISTS "{name}" WITH (FORCE)')
        server.execute(f'CREATE DATABASE "{name}" TEMPLATE template0')
        try:
            yield find_server(f"{_server().rpartition('/')[0]}/{name}", str(shared))
        finally:
            server.execute(f'DROP DATABASE "{name}" WITH (FORCE)')


def _without_photos(ground: Ground) -> Path:
    """Give a copy of the collection that names no photos: they are of the disk."""
    folder = ground.copy(photos=False)
    with closing(sqlite3.connect(folder / FILE_NAME)) as file, file:
        file.execute(f"DELETE FROM {PhotoRow.__tablename__}")  # noqa: S608 -- our own
    return folder


def verdicts(ground: Ground) -> Pair:
    """Read and judge all plants there; below it the same rows by the driver alone."""
    stack = _made(ground)
    where = stack.__enter__()
    carry_over(_without_photos(ground), where, ground.clock())
    opened = Collection.open(where, ground.clock())
    raw = _plain(where.address.url)
    raw.execute("VACUUM ANALYZE")
    since = ground.today - REMEMBERED
    asked = (
        (_of_plants("look", LOOK_COLUMNS), since),
        (_of_plants("care", CARE_COLUMNS), since),
        (
            f"SELECT {_named(READING_COLUMNS)} FROM reading l WHERE l.day >= %s",  # noqa: S608 -- ditto
            ground.today - timedelta(days=READINGS_DAYS),
        ),
        (f"SELECT p.* FROM plant p WHERE {_HERE} AND %s IS NOT NULL", since),  # noqa: S608 -- ditto
    )

    def ours() -> None:
        with opened.ledger.reading() as session:
            day = judged_day(session, ground.today)
        assert len(day.judged) == ground.plants

    def base() -> None:
        for statement, day in asked:
            raw.execute(statement, (day,)).fetchall()

    def close() -> None:
        raw.close()
        opened.close()
        stack.__exit__(None, None, None)

    return Pair(ours, base, close=close)


def carried(ground: Ground) -> Pair:
    """Carry all rows over, proved; below it the same rows put there and no more."""
    folder = _without_photos(ground)
    stack: list[Any] = []
    where: list[OnServer] = []

    def before() -> None:
        close()
        stack.append(_made(ground))
        where.append(stack[-1].__enter__())

    def ours() -> None:
        carry_over(folder, where[-1], ground.clock())

    def base() -> None:
        with (
            closing(sqlite3.connect(folder / FILE_NAME)) as file,
            closing(_plain(where[-1].address.url)) as server,
            server.transaction(),
        ):
            for table in Base.metadata.sorted_tables:
                columns = ", ".join(
                    f'"{each.name}" {_kind(each.type)}' for each in table.c
                )
                server.execute(f'CREATE TEMP TABLE "{table.name}" ({columns})')
                rows = file.execute(
                    f'SELECT {_quoted(table.c)} FROM "{table.name}"'  # noqa: S608 -- ditto
                )
                marks = ", ".join(["%s"] * len(table.c))
                with server.cursor() as cursor:
                    cursor.executemany(
                        f'INSERT INTO "{table.name}" VALUES ({marks})',  # noqa: S608 -- ditto
                        rows,
                    )

    def close() -> None:
        while stack:
            stack.pop().__exit__(None, None, None)

    return Pair(ours, base, before, close)


def _named(columns: Any) -> str:
    return ", ".join(f"l.{each.name}" for each in columns)


def _quoted(columns: Any) -> str:
    return ", ".join(f'"{each.name}"' for each in columns)


def _of_plants(table: str, columns: Any) -> str:
    return (
        f"SELECT {_named(columns)} FROM plant p JOIN {table} l"  # noqa: S608 -- ditto
        f" ON l.plant_id = p.id AND l.day >= %s WHERE {_HERE}"
    )


def _kind(of: object) -> str:
    return next((name for kind, name in _KINDS if isinstance(of, kind)), "TEXT")


_BARS = (
    Bar(
        "server-verdicts",
        "Verdicts of all plants, from a server",
        base="the same rows by the driver alone",
        most=Limit.times(4),
        measure=verdicts,
        grows=True,
    ),
    Bar(
        "server-carried",
        "All rows carried over to a server, and proved",
        base="the same rows put there, unproved",
        most=Limit.times(3),
        measure=carried,
        runs=1,
        grows=True,
        slow=True,
    ),
)
BARS: tuple[Bar, ...] = _BARS if _server() else ()
