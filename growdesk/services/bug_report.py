"""Write a report of a fault as text: versions, counts and the log, no plant.

The person reads it whole and keeps it where they like; it goes nowhere by itself. No
name, tag, note, place, folder, photo or account is read for it, and of the collection
only how many rows each table has. Heads are said in the grower's language, the lines
below them are for whoever mends it, in English.
"""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path
from typing import TYPE_CHECKING, Final

from growdesk.domain.errors import GrowdeskError, InputError
from growdesk.domain.speech import tr
from growdesk.services import trail
from growdesk.services.log_file import last_lines
from growdesk.services.program import program
from growdesk.services.soundness import file_problems, row_problems
from growdesk.store.engine import connect
from growdesk.store.schema import Base
from growdesk.store.store import FILE_NAME, PHOTOS
from growdesk.store.trouble import plainly
from growdesk.store.whole_files import write_whole

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence
    from datetime import datetime

    from growdesk.services.whereabouts import OnServer, Where

_LOG_LINES: Final = 200
_KILOBYTE: Final = 1000


def report(where: Where, at: datetime, around: Sequence[str] = ()) -> str:
    """Give the report on a collection's folder; ``around`` tells of the window."""
    what = program()
    parts: list[tuple[str, Sequence[str]]] = [
        (tr("What I did, and what I saw"), ("",)),
        (
            tr("The program"),
            (
                f"growdesk {what.growdesk}, Python {what.python}, {what.system}",
                f"SQLite {what.sqlite}",
                *(f"{each.name} {each.version}" for each in what.libraries),
            ),
        ),
        (tr("The window"), around or (tr("The report was made without a window."),)),
        (tr("The collection, in numbers"), tuple(_collection(where))),
        (tr("What was done last"), _steps()),
        (tr("The log's last lines"), last_lines(_LOG_LINES) or (tr("It is empty."),)),
    ]
    head = tr("Report of a fault, written at {time} UTC").format(
        time=at.strftime("%Y-%m-%d %H:%M")
    )
    told = tr(
        "Nothing was sent. Names, tags, notes, photos and folders are not in it. Cut "
        "what you would rather keep to yourself."
    )
    bodies = ("\n".join((f"== {title} ==", *lines)) for title, lines in parts)
    return "\n\n".join((f"{head}\n{told}", *bodies)) + "\n"


def save(text: str, file: Path) -> None:
    """Keep a report as a text file; one that is there is not written over."""
    if file.exists():
        hint = tr("Choose another name; it was left as it is.")
        raise InputError("FILE", str(file), tr("is there already"), hint)
    if not file.absolute().parent.is_dir():
        hint = tr("Make the folder first, or choose another.")
        raise InputError("FILE", str(file), tr("lies in no folder"), hint)
    with plainly(file):
        write_whole(file, text.encode("utf-8"))


def _steps() -> tuple[str, ...]:
    """Give what was done last; the forms and commands by their names in the code."""
    found = tuple(f"{each.at:%H:%M:%S} {each.key}" for each in trail.steps())
    return found or (tr("Nothing was done yet."),)


def _collection(where: Where) -> Iterator[str]:
    if not isinstance(where, Path):
        yield from _on_server(where)
        return
    path = where / FILE_NAME
    if not path.is_file():
        yield tr("There is no collection yet.")
        return
    photos = [each for each in (where / PHOTOS).glob("*/*") if each.is_file()]
    yield f"collection: {_kilobytes(path.stat().st_size)} kB"
    yield from _beside(where, photos)
    try:
        with closing(connect(path, reading=True)) as connection:
            form = connection.execute("PRAGMA user_version").fetchone()[0]
            yield f"form: {form}"
            yield from _counts(connection)
            yield _found("damage found in the file", file_problems, connection)
            yield _found("rows that cannot be read", row_problems, connection)
            yield _missing(connection, {each.stem for each in photos})
    except (sqlite3.Error, OSError, GrowdeskError) as error:
        yield f"it could not be read: {_kind(error)}"


def _on_server(where: OnServer) -> Iterator[str]:
    """Give the numbers of a collection on a server; of that its version alone."""
    from growdesk.services.server_copy import numbers_of  # noqa: PLC0415 -- with a server

    photos = [each for each in (where.folder / PHOTOS).glob("*/*") if each.is_file()]
    yield "collection: on a server"
    yield from _beside(where.folder, photos)
    try:
        told = numbers_of(where)
    except GrowdeskError as error:
        yield f"it could not be read: {_kind(error)}"
        return
    yield f"server: PostgreSQL {told.version}"
    yield f"form: {told.form}"
    yield from (f"rows of {name}: {count}" for name, count in told.rows.items())
    gone = len(told.photos - {each.stem for each in photos})
    yield f"photos that are gone: {gone}"


def _beside(folder: Path, photos: Sequence[Path]) -> Iterator[str]:
    yield f"photos: {len(photos)}, {_kilobytes(sum(map(_bytes, photos)))} kB"
    yield f"kept backups: {sum(1 for each in (folder / 'backups').glob('2*'))}"


def _counts(connection: sqlite3.Connection) -> Iterator[str]:
    """Give how many rows each table has, by the names of ours."""
    for name in sorted(Base.metadata.tables):
        try:
            row = connection.execute(f'SELECT count(*) FROM "{name}"').fetchone()  # noqa: S608 -- a table of ours
            yield f"rows of {name}: {row[0]}"
        except sqlite3.Error as error:
            yield f"rows of {name}: {_kind(error)}"


def _found(
    what: str,
    look: Callable[[sqlite3.Connection], list[str]],
    connection: sqlite3.Connection,
) -> str:
    try:
        return f"{what}: {len(look(connection))}"
    except Exception as error:  # noqa: BLE001 -- a damaged file fails in any way
        return f"{what}: {_kind(error)}"


def _missing(connection: sqlite3.Connection, there: set[str]) -> str:
    rows = connection.execute("SELECT sha256 FROM photo").fetchall()
    return f"photos that are gone: {sum(1 for row in rows if row[0] not in there)}"


def _kind(error: Exception) -> str:
    return str(getattr(error, "sqlite_errorname", type(error).__name__))


def _bytes(path: Path) -> int:
    return path.stat().st_size


def _kilobytes(size: int) -> int:
    return -(-size // _KILOBYTE)
