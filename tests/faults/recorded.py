"""What a program does to the files below a folder, recorded in order.

A database is opened by a VFS of apsw, so that each write and sync of SQLite is an
event; the program's own connect function and statements run over it unchanged. Other
files are heard of by Python's audit events, and their content is read whenever
something else happens. Nothing is really synced. Audit hooks stay for good: record in a
process of its own.
"""

from __future__ import annotations

import os
import sqlite3
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any

import apsw
from typing_extensions import override

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence

    from tests.faults.disk import Event

_WRITES = os.O_WRONLY | os.O_RDWR | os.O_CREAT | os.O_TRUNC
_JOURNALS = (
    apsw.SQLITE_OPEN_MAIN_JOURNAL
    | apsw.SQLITE_OPEN_SUPER_JOURNAL
    | apsw.SQLITE_OPEN_WAL
)


class Recorder:
    """The events of one process, from when it is made; ``root`` must be empty."""

    def __init__(self, root: Path) -> None:
        self.root = root.resolve()
        self.events: list[Event] = []
        self.is_on = True
        self._known: dict[str, bytes] = {}
        self._ours: set[str] = set()
        self._inside = False
        os.fsync = self._fsync  # type: ignore[assignment]
        sys.addaudithook(self._heard)
        self.vfs = _Vfs(self)

    def said(self, what: object) -> None:
        """Note that something was acknowledged."""
        self.seen()
        self.events.append(("said", what))

    def stop(self) -> None:
        """Record no more."""
        self.seen()
        self.is_on = False

    def at(self, path: object, descriptor: int = -1) -> str | None:
        """Give a path below the root as the events name it; nothing elsewhere."""
        if isinstance(path, int) or not isinstance(path, str | bytes | os.PathLike):
            return None
        given = Path(os.fsdecode(path))
        if descriptor >= 0 and not given.is_absolute():
            given = Path(os.readlink(f"/proc/self/fd/{descriptor}")) / given  # noqa: PTH115
        full = Path(os.path.abspath(given))  # noqa: PTH100 -- links stay as they are
        if full == self.root or not full.is_relative_to(self.root):
            return None
        return full.relative_to(self.root).as_posix()

    def seen(self) -> None:
        """Read what was written meanwhile to the files that Python has opened."""
        for at, known in list(self._known.items()):
            path = self.root / at
            try:
                content = _read(path)
            except OSError:
                continue
            if content != known:
                self._wrote(at, known, content)

    def adopt(self, event: Event) -> None:
        """Take an event of the database's own files."""
        if self.is_on:
            self.seen()
            self.events.append(event)

    def owns(self, at: str) -> None:
        """Leave a file to the VFS."""
        self._ours.add(at)

    def _wrote(self, at: str, known: bytes, content: bytes) -> None:
        if len(content) < len(known):
            self.events.append(("truncate", at, len(content)))
        for start in range(0, len(content), 4096):
            block = content[start : start + 4096]
            if block != known[start : start + 4096]:
                self.events.append(("write", at, start, block))
        self._known[at] = content

    def _fsync(self, descriptor: int) -> None:
        found = os.readlink(f"/proc/self/fd/{descriptor}")  # noqa: PTH115
        path = Path(found)
        is_root = path == self.root
        at = "" if is_root else self.at(found)
        if at is None or not self.is_on:
            return
        self.seen()
        self.events.append(("sync-folder" if path.is_dir() else "sync", at))

    def _heard(self, name: str, arguments: tuple[Any, ...]) -> None:
        hear = _HEARD.get(name)
        if hear is None or not self.is_on or self._inside:
            return
        self._inside = True
        try:
            hear(self, *arguments)
        finally:
            self._inside = False

    def heard_open(self, path: object, _mode: object, flags: int) -> None:
        at = self.at(path)
        if at is None or not flags & _WRITES or at in self._ours:
            return
        if (self.root / at).is_dir():
            return
        self.seen()
        if not (self.root / at).exists():
            self.events.append(("create", at))
            self._known[at] = b""
        elif flags & os.O_TRUNC:
            self.events.append(("truncate", at, 0))
            self._known[at] = b""
        else:
            self._known.setdefault(at, _read(self.root / at))

    def heard_sqlite(self, path: object) -> None:
        text = os.fsdecode(path) if isinstance(path, str | bytes | os.PathLike) else ""
        if text.startswith("file:"):
            text = text.removeprefix("file://").partition("?")[0]
        self.heard_open(text, "", os.O_RDWR | os.O_CREAT)

    def heard_rename(self, old: object, new: object, *fds: int) -> None:
        at, to = self.at(old, _fd(fds, 0)), self.at(new, _fd(fds, 1))
        if at is None or to is None or not (self.root / at).exists():
            return
        self.seen()
        self.events.append(("rename", at, to))
        for known in list(self._known):
            if known == at or known.startswith(f"{at}/"):
                del self._known[known]

    def heard_link(self, old: object, new: object, *fds: int) -> None:
        at, to = self.at(old, _fd(fds, 0)), self.at(new, _fd(fds, 1))
        if at is not None and to is not None:
            self.seen()
            self.events.append(("link", at, to))

    def heard_remove(self, path: object, *fds: int) -> None:
        at = self.at(path, _fd(fds, 0))
        if at is not None and (self.root / at).exists():
            self.seen()
            self.events.append(("remove", at))
            self._known.pop(at, None)

    def heard_mkdir(self, path: object, _mode: int, *fds: int) -> None:
        at = self.at(path, _fd(fds, 0))
        if at is None or (self.root / at).exists():
            return
        if (self.root / at).parent.is_dir():
            self.seen()
            self.events.append(("mkdir", at))


_HEARD: dict[str, Callable[..., None]] = {
    "open": Recorder.heard_open,
    "sqlite3.connect": Recorder.heard_sqlite,
    "os.rename": Recorder.heard_rename,
    "os.link": Recorder.heard_link,
    "os.remove": Recorder.heard_remove,
    "os.rmdir": Recorder.heard_remove,
    "os.mkdir": Recorder.heard_mkdir,
}


def _fd(descriptors: Sequence[int], place: int) -> int:
    return descriptors[place] if place < len(descriptors) else -1


def _read(path: Path) -> bytes:
    """Read without an audit event of ours being heard as the program's."""
    with path.open("rb") as file:
        return file.read()


class _Vfs(apsw.VFS):
    def __init__(self, recorder: Recorder) -> None:
        self._recorder = recorder
        super().__init__("recorded", base="unix")

    @override
    def xOpen(self, name: Any, flags: list[int]) -> _VfsFile:
        return _VfsFile(self._recorder, name, flags)

    @override
    def xDelete(self, filename: str, syncdir: bool) -> None:
        at = self._recorder.at(filename)
        super().xDelete(filename, syncdir)
        if at is not None:
            self._recorder.adopt(("remove", at))
            if syncdir:
                self._recorder.adopt(("sync-folder", _above(at)))


class _VfsFile(apsw.VFSFile):
    def __init__(self, recorder: Recorder, name: Any, flags: list[int]) -> None:
        path = name.filename() if isinstance(name, apsw.URIFilename) else name
        self._recorder, self._at = recorder, recorder.at(path)
        was_there = path is not None and Path(path).exists()
        super().__init__("unix", name, flags)
        self._syncs_folder = False
        if self._at is not None:
            recorder.owns(self._at)
            if not was_there:
                recorder.adopt(("create", self._at))
                self._syncs_folder = bool(flags[0] & _JOURNALS)

    @override
    def xWrite(self, data: bytes, offset: int) -> None:
        super().xWrite(data, offset)
        if self._at is not None:
            self._recorder.adopt(("write", self._at, offset, bytes(data)))

    @override
    def xTruncate(self, newsize: int) -> None:
        super().xTruncate(newsize)
        if self._at is not None:
            self._recorder.adopt(("truncate", self._at, newsize))

    @override
    def xSync(self, flags: int) -> None:
        if self._at is not None:
            self._recorder.adopt(("sync", self._at))
            if self._syncs_folder:
                self._recorder.adopt(("sync-folder", _above(self._at)))
                self._syncs_folder = False


def _above(at: str) -> str:
    return at.rpartition("/")[0]


class Cursor:
    """apsw's cursor with the manners of Python's own."""

    def __init__(self, connection: Connection) -> None:
        self._cursor = connection.real.cursor()
        self._real = connection.real
        self._cursor.exec_trace = self._traced
        self.description: Any = None
        self.rowcount, self.lastrowid, self.arraysize = -1, 0, 1

    def execute(self, statement: str, values: Any = ()) -> Cursor:
        self.description = None
        before = self._real.total_changes()
        self._cursor.execute(statement, values)
        self._told(before)
        return self

    def executemany(self, statement: str, values: Iterable[Any]) -> Cursor:
        self.description = None
        before = self._real.total_changes()
        self._cursor.executemany(statement, values)
        self._told(before)
        return self

    def fetchone(self) -> Any:
        return next(self._cursor, None)

    def fetchmany(self, size: int = 1) -> list[Any]:
        return [row for _, row in zip(range(size), self._cursor, strict=False)]

    def fetchall(self) -> list[Any]:
        return list(self._cursor)

    def __iter__(self) -> Any:
        return iter(self._cursor)

    def close(self) -> None:
        self._cursor.close()

    def _told(self, before: int) -> None:
        self.rowcount = self._real.total_changes() - before
        self.lastrowid = self._real.last_insert_rowid()

    def _traced(self, cursor: Any, _sql: str, _values: Any) -> bool:
        got = cursor.get_description()
        self.description = [(each[0], *[None] * 6) for each in got] or None
        return True


class Connection:
    """apsw's connection with the manners of Python's own."""

    def __init__(self, path: str, vfs: str, timeout_s: float) -> None:
        flags = apsw.SQLITE_OPEN_URI | apsw.SQLITE_OPEN_READWRITE
        self.real = apsw.Connection(
            path, vfs=vfs, flags=flags | apsw.SQLITE_OPEN_CREATE
        )
        self.real.set_busy_timeout(int(timeout_s * 1000))
        self.isolation_level: str | None = None

    @property
    def in_transaction(self) -> bool:
        return not self.real.get_autocommit()

    def cursor(self) -> Cursor:
        return Cursor(self)

    def execute(self, statement: str, values: Any = ()) -> Cursor:
        return self.cursor().execute(statement, values)

    def create_function(
        self, name: str, count: int, function: Any, *, deterministic: bool = False
    ) -> None:
        self.real.create_scalar_function(
            name, function, count, deterministic=deterministic
        )

    def commit(self) -> None:
        if self.in_transaction:
            self.execute("COMMIT")

    def rollback(self) -> None:
        if self.in_transaction:
            self.execute("ROLLBACK")

    def close(self) -> None:
        self.real.close()


class Driver:
    """Stands in for the module sqlite3 where a module connects by it."""

    def __init__(self, recorder: Recorder) -> None:
        self._recorder = recorder

    def __getattr__(self, name: str) -> Any:
        return getattr(sqlite3, name)

    def connect(
        self, path: Any, *, timeout: float = 5.0, **_options: object
    ) -> Connection:
        return Connection(str(path), "recorded", timeout)
