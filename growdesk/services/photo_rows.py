"""Photos between files and rows: taken in first, then kept with the plant or look.

Files come before the rows, so that a row never points at a file that was not yet
written. A photo that cannot be read becomes one plain line.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from sqlalchemy import select

from growdesk.services.values import PhotoView
from growdesk.store import photos as files
from growdesk.store.pictures import UnreadableError
from growdesk.store.schema import PhotoRow

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date
    from pathlib import Path

    from sqlalchemy.orm import Session

    from growdesk.store.journal import Writing


@dataclass(frozen=True, slots=True)
class TakenIn:
    """The photos that lie in the collection now, and a line for each that does not."""

    stored: tuple[files.Stored, ...]
    problems: tuple[str, ...]


def take_in(folder: Path, paths: Sequence[Path], today: date) -> TakenIn:
    """Copy photos into the collection's folder, each checked by decoding it."""
    stored: list[files.Stored] = []
    problems: list[str] = []
    for path in paths:
        try:
            stored.append(files.take_in(folder, path, today))
        except UnreadableError as error:
            problems.append(str(error))
    return TakenIn(tuple(stored), tuple(problems))


def keep(
    writing: Writing, plant_id: int, look_id: int | None, taken: TakenIn
) -> tuple[int, ...]:
    """Write the rows of photos; one the plant has already is not kept twice."""
    there = {
        row.sha256: row
        for row in writing.session.execute(
            select(PhotoRow.id, PhotoRow.sha256, PhotoRow.look_id).where(
                PhotoRow.plant_id == plant_id
            )
        )
    }
    ids: dict[str, int] = {}
    for photo in taken.stored:
        if photo.sha256 in ids:
            continue
        known = there.get(photo.sha256)
        if known is None:
            ids[photo.sha256] = writing.insert(
                PhotoRow, _values(photo, plant_id, look_id)
            )
            continue
        ids[photo.sha256] = known.id
        if look_id is not None and known.look_id is None:
            writing.update(PhotoRow, known.id, {"look_id": look_id})
    return tuple(ids.values())


def views(session: Session, folder: Path, plant_id: int) -> tuple[PhotoView, ...]:
    """Give a plant's photos, newest first."""
    rows = session.execute(
        select(PhotoRow.__table__).where(PhotoRow.plant_id == plant_id)
    ).all()
    newest = sorted(
        rows, key=lambda row: (str(row.taken_on or ""), row.id), reverse=True
    )
    return tuple(_view(row, folder) for row in newest)


def _view(row: Any, folder: Path) -> PhotoView:
    path = files.photo_path(folder, row.sha256, row.ext)
    thumbnail = files.thumbnail_path(folder, row.sha256)
    problem = None
    if not path.exists():
        problem = (
            f"The file of this photo is missing ({row.file_name or path.name})."
            " Add the photo again, or bring back a backup."
        )
    return PhotoView(
        photo_id=row.id,
        look_id=row.look_id,
        taken_on=row.taken_on,
        path=path,
        thumbnail=thumbnail if thumbnail.exists() else None,
        problem=problem,
    )


def _values(
    photo: files.Stored, plant_id: int, look_id: int | None
) -> dict[str, object]:
    return {
        "plant_id": plant_id,
        "look_id": look_id,
        "sha256": photo.sha256,
        "ext": photo.ext,
        "width": photo.width,
        "height": photo.height,
        "taken_on": photo.taken_on,
        "file_name": photo.file_name,
        "has_location": photo.has_location,
    }
