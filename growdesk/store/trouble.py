"""One plain line for what a disk or a database can do to a collection.

Only the world's faults are turned into words. A wrong statement or a broken constraint
is a bug of ours and passes through unchanged.
"""

from __future__ import annotations

import errno
import sqlite3
from contextlib import contextmanager
from typing import TYPE_CHECKING

from sqlalchemy.exc import DBAPIError

from growdesk.domain.errors import (
    BusyError,
    DamagedError,
    FullError,
    LookOnlyError,
    StoreError,
)
from growdesk.domain.speech import mark, tr

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

_FULL = mark("The disk is full: {path}.")
_READ_ONLY = mark("{path} may not be written.")
_FULL_HINT = mark("Free some space and do it again; all before is kept.")
_WRITE_HINT = mark(
    "Copy the collection to a folder where you may write, and open it there."
)
_DISK_READ_ONLY = mark("The disk of {path} may only be read.")
_DISK = mark("The disk would not read or write {path}.")
_DISK_HINT = mark(
    "Look for room on it and for its cable, then again; all before is kept."
)
_TOO_LARGE = mark("{path} would grow larger than its disk takes in one file.")
_TOO_LARGE_HINT = mark("Copy the collection to another disk, and open it there.")
_FULL_DISK = {errno.ENOSPC, errno.EDQUOT}
_GONE = {errno.EIO, errno.ENXIO, errno.ENODEV, errno.ESTALE}
_MAY_NOT = {errno.EROFS, errno.EACCES, errno.EPERM}
_OF_THE_WORLD = _FULL_DISK | _GONE | _MAY_NOT | {errno.EFBIG, errno.ENOENT}
"""What a disk does that is full, broken, pulled out, or not to be written."""

_FAMILIES: dict[str, tuple[type[StoreError], str, str]] = {
    "SQLITE_FULL": (FullError, _FULL, _FULL_HINT),
    "SQLITE_READONLY_DBMOVED": (
        StoreError,
        mark("{path} was moved or replaced while growdesk had it open."),
        mark(
            "Put it back and do it again; or close growdesk and open the collection"
            " that is there now."
        ),
    ),
    "SQLITE_READONLY_ROLLBACK": (
        StoreError,
        mark("A program was stopped while it wrote {path}, and it has to be mended."),
        mark(
            "Copy the whole folder to where you may write, and open the collection"
            " there: that mends it."
        ),
    ),
    "SQLITE_READONLY": (LookOnlyError, _READ_ONLY, _WRITE_HINT),
    "SQLITE_PERM": (LookOnlyError, _READ_ONLY, _WRITE_HINT),
    "SQLITE_IOERR": (StoreError, _DISK, _DISK_HINT),
    "SQLITE_NOLFS": (StoreError, _TOO_LARGE, _TOO_LARGE_HINT),
    "SQLITE_INTERRUPT": (
        StoreError,
        mark("The work on {path} was stopped before it was done."),
        mark("Do it again; all before is kept."),
    ),
    "SQLITE_PROTOCOL": (
        BusyError,
        mark("Another program is busy with {path}."),
        mark("Close it, or wait a moment, and do it again."),
    ),
    "SQLITE_CANTOPEN": (
        StoreError,
        mark("{path} cannot be opened."),
        mark("Look whether the folder is still there and may be written."),
    ),
    "SQLITE_BUSY": (
        BusyError,
        mark("Another program is busy with {path}."),
        mark("Close it, or wait a moment, and do it again."),
    ),
    "SQLITE_LOCKED": (
        BusyError,
        mark("Another program is busy with {path}."),
        mark("Close it, or wait a moment, and do it again."),
    ),
    "SQLITE_CORRUPT": (
        DamagedError,
        mark("{path} is damaged."),
        mark("Bring back a backup with: growdesk restore FILE."),
    ),
    "SQLITE_FORMAT": (
        DamagedError,
        mark("{path} is damaged."),
        mark("Bring back a backup with: growdesk restore FILE."),
    ),
    "SQLITE_NOTADB": (
        DamagedError,
        mark("{path} is damaged."),
        mark("Bring back a backup with: growdesk restore FILE."),
    ),
}


def database_trouble(error: BaseException, path: Path) -> StoreError | None:
    """Give the plain line for a database error, or nothing where it is a bug."""
    origin = error.orig if isinstance(error, DBAPIError) else error
    name = getattr(origin, "sqlite_errorname", None)
    if _is_garbled(origin):
        name = "SQLITE_CORRUPT"
    elif not isinstance(origin, sqlite3.Error) or not isinstance(name, str):
        return None
    family = "_".join(name.split("_")[:2])
    found = _FAMILIES.get(name) or _FAMILIES.get(family)
    if found is None:
        return None
    kind, message, hint = found
    return kind(tr(message).format(path=path), tr(hint))


def _is_garbled(error: BaseException | None) -> bool:
    """Tell whether a text of the file, or of what SQLite says of it, is none."""
    if isinstance(error, sqlite3.OperationalError):
        return str(error).startswith("Could not decode to UTF-8")
    return isinstance(error, UnicodeDecodeError)


def file_trouble(error: OSError, path: Path | str) -> StoreError:
    """Give the plain line for a file that cannot be read or written."""
    shown = error.filename or path
    if error.errno in _FULL_DISK:
        return FullError(tr(_FULL).format(path=path), tr(_FULL_HINT))
    if error.errno == errno.EROFS:
        return LookOnlyError(tr(_DISK_READ_ONLY).format(path=shown), tr(_WRITE_HINT))
    if error.errno in {errno.EACCES, errno.EPERM}:
        return LookOnlyError(tr(_READ_ONLY).format(path=shown), tr(_WRITE_HINT))
    if error.errno in _GONE:
        return StoreError(tr(_DISK).format(path=shown), tr(_DISK_HINT))
    if error.errno == errno.EFBIG:
        return StoreError(tr(_TOO_LARGE).format(path=shown), tr(_TOO_LARGE_HINT))
    reason = error.strerror or type(error).__name__
    return StoreError(
        tr("{path} cannot be used: {reason}.").format(path=shown, reason=reason)
    )


def worlds_fault(error: OSError) -> StoreError | None:
    """Give the plain line for a fault of a disk; nothing where it may be a bug.

    Where the system names no file the line names none.
    """
    if error.errno not in _OF_THE_WORLD:
        return None
    if error.filename is not None:
        return file_trouble(error, error.filename)
    if error.errno in _FULL_DISK:
        return FullError(tr("The disk is full."), tr(_FULL_HINT))
    return StoreError(tr("The disk would not read or write."), tr(_DISK_HINT))


@contextmanager
def plainly(path: Path) -> Iterator[None]:
    """Turn the world's faults inside the block into a ``StoreError``."""
    try:
        yield
    except (DBAPIError, sqlite3.Error, UnicodeDecodeError) as error:
        told = database_trouble(error, path)
        if told is None:
            raise
        raise told from error
    except OSError as error:
        raise file_trouble(error, path) from error


def gone_folder(folder: Path) -> StoreError:
    """Give the line for a shared folder that is not there now."""
    return StoreError(
        tr("The folder of the photos, {folder}, is not there now.").format(
            folder=folder
        ),
        tr("Connect its drive, or name another with --photos FOLDER."),
    )
