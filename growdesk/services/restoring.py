"""Brings a collection back from a backup, into a folder of its own or a new one.

A restore never writes over a collection: all is laid beside it first, proved, and
brought to this program's form there; a backup of what is in use is kept; then the two
change places in ``store.switching``. Lines name the backup and folder that were given,
never the passing folder in between.
"""

from __future__ import annotations

import errno
import math
import os
import shutil
import sqlite3
from contextlib import ExitStack, closing, contextmanager, suppress
from pathlib import Path
from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.domain.day_words import dated_text
from growdesk.domain.errors import (
    DamagedError,
    ForeignError,
    InputError,
    StoreError,
    TooNewError,
)
from growdesk.domain.speech import fixed, tr, trn
from growdesk.services.account import account_name
from growdesk.services.backup_values import Why
from growdesk.services.backup_zip import PHOTO
from growdesk.services.long_work import quietly
from growdesk.services.restore_finding import source_of
from growdesk.services.restore_sources import place_photo
from growdesk.services.soundness import file_problems
from growdesk.services.zip_opening import ANOTHER
from growdesk.store import switching
from growdesk.store.engine import connect
from growdesk.store.form import rules_in
from growdesk.store.header import check_not_newer, read_header
from growdesk.store.journal import Stamp
from growdesk.store.lock import FolderLock
from growdesk.store.migrating import BACKUPS, bring_up_to_date
from growdesk.store.migrations import SCHEMA
from growdesk.store.noting import note_at
from growdesk.store.opening import is_ours, settle
from growdesk.store.store import FILE_NAME
from growdesk.store.trouble import plainly
from growdesk.store.whole_files import make_folder, sync_all, sync_folder

if TYPE_CHECKING:
    from collections.abc import Iterator
    from datetime import datetime

    from growdesk.services.long_work import Step
    from growdesk.services.restore_sources import Content, Source

_MAY_NOT = {errno.EROFS, errno.EACCES, errno.EPERM}
_MEGABYTE, _KILOBYTE = 1_000_000, 1_000


class Restored(Struct, frozen=True):
    """A restored collection, and where the one that was there before now lies.

    ``problems`` are plain lines on what could not be brought back with it.
    """

    folder: Path
    made_at: str
    photos: int
    set_aside: Path | None
    plants: int = 0
    problems: tuple[str, ...] = ()


def restore(
    backup: Path | str, folder: Path, now: datetime, step: Step = quietly
) -> Restored:
    """Bring a collection back from its backup into a folder that is not in use.

    ``backup`` is a file, a folder, or a day or name among the kept backups of the
    folder. Raises ``BusyError`` where another program has the collection open.
    """
    folder = folder.resolve()
    with ExitStack() as in_use, preparing(backup, folder, now, step, in_use) as ready:
        in_use.close()
        return ready.switch(now)


def restore_into(
    backup: Path | str, folder: Path, new: Path, now: datetime, step: Step = quietly
) -> Restored:
    """Bring a backup back into a new folder; the collection's own is left alone.

    A day or a name is looked for among the backups kept in ``folder``.
    """
    if new.exists() and (not new.is_dir() or any(new.iterdir())):
        hint = tr("Name a new folder, or an empty one.")
        raise InputError("--into", str(new), tr("holds something already"), hint)
    with plainly(folder), _naming(Path(backup), folder):
        source = source_of(backup, folder.resolve())
    return restore(source.path, new, now, step)


def mend(folder: Path) -> str:
    """Finish or take back what a stopped restore left; say so, or nothing."""
    with plainly(folder):
        return switching.mend(folder)


def settled(folder: Path, now: datetime) -> str:
    """Set aside what lies beside a file and is not its own; say so, or nothing."""
    with plainly(folder / FILE_NAME):
        return settle(folder, now)


@contextmanager
def preparing(
    backup: Path | str,
    folder: Path,
    now: datetime,
    step: Step = quietly,
    in_use: ExitStack | None = None,
) -> Iterator[Ready]:
    """Lay a backup beside a collection, ready to change places with it.

    All is gone again afterwards unless it was switched. The collection may be open in
    this program; else ``in_use`` is handed what keeps other programs out of it.
    """
    folder = folder.resolve()
    with plainly(folder), _naming(Path(backup), folder):
        source = source_of(backup, folder)
    with plainly(folder), _naming(source.path, folder):
        mended = switching.mend(folder)
        _refuse_strange(folder, may_be_open=in_use is None)
        if in_use is not None and (folder / FILE_NAME).exists():
            in_use.callback(FolderLock(folder).release)
            with suppress(StoreError):  # what stays beside it is set aside with it
                settle(folder, now, is_locked=True)
        make_folder(folder.parent)
        _refuse_too_large(source, folder.parent)
        with switching.passing(folder) as new:
            content = source.lay(new, step)
            _refuse_damaged(new / FILE_NAME, source.path, content)
            _bring_up_to_date(new, now)
            _note(new, content, now)
            missing = _missing_photos(new, content)
            _sync(new)
            step(0, 0)
            no_backup = _keep_what_is_there(folder, now, step)
            said = *((mended,) if mended else ()), *missing, *no_backup
            yield Ready(new, folder, content, said)


class Ready(Struct, frozen=True):
    """A proved collection beside the one in use."""

    new: Path
    folder: Path
    content: Content
    problems: tuple[str, ...]

    def switch(self, now: datetime) -> Restored:
        """Let it change places with the collection there, which must not be open."""
        photos = sum(1 for _ in (self.new / "photos").glob("*/*"))
        plants = _count(self.new / FILE_NAME, "SELECT count(*) FROM plant")
        with plainly(self.folder):
            done = switching.switch(self.new, self.folder, now)
        return Restored(
            self.folder,
            self.content.made_at.isoformat(timespec="seconds"),
            photos,
            done.aside,
            plants,
            self.problems,
        )


def _missing_photos(new: Path, content: Content) -> tuple[str, ...]:
    """Look for photos that the records name and that are not there; tell of them."""
    with closing(connect(new / FILE_NAME)) as connection:
        rows = connection.execute(
            "SELECT plant.tag, photo.sha256, photo.ext FROM photo"
            " JOIN plant ON plant.id = photo.plant_id ORDER BY plant.tag, photo.id"
        ).fetchall()
    found = []
    for tag, sha256, ext in rows:
        name = f"photos/{sha256[:2]}/{sha256}.{ext}"
        if not PHOTO.fullmatch(name):
            continue  # told by a check of the collection
        files = (pool / sha256[:2] / f"{sha256}.{ext}" for pool in content.pools)
        if not place_photo(files, new, name):
            found.append(str(tag))
    if not found:
        return ()
    return (
        trn(
            "A photo of plant {tags} is not in the backup, or damaged in it.",
            "{count} photos are not in the backup, or damaged in it; they are of the"
            " plants {tags}.",
            len(found),
        ).format(count=len(found), tags=", ".join(dict.fromkeys(found))),
    )


def _bring_up_to_date(new: Path, now: datetime) -> None:
    """Bring an older backup to this program's form, where nothing hangs on it yet."""
    try:
        bring_up_to_date(new / FILE_NAME, now)
    except StoreError as error:
        raise StoreError(error.message, tr(ANOTHER)) from error
    shutil.rmtree(new / BACKUPS, ignore_errors=True)


def _note(new: Path, content: Content, now: datetime) -> None:
    """Let the history tell that all before it is out of a backup, and of when."""
    at = content.made_at.astimezone()
    title = tr("Brought back from the backup of {day}, {time}").format(
        day=dated_text(at.date()), time=f"{at:%H:%M}"
    )
    note_at(new / FILE_NAME, title, Stamp(int(now.timestamp()), account_name()))


def _keep_what_is_there(folder: Path, now: datetime, step: Step) -> tuple[str, ...]:
    """Keep a backup of what is in use; say so where none can be made of it."""
    if not (folder / FILE_NAME).exists():
        return ()
    from growdesk.services import backups  # noqa: PLC0415 -- only where one is replaced

    try:
        backups.make(folder, Why.BEFORE_RESTORE, now, step)
    except StoreError as error:
        no_backup = tr(
            "So no backup of the collection that was there could be made; it is set"
            " aside whole."
        )
        return (f"{error.message} {no_backup}",)
    return ()


def _sync(new: Path) -> None:
    """Bring all files and folders of a new collection to the disk."""
    sync_all(new)
    sync_folder(new.parent)


@contextmanager
def _naming(backup: Path, folder: Path) -> Iterator[None]:
    """Let a disk's fault name the backup or the folder, whatever path it met."""
    try:
        yield
    except OSError as error:
        met = str(error.filename or "")
        if met == str(backup) or met.startswith(f"{backup}{os.sep}"):
            reason = error.strerror or type(error).__name__
            hint = tr("Check whether you may read it.")
            raise InputError(
                "FILE",
                str(backup),
                tr("cannot be read ({reason})").format(reason=reason),
                hint,
            ) from error
        if error.errno in _MAY_NOT:
            raise StoreError(
                tr("{parent} may not be written.").format(parent=folder.parent),
                tr("Choose another folder with --collection DIR."),
            ) from error
        raise OSError(error.errno, error.strerror, str(folder)) from error
    except StoreError as error:
        said = switching.unpassed(error.message, folder)
        if said == error.message:
            raise
        raise type(error)(said, switching.unpassed(error.hint, folder)) from error


def _refuse_strange(folder: Path, *, may_be_open: bool) -> None:
    """Refuse to set aside a folder that holds anything but a collection.

    The bytes of a file that is open here are not read: that lets go of SQLite's locks.
    """
    if not folder.exists():
        return
    names = [found.name for found in folder.iterdir()] if folder.is_dir() else ["it"]
    strange = [
        name
        for name in sorted(names)
        if not is_ours(name) and not name.startswith(FILE_NAME)
    ]
    if strange:
        raise ForeignError(
            tr(
                "{folder} holds something that is no growdesk collection ({strange})."
            ).format(folder=folder, strange=strange[0]),
            tr("Move that elsewhere first; then bring the backup back once more."),
        )
    path = folder / FILE_NAME
    if path.exists() and not may_be_open:
        with suppress(DamagedError):
            read_header(path)


def _refuse_too_large(source: Source, parent: Path) -> None:
    needed = source.needs_bytes()
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


def _refuse_damaged(path: Path, backup: Path, content: Content) -> None:
    """Refuse records that are damaged, foreign, newer, or not all that were kept."""
    try:
        check_not_newer(path, read_header(path), SCHEMA)
        with closing(connect(path)) as connection:
            problems = rules_in(connection) or file_problems(connection)
            problems = problems or _lost_rows(connection, content)
    except TooNewError as error:
        message = tr("{file} was made by a newer growdesk.").format(file=backup)
        raise TooNewError(message, tr("Restore it with that one.")) from error
    except (StoreError, sqlite3.DatabaseError) as error:
        message = tr("{file} holds something that is no growdesk collection.").format(
            file=backup
        )
        raise DamagedError(message, tr(ANOTHER)) from error
    if problems:
        raise DamagedError(
            tr("{file} holds a damaged collection.").format(file=backup), tr(ANOTHER)
        )


def _lost_rows(connection: sqlite3.Connection, content: Content) -> list[str]:
    """Give the tables that do not hold as many rows as the backup vouches for."""
    tables = [
        row[0]
        for row in connection.execute(
            "SELECT name FROM sqlite_schema WHERE type = 'table'"
        )
    ]
    return [
        name
        for name, rows in content.rows.items()
        if name not in tables
        or connection.execute(f'SELECT count(*) FROM "{name}"').fetchone()[0] != rows  # noqa: S608 -- a table of it
    ]


def _count(path: Path, query: str) -> int:
    with closing(connect(path, reading=True)) as connection:
        return int(connection.execute(query).fetchone()[0])
