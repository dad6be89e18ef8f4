"""Backs up, restores and checks a whole collection: the database and its photos.

A backup is one file, proved before it gets its name, in a folder that is there: a
stick that is not plugged in is never made up for. Checking changes nothing. How a
restore goes about it is told in ``restoring``.
"""

from __future__ import annotations

from contextlib import closing
from functools import partial
from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.domain.errors import InputError, StoreError
from growdesk.domain.speech import tr
from growdesk.services import backup_zip, photo_check
from growdesk.services.full_check import look_through
from growdesk.services.long_work import quietly
from growdesk.services.place_file import file_of, folder_there
from growdesk.services.restoring import Restored, restore
from growdesk.store.backups import copy_database
from growdesk.store.engine import connect
from growdesk.store.header import check_not_newer, read_header
from growdesk.store.migrations import SCHEMA
from growdesk.store.store import FILE_NAME, PHOTOS
from growdesk.store.trouble import plainly
from growdesk.store.whole_files import passing, whole

if TYPE_CHECKING:
    from datetime import datetime
    from pathlib import Path

    from growdesk.services.collection import Collection
    from growdesk.services.long_work import Step
    from growdesk.services.whereabouts import Where

__all__ = [
    "Backed",
    "Checked",
    "Restored",
    "backup",
    "backup_folder",
    "check",
    "restore",
]


_IN_PASSING = "growdesk-backup-"


class Backed(Struct, frozen=True):
    """A finished backup: its file, how many photos, and what was not whole."""

    file: Path
    photos: int
    problems: tuple[str, ...]


class Checked(Struct, frozen=True):
    """What looking a collection over found; sound where there are no problems."""

    plants: int
    photos: int
    problems: tuple[str, ...]


def backup(collection: Collection, file: Path, step: Step = quietly) -> Backed:
    """Write an open collection into one file."""
    at = collection.clock.now()
    return backup_folder(collection.where, file, at, step, is_open=True)


def backup_folder(
    where: Where,
    file: Path,
    made_at: datetime,
    step: Step = quietly,
    *,
    is_open: bool = False,
) -> Backed:
    """Write a collection into one file; where this program has it open, say so.

    ``step`` is told of each file three times: looked at, packed and proved. Where it
    stops the work, no file is left.
    """
    folder = folder_there(where)
    _refuse_target(folder, file)
    with (
        file_of(where, step) as path,
        plainly(file),
        passing(_IN_PASSING) as made,
    ):
        _check(path, folder, is_open=is_open)
        copied = made / FILE_NAME
        with plainly(path), closing(connect(path)) as connection:
            copy_database(connection, copied, partial(step, 0, 0))
        photos = _photo_files(folder)
        files = {backup_zip.DATABASE: copied, **photos}
        third = len(files)

        def told(before: int, done: int, of: int) -> None:
            step(before + min(done, third), 3 * third if of else 0)

        problems = _photo_problems(folder, copied, partial(told, 0))
        with whole(file) as part:
            backup_zip.pack(part, files, made_at, partial(told, third))
            backup_zip.prove(part, partial(told, 2 * third))
    return Backed(file, len(photos), problems)


def check(folder: Path) -> Checked:
    """Look a collection through: its file, its entries, its history, its photos."""
    found = look_through(folder)
    return Checked(
        found.plants, found.photos, tuple(each.sentence for each in found.damage)
    )


def _check(path: Path, folder: Path, *, is_open: bool) -> None:
    if not path.is_file():
        hint = tr("Choose the folder that holds collection.sqlite.")
        raise StoreError(
            tr("There is no collection in {folder}.").format(folder=folder), hint
        )
    if not is_open:  # reading the bytes of an open file lets go of SQLite's locks
        with plainly(path):
            check_not_newer(path, read_header(path), SCHEMA)


def _refuse_target(folder: Path, file: Path) -> None:
    """Refuse a name that would write over something, or into the collection."""
    if file.is_dir():
        hint = tr("Name the file to write, for example orchids.zip.")
        raise InputError("FILE", str(file), tr("is a folder"), hint)
    if file.resolve().is_relative_to(folder.resolve()):
        hint = tr("Choose another folder, best on another disk.")
        raise InputError("FILE", str(file), tr("lies inside the collection"), hint)
    if not file.absolute().parent.is_dir():
        hint = tr("Plug its disk in, make the folder first, or choose another.")
        raise InputError("FILE", str(file), tr("lies in no folder"), hint)
    if file.exists() and not file.is_file():
        hint = tr("Name the file to write, for example orchids.zip.")
        raise InputError("FILE", str(file), tr("is no file"), hint)
    if file.exists():
        try:
            backup_zip.read_manifest(file)
        except StoreError:
            hint = tr("Choose another name; it was left as it is.")
            raise InputError(
                "FILE", str(file), tr("is there and is no backup"), hint
            ) from None


def _photo_files(folder: Path) -> dict[str, Path]:
    """Give all photos by the name they get in a backup."""
    root = folder / PHOTOS
    found = {
        path.relative_to(folder).as_posix(): path for path in sorted(root.glob("*/*"))
    }
    return {name: at for name, at in found.items() if backup_zip.PHOTO.fullmatch(name)}


def _photo_problems(
    folder: Path, database: Path, step: Step = quietly
) -> tuple[str, ...]:
    """Give a plain line for each photo that is gone or not what it was."""
    with closing(connect(database)) as connection:
        photos = photo_check.named(connection)
    return tuple(line for _, line in photo_check.problems(folder, photos, step))
