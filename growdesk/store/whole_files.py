"""Files that are there whole or not at all, and the leftovers of those that are not.

Everything is written under a ``.part`` name in its own folder, brought to the disk, and
then renamed; what a stopped program left is swept at the next start.
"""

from __future__ import annotations

import errno
import os
import re
import sys
import time
from contextlib import contextmanager, suppress
from enum import Enum
from pathlib import Path
from typing import TYPE_CHECKING

from growdesk.store.regular_files import leads_away

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

PART = ".part"
_LEFT = re.compile(r".+\.\d+\.part(-journal)?")
"""How what is half-written is named: after its target and the program's number."""
PRIVATE = 0o700
"""A folder that is open to its owner alone."""
_LEFT_AFTER_S = 3600.0
"""How long a half-written file has stood still until nobody is at it any more."""
_NO_FOLDER_SYNC = {errno.EINVAL, errno.ENOTSUP, errno.ENOSYS}
"""What network drives and some sticks say that cannot sync a folder."""


def sync_folder(folder: Path) -> None:
    """Bring a folder's own entries to the disk, where system and disk can."""
    if sys.platform == "win32":
        return
    descriptor = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(descriptor)
    except OSError as error:
        if error.errno not in _NO_FOLDER_SYNC:
            raise
    finally:
        os.close(descriptor)


def sync_file(path: Path) -> None:
    """Bring a closed file's content to the disk, also of one that may only be read."""
    try:
        descriptor = os.open(path, os.O_RDWR)
    except PermissionError:
        if sys.platform == "win32":
            return  # it takes no sync of what it may not write, as from a disc
        descriptor = os.open(path, os.O_RDONLY)
    try:
        os.fsync(descriptor)
    finally:
        os.close(descriptor)


def sync_all(folder: Path) -> None:
    """Bring all files and folders in a folder to the disk, and their names."""
    for path in folder.rglob("*"):
        if path.is_dir():
            sync_folder(path)
        else:
            sync_file(path)
    sync_folder(folder)


def make_folder(folder: Path, mode: int = 0o777) -> None:
    """Make a folder and what is missing above it, each brought to the disk.

    ``mode`` is whom the folder itself is open to, as far as the system has it.
    """
    missing = [folder]
    while not missing[-1].parent.exists():
        missing.append(missing[-1].parent)
    for each in reversed(missing):
        if not each.is_dir():
            each.mkdir(mode if each == folder else 0o777, exist_ok=True)
            sync_folder(each.parent)


class Synced(Enum):
    """What of a new file is on the disk once it is written."""

    ALL = "its content and its name"
    CONTENT = "its content"
    """For one of many, whose folder is synced and swept once for all of them."""
    NOTHING = "nothing yet"
    """For what is made again where the power took it or tore it."""


@contextmanager
def whole(target: Path, synced: Synced = Synced.ALL) -> Iterator[Path]:
    """Give a name to write to; it becomes ``target`` only if the block succeeds.

    The folder must be there: a stick that is not plugged in must not become a folder.
    """
    part = target.with_name(f"{target.name}.{os.getpid()}{PART}")
    if synced is Synced.ALL:
        _sweep_left(target)
    if leads_away(part):
        part.unlink()
    try:
        yield part
        if synced is not Synced.NOTHING:
            sync_file(part)
        part.replace(target)
    except BaseException:
        for left in (part, part.with_name(f"{part.name}-journal")):
            with suppress(OSError):
                left.unlink(missing_ok=True)
        raise
    if synced is Synced.ALL:
        sync_folder(target.parent)


def write_whole(target: Path, content: bytes, synced: Synced = Synced.ALL) -> None:
    """Write a file that is there whole or not at all."""
    with whole(target, synced) as part:
        part.write_bytes(content)


@contextmanager
def passing(prefix: str) -> Iterator[Path]:
    """Give a folder of the system's own for files in passing, gone afterwards.

    Those that a stopped program left under the same prefix go with it after a while.
    """
    import shutil  # noqa: PLC0415 -- not at the start
    import tempfile  # noqa: PLC0415

    for left in Path(tempfile.gettempdir()).glob(f"{prefix}*"):
        if left.is_dir() and not left.is_symlink() and _stands_still(left):
            shutil.rmtree(left, ignore_errors=True)
    with tempfile.TemporaryDirectory(prefix=prefix) as made:
        yield Path(made)


def _sweep_left(target: Path) -> None:
    """Remove what programs that were stopped at the same target left beside it."""
    left = re.compile(re.escape(target.name) + rf"\.\d+{re.escape(PART)}(-journal)?")
    with suppress(OSError):
        for path in target.parent.iterdir():
            if left.fullmatch(path.name) and path.is_file() and _stands_still(path):
                path.unlink()


def _stands_still(path: Path) -> bool:
    """Tell whether nobody has written there for long, by a clock set anyhow."""
    with suppress(OSError):
        return abs(time.time() - path.lstat().st_mtime) > _LEFT_AFTER_S
    return False


def sweep(folder: Path, shelved: Iterable[str] = ()) -> int:
    """Remove what a stopped program left half-written; give how many files.

    Looked through are the folder itself, and those named in it with their shelves; no
    link is followed, and what bears no name of ours stays.
    """
    left = 0
    for at in (folder, *_shelves(folder, shelved)):
        for path in at.iterdir():
            if _LEFT.fullmatch(path.name) and (path.is_symlink() or path.is_file()):
                with suppress(OSError):  # it may not be ours to remove
                    path.unlink()
                    left += 1
    return left


def _shelves(folder: Path, shelved: Iterable[str]) -> Iterator[Path]:
    for name in shelved:
        place = folder / name
        if place.is_dir() and not leads_away(place):
            for shelf in place.iterdir():
                if shelf.is_dir() and not leads_away(shelf):
                    yield shelf
