"""A collection with a past to restore into, what it holds as digests, and bad luck.

Bad luck is counted in operations: the n-th one on a file fails, or the program is
killed before it. Python's own audit events tell of them, so that nothing is left out
that the program asks of the system itself; fsync has no event and is wrapped.
"""

from __future__ import annotations

import hashlib
import os
import shutil
import signal
import sqlite3
import sys
from contextlib import closing, contextmanager
from dataclasses import dataclass, field
from datetime import UTC, date, datetime
from typing import TYPE_CHECKING, Any

from PIL import Image

from growdesk.services import backups
from growdesk.services.backup_values import Why
from growdesk.services.care_of_files import backup_folder
from growdesk.services.clock import FixedClock
from growdesk.services.collection import Collection
from growdesk.services.values import PlantDraft

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

NOW = datetime(2026, 3, 28, 10, 15, 30, tzinfo=UTC)
CLOCK = FixedClock(date(2026, 3, 28))
TOLD = "Brought back from the backup of "
_CHANGING = {
    "os.rename",
    "os.mkdir",
    "os.link",
    "os.remove",
    "os.rmdir",
    "sqlite3.connect",
    "fcntl.flock",
}


def lay(root: Path) -> Path:
    """Lay a collection of three plants, kept while it had two, and a zip of then."""
    home = root / "mine"
    pictures = []
    for number in range(2):
        picture = root / f"{number}.jpg"
        Image.new("RGB", (40, 30), (20, 120, 60 + 90 * number)).save(picture)
        pictures.append(picture)
    with closing(Collection.open(home, CLOCK, create=True)) as collection:
        first = collection.plants.add(PlantDraft("A1", "Cattleya hybrid", "cattleya"))
        collection.plants.add(PlantDraft("A2", "Vanda hybrid", "vanda"))
        collection.photos.add(first.ids[0], pictures[:1])
        backups.make(home, Why.BY_HAND, NOW)
        backup_folder(home, root / "orchids.zip", NOW)
        collection.plants.add(PlantDraft("A9", "Too late", ""))
        collection.photos.add(first.ids[0], pictures[1:])
    return home


def kept_in(home: Path) -> Path:
    """Give the folder of the one backup made by hand."""
    (found,) = (home / "backups").glob("*-by-hand")
    return found


def rows_of(database: Path, but: tuple[str, ...] = ()) -> str:
    """Give a digest of all rows of all tables but some, as SQLite reads them.

    The line of the history that tells of a restore is left out.
    """
    digest = hashlib.sha256()
    with closing(sqlite3.connect(f"{database.as_uri()}?mode=ro", uri=True)) as read:
        tables = read.execute(
            "SELECT name FROM sqlite_schema WHERE type = 'table' ORDER BY name"
        ).fetchall()
        for table in (each[0] for each in tables if each[0] not in but):
            digest.update(table.encode())
            rows = read.execute(f'SELECT * FROM "{table}"')  # noqa: S608 -- its own
            for row in sorted(rows, key=repr):
                if table == "action" and any(str(e).startswith(TOLD) for e in row):
                    continue
                digest.update(repr(row).encode())
    return digest.hexdigest()


def photos_of(folder: Path) -> dict[str, str]:
    """Give the SHA-256 of all photos by their names."""
    return {
        path.name: hashlib.sha256(path.read_bytes()).hexdigest()
        for path in (folder / "photos").glob("*/*")
    }


def state_of(folder: Path) -> tuple[str, tuple[str, ...]]:
    """Give what a collection holds: a digest of its rows, and its photos."""
    photos = photos_of(folder)
    assert all(name.split(".")[0] == sha256 for name, sha256 in photos.items())
    return rows_of(folder / "collection.sqlite"), tuple(sorted(photos))


@dataclass
class BadLuck:
    """What meets the n-th operation on a file; ``met`` counts them.

    Reading below ``unplugged`` counts too.
    """

    at: int = 0
    meet: Callable[[str], None] = lambda _what: None
    unplugged: str = "\0"
    met: int = 0
    armed: bool = False
    whats: list[str] = field(default_factory=list)

    def come(self, what: str) -> None:
        """Count one operation, and strike where it is the one."""
        self.met += 1
        self.whats.append(what)
        if self.met == self.at:
            self.armed = False
            self.meet(what)


_luck = BadLuck()
_fsync = os.fsync


def _watch(event: str, given: tuple[object, ...]) -> None:
    if not _luck.armed:
        return
    if event == "open":
        path, _mode, flags = given
        writes = isinstance(flags, int) and flags & (os.O_WRONLY | os.O_RDWR)
        if writes or str(path).startswith(_luck.unplugged):
            _luck.come(f"open {path}")
    elif event in _CHANGING:
        _luck.come(f"{event} {given[0]}")


def _watched_fsync(descriptor: Any) -> None:
    if _luck.armed:
        _luck.come("fsync")
    _fsync(descriptor)


sys.addaudithook(_watch)


@contextmanager
def bad_luck(
    at: int, meet: Callable[[str], None], unplugged: Path
) -> Iterator[BadLuck]:
    """Let something happen at the n-th operation inside the block."""
    global _luck  # noqa: PLW0603 -- an audit hook stays for good, and asks this one
    _luck = BadLuck(at, meet, str(unplugged), armed=True)
    setattr(os, "fsync", _watched_fsync)  # noqa: B010 -- its type names its argument
    try:
        yield _luck
    finally:
        _luck.armed = False
        os.fsync = _fsync


def fail_with(number: int) -> Callable[[str], None]:
    """Give bad luck that fails as the system would, by its number."""

    def fail(what: str) -> None:
        raise OSError(number, os.strerror(number), what.partition(" ")[2])

    return fail


def die(_what: str) -> None:
    """Be killed, as by power or by hand."""
    os.kill(os.getpid(), signal.SIGKILL)


def killed(work: Callable[[], object]) -> bool:
    """Do work in a process of its own; tell whether it was killed."""
    child = os.fork()
    if not child:
        code = 1
        try:
            work()
            code = 0
        finally:
            os._exit(code)
    _, status = os.waitpid(child, 0)
    if os.WIFSIGNALED(status):
        return True
    assert os.WEXITSTATUS(status) == 0
    return False


def copied(laid: Path, to: Path) -> Path:
    """Give a copy of all that was laid, afresh; hard links become files."""
    shutil.rmtree(to, ignore_errors=True)
    shutil.copytree(laid, to)
    return to
