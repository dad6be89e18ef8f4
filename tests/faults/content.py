"""What a collection holds, as digests to compare; and whether all of it is whole."""

from __future__ import annotations

import hashlib
import sqlite3
from contextlib import closing
from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.store.schema import RECORDED

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

FILE = "collection.sqlite"


class State(Struct, frozen=True):
    """The rows of a collection, what was done and what was undone, each as a digest."""

    rows: str
    done: str
    undone: str

    def said(self) -> list[str]:
        """Give it as JSON can hold it."""
        return [self.rows, self.done, self.undone]


def state_of(connection: sqlite3.Connection) -> State:
    """Read the state by a connection, whatever it can see."""
    rows = hashlib.sha256()
    for name in sorted(RECORDED):
        rows.update(f"[{name}]".encode())
        for row in connection.execute(f"SELECT * FROM {name} ORDER BY id"):  # noqa: S608
            rows.update(repr(tuple(row)).encode())
    done, undone = hashlib.sha256(), hashlib.sha256()
    actions = connection.execute("SELECT id, title, undone FROM action ORDER BY id")
    for number, title, was_undone in actions:
        (undone if was_undone else done).update(f"{number}:{title}\n".encode())
    return State(rows.hexdigest(), done.hexdigest(), undone.hexdigest())


def state(folder: Path) -> State:
    """Read the state of a folder's file, as any other program would."""
    with closing(_opened(folder / FILE)) as connection:
        return state_of(connection)


def dump(path: Path) -> str:
    """Give a digest of everything in a database, its form included."""
    digest = hashlib.sha256()
    with closing(_opened(path)) as connection:
        for line in connection.iterdump():
            digest.update(line.encode())
        for name in ("user_version", "application_id"):
            found = connection.execute(f"PRAGMA {name}").fetchone()
            digest.update(repr(found).encode())
    return digest.hexdigest()


def wrongs(folder: Path) -> Iterator[str]:
    """Give a line for all that is not whole in a closed collection's folder."""
    yield from database_wrongs(folder / FILE)
    yield from photo_wrongs(folder)
    for part in sorted(folder.rglob("*.part*")):
        yield f"left behind: {part.relative_to(folder)}"


def database_wrongs(path: Path) -> Iterator[str]:
    """Give a line for all that SQLite finds wrong with a file."""
    with closing(_opened(path)) as connection:
        for (line,) in connection.execute("PRAGMA integrity_check"):
            if line != "ok":
                yield f"integrity: {line}"
        for row in connection.execute("PRAGMA foreign_key_check"):
            yield f"foreign key: {row}"


def photo_wrongs(folder: Path) -> Iterator[str]:
    """Give a line for each photo on record without its file, or not what it was."""
    with closing(_opened(folder / FILE)) as connection:
        rows = connection.execute("SELECT sha256, ext FROM photo").fetchall()
    whole = set()
    for path in sorted((folder / "photos").glob("*/*")):
        digest = hashlib.sha256(path.read_bytes()).hexdigest()
        if path.suffix == ".part":
            continue
        if digest != path.stem:
            yield f"photo is not what it was: {path.name}"
        whole.add(path.name)
    for sha256, ext in rows:
        if f"{sha256}.{ext}" not in whole:
            yield f"photo on record without its file: {sha256}.{ext}"


def orphans(folder: Path) -> int:
    """Count the photos that lie there and are on nobody's record."""
    with closing(_opened(folder / FILE)) as connection:
        rows = connection.execute("SELECT sha256, ext FROM photo").fetchall()
    known = {f"{sha256}.{ext}" for sha256, ext in rows}
    there = {path.name for path in (folder / "photos").glob("*/*")}
    return len(there - known)


def _opened(path: Path) -> sqlite3.Connection:
    return sqlite3.connect(f"{path.absolute().as_uri()}?mode=rw", uri=True)
