"""The steps of opening a collection's folder, in their order.

To write: the lock, leftovers, the header, the seal, what lies beside the file, a quick
check where the seal does not prove it whole, and only then the seal is broken and the
file may change. What may not be written is opened to look, and why is told.
"""

from __future__ import annotations

import os
import shutil
import tempfile
from contextlib import closing, suppress
from pathlib import Path
from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.domain.day_words import dated_text
from growdesk.domain.errors import (
    BusyError,
    DamagedError,
    ForeignError,
    LookOnlyError,
    NoLocksError,
    StoreError,
)
from growdesk.domain.speech import tr
from growdesk.store import beside
from growdesk.store.backup_sets import BACKUPS
from growdesk.store.backup_sets import sweep as sweep_backups
from growdesk.store.backups import quick_check
from growdesk.store.drives import drive_notice
from growdesk.store.engine import Apart, connect
from growdesk.store.folder_names import FILE_NAME, PHOTOS, THUMBNAILS
from growdesk.store.form import check_form, refuse_rules
from growdesk.store.header import RESTORE, check_not_newer, read_header
from growdesk.store.lock import LOCK_NAME, FolderLock
from growdesk.store.migrating import bring_up_to_date, create_database
from growdesk.store.migrations import SCHEMA
from growdesk.store.regular_files import leads_away
from growdesk.store.reserve import RESERVE_NAME
from growdesk.store.seal import SEAL_NAME, Seal, break_seal, read_seal
from growdesk.store.trouble import file_trouble
from growdesk.store.whole_files import PRIVATE, make_folder, sweep, whole

if TYPE_CHECKING:
    from collections.abc import Callable
    from datetime import datetime

_OURS = {
    FILE_NAME,
    f"{FILE_NAME}-journal",
    LOCK_NAME,
    SEAL_NAME,
    RESERVE_NAME,
    PHOTOS,
    THUMBNAILS,
    BACKUPS,
}


class Opened(Struct, frozen=True):
    """A file that may be opened now, how, and what is to be told about it.

    ``lock`` is held by who writes. ``looking`` says why it may only be looked at.
    ``copied`` is the copy that is read in place of a file of an older form.
    """

    path: Path
    lock: FolderLock | None = None
    looking: str = ""
    notice: str = ""
    full_check_due: bool = False
    fully_checked_at: datetime | None = None
    apart: Apart = Apart.NOT
    copied: tempfile.TemporaryDirectory[str] | None = None


def to_write(folder: Path, now: datetime, *, create: bool) -> Opened:
    """Open a folder to write, or to look at where it may not be written."""
    path = folder / FILE_NAME
    check_folder(folder, create=create)
    try:
        _refuse_unwritable(path)
        lock = FolderLock(folder)
    except LookOnlyError as error:
        if not path.exists():
            raise
        return to_look(path, error, now)
    try:
        return _locked(path, lock, now)
    except LookOnlyError as error:
        lock.release()
        if not path.exists():
            raise
        return to_look(path, error, now)
    except BaseException:
        lock.release()
        raise


def to_read(folder: Path, now: datetime, mend: Callable[[], Opened]) -> Opened:
    """Open a folder to read it, without keeping anybody else out of it.

    Only a file that must be brought up to date, or mended after a program that was
    stopped, is first opened as usual, by ``mend``.
    """
    path = folder / FILE_NAME
    check_folder(folder, create=False)
    old = read_header(path).schema < SCHEMA
    notice, apart = "", Apart.NOT
    if old or _has_beside(path):
        try:
            lock = FolderLock(folder)
        except LookOnlyError as error:
            return to_look(path, error, now)
        except StoreError:
            if old:
                raise
            lock = None
        if lock is not None:
            is_stray = bool(beside.strays(path, as_left=_as_left(path)))
            lock.release()
            if is_stray and not old:
                apart = Apart.STANDING
            else:
                mended = mend()
                if mended.looking:
                    return mended
                notice = mended.notice
    check_whole(path, reading=True, apart=apart)
    return Opened(path, notice=notice, apart=apart)


def to_look(path: Path, why: LookOnlyError, now: datetime) -> Opened:
    """Open a file that may not be written, to look at it; ``why`` is told.

    One of an older form, or of a program that was stopped, is copied, and the copy
    brought up to date and looked at.
    """
    check_not_newer(path, read_header(path), SCHEMA)
    seal = read_seal(path.parent)
    as_left = seal is not None and seal.matches(path)
    is_stray = bool(beside.strays(path, as_left=as_left))
    is_stray = is_stray or beside.is_write_ahead(path)
    apart = Apart.UNLOCKED if isinstance(why, NoLocksError) else Apart.NOT
    apart = Apart.STANDING if is_stray else apart
    notice = "" if seal is None or as_left else _changed(path, seal)
    copied = None
    if read_header(path).schema < SCHEMA or (beside.is_in_use(path) and not is_stray):
        copied = tempfile.TemporaryDirectory(prefix="growdesk-")
        path = _copied_up(path, Path(copied.name), now, with_journal=not is_stray)
        apart = Apart.NOT
    if not as_left:
        check_whole(path, reading=True, apart=apart)
    return Opened(
        path,
        looking=why.line(),
        notice=notice,
        full_check_due=bool(notice),
        apart=apart,
        copied=copied,
    )


def settle(folder: Path, now: datetime, *, is_locked: bool = False) -> str:
    """Set aside what lies beside a file and is not its own; say so, or nothing.

    For who reads the file without opening the collection. What lies beside one that
    somebody has open, or that may not be written, is left.
    """
    path = folder / FILE_NAME
    if not path.is_file() or not _has_beside(path):
        return ""
    try:
        lock = None if is_locked else FolderLock(folder)
    except (BusyError, LookOnlyError):
        return ""
    try:
        aside = beside.set_aside(beside.strays(path, as_left=_as_left(path)), now)
    finally:
        if lock is not None:
            lock.release()
    return " ".join(_set_aside(path, name) for name in aside)


def as_it_is(path: Path, why: str) -> Opened:
    """Open a file to look at, whole or not; ``why`` is told. Nothing is written."""
    is_strange = beside.is_in_use(path) or beside.is_write_ahead(path)
    apart = Apart.STANDING if is_strange else Apart.NOT
    return Opened(path, looking=why, apart=apart)


def check_folder(folder: Path, *, create: bool) -> None:
    """Refuse a folder that is none of ours, before anything in it is touched."""
    path = folder / FILE_NAME
    if leads_away(path):
        raise StoreError(
            tr("{path} is a link to another place.").format(path=path),
            tr("Open the folder that the file itself lies in."),
        )
    if path.exists():
        check_not_newer(path, read_header(path), SCHEMA)
        return
    if folder.exists() and not folder.is_dir():
        message = tr("{folder} is a file, not a folder.").format(folder=folder)
        raise ForeignError(message, tr("Choose a folder."))
    if not create:
        raise StoreError(
            tr("There is no collection in {folder}.").format(folder=folder),
            tr("Choose the folder that holds collection.sqlite."),
        )
    make_folder(folder, PRIVATE)
    strange = sorted(
        found.name for found in folder.iterdir() if not is_ours(found.name)
    )
    if strange:
        raise ForeignError(
            tr(
                "{folder} holds other files ({strange}), so no collection is made"
                " in it."
            ).format(folder=folder, strange=strange[0]),
            tr("Choose an empty folder, or a new one."),
        )
    if any((folder / PHOTOS).glob("*/*")):
        raise DamagedError(
            tr("{folder} holds photos of a collection, but {file} is gone.").format(
                folder=folder, file=FILE_NAME
            ),
            tr("Bring back a backup with: growdesk restore FILE."),
        )
    if any((folder / BACKUPS).glob(f"*/{FILE_NAME}")):
        raise DamagedError(
            tr("{folder} holds backups of a collection, but {file} is gone.").format(
                folder=folder, file=FILE_NAME
            ),
            tr("Bring back a backup with: growdesk restore FILE."),
        )


def check_whole(path: Path, *, reading: bool = False, apart: Apart = Apart.NOT) -> None:
    """Refuse a file that SQLite finds damaged or that is no form of ours."""
    with closing(connect(path, reading=reading, apart=apart)) as connection:
        quick_check(connection, path)
        page_bytes: int = connection.execute("PRAGMA page_size").fetchone()[0]
        if path.stat().st_size % page_bytes:
            message = tr("{path} is cut short.").format(path=path)
            raise DamagedError(message, tr(RESTORE))
        check_form(connection, path)


def _locked(path: Path, lock: FolderLock, now: datetime) -> Opened:
    sweep(path.parent, (PHOTOS, THUMBNAILS))
    sweep_backups(path.parent / BACKUPS)
    made = not path.exists()
    if made:
        with whole(path) as part:
            create_database(part, now)
    check_not_newer(path, read_header(path), SCHEMA)
    seal = read_seal(path.parent)
    as_left = seal is not None and seal.matches(path)
    told = [] if seal is None or as_left else [_changed(path, seal)]
    aside = beside.set_aside(beside.strays(path, as_left=as_left), now)
    told += [_set_aside(path, name) for name in aside]
    if as_left:
        with closing(connect(path, reading=True, apart=Apart.STANDING)) as connection:
            refuse_rules(connection, path)
    else:
        is_strange = beside.is_write_ahead(path)
        apart = Apart.STANDING if is_strange else Apart.NOT
        check_whole(path, reading=is_strange, apart=apart)
    break_seal(path.parent)
    bring_up_to_date(path, now)
    told.append(drive_notice(path.parent))
    checked = now if made else seal.fully_checked_at if seal and as_left else None
    due = not made and (seal is None or not as_left or seal.full_check_due(now))
    return Opened(
        path,
        lock,
        notice=" ".join(each for each in told if each),
        full_check_due=due,
        fully_checked_at=checked,
    )


def _refuse_unwritable(path: Path) -> None:
    """Raise a ``LookOnlyError`` where the file, or its folder, may not be written."""
    probe = path.with_name(f"{path.name}.{os.getpid()}.part")
    try:
        os.close(os.open(probe, os.O_RDWR | os.O_CREAT | os.O_EXCL, 0o644))
        probe.unlink(missing_ok=True)  # who opens it just now sweeps it too
    except OSError as error:
        bare = file_trouble(OSError(error.errno, error.strerror), path.parent)
        if isinstance(bare, LookOnlyError):
            raise bare from error
    if path.exists():
        try:
            os.close(os.open(path, os.O_RDWR))
        except OSError as error:
            raise file_trouble(error, path) from error


def _copied_up(path: Path, folder: Path, now: datetime, *, with_journal: bool) -> Path:
    """Copy a file, mend the copy and bring it up to date; give the copy."""
    copy = folder / FILE_NAME
    shutil.copyfile(path, copy)
    if with_journal:
        with suppress(FileNotFoundError):
            shutil.copyfile(beside.journal_of(path), beside.journal_of(copy))
    check_whole(copy)
    bring_up_to_date(copy, now, is_copy=True)
    return copy


def _has_beside(path: Path) -> bool:
    logs = (path.with_name(f"{path.name}{end}") for end in ("-wal", "-shm"))
    return beside.is_in_use(path) or any(each.exists() for each in logs)


def _as_left(path: Path) -> bool:
    seal = read_seal(path.parent)
    return seal is not None and seal.matches(path)


def is_ours(name: str) -> bool:
    """Say whether a name is one of a collection's, or one that systems scatter."""
    scattered = name.startswith(".") or name in {"desktop.ini", "Thumbs.db"}
    return scattered or name in _OURS or name.startswith(f"{FILE_NAME}.")


def _changed(path: Path, seal: Seal) -> str:
    day = dated_text(seal.closed_at.astimezone().date())
    return tr(
        "The collection in {folder} is not as growdesk left it on {day}: its file was"
        " replaced, or changed on the disk. If that was not you, look the collection"
        " through, or bring a backup back."
    ).format(folder=path.parent, day=day)


def _set_aside(path: Path, name: str) -> str:
    return tr(
        "Unfinished changes that do not belong to {path} lay beside it; they were set"
        " aside as {name} and not used."
    ).format(path=path, name=name)
