"""Photos as files of the collection: taken in whole or not at all, named by content.

A photo is read once, proved whole, and the very bytes that were proved are kept.
Thumbnails, and copies that a window can draw, are JPEGs that may be deleted; they are
made again. It knows neither plants nor looks.
"""

from __future__ import annotations

import errno
import hashlib
import os
from datetime import UTC, date, datetime
from enum import StrEnum
from typing import TYPE_CHECKING

from msgspec import Struct
from msgspec.structs import replace

from growdesk.domain.speech import fixed, tr
from growdesk.store import pictures
from growdesk.store.photo_place import CannotCutError, cut_place, tells_place
from growdesk.store.pictures import UnreadableError
from growdesk.store.regular_files import (
    TooLargeError,
    read_end,
    read_regular,
    shown_name,
)
from growdesk.store.trouble import gone_folder, plainly
from growdesk.store.whole_files import Synced, sync_folder, write_whole

if TYPE_CHECKING:
    from collections.abc import Iterable
    from pathlib import Path

PHOTOS = "photos"
THUMBNAILS = "thumbnails"
THUMBNAIL_PX = 320
MOST_BYTES = 100_000_000
_MAY_NOT = {errno.EROFS, errno.EACCES, errno.EPERM}
_JPEG_ENDS = b"\xff\xd9"
_FIRST_DAY = date(1990, 1, 1)


class Stored(Struct, frozen=True):
    """A photo that lies in the collection. Pixels are counted upright.

    ``taken_on`` is the camera's day; ``file_day`` is only the day its file was written.
    ``was_there`` tells that the collection held the file already, and whole.
    """

    sha256: str
    ext: str
    width: int
    height: int
    taken_on: date | None
    file_name: str
    has_location: bool = False
    file_day: date | None = None
    was_there: bool = False


class Cleaned(StrEnum):
    """How a copy came to tell no place: as it was, cut out, or drawn anew."""

    AS_IT_WAS = "as it was"
    CUT_OUT = "cut out"
    DRAWN_ANEW = "drawn anew"


def photo_path(folder: Path, sha256: str, ext: str) -> Path:
    """Give where a photo lies in a collection's folder."""
    return folder / PHOTOS / sha256[:2] / f"{sha256}.{ext}"


def thumbnail_path(folder: Path, sha256: str) -> Path:
    """Give where a photo's thumbnail lies, if it has been made."""
    return folder / THUMBNAILS / sha256[:2] / f"{sha256}.jpg"


class Examined(Struct, frozen=True):
    """A photo that was read and found whole, with its bytes, on its way in."""

    stored: Stored
    content: bytes


def examine(source: Path, today: date) -> Examined:
    """Read a photo and prove it whole; any thread may."""
    content = _read(source)
    try:
        with pictures.quietly():
            stored = _examined(content, source, today)
    except UnreadableError as error:
        raise UnreadableError(
            tr("{name} {problem} It was left out.").format(
                name=shown_name(source), problem=error
            )
        ) from error
    return Examined(stored, content)


def put(folder: Path, photo: Examined) -> Stored:
    """Write a photo into the collection's folder; its name is kept by ``settle``."""
    stored = photo.stored
    target = photo_path(folder, stored.sha256, stored.ext)
    if not folder.is_dir():
        raise gone_folder(folder)
    with plainly(target):
        if _is_there(target, stored.sha256):
            return replace(stored, was_there=True)
        target.parent.mkdir(parents=True, exist_ok=True)
        write_whole(target, photo.content, Synced.CONTENT)
    return stored


def lies_there(folder: Path, photo: Stored) -> bool:
    """Tell whether a photo's file lies in the collection's folder now."""
    try:
        return bool(read_end(photo_path(folder, photo.sha256, photo.ext), 1))
    except OSError:
        return False


def settle(folder: Path, taken: Iterable[Stored]) -> None:
    """Bring the names of photos to the disk; to be done before any row names them.

    Each folder is synced once, however many photos came into it, and also where they
    were there: who had put them may have been stopped before this.
    """
    settle_files(folder, (photo_path(folder, each.sha256, each.ext) for each in taken))


def settle_files(folder: Path, photos: Iterable[Path]) -> None:
    """Bring the names of photos in a collection's folder to the disk."""
    shelves = {each.parent for each in photos}
    if not shelves:
        return
    with plainly(folder / PHOTOS):
        for shelf in (*sorted(shelves), folder / PHOTOS, folder):
            sync_folder(shelf)


def make_thumbnail(folder: Path, sha256: str, ext: str) -> Path | None:
    """Give the thumbnail's file, made where it is missing; none if that fails."""
    target = thumbnail_path(folder, sha256)
    return _made(photo_path(folder, sha256, ext), target, THUMBNAIL_PX)


def make_drawable(folder: Path, sha256: str, ext: str) -> Path | None:
    """Give a JPEG as large as the photo, for a form that no window draws (HEIC).

    It lies with the thumbnails and is made once; none if the photo cannot be read.
    """
    beside = thumbnail_path(folder, sha256)
    target = beside.with_name(f"{sha256}-full.jpg")
    return _made(photo_path(folder, sha256, ext), target, None)


def clean_copy(source: Path, target: Path, synced: Synced = Synced.ALL) -> Cleaned:
    """Copy a photo so that the copy does not tell where it was taken.

    A file that tells no place is copied as it is. Else place, maker's note, captions
    and what hangs behind the picture (a short film) are cut out and the pixels stay;
    where its form does not allow that it is drawn anew. Turn and day always stay.
    """
    content = _read(source)
    how = Cleaned.AS_IT_WAS
    if tells_place(content):
        content, how = _cleaned(content, shown_name(source))
    with plainly(target):
        write_whole(target, content, synced)
    return how


def _cleaned(content: bytes, name: str) -> tuple[bytes, Cleaned]:
    try:
        cut = cut_place(content)
    except CannotCutError:
        cut = content
    if not tells_place(cut):
        return cut, Cleaned.CUT_OUT
    try:
        drawn = pictures.drawn_anew(content)
    except (UnreadableError, OSError, ValueError) as error:
        raise UnreadableError(
            tr(
                "{name} tells where it was taken, and that could not be taken out."
                " It was left out."
            ).format(name=name)
        ) from error
    return drawn, Cleaned.DRAWN_ANEW


def _made(source: Path, target: Path, side_px: int | None) -> Path | None:
    if _is_to_the_end(target):
        return target
    try:
        if not os.access(target.parents[2], os.W_OK):
            elsewhere = _elsewhere(target)
            if _is_to_the_end(elsewhere):
                return elsewhere
        content = whole_content(source)
        content = pictures.as_jpeg(content, side_px, 82 if side_px else 93)
        return _kept(target, content)
    except (OSError, UnreadableError):
        return None


def _is_to_the_end(made: Path) -> bool:
    """Tell whether a JPEG made here lies there with its end, which a power cut takes.

    It is not synced, for it can be made again.
    """
    try:
        return read_end(made, len(_JPEG_ENDS)) == _JPEG_ENDS
    except OSError:
        return False


def _kept(target: Path, content: bytes) -> Path:
    """Write a picture where it belongs, or where the collection may not be written."""
    try:
        target.parent.mkdir(parents=True, exist_ok=True)
        write_whole(target, content, Synced.NOTHING)
    except OSError as error:
        if error.errno not in _MAY_NOT:
            raise
        target = _elsewhere(target)
        target.parent.mkdir(parents=True, exist_ok=True)
        write_whole(target, content, Synced.NOTHING)
    return target


def _elsewhere(target: Path) -> Path:
    """Give where a picture of a collection is kept that is only looked at."""
    import platformdirs  # noqa: PLC0415 -- only where the collection may not be written

    own = platformdirs.user_cache_path("growdesk", appauthor=False)
    return own / THUMBNAILS / target.parent.name / target.name


def whole_content(path: Path) -> bytes:
    """Give the bytes of a photo of the collection, held against its name.

    Raises ``UnreadableError`` where they are not those that were taken in.
    """
    content = _read(path)
    if hashlib.sha256(content).hexdigest() != path.stem:
        raise UnreadableError(tr("The file of this photo is damaged."))
    return content


def _read(source: Path) -> bytes:
    name = shown_name(source)
    try:
        content = read_regular(source, MOST_BYTES)
    except TooLargeError as error:
        raise UnreadableError(
            tr(
                "{name} has {megabytes} MB; photos up to {most} MB are taken. It was"
                " left out."
            ).format(
                name=name,
                megabytes=fixed(error.size / 1e6, 0),
                most=fixed(MOST_BYTES / 1e6, 0),
            )
        ) from error
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or type(error).__name__
        raise UnreadableError(
            tr("{name} cannot be read ({reason}). It was left out.").format(
                name=name, reason=reason
            )
        ) from error
    if not content:
        raise UnreadableError(
            tr("{name} is empty (0 bytes). It was left out.").format(name=name)
        )
    return content


def _is_there(target: Path, sha256: str) -> bool:
    """Say whether the file lies there already, and whole."""
    try:
        content = read_regular(target, MOST_BYTES)
    except (FileNotFoundError, TooLargeError):
        return False
    return hashlib.sha256(content).hexdigest() == sha256


def _examined(content: bytes, source: Path, today: date) -> Stored:
    image = pictures.opened(content)
    ext = pictures.ENDINGS[image.format or ""]
    width, height = image.size
    turn, taken_on = pictures.said_by_camera(image, today)
    if turn in {5, 6, 7, 8}:
        width, height = height, width
    pictures.prove(image, content)
    return Stored(
        sha256=hashlib.sha256(content).hexdigest(),
        ext=ext,
        width=width,
        height=height,
        taken_on=taken_on,
        file_name=shown_name(source),
        has_location=tells_place(content),
        file_day=_file_day(source, today),
    )


def _file_day(source: Path, today: date) -> date | None:
    try:
        at = datetime.fromtimestamp(source.stat().st_mtime, UTC)
        written = at.astimezone().date()
    except (OSError, OverflowError, ValueError):
        return None
    return written if _FIRST_DAY <= written <= today else None
