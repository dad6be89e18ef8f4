"""The photos of all kept backups, each once, by the content that names it.

On the collection's own disk a photo is a second name of the same file and takes no
room; elsewhere it is copied and read back. A file in the pool is never replaced by one
that is not what its name says.
"""

from __future__ import annotations

import errno
import hashlib
import os
import stat
from contextlib import suppress
from typing import TYPE_CHECKING

from growdesk.store.backup_manifest import PHOTO, Held, Lacking
from growdesk.store.whole_files import PART, sync_folder, whole

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping
    from pathlib import Path

PHOTOS = "photos"
_NO_LINKS = {
    errno.EXDEV,
    errno.EPERM,
    errno.EACCES,
    errno.EMLINK,
    errno.ENOSYS,
    errno.ENOTSUP,
    errno.EOPNOTSUPP,
}
_BLOCK_BYTES = 1 << 20


def photos_below(root: Path) -> dict[str, os.stat_result]:
    """Give all photos below a folder by their names, as ``photos/ab/….jpg``.

    What is no plain file, or bears another name, is none.
    """
    photos = root / PHOTOS
    if photos.is_symlink() or not photos.is_dir():
        return {}
    found = {}
    for shelf in photos.iterdir():
        if shelf.is_symlink() or not shelf.is_dir():
            continue
        with os.scandir(shelf) as entries:
            for entry in entries:
                name = f"{PHOTOS}/{shelf.name}/{entry.name}"
                if PHOTO.fullmatch(name) and entry.is_file(follow_symlinks=False):
                    found[name] = entry.stat(follow_symlinks=False)
    return found


def sha256_of(path: Path) -> str:
    """Give a plain file's SHA-256; a link to another place is not followed."""
    flags = os.O_RDONLY | getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_BINARY", 0)
    with open(os.open(path, flags), "rb") as source:  # noqa: PTH123 -- by descriptor
        return hashlib.file_digest(source, "sha256").hexdigest()


def is_whole(path: Path, sha256: str) -> bool:
    """Tell whether a plain file is there and is what its digest says."""
    try:
        return stat.S_ISREG(path.lstat().st_mode) and sha256_of(path) == sha256
    except OSError:
        return False


class Pool:
    """The photos below one folder of backups, as they lay when it was made.

    ``lengths`` says how long a photo is by earlier manifests.
    """

    def __init__(self, root: Path, lengths: Mapping[str, int]) -> None:
        self._root = root
        self._there = photos_below(root)
        self._lengths = lengths
        self._touched: set[Path] = set()

    def take(
        self,
        source: Path,
        name: str,
        at: os.stat_result | None,
        *,
        by_name: bool = True,
    ) -> tuple[Held | None, Lacking | None]:
        """Keep one photo; say what is held of it, and what was wrong with it.

        ``at`` is what the photo is in its collection, nothing where it is gone. One
        that is gone or damaged there may still be held from before. Without
        ``by_name`` it is copied, never given a second name on the same disk.
        """
        sha256 = _sha256(name)
        inside = self._there.get(name)
        if inside is not None and self._agrees(name, inside, at):
            gone = Lacking(name, damaged=False) if at is None else None
            return Held(name, sha256, inside.st_size), gone
        path = source / name
        is_good = at is not None and is_whole(path, sha256)
        lacking = None if is_good else Lacking(name, damaged=at is not None)
        if inside is not None and is_whole(self._root / name, sha256):
            self._note_read(name, at)
            return Held(name, sha256, inside.st_size), lacking
        if not is_good or at is None:
            return None, lacking
        self._put(path, name, by_name=by_name)
        return Held(name, sha256, at.st_size), None

    def sync(self) -> None:
        """Bring the names of all that was kept to the disk."""
        for folder in sorted(self._touched, reverse=True):
            sync_folder(folder)

    def _agrees(
        self, name: str, inside: os.stat_result, at: os.stat_result | None
    ) -> bool:
        """Tell whether lengths and times give no reason to read the file again.

        A photo that was taken in anew is younger than what the pool has of it, which
        may be the damaged one that it replaces.
        """
        known = self._lengths.get(name)
        lengths = {inside.st_size, known if known is not None else inside.st_size}
        if at is not None:
            lengths.add(at.st_size)
        is_newer = at is not None and at.st_mtime_ns > inside.st_mtime_ns
        return len(lengths) == 1 and not is_newer

    def _note_read(self, name: str, at: os.stat_result | None) -> None:
        """Let a file that was read and is whole not be read again each day."""
        if at is None:
            return
        with suppress(OSError):
            os.utime(self._root / name, ns=(at.st_atime_ns, at.st_mtime_ns))

    def _put(self, source: Path, name: str, *, by_name: bool) -> None:
        target = self._root / name
        for folder in (target.parent.parent, target.parent):
            if not folder.is_dir():
                folder.mkdir(exist_ok=True)
                self._touched.add(folder.parent)
        if not by_name or not _linked(source, target):
            copy_whole(source, target, _sha256(name))
        self._touched.add(target.parent)


def copy_whole(source: Path, target: Path, sha256: str) -> None:
    """Copy a file and read the copy back; nothing is left where it differs."""
    with whole(target) as part:
        with source.open("rb") as read, part.open("wb") as to:
            while block := read.read(_BLOCK_BYTES):
                to.write(block)
        if sha256_of(part) != sha256:
            raise OSError(errno.EIO, os.strerror(errno.EIO), str(target))


def clean(root: Path, named: Iterable[str]) -> int:
    """Remove photos that no backup names; give how many went."""
    wanted = set(named)
    gone = [name for name in photos_below(root) if name not in wanted]
    for name in gone:
        (root / name).unlink(missing_ok=True)
    return len(gone)


def _linked(source: Path, target: Path) -> bool:
    """Give a file a second name on the same disk; tell whether that can be."""
    part = target.with_name(f"{target.name}.{os.getpid()}{PART}")
    try:
        part.hardlink_to(source)
    except OSError as error:
        if error.errno in _NO_LINKS:
            return False
        raise
    try:
        part.replace(target)
    finally:
        part.unlink(missing_ok=True)
    return True


def _sha256(name: str) -> str:
    return name.rpartition("/")[2].partition(".")[0]
