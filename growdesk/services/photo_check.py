"""Whether every photo of a collection is there, and is what it was."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.speech import tr
from growdesk.services.long_work import quietly
from growdesk.store.regular_files import sha256_of
from growdesk.store.store import PHOTOS

if TYPE_CHECKING:
    import sqlite3
    from collections.abc import Iterator, Sequence
    from pathlib import Path

    from growdesk.services.long_work import Step

Named = tuple[str, str, str]
"""The tag of a photo's plant, its content's SHA-256, and how its file's name ends."""


def named(connection: sqlite3.Connection) -> list[Named]:
    """Give the photos that entries name."""
    return connection.execute(
        "SELECT plant.tag, photo.sha256, photo.ext FROM photo"
        " JOIN plant ON plant.id = photo.plant_id ORDER BY plant.tag, photo.id"
    ).fetchall()


def problems(
    folder: Path, photos: Sequence[Named], step: Step = quietly
) -> Iterator[tuple[str, str]]:
    """Give tag and plain line for each photo that is gone or not what it was."""
    for each, line in damaged(folder, photos, step):
        yield each[0], line


def damaged(
    folder: Path, photos: Sequence[Named], step: Step = quietly
) -> Iterator[tuple[Named, str]]:
    """Give each photo that is gone or not what it was, and a plain line on it."""
    for done, (tag, sha256, ext) in enumerate(photos):
        step(done, len(photos))
        each = str(tag), str(sha256), str(ext)
        line = problem(folder, *each)
        if line:
            yield each, line


def problem(folder: Path, tag: str, sha256: str, ext: str) -> str:
    """Give a plain line where one photo is gone or not what it was."""
    path = folder / PHOTOS / sha256[:2] / f"{sha256}.{ext}"
    if not path.is_file():
        return tr("A photo of plant {tag} is gone: {path}.").format(tag=tag, path=path)
    if sha256_of(path) != sha256:
        return tr("A photo of plant {tag} is damaged: {path}.").format(
            tag=tag, path=path
        )
    return ""
