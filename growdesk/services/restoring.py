"""Brings a collection back from its backup, into a folder of its own or a new one.

A restore never writes over a collection: all is unpacked and proved beside it first,
then the one that was there is set aside whole. What a killed restore left beside the
collection is swept by the next one. Lines name the file and folder that were given,
never the passing folder in between.
"""

from __future__ import annotations

import errno
import math
import shutil
import sqlite3
import tempfile
from contextlib import closing, contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from growdesk.domain.errors import (
    DamagedError,
    ForeignError,
    InputError,
    StoreError,
    TooNewError,
)
from growdesk.domain.speech import fixed, mark, tr
from growdesk.services import backup_zip
from growdesk.services.soundness import file_problems
from growdesk.store.engine import connect
from growdesk.store.header import check_not_newer, read_header
from growdesk.store.lock import LOCK_NAME, FolderLock
from growdesk.store.migrating import BACKUPS
from growdesk.store.migrations import SCHEMA
from growdesk.store.seal import SEAL_NAME
from growdesk.store.store import FILE_NAME, PHOTOS, THUMBNAILS
from growdesk.store.trouble import plainly
from growdesk.store.whole_files import sync_file, sync_folder

if TYPE_CHECKING:
    from collections.abc import Iterator
    from datetime import datetime

_OURS = {LOCK_NAME, SEAL_NAME, PHOTOS, THUMBNAILS, BACKUPS}
_MAY_NOT = {errno.EROFS, errno.EACCES, errno.EPERM}
_ANOTHER = mark("Bring back another backup; the collection was left as it is.")
_MEGABYTE, _KILOBYTE = 1_000_000, 1_000


@dataclass(frozen=True, slots=True)
class Restored:
    """A restored collection, and where the one that was there before now lies."""

    folder: Path
    made_at: str
    photos: int
    set_aside: Path | None


def restore(file: Path, folder: Path, now: datetime) -> Restored:
    """Bring a collection back from its backup into a folder."""
    if not file.is_file():
        problem = tr("is a folder") if file.is_dir() else tr("is not there")
        raise InputError("FILE", str(file), problem, tr("Check its name."))
    folder = folder.resolve()
    with plainly(folder), _naming(file, folder):
        _refuse_strange(folder)
        folder.parent.mkdir(parents=True, exist_ok=True)
        _refuse_too_large(file, folder.parent)
        with _beside(folder) as unpacked:
            manifest = backup_zip.unpack(file, unpacked)
            for path in unpacked.rglob("*.*"):
                sync_file(path)
            _refuse_damaged(unpacked / FILE_NAME, file)
            set_aside = _set_aside(folder, now)
            _put(unpacked, folder, set_aside)
        sync_folder(folder.parent)
    photos = len(manifest.entries) - 1
    return Restored(folder, manifest.made_at, photos, set_aside)


@contextmanager
def _naming(file: Path, folder: Path) -> Iterator[None]:
    """Let a disk's fault name the backup or the folder, whatever path it met."""
    try:
        yield
    except OSError as error:
        if error.filename == str(file):
            reason = error.strerror or type(error).__name__
            hint = tr("Check whether you may read it.")
            raise InputError(
                "FILE",
                str(file),
                tr("cannot be read ({reason})").format(reason=reason),
                hint,
            ) from error
        if error.errno in _MAY_NOT:
            raise StoreError(
                tr("{parent} may not be written.").format(parent=folder.parent),
                tr("Choose another folder with --collection DIR."),
            ) from error
        raise OSError(error.errno, error.strerror, str(folder)) from error


@contextmanager
def _beside(folder: Path) -> Iterator[Path]:
    """Give a new folder beside the collection to unpack into, gone afterwards.

    It is locked while it is in use, so that another restore does not sweep it.
    """
    prefix = f".{folder.name}-restoring-"
    _sweep(folder.parent, prefix)
    with tempfile.TemporaryDirectory(prefix=prefix, dir=folder.parent) as made:
        lock = FolderLock(Path(made))
        try:
            unpacked = Path(made) / "unpacked"
            unpacked.mkdir()
            yield unpacked
        finally:
            lock.release()


def _sweep(parent: Path, prefix: str) -> None:
    """Remove what killed restores left; one that is still running holds its lock."""
    left = [path for path in parent.iterdir() if path.name.startswith(prefix)]
    for path in left:
        with suppress(StoreError):
            FolderLock(path).release()
            shutil.rmtree(path, ignore_errors=True)


def _refuse_strange(folder: Path) -> None:
    """Refuse to set aside a folder that holds anything but a collection."""
    if not folder.exists():
        return
    names = [found.name for found in folder.iterdir()] if folder.is_dir() else ["it"]
    strange = [
        name
        for name in sorted(names)
        if name not in _OURS and not name.startswith(FILE_NAME)
    ]
    if strange:
        raise ForeignError(
            tr(
                "{folder} holds something that is no growdesk collection ({strange})."
            ).format(folder=folder, strange=strange[0]),
            tr("Choose an empty folder, or a new one, with --collection DIR."),
        )
    path = folder / FILE_NAME
    if path.exists():
        with suppress(DamagedError):
            read_header(path)


def _refuse_too_large(file: Path, parent: Path) -> None:
    manifest = backup_zip.read_manifest(file)
    needed = sum(entry.length_bytes for entry in manifest.entries)
    free = shutil.disk_usage(parent).free
    if needed > free:
        raise StoreError(
            tr(
                "The disk of {parent} has too little room: the backup needs "
                "{needed} and {free} are free."
            ).format(parent=parent, needed=_size(needed), free=_size(free)),
            tr("Free some space, or choose another folder with --collection DIR."),
        )


def _size(length_bytes: int) -> str:
    """Give a size as people read it, in kB where it is below one MB."""
    if length_bytes < _MEGABYTE:
        return tr("{kilobytes} kB").format(
            kilobytes=math.ceil(length_bytes / _KILOBYTE)
        )
    return tr("{megabytes} MB").format(megabytes=fixed(length_bytes / _MEGABYTE, 0))


def _refuse_damaged(path: Path, file: Path) -> None:
    """Refuse a database that could not be opened after the restore."""
    try:
        check_not_newer(path, read_header(path), SCHEMA)
        with closing(connect(path)) as connection:
            problems = file_problems(connection)
    except TooNewError as error:
        message = tr("{file} was made by a newer growdesk.").format(file=file)
        raise TooNewError(message, tr("Restore it with that one.")) from error
    except (StoreError, sqlite3.DatabaseError) as error:
        message = tr("{file} holds a database that is no growdesk collection.").format(
            file=file
        )
        raise DamagedError(message, tr(_ANOTHER)) from error
    if problems:
        raise DamagedError(
            tr("{file} holds a damaged collection.").format(file=file), tr(_ANOTHER)
        )


def _set_aside(folder: Path, now: datetime) -> Path | None:
    """Rename the collection that is there, and give its new name."""
    if not folder.exists():
        return None
    if not any(folder.iterdir()):
        folder.rmdir()
        return None
    FolderLock(folder).release()
    stamp = now.astimezone().strftime("%Y-%m-%d-%H%M%S")
    aside = folder.with_name(f"{folder.name}-before-restore-{stamp}")
    number = 2
    while aside.exists():
        aside = aside.with_name(f"{folder.name}-before-restore-{stamp}-{number}")
        number += 1
    folder.rename(aside)
    return aside


def _put(unpacked: Path, folder: Path, set_aside: Path | None) -> None:
    """Give the unpacked collection its name, or put the old one back."""
    try:
        unpacked.rename(folder)
    except OSError:
        if set_aside is not None:
            set_aside.rename(folder)
        raise
