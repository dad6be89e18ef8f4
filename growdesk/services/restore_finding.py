"""What a person may mean by the backup to bring back: a file, a folder, or a day.

A day, or the beginning of a kept backup's name, is looked for among the backups kept
with the collection and then in the second place.
"""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING

from growdesk.domain.errors import InputError
from growdesk.domain.speech import tr
from growdesk.services.restore_kept import KeptSource
from growdesk.services.restore_sources import (
    FileSource,
    FolderSource,
    ZipSource,
    foreign,
)
from growdesk.store.backup_manifest import MANIFEST
from growdesk.store.migrating import BACKUPS
from growdesk.store.store import FILE_NAME

if TYPE_CHECKING:
    from collections.abc import Sequence

    from growdesk.services.restore_sources import Source

_DAY = re.compile(r"\d{4}-\d{2}-\d{2}(-[0-9a-z-]{1,40})?")
_ZIP, _SQLITE = b"PK\x03\x04", b"SQLite format 3\x00"
_NAMED = 3


def source_of(given: Path | str, folder: Path) -> Source:
    """Give what a file, folder, day or name stands for, with its form recognised."""
    path = Path(given)
    if path.is_dir():
        return _of_folder(path, folder)
    if path.is_file():
        return _of_file(path, folder)
    if not _DAY.fullmatch(str(given)):
        hint = tr("Check its name.")
        raise InputError("FILE", str(given), tr("is not there"), hint)
    return KeptSource(_of_day(str(given), folder), folder)


def _of_file(path: Path, folder: Path) -> Source:
    if path.name in {FILE_NAME, MANIFEST} and (path.parent / FILE_NAME).is_file():
        return _of_folder(path.parent, folder)
    with path.open("rb") as file:
        begins = file.read(len(_SQLITE))
    if begins == _SQLITE:
        lies_with = path.absolute().parent
        home = lies_with.parent if lies_with.name == BACKUPS else folder
        return FileSource(path, home)
    return ZipSource(path)


def _of_folder(path: Path, folder: Path) -> Source:
    if (path / MANIFEST).is_file():
        return KeptSource(path, folder)
    if (path / FILE_NAME).is_file():
        if path.resolve() == folder:
            hint = tr("Choose one of its backups.")
            problem = tr("is the collection in use itself")
            raise InputError("FILE", str(path), problem, hint)
        return FolderSource(path)
    held = [each.name for each in _kept_in(path)]
    if held:
        hint = tr("Name one of them, for example {name}.").format(name=path / held[0])
        raise InputError("FILE", str(path), tr("holds several backups"), hint)
    raise foreign(path)


def _of_day(given: str, folder: Path) -> Path:
    """Give the newest kept backup of a day, or the one whose name begins so."""
    kept = _kept_in(folder / BACKUPS)
    found = next((each for each in kept if each.name.startswith(given)), None)
    if found is not None:
        return found
    raise InputError(
        "FILE", given, tr("is the day of no kept backup"), _those_there(kept)
    )


def _those_there(kept: Sequence[Path]) -> str:
    if not kept:
        return tr("There are none yet.")
    named = ", ".join(each.name for each in kept[:_NAMED])
    return tr("The newest are: {names}.").format(names=named)


def _kept_in(place: Path) -> list[Path]:
    """Give the folders of kept backups in a place, the newest first by their names."""
    if not place.is_dir():
        return []
    return sorted(
        (each for each in place.iterdir() if (each / MANIFEST).is_file()), reverse=True
    )
