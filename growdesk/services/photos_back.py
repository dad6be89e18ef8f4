"""Puts photos that are gone or damaged back from the kept backups, each by its content.

A photo is named by what it holds, so that a whole one of its name is the very photo:
nothing is undone or chosen by it, and the entries stay as they are.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.speech import trn
from growdesk.services.second_place import places_of
from growdesk.services.values import Changed, Written
from growdesk.store.backup_manifest import PHOTO
from growdesk.store.backup_pool import copy_whole, is_whole
from growdesk.store.trouble import plainly
from growdesk.store.whole_files import make_folder

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path


def is_kept(folder: Path, sha256: str, ext: str) -> str:
    """Give the name of a photo if a backup holds it whole, else nothing."""
    name = f"photos/{sha256[:2]}/{sha256}.{ext}"
    return name if PHOTO.fullmatch(name) and _whole(folder, name) else ""


def put_back(folder: Path, names: Sequence[str]) -> Written:
    """Put photos back that a backup holds whole; what is told counts them.

    What lies there damaged is written over only by the whole one, so that there is
    nothing to undo.
    """
    done = 0
    for name in names:
        target, source = folder / name, _whole(folder, name)
        if source is None:
            continue
        with plainly(target):
            if not is_whole(target, target.stem):
                make_folder(target.parent)
                copy_whole(source, target, target.stem)
        done += 1
    said = trn(
        "{count} photo put back out of a backup",
        "{count} photos put back out of a backup",
        done,
    )
    return Written(Changed.PHOTOS, said.format(count=done), undoable=False)


def _whole(folder: Path, name: str) -> Path | None:
    for place in places_of(folder):
        path = place / name
        if PHOTO.fullmatch(name) and is_whole(path, path.stem):
            return path
    return None
