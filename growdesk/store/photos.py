"""Photos as files of the collection: taken in whole or not at all, named by content.

A photo is read once, decoded wholly (a check of its frame alone lets cut files pass),
and the very bytes that were decoded are kept. Thumbnails are small JPEGs that may be
deleted; they are made again. It knows neither plants nor looks.
"""

from __future__ import annotations

import hashlib
import io
import warnings
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import date, datetime
from typing import TYPE_CHECKING

from growdesk.store.trouble import plainly
from growdesk.store.whole_files import write_whole

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from PIL import Image

PHOTOS = "photos"
THUMBNAILS = "thumbnails"
THUMBNAIL_PX = 320
MOST_BYTES = 100_000_000
MOST_PIXELS_JPEG = 220_000_000
MOST_PIXELS = 60_000_000
_ENDINGS = {
    "JPEG": "jpg",
    "MPO": "jpg",
    "PNG": "png",
    "WEBP": "webp",
    "TIFF": "tif",
    "GIF": "gif",
    "BMP": "bmp",
}
_FORMATS = tuple(name for name in _ENDINGS if name != "MPO")  # opened as JPEG
_EXIF_IFD, _TAKEN, _CHANGED, _ORIENTATION = 0x8769, 0x9003, 0x0132, 0x0112
_FIRST_YEAR = 1990


class UnreadableError(Exception):
    """A photo that cannot be taken in, with the reason as a person reads it."""


@dataclass(frozen=True, slots=True)
class Stored:
    """A photo that lies in the collection. Pixels are counted upright."""

    sha256: str
    ext: str
    width: int
    height: int
    taken_on: date | None
    file_name: str


def photo_path(folder: Path, sha256: str, ext: str) -> Path:
    """Give where a photo lies in a collection's folder."""
    return folder / PHOTOS / sha256[:2] / f"{sha256}.{ext}"


def thumbnail_path(folder: Path, sha256: str) -> Path:
    """Give where a photo's thumbnail lies, if it has been made."""
    return folder / THUMBNAILS / sha256[:2] / f"{sha256}.jpg"


def take_in(folder: Path, source: Path, today: date) -> Stored:
    """Check a photo by decoding it, and copy it into the collection's folder."""
    content = _read(source)
    try:
        with _quietly():
            stored = _examined(content, source.name, today)
    except UnreadableError as error:
        raise UnreadableError(f"{source.name} {error} It was left out.") from error
    target = photo_path(folder, stored.sha256, stored.ext)
    with plainly(target):
        if not _is_there(target, stored.sha256):
            target.parent.mkdir(parents=True, exist_ok=True)
            write_whole(target, content)
    return stored


def make_thumbnail(folder: Path, sha256: str, ext: str) -> Path | None:
    """Give the thumbnail's file, made where it is missing; none if that fails."""
    target = thumbnail_path(folder, sha256)
    if target.exists():
        return target
    source = photo_path(folder, sha256, ext)
    try:
        with _quietly():
            content = _small(source.read_bytes())
        target.parent.mkdir(parents=True, exist_ok=True)
        write_whole(target, content)
    except (OSError, UnreadableError):
        return None
    return target


@contextmanager
def _quietly() -> Iterator[None]:
    """Keep the decoders' remarks on odd but readable files to themselves."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        yield


def _read(source: Path) -> bytes:
    try:
        size = source.stat().st_size
        content = source.read_bytes() if size <= MOST_BYTES else b""
    except OSError as error:
        reason = error.strerror or type(error).__name__
        raise UnreadableError(
            f"{source.name} cannot be read ({reason}). It was left out."
        ) from error
    if size > MOST_BYTES:
        raise UnreadableError(
            f"{source.name} has {size / 1e6:.0f} MB; photos up to"
            f" {MOST_BYTES / 1e6:.0f} MB are taken. It was left out."
        )
    if not content:
        raise UnreadableError(f"{source.name} is empty (0 bytes). It was left out.")
    return content


def _is_there(target: Path, sha256: str) -> bool:
    """Say whether the file lies there already, and whole."""
    if not target.exists():
        return False
    return hashlib.sha256(target.read_bytes()).hexdigest() == sha256


def _examined(content: bytes, name: str, today: date) -> Stored:
    image = _opened(content)
    ext = _ENDINGS[image.format or ""]
    exif = image.getexif()
    width, height = image.size
    if exif.get(_ORIENTATION, 1) in {5, 6, 7, 8}:
        width, height = height, width
    taken = exif.get_ifd(_EXIF_IFD).get(_TAKEN) or exif.get(_CHANGED)
    _decoded(image)
    return Stored(
        sha256=hashlib.sha256(content).hexdigest(),
        ext=ext,
        width=width,
        height=height,
        taken_on=_day(taken, today),
        file_name=name,
    )


def _opened(content: bytes) -> Image.Image:
    """Open a picture by its header and refuse one that is too large to decode."""
    from PIL import Image  # noqa: PLC0415 -- loaded with the first photo

    Image.MAX_IMAGE_PIXELS = MOST_PIXELS_JPEG
    warnings.simplefilter("error", Image.DecompressionBombWarning)
    try:
        image = Image.open(io.BytesIO(content), formats=_FORMATS)
    except (Image.DecompressionBombError, Image.DecompressionBombWarning) as error:
        raise UnreadableError("has too many pixels.") from error
    except Exception as error:
        raise UnreadableError(
            "is no picture that can be read; JPEG, PNG, WebP, TIFF, GIF and BMP can."
        ) from error
    most = MOST_PIXELS_JPEG if image.format in {"JPEG", "MPO"} else MOST_PIXELS
    if image.width * image.height > most:
        raise UnreadableError(
            f"has {image.width * image.height / 1e6:.0f} million pixels;"
            f" up to {most / 1e6:.0f} million are taken."
        )
    return image


def _decoded(image: Image.Image) -> None:
    """Decode the whole picture; a very large JPEG is decoded scaled down."""
    try:
        if image.width * image.height > MOST_PIXELS:
            image.draft("RGB", (image.width // 4, image.height // 4))
        image.load()
    except Exception as error:
        raise UnreadableError("is damaged or cut short.") from error


def _day(text: object, today: date) -> date | None:
    """Give the day a camera wrote, unless its clock was plainly wrong."""
    if not isinstance(text, str):
        return None
    try:
        day = datetime.strptime(text[:10], "%Y:%m:%d").date()  # noqa: DTZ007 -- a day only
    except ValueError:
        return None
    return day if day.year >= _FIRST_YEAR and day <= today else None


def _small(content: bytes) -> bytes:
    """Give a small, upright JPEG of a photo, without anything but its pixels."""
    from PIL import ImageOps  # noqa: PLC0415 -- loaded with the first photo

    image = _opened(content)
    try:
        image.draft("RGB", (2 * THUMBNAIL_PX, 2 * THUMBNAIL_PX))
        upright = _rgb(ImageOps.exif_transpose(image))
        upright.thumbnail((THUMBNAIL_PX, THUMBNAIL_PX))
        out = io.BytesIO()
        upright.save(out, "JPEG", quality=82)
    except Exception as error:
        raise UnreadableError("is damaged or cut short.") from error
    return out.getvalue()


def _rgb(image: Image.Image) -> Image.Image:
    """Give a picture of any mode as plain colour; what is see-through turns white."""
    from PIL import Image as Pictures  # noqa: PLC0415 -- loaded with the first photo

    if image.mode.startswith("I"):
        wide = image.convert("I")
        return wide.point(lambda value: value * (1 / 256)).convert("L").convert("RGB")
    if "A" in image.mode or "transparency" in image.info:
        clear = image.convert("RGBA")
        ground = Pictures.new("RGBA", clear.size, "white")
        return Pictures.alpha_composite(ground, clear).convert("RGB")
    return image.convert("RGB")
