"""Backs up, restores and checks a whole collection: the database and its photos.

A backup is one file, proved before it gets its name. A restore never writes over a
collection: the one that was there is set aside whole. Checking changes nothing.
"""

from __future__ import annotations

import shutil
import tempfile
from contextlib import closing, suppress
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from growdesk.domain.errors import DamagedError, ForeignError, InputError, StoreError
from growdesk.services import backup_zip
from growdesk.store.backups import copy_database
from growdesk.store.engine import connect
from growdesk.store.header import check_not_newer, read_header
from growdesk.store.lock import LOCK_NAME, FolderLock
from growdesk.store.migrating import BACKUPS
from growdesk.store.migrations import SCHEMA
from growdesk.store.store import FILE_NAME, PHOTOS, THUMBNAILS
from growdesk.store.trouble import plainly
from growdesk.store.whole_files import sync_file, sync_folder, whole

if TYPE_CHECKING:
    import sqlite3
    from datetime import datetime

    from growdesk.services.collection import Collection

_ROWS_NAMED = 5
_OURS = {LOCK_NAME, PHOTOS, THUMBNAILS, BACKUPS}


@dataclass(frozen=True, slots=True)
class Backed:
    """A finished backup: its file, how many photos, and what was not whole."""

    file: Path
    photos: int
    problems: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Restored:
    """A restored collection, and where the one that was there before now lies."""

    folder: Path
    made_at: str
    photos: int
    set_aside: Path | None


@dataclass(frozen=True, slots=True)
class Checked:
    """What looking a collection over found; sound where there are no problems."""

    plants: int
    photos: int
    problems: tuple[str, ...]


def backup(collection: Collection, file: Path) -> Backed:
    """Write an open collection into one file."""
    return backup_folder(collection.folder, file, collection.clock.now())


def backup_folder(folder: Path, file: Path, made_at: datetime) -> Backed:
    """Write a collection into one file, even while a window has it open."""
    path = _database(folder)
    _refuse_target(folder, file)
    with plainly(file), tempfile.TemporaryDirectory(prefix="growdesk-") as made:
        copied = Path(made) / FILE_NAME
        with plainly(path), closing(connect(path)) as connection:
            copy_database(connection, copied)
        problems = _photo_problems(folder, copied)
        photos = _photo_files(folder)
        with whole(file) as part:
            backup_zip.pack(part, {backup_zip.DATABASE: copied, **photos}, made_at)
            backup_zip.prove(part)
    return Backed(file, len(photos), problems)


def restore(file: Path, folder: Path, now: datetime) -> Restored:
    """Bring a collection back from its backup into a folder."""
    if not file.is_file():
        raise InputError("FILE", str(file), "is not there", "Check its name.")
    folder = folder.absolute()
    with plainly(folder):
        _refuse_strange(folder)
        folder.parent.mkdir(parents=True, exist_ok=True)
        _refuse_too_large(file, folder.parent)
        with tempfile.TemporaryDirectory(
            prefix=f".{folder.name}-restoring-", dir=folder.parent
        ) as made:
            unpacked = Path(made) / folder.name
            unpacked.mkdir()
            manifest = backup_zip.unpack(file, unpacked)
            for path in unpacked.rglob("*.*"):
                sync_file(path)
            _refuse_damaged(unpacked / FILE_NAME, file)
            set_aside = _set_aside(folder, now)
            _put(unpacked, folder, set_aside)
        sync_folder(folder.parent)
    photos = len(manifest.entries) - 1
    return Restored(folder, manifest.made_at, photos, set_aside)


def check(folder: Path) -> Checked:
    """Look a collection over: its database, its rows, its photos."""
    path = _database(folder)
    with plainly(path), closing(connect(path)) as connection:
        problems = [*_integrity(connection), *_orphans(connection)]
        if problems:
            return Checked(0, 0, tuple(problems))
        plants = _count(connection, "SELECT count(*) FROM plant")
        photos = _count(connection, "SELECT count(*) FROM photo")
    return Checked(plants, photos, _photo_problems(folder, path))


def _database(folder: Path) -> Path:
    path = folder / FILE_NAME
    if not path.is_file():
        hint = "Choose the folder that holds collection.sqlite."
        raise StoreError(f"There is no collection in {folder}.", hint)
    with plainly(path):
        check_not_newer(path, read_header(path), SCHEMA)
    return path


def _refuse_target(folder: Path, file: Path) -> None:
    """Refuse a name that would write over something, or into the collection."""
    if file.is_dir():
        hint = "Name the file to write, for example orchids.zip."
        raise InputError("FILE", str(file), "is a folder", hint)
    if file.absolute().is_relative_to(folder.absolute()):
        hint = "Choose another folder, best on another disk."
        raise InputError("FILE", str(file), "lies inside the collection", hint)
    if file.exists():
        try:
            backup_zip.read_manifest(file)
        except StoreError:
            hint = "Choose another name; it was left as it is."
            raise InputError(
                "FILE", str(file), "is there and is no backup", hint
            ) from None


def _photo_files(folder: Path) -> dict[str, Path]:
    """Give all photos by the name they get in a backup."""
    root = folder / PHOTOS
    found = {
        path.relative_to(folder).as_posix(): path for path in sorted(root.glob("*/*"))
    }
    return {name: at for name, at in found.items() if backup_zip.PHOTO.fullmatch(name)}


def _photo_problems(folder: Path, database: Path) -> tuple[str, ...]:
    """Give a plain line for each photo that is gone or not what it was."""
    with closing(connect(database)) as connection:
        rows = connection.execute(
            "SELECT plant.tag, photo.sha256, photo.ext FROM photo"
            " JOIN plant ON plant.id = photo.plant_id ORDER BY plant.tag, photo.id"
        ).fetchall()
    found = (_photo_problem(folder, *row) for row in rows)
    return tuple(problem for problem in found if problem)


def _photo_problem(folder: Path, tag: str, sha256: str, ext: str) -> str:
    path = folder / PHOTOS / sha256[:2] / f"{sha256}.{ext}"
    if not path.is_file():
        return f"A photo of plant {tag} is gone: {path}."
    if backup_zip.sha256_of(path) != sha256:
        return f"A photo of plant {tag} is damaged: {path}."
    return ""


def _integrity(connection: sqlite3.Connection) -> list[str]:
    rows = connection.execute(f"PRAGMA integrity_check({_ROWS_NAMED})").fetchall()
    return [f"The database is damaged: {row[0]}." for row in rows if row[0] != "ok"]


def _orphans(connection: sqlite3.Connection) -> list[str]:
    rows = connection.execute("PRAGMA foreign_key_check").fetchall()
    return [
        f"Row {row_id} of {table} points at a {parent} that is not there."
        for table, row_id, parent, _ in rows[:_ROWS_NAMED]
    ]


def _count(connection: sqlite3.Connection, query: str) -> int:
    return int(connection.execute(query).fetchone()[0])


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
            f"{folder} holds something that is no growdesk collection ({strange[0]}).",
            "Choose an empty folder, or a new one, with --collection DIR.",
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
            f"The disk of {parent} has too little room: the backup needs "
            f"{needed / 1e6:.0f} MB and {free / 1e6:.0f} MB are free.",
            "Free some space, or choose another folder with --collection DIR.",
        )


def _refuse_damaged(path: Path, file: Path) -> None:
    check_not_newer(path, read_header(path), SCHEMA)
    with closing(connect(path)) as connection:
        problems = [*_integrity(connection), *_orphans(connection)]
    if problems:
        hint = "Bring back another backup; the collection was left as it is."
        raise DamagedError(f"{file} holds a damaged collection.", hint)


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
