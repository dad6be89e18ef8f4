"""Photos between files and rows: taken in first, then kept with the plant or look.

Files come before the rows, so that a row never points at a file that was not yet
written. A photo that cannot be read becomes one plain line.
"""

from __future__ import annotations

from collections import deque
from functools import partial
from typing import TYPE_CHECKING, Any

from sqlalchemy import select

from growdesk.domain.day_words import dated_text
from growdesk.domain.errors import InputError
from growdesk.domain.speech import tr
from growdesk.services.photo_values import TakenIn, joined
from growdesk.services.values import PhotoView
from growdesk.store import photos as files
from growdesk.store.pictures import UnreadableError
from growdesk.store.schema import LookRow, PhotoRow

if TYPE_CHECKING:
    from collections.abc import Generator, Sequence
    from concurrent.futures import Future
    from datetime import date
    from pathlib import Path

    from growdesk.store.journal import Writing
    from growdesk.store.session import Session

_THREADS = 3
"""They read; with more, too many photos would be in memory at once."""


def take_in(folder: Path, paths: Sequence[Path], today: date) -> TakenIn:
    """Copy photos into the collection's folder, ready to be named by rows."""
    taken = joined(list(arriving(folder, paths, today)))
    files.settle(folder, taken.stored)
    return taken


def arriving(folder: Path, paths: Sequence[Path], today: date) -> Generator[TakenIn]:
    """Copy photos in one by one, each proved whole, or say why it is not.

    The next are read and proved meanwhile on threads of their own; files are written
    in order on the caller's. ``settle`` is left to who writes the rows.
    """
    from concurrent.futures import ThreadPoolExecutor  # noqa: PLC0415 -- not at start

    examine = partial(files.examine, today=today)
    pool = ThreadPoolExecutor(_THREADS)
    try:
        ahead: deque[Future[files.Examined]] = deque()
        for path in paths:
            ahead.append(pool.submit(examine, path))
            if len(ahead) > _THREADS:
                yield _put(folder, ahead.popleft())
        while ahead:
            yield _put(folder, ahead.popleft())
    finally:
        pool.shutdown(cancel_futures=True)


def _put(folder: Path, examined: Future[files.Examined]) -> TakenIn:
    try:
        return TakenIn((files.put(folder, examined.result()),), ())
    except UnreadableError as error:
        return TakenIn((), (str(error),))


def _double(*, is_dated: bool, was_there: bool) -> str:
    if is_dated:
        return (
            tr("{file_name} is a photo of {dated} that the plant has already.")
            if was_there
            else tr(
                "{file_name} is a photo of {dated} that the plant had; its file is"
                " back."
            )
        )
    return (
        tr("{file_name} is a photo that the plant has already.")
        if was_there
        else tr("{file_name} is a photo that the plant had; its file is back.")
    )


def doubles(session: Session, plant_id: int, taken: TakenIn) -> tuple[str, ...]:
    """Give a line for each photo that the plant has already, or that came twice."""
    days = {
        row.sha256: row.taken_on
        for row in session.execute(
            select(PhotoRow.sha256, PhotoRow.taken_on).where(
                PhotoRow.plant_id == plant_id
            )
        )
    }
    names: dict[str, str] = {}
    lines: list[str] = []
    for photo in taken.stored:
        if photo.sha256 in days:
            day = days[photo.sha256]
            form = _double(is_dated=bool(day), was_there=photo.was_there)
            dated = dated_text(day) if day else ""
            lines.append(form.format(file_name=photo.file_name, dated=dated))
        elif photo.sha256 in names:
            first = names[photo.sha256]
            lines.append(
                tr("{file_name} is the same photo as {first}.").format(
                    file_name=photo.file_name, first=first
                )
            )
        else:
            names[photo.sha256] = photo.file_name
    return tuple(lines)


def keep(
    writing: Writing, plant_id: int, look_id: int | None, taken: TakenIn, folder: Path
) -> tuple[int, ...]:
    """Write the rows of photos; one the plant has already is not kept twice.

    Raises InputError for a photo whose file went since, with a bin that was emptied:
    who writes keeps the files from going, so it is looked at in their turn.
    """
    for photo in taken.stored:
        if not files.lies_there(folder, photo):
            hint = tr("Add it once more.")
            problem = tr("went with the bin, which was emptied just now")
            raise InputError("photo", photo.file_name, problem, hint)
    there = {
        row.sha256: row
        for row in writing.session.execute(
            select(PhotoRow.id, PhotoRow.sha256, PhotoRow.look_id).where(
                PhotoRow.plant_id == plant_id
            )
        )
    }
    came = {photo.sha256: photo for photo in reversed(taken.stored)}
    ids = {photo.sha256: 0 for photo in taken.stored}
    new = [sha256 for sha256 in ids if sha256 not in there]
    rows = [_values(came[sha256], plant_id, look_id) for sha256 in new]
    ids |= zip(new, writing.insert_many(PhotoRow, rows), strict=True)
    ids |= {sha256: there[sha256].id for sha256 in ids if sha256 in there}
    loose = [
        there[sha256].id
        for sha256 in ids
        if sha256 in there and there[sha256].look_id is None
    ]
    if look_id is not None and loose:
        writing.update_many(PhotoRow, [(each, {"look_id": look_id}) for each in loose])
    return tuple(ids.values())


def views(session: Session, folder: Path, plant_id: int) -> tuple[PhotoView, ...]:
    """Give a plant's photos, newest first."""
    rows = session.execute(
        select(PhotoRow.__table__, LookRow.day.label("look_on"))
        .outerjoin(LookRow, LookRow.id == PhotoRow.look_id)
        .where(PhotoRow.plant_id == plant_id)
    ).all()
    found = [(_view(row, folder), row.id) for row in rows]
    found.sort(key=lambda each: (str(each[0].shown_on or ""), each[1]), reverse=True)
    return tuple(view for view, _ in found)


def _view(row: Any, folder: Path) -> PhotoView:
    path = files.photo_path(folder, row.sha256, row.ext)
    thumbnail = files.thumbnail_path(folder, row.sha256)
    problem = None
    if not path.exists():
        problem = tr(
            "The file of this photo is missing ({file}). Add the photo "
            "again, or bring back a backup."
        ).format(file=row.file_name or path.name)
    return PhotoView(
        photo_id=row.id,
        look_id=row.look_id,
        taken_on=row.taken_on,
        path=path,
        thumbnail=thumbnail if thumbnail.exists() else None,
        problem=problem,
        note=row.note,
        has_location=row.has_location,
        look_on=row.look_on,
        width=row.width,
        height=row.height,
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
