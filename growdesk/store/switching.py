"""Put one collection's folder in the place of another, and mend what was stopped.

A switch is renames beside one another: the collection in use is set aside whole, the
new one takes its name, and the kept backups move along to it. Before the first rename a
plan is written into the passing folder, so that whoever opens the collection next can
tell how far a switch came that was stopped, and go on from there. Nothing is deleted
but passing folders.
"""

from __future__ import annotations

import json
import re
import shutil
import sys
import tempfile
from contextlib import contextmanager, suppress
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.domain.errors import BusyError, StoreError
from growdesk.domain.speech import mark, tr
from growdesk.store.lock import LOCK_NAME, FolderLock
from growdesk.store.regular_files import TooLargeError, leads_away, read_regular
from growdesk.store.whole_files import PRIVATE, sync_folder, write_whole

if TYPE_CHECKING:
    from collections.abc import Iterator

FILE = "collection.sqlite"
BACKUPS = "backups"
_POOL = "photos"
_PLAN = "switch.json"
_NEW = "unpacked"
_PASSING = {_PLAN, _NEW, LOCK_NAME}
_SAYS_NOTHING = (
    OSError,
    TooLargeError,
    ValueError,
    KeyError,
    TypeError,
    RecursionError,
)
_MOST_PLAN_BYTES = 10_000
_RENAMES_OPEN = sys.platform != "win32"
"""Whether a folder may be renamed while a file in it is held open, as a lock is."""

_FINISHED = mark(
    "Bringing a backup back had been stopped midway; it is finished now. The collection"
    " that was there before is kept in {aside}."
)
_TAKEN_BACK = mark(
    "Bringing a backup back had been stopped midway; the collection is as it was"
    " before."
)
_FOUND_AGAIN = mark(
    "The folder {folder} was gone. The collection that was set aside before the restore"
    " of {day} stands there again."
)


class SetAside(Struct, frozen=True):
    """A collection that a restore set aside; ``at`` is local, as its name tells it."""

    folder: Path
    at: datetime


class Switched(Struct, frozen=True):
    """What a switch did; ``has_moved`` tells whether the kept backups came along."""

    aside: Path | None
    has_moved: bool = True


def set_asides(folder: Path) -> tuple[SetAside, ...]:
    """Give the collections that restores into a folder set aside, the newest first."""
    pattern = re.compile(
        re.escape(f"{folder.name}-before-restore-")
        + r"(\d{4}-\d{2}-\d{2}-\d{6})(?:-(\d{1,6}))?"
    )
    found = []
    for path in _siblings(folder):
        named = pattern.fullmatch(path.name)
        if named and not leads_away(path) and (path / FILE).is_file():
            with suppress(ValueError):
                at = datetime.strptime(named[1], "%Y-%m-%d-%H%M%S")  # noqa: DTZ007 -- local, as named
                found.append((at, int(named[2] or 1), path))
    return tuple(SetAside(path, at) for at, _, path in sorted(found, reverse=True))


@contextmanager
def passing(folder: Path) -> Iterator[Path]:
    """Give a new, empty folder beside a collection; gone afterwards.

    It is locked while it is in use, so that nobody takes it for a leftover; ``mend``
    comes first. What a switch out of it could not finish stays, with its plan.
    """
    made = Path(tempfile.mkdtemp(prefix=_prefix(folder), dir=folder.parent))
    lock = None
    try:
        lock = FolderLock(made)
        new = made / _NEW
        new.mkdir(PRIVATE)
        yield new
    finally:
        if lock is not None:
            lock.release()
        if not (made / _PLAN).exists():
            shutil.rmtree(made, ignore_errors=True)


def switch(new: Path, folder: Path, now: datetime) -> Switched:
    """Put a whole, synced collection out of a passing folder in its place.

    Raises ``OSError`` or ``BusyError`` with all as it was.
    """
    if folder.is_dir() and not any(folder.iterdir()):
        folder.rmdir()
    plan = new.parent / _PLAN
    if not folder.exists():
        new.rename(folder)
        sync_folder(folder.parent)
        return Switched(None)
    aside = _free_name(folder, now)
    locks = _locked(folder, new)
    if not _RENAMES_OPEN:
        _release(locks)
    try:
        _exchange(new, folder, aside, plan)
        try:
            _move_backups(aside, folder)
            plan.unlink()
        except OSError:
            return Switched(aside, has_moved=False)
        return Switched(aside)
    finally:
        _release(locks)


def _locked(folder: Path, new: Path) -> list[FolderLock]:
    """Hold both collections, and the kept backups that are to move along."""
    locks = [FolderLock(folder)]
    try:
        locks.append(FolderLock(new))
        if (folder / BACKUPS).is_dir():
            locks.append(FolderLock(folder / BACKUPS))
    except BusyError as error:
        _release(locks)
        raise BusyError(
            tr("A backup of the collection in {folder} is just being made.").format(
                folder=folder
            ),
            tr("Wait a moment, and do it again."),
        ) from error
    except StoreError:
        _release(locks)
        raise
    return locks


def _release(locks: list[FolderLock]) -> None:
    for lock in locks:
        lock.release()


def _exchange(new: Path, folder: Path, aside: Path, plan: Path) -> None:
    """Set the old one aside and give its name to the new, or leave all as it was."""
    try:
        write_whole(plan, json.dumps({"aside": aside.name}).encode())
        folder.rename(aside)
        try:
            sync_folder(folder.parent)
            new.rename(folder)
        except OSError:
            aside.rename(folder)
            raise
    except OSError:
        if folder.exists():
            plan.unlink(missing_ok=True)
        raise
    with suppress(OSError):
        sync_folder(folder.parent)


def unpassed(text: str, folder: Path) -> str:
    """Give a text with the folder itself for any passing folder that it names."""
    passing_folder = re.escape(str(folder.parent / _prefix(folder))) + r"\w+"
    return re.sub(rf"{passing_folder}([/\\]{_NEW})?", lambda _: str(folder), text)


def mend(folder: Path) -> str:
    """Finish or take back what a stopped restore left; say so, or nothing.

    Raises ``BusyError`` where a restore is just putting a collection there.
    """
    folder = folder.resolve()
    left = [path for path in _siblings(folder) if _is_passing(path, folder)]
    said, runs = "", False
    for path in left:
        try:
            said = _mend_locked(path, folder) or said
        except BusyError:
            runs = True
    if folder.exists():
        return said
    if runs:
        raise BusyError(
            tr("A backup is being brought back into {folder} just now.").format(
                folder=folder
            ),
            tr("Wait a moment, and do it again."),
        )
    return _put_newest_back(folder) or said


def _mend_locked(path: Path, folder: Path) -> str:
    """Mend what one restore left, and remove its passing folder."""
    try:
        lock = FolderLock(path)
    except BusyError:
        raise
    except StoreError:
        return ""  # it may not be written: nothing can be mended there
    try:
        said = _mend_one(path, folder)
    except OSError:
        if not folder.exists():
            raise
        return ""
    finally:
        lock.release()
    if not (path / _PLAN).exists():
        shutil.rmtree(path, ignore_errors=True)
    return said


def _mend_one(path: Path, folder: Path) -> str:
    new, aside = path / _NEW, _planned(path, folder)
    if aside is None:
        if folder.exists():
            (path / _PLAN).unlink(missing_ok=True)
        return tr(_TAKEN_BACK) if folder.exists() and (new / FILE).exists() else ""
    if not folder.exists():
        if (new / FILE).is_file():
            new.rename(folder)
        elif aside.is_dir():
            aside.rename(folder)
        sync_folder(folder.parent)
    if not aside.is_dir():
        (path / _PLAN).unlink()
        return tr(_TAKEN_BACK)
    _move_backups(aside, folder)
    (path / _PLAN).unlink()
    return tr(_FINISHED).format(aside=aside)


def _planned(path: Path, folder: Path) -> Path | None:
    """Give the name for what is set aside that a plan tells; none without a plan."""
    try:
        name = json.loads(read_regular(path / _PLAN, _MOST_PLAN_BYTES))["aside"]
    except _SAYS_NOTHING:
        return None
    ours = isinstance(name, str) and name.startswith(f"{folder.name}-before-restore-")
    if not ours or Path(name).name != name:
        return None
    aside = folder.with_name(name)
    return None if leads_away(aside) else aside


def _is_passing(path: Path, folder: Path) -> bool:
    """Tell whether something is a folder that ``passing`` made, by name and content."""
    named = re.fullmatch(re.escape(_prefix(folder)) + r"[a-z0-9_]{1,16}", path.name)
    if not named or leads_away(path) or not path.is_dir():
        return False
    try:
        return all(
            each.name in _PASSING and not leads_away(each)
            for each in path.iterdir()
            if not each.name.startswith(f"{_PLAN}.")
        )
    except OSError:
        return False


def _put_newest_back(folder: Path) -> str:
    """Give a collection that was set aside its name again where none is there."""
    found = set_asides(folder)
    if not found:
        return ""
    found[0].folder.rename(folder)
    sync_folder(folder.parent)
    day = found[0].at.date().isoformat()
    return tr(_FOUND_AGAIN).format(folder=folder, day=day)


def _move_backups(came_from: Path, goes_to: Path) -> None:
    """Let the kept backups lie with the collection in use; nothing is written over.

    Photos go before the backups that name them.
    """
    source, target = came_from / BACKUPS, goes_to / BACKUPS
    pools = source, source / _POOL, target, target / _POOL
    if not source.exists() or any(map(leads_away, pools)):
        return
    if not target.exists():
        source.rename(target)
        sync_folder(came_from)
        sync_folder(goes_to)
        return
    for photo in sorted((source / _POOL).glob("*/*")):
        to = target / photo.relative_to(source)
        if leads_away(photo.parent) or leads_away(to.parent):
            continue
        to.parent.mkdir(parents=True, exist_ok=True)
        _rename_where_free(photo, to)
        sync_folder(to.parent)
    for path in sorted(source.iterdir()):
        if path.name != _POOL:
            _rename_where_free(path, target / path.name)
    sync_folder(target)
    sync_folder(source)


def _rename_where_free(path: Path, to: Path) -> None:
    if not to.exists():
        path.rename(to)


def _free_name(folder: Path, now: datetime) -> Path:
    stamp = now.astimezone().strftime("%Y-%m-%d-%H%M%S")
    aside = folder.with_name(f"{folder.name}-before-restore-{stamp}")
    number = 2
    while aside.exists():
        aside = aside.with_name(f"{folder.name}-before-restore-{stamp}-{number}")
        number += 1
    return aside


def _prefix(folder: Path) -> str:
    return f".{folder.name}-restoring-"


def _siblings(folder: Path) -> list[Path]:
    """Give what lies beside a folder, by name; nothing where that cannot be read."""
    try:
        return sorted(folder.parent.iterdir())
    except OSError:
        return []
