"""Takes the photos of a damaged collection along, each proved by its content.

A photo's name is the SHA-256 of its content, so that every one proves itself; one that
is damaged or gone is looked for among the kept backups.
"""

from __future__ import annotations

import re
import shutil
from contextlib import closing
from typing import TYPE_CHECKING

from growdesk.domain.speech import tr
from growdesk.services import photo_check
from growdesk.services.long_work import quietly
from growdesk.store.engine import connect
from growdesk.store.migrating import BACKUPS
from growdesk.store.regular_files import sha256_of
from growdesk.store.store import FILE_NAME, PHOTOS
from growdesk.store.whole_files import whole

if TYPE_CHECKING:
    from pathlib import Path

    from growdesk.services.long_work import Step

_PHOTO = re.compile(r"([0-9a-f]{64})\.[a-z0-9]{1,8}")


def save_photos(folder: Path, new: Path, step: Step = quietly) -> tuple[int, list[str]]:
    """Copy what is whole; give how many photos, and a line for each that is not."""
    with closing(connect(new / FILE_NAME, reading=True)) as connection:
        named = photo_check.named(connection)
    wanted = {f"{sha256}.{ext}": tag for tag, sha256, ext in named}
    there = {
        path.name for path in (folder / PHOTOS).glob("*/*") if _named_so(path.name)
    }
    names = sorted(there | wanted.keys())
    copied, lines = 0, []
    for done, name in enumerate(names):
        step(done, len(names))
        source = _source(folder, name)
        if source is not None:
            _copy(source, new / PHOTOS / name[:2] / name)
            copied += 1
        elif name in wanted:
            lines.append(
                tr("A photo of plant {tag} is lost: {name} is gone or damaged.").format(
                    tag=wanted[name], name=name
                )
            )
    return copied, lines


def _source(folder: Path, name: str) -> Path | None:
    """Give a whole photo of this name, in the collection or among its backups."""
    if not _named_so(name):
        return None
    for root in (folder / PHOTOS, folder / BACKUPS / PHOTOS):
        path = root / name[:2] / name
        try:
            if path.is_file() and sha256_of(path) == name.partition(".")[0]:
                return path
        except OSError:
            continue
    return None


def _copy(source: Path, target: Path) -> None:
    target.parent.mkdir(parents=True, exist_ok=True)
    with whole(target) as part:
        shutil.copyfile(source, part)


def _named_so(name: str) -> bool:
    return _PHOTO.fullmatch(name) is not None
