"""What a collection can be brought back from, each laid into a new folder and proved.

A zip, a kept backup's folder, a bare database file, or the folder of a collection such
as one that was set aside. A source is read and never written; names in it are never
followed, only those known here are looked for.
"""

from __future__ import annotations

import hashlib
import os
import re
import sqlite3
from contextlib import closing, suppress
from datetime import UTC, datetime
from typing import TYPE_CHECKING, Protocol

from msgspec import Struct, field

from growdesk.domain.errors import ForeignError
from growdesk.domain.speech import tr
from growdesk.services import backup_zip
from growdesk.services.backup_zip import PHOTO
from growdesk.store import beside
from growdesk.store.lock import FolderLock
from growdesk.store.regular_files import is_regular, sha256_of
from growdesk.store.store import FILE_NAME, PHOTOS

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping
    from pathlib import Path

    from growdesk.services.long_work import Step

_BESIDE = ("-journal", "-wal")
_BLOCK_BYTES = 1 << 20
_STAMP = re.compile(r"(\d{8}T\d{6}Z)")


class Content(Struct, frozen=True):
    """What was laid into a new folder; ``rows`` are those the backup vouches for.

    ``pools`` are folders of photos by content, to take from what is still missing.
    """

    made_at: datetime
    rows: Mapping[str, int] = field(default_factory=dict)
    pools: tuple[Path, ...] = ()


class Source(Protocol):
    """Something that a collection can be brought back from."""

    @property
    def path(self) -> Path:
        """Give the file or folder that was named."""

    def needs_bytes(self) -> int:
        """Give how much room its files take."""

    def lay(self, new: Path, step: Step) -> Content:
        """Write its files below an empty folder, each proved where it can be."""


class ZipSource(Struct, frozen=True):
    """The one-file form of a backup."""

    path: Path

    def needs_bytes(self) -> int:
        """Give how much room its files take."""
        entries = backup_zip.read_manifest(self.path).entries
        return sum(entry.length_bytes for entry in entries)

    def lay(self, new: Path, step: Step) -> Content:
        """Unpack it, each file proved by its SHA-256."""
        manifest = backup_zip.unpack(self.path, new, step)
        return Content(datetime.fromisoformat(manifest.made_at))


class FileSource(Struct, frozen=True):
    """A bare database, as was kept before a change of form.

    Photos are those of the collection it lies with.
    """

    path: Path
    home: Path

    def needs_bytes(self) -> int:
        """Give how much room it takes; photos are linked."""
        return self.path.stat().st_size

    def lay(self, new: Path, step: Step) -> Content:
        """Copy the file alone: a journal beside it may be anybody's."""
        step(0, 0)
        copy_file(self.path, new / FILE_NAME)
        _take_photos(_photo_files(self.home), new, step)
        return Content(self._made_at(), pools=(self.home / "backups" / PHOTOS,))

    def _made_at(self) -> datetime:
        stamp = _STAMP.search(self.path.name)
        if stamp:
            with suppress(ValueError):
                read = datetime.strptime(stamp[1], "%Y%m%dT%H%M%SZ")  # noqa: DTZ007 -- UTC by its Z
                return read.replace(tzinfo=UTC)
        return _written_at(self.path)


class FolderSource(Struct, frozen=True):
    """The folder of a collection, as one that was set aside or copied to a stick.

    What its program left half-done when it was stopped is taken along and settled in
    the copy; the folder itself stays as it is.
    """

    path: Path

    def needs_bytes(self) -> int:
        """Give how much room its files take where none can be linked."""
        files = [self.path / FILE_NAME, *_photo_files(self.path)]
        return sum(file.stat().st_size for file in files)

    def lay(self, new: Path, step: Step) -> Content:
        """Copy the database as it lies, with its journal, and link the photos."""
        lock = self._locked()
        try:
            for ending in ("", *_BESIDE):
                file = self.path / f"{FILE_NAME}{ending}"
                if not ending or is_regular(file):
                    copy_file(file, new / file.name)
        finally:
            if lock is not None:
                lock.release()
        journal = beside.journal_of(new / FILE_NAME)
        if beside.is_foreign(journal):
            journal.unlink()
        with closing(sqlite3.connect(new / FILE_NAME)) as settling:
            settling.execute("PRAGMA journal_mode = DELETE").fetchall()
        _take_photos(_photo_files(self.path), new, step)
        return Content(_written_at(self.path / FILE_NAME))

    def _locked(self) -> FolderLock | None:
        """Keep writers out while it is read, where that folder may be written."""
        if not os.access(self.path, os.W_OK):
            return None
        return FolderLock(self.path)


def copy_file(source: Path, target: Path) -> str:
    """Copy a file to a new name, onto the disk, and give its SHA-256 as it was read."""
    digest = hashlib.sha256()
    with source.open("rb") as read, target.open("xb") as to:
        while block := read.read(_BLOCK_BYTES):
            digest.update(block)
            to.write(block)
        to.flush()
        os.fsync(to.fileno())
    return digest.hexdigest()


def place_photo(found: Iterable[Path], new: Path, name: str) -> bool:
    """Put the first whole one of some files in a photo's place; tell whether it did.

    It is linked where it can be, else copied; ``name`` tells what it must hold.
    """
    target = new.joinpath(*name.split("/"))
    if target.exists():
        return True
    target.parent.mkdir(parents=True, exist_ok=True)
    for file in found:
        if file.is_symlink() or not file.is_file():
            continue
        try:
            os.link(file, target)
        except OSError:
            copy_file(file, target)
        if sha256_of(target) == target.stem:
            return True
        target.unlink()
    return False


def foreign(path: Path) -> ForeignError:
    """Say that something is no backup."""
    return ForeignError(
        tr("{source} is not a growdesk backup.").format(source=path),
        tr("Choose a file or a folder that growdesk made as a backup."),
    )


def _photo_files(home: Path) -> list[Path]:
    return [
        file
        for file in sorted((home / PHOTOS).glob("*/*"))
        if PHOTO.fullmatch(file.relative_to(home).as_posix()) and file.is_file()
    ]


def _take_photos(files: list[Path], new: Path, step: Step) -> None:
    for done, file in enumerate(files):
        step(done, len(files))
        name = "/".join((PHOTOS, file.parent.name, file.name))
        place_photo((file,), new, name)


def _written_at(path: Path) -> datetime:
    return datetime.fromtimestamp(path.stat().st_mtime, UTC)
