"""Write what went wrong into a log that holds nothing a grower typed.

A line is words of the code, and numbers; a fault is its kind and where it rose. What an
exception says is left out, since it may repeat a name, a note or a folder. The log is
turned over at a megabyte, also where two programs write it; a log that cannot be
written stops nothing.
"""

from __future__ import annotations

import logging
import os
import platform
import sqlite3
import sys
import time
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Final

from typing_extensions import override

import growdesk
from growdesk import __version__
from growdesk.domain.errors import GrowdeskError, InputError

if TYPE_CHECKING:
    from collections.abc import Iterator
    from types import TracebackType

NAME: Final = "growdesk.log"
MOST_BYTES: Final = 1_000_000
KEPT: Final = 3
_LOCK: Final = "growdesk.log.turning"
_STALE_S: Final = 10.0
_LINKS: Final = 5
_FRAMES: Final = 30
_PACKAGE: Final = Path(growdesk.__file__).parent

log = logging.getLogger("growdesk")


class Key(str):
    """A word that stands in the code, and so may stand in the log."""

    __slots__ = ()


def folder() -> Path:
    """Give the platform's folder for logs."""
    import platformdirs  # noqa: PLC0415 -- for a fault, or the window

    return Path(platformdirs.user_log_path("growdesk", appauthor=False))


def start() -> Path | None:
    """Begin to write what goes wrong; nothing where the folder does not let us."""
    kept = next((each for each in log.handlers if isinstance(each, LogFile)), None)
    try:
        path = folder() / NAME
        path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        if kept is not None and kept.path == path:
            return path
        made = LogFile(path)
        made.write("")
    except OSError:
        return None
    if kept is not None:
        log.removeHandler(kept)
    log.addHandler(made)
    log.setLevel(logging.INFO)
    log.info(
        "started: growdesk %s, Python %s, SQLite %s, %s %s %s",
        Key(__version__),
        Key(platform.python_version()),
        Key(sqlite3.sqlite_version),
        Key(platform.system()),
        Key(platform.release()),
        Key(platform.machine()),
    )
    return path


def stop() -> None:
    """Write no more."""
    for each in [each for each in log.handlers if isinstance(each, LogFile)]:
        log.removeHandler(each)


def keep_fault(error: BaseException) -> Path | None:
    """Write a fault that ends the program; give the log, or nothing if it failed."""
    path = start()
    written = [each for each in log.handlers if isinstance(each, LogFile)]
    log.error("stopped by a fault of its own", exc_info=error)
    return path if path is not None and all(each.is_well for each in written) else None


def last_lines(count: int) -> tuple[str, ...]:
    """Give the last lines of the log, the newest last; none where it cannot be read."""
    found: list[str] = []
    for number in range(KEPT + 1):
        try:
            path = _numbered(folder() / NAME, number)
            text = path.read_text(encoding="utf-8", errors="replace")
        except OSError:
            continue
        found = [*text.splitlines(), *found]
        if len(found) >= count:
            break
    return tuple(found[-count:])


def place_of(trace: TracebackType | None) -> str:
    """Give where a fault rose: the last place of ours, else the last there is."""
    places = list(_places(trace))
    ours = [place for place in places if place.startswith("growdesk/")]
    return (ours or places or ["nowhere"])[-1]


def told_fault(error: BaseException) -> str:
    """Give a fault in lines: each kind in its chain, and where it rose."""
    lines: list[str] = []
    now: BaseException | None = error
    for link in range(_LINKS):
        if now is None:
            break
        lines.append(f"  {'because of ' if link else ''}{_kind(now)}")
        lines += (
            f"    {place}" for place in list(_places(now.__traceback__))[-_FRAMES:]
        )
        now = now.__cause__ or (None if now.__suppress_context__ else now.__context__)
    return "\n".join(lines)


class LogFile(logging.Handler):
    """Appends lines to the log; the same fault is told whole once, then counted."""

    def __init__(self, path: Path) -> None:
        super().__init__(logging.INFO)
        self.path = path
        self.is_well = True
        self._seen: dict[str, int] = {}

    @override
    def emit(self, record: logging.LogRecord) -> None:
        """Write a record, without what it may carry of the grower's."""
        try:
            text = self._text(record)
            if text:
                self.write(text)
        except Exception:  # noqa: BLE001 -- a log that fails must stop nothing
            self.is_well = False

    def write(self, text: str) -> None:
        """Append text as it stands; raises ``OSError``."""
        data = text.encode("utf-8", "backslashreplace")
        if self._size() + len(data) > MOST_BYTES:
            self._turn()
        way = os.O_WRONLY | os.O_APPEND | os.O_CREAT
        descriptor = os.open(self.path, way, 0o600)
        try:
            os.write(descriptor, data)
        finally:
            os.close(descriptor)

    def _text(self, record: logging.LogRecord) -> str:
        error = record.exc_info[1] if record.exc_info else None
        line = f"{_instant(record.created)} {record.levelname} {record.name}: "
        line += _said(record)
        if error is None:
            return f"{line}\n"
        place = f"{type(error).__name__} {place_of(error.__traceback__)}"
        times = self._seen[place] = self._seen.get(place, 0) + 1
        if times == 1:
            return f"{line}\n{told_fault(error)}\n"
        if str(times).strip("0") == "1":
            return f"{line}, for the {times}th time: {place}\n"
        return ""

    def _size(self) -> int:
        try:
            return self.path.stat().st_size
        except OSError:
            return 0

    def _turn(self) -> None:
        """Give the logs their next numbers, unless another program is at it."""
        lock = self.path.with_name(_LOCK)
        try:
            os.close(os.open(lock, os.O_CREAT | os.O_EXCL, 0o600))
        except FileExistsError:
            if time.time() - lock.stat().st_mtime > _STALE_S:
                lock.unlink(missing_ok=True)
            return
        try:
            if self._size() > MOST_BYTES // 2:
                for number in range(KEPT, 0, -1):
                    older = _numbered(self.path, number - 1)
                    if older.exists():
                        older.replace(_numbered(self.path, number))
        finally:
            lock.unlink(missing_ok=True)


def _numbered(path: Path, number: int) -> Path:
    return path.with_name(f"{path.name}.{number}") if number else path


def _instant(at: float) -> str:
    return datetime.fromtimestamp(at, tz=UTC).strftime("%Y-%m-%dT%H:%M:%SZ")


def _said(record: logging.LogRecord) -> str:
    """Give a record's words; what is neither number nor key becomes its type."""
    args = record.args if isinstance(record.args, tuple) else ()
    try:
        said = str(record.msg) % tuple(map(_harmless, args))
    except (TypeError, ValueError):
        said = str(record.msg)
    return " ".join(said.split())


def _harmless(value: object) -> object:
    harmless = isinstance(value, Key | int | float)
    return value if harmless else f"<{type(value).__name__}>"


def _kind(error: BaseException) -> str:
    """Give an exception's kind, and of what it says only names of the code's own."""
    kind = type(error).__name__
    if isinstance(error, InputError):
        field = error.field if error.field in _columns() else "a field"
        return f"{kind} of {field}, a {type(error.value).__name__}"
    if isinstance(error, GrowdeskError):
        return f"{kind} {error.reference}"
    if sign := _sign(getattr(error, "orig", error)):
        return f"{kind} {sign}"
    if isinstance(error, OSError):
        return f"{kind} {error.errno}"
    if isinstance(error, AttributeError | NameError) and _is_of_code(error):
        return f"{kind} {error.name}"
    return kind


def _sign(origin: object) -> str:
    """Give what a database names its fault by; nothing of what is no such fault."""
    if isinstance(origin, sqlite3.Error):
        return str(getattr(origin, "sqlite_errorname", type(origin).__name__))
    signs = getattr(origin, "sqlstate", None)
    return signs if isinstance(signs, str) else ""


def _columns() -> frozenset[str]:
    """Give the names of all columns, where the store is loaded."""
    schema = sys.modules.get("growdesk.store.schema")
    tables = schema.Base.metadata.tables.values() if schema is not None else ()
    return frozenset(column.name for table in tables for column in table.columns)


def _is_of_code(error: AttributeError | NameError) -> bool:
    """Tell whether the name that was missed stands in the code that missed it."""
    trace = error.__traceback__
    while trace is not None and trace.tb_next is not None:
        trace = trace.tb_next
    return trace is not None and error.name in trace.tb_frame.f_code.co_names


def _places(trace: TracebackType | None) -> Iterator[str]:
    while trace is not None:
        code = trace.tb_frame.f_code
        yield f"{inside(code.co_filename)}:{trace.tb_lineno} {code.co_qualname}"
        trace = trace.tb_next


def inside(file: str) -> str:
    """Give a file of code without where it is installed."""
    path = Path(file)
    if path.is_relative_to(_PACKAGE):
        return path.relative_to(_PACKAGE.parent).as_posix()
    if path.parts[:1] == (_PACKAGE.name,):  # as a frozen program names them
        return path.as_posix()
    if "site-packages" in path.parts:
        at = len(path.parts) - path.parts[::-1].index("site-packages")
        return "/".join(path.parts[at:])
    return path.name
