"""Open, check and scale picture files of any form; small files come out.

A picture is refused by its header where it is too large, then where it would not
decode to its end. HEIC needs a library that need not be there.
"""

from __future__ import annotations

import io
import warnings
from contextlib import contextmanager, nullcontext, suppress
from datetime import date, datetime
from threading import Lock
from typing import TYPE_CHECKING

from growdesk.domain.speech import fixed, mark, tr
from growdesk.store.jpeg_parts import scans_of, without_codes

if TYPE_CHECKING:
    from collections.abc import Iterator

    from PIL import Image

MOST_PIXELS_JPEG = 220_000_000
MOST_PIXELS = 60_000_000
MOST_SCANS = 200
"""Passes over the whole picture of a progressive JPEG; programs make about ten."""
ENDINGS = {
    "JPEG": "jpg",
    "MPO": "jpg",
    "PNG": "png",
    "WEBP": "webp",
    "TIFF": "tif",
    "GIF": "gif",
    "BMP": "bmp",
    "HEIF": "heic",
    "AVIF": "avif",
}
_JPEG = {"JPEG", "MPO"}
_FORMATS = tuple(name for name in ENDINGS if name != "MPO")  # opened as JPEG
_AVIF = {b"avif", b"avis"}
_HEIF = {b"heic", b"heix", b"heim", b"heis", b"hevc", b"hevx", b"mif1", b"msf1"}
_MOST_SIDE = 65_000
_SCALED_AS_THEY_ARE = {"RGB", "RGBA", "L", "CMYK"}
EXIF_IFD, ORIENTATION = 0x8769, 0x0112
_TAKEN, _DIGITIZED, _CHANGED = 0x9003, 0x9004, 0x0132
_FIRST_YEAR = 1990
_NO_HEIC = mark(
    "is a HEIC photo, and what reads those is not installed. Install it with"
    " pip install 'growdesk[heic]', or let the phone save JPEG."
)


class UnreadableError(Exception):
    """A photo that cannot be taken in, with the reason as a person reads it."""


class _Quiet:
    """The program's filters of warnings, put aside while anybody decodes.

    They are the whole program's, so of several threads the first puts them aside and
    the last puts them back.
    """

    def __init__(self) -> None:
        self._lock = Lock()
        self._many = 0
        self._aside = warnings.catch_warnings()

    def begin(self) -> None:
        """Ignore remarks from here on."""
        with self._lock:
            if not self._many:
                self._aside = warnings.catch_warnings()
                self._aside.__enter__()
                warnings.simplefilter("ignore")
            self._many += 1

    def end(self) -> None:
        """Hear remarks again, where nobody else decodes."""
        with self._lock:
            self._many -= 1
            if not self._many:
                self._aside.__exit__(None, None, None)


_quiet = _Quiet()
_one_large = Lock()
"""Held while a picture is decoded at its full size: two at once fill the memory."""


@contextmanager
def quietly() -> Iterator[None]:
    """Keep the decoders' remarks on odd but readable files to themselves."""
    _quiet.begin()
    try:
        yield
    finally:
        _quiet.end()


def opened(content: bytes) -> Image.Image:
    """Open a picture by its header and refuse one that is too large to decode."""
    from PIL import Image  # noqa: PLC0415 -- loaded with the first photo

    _make_ready_for(content)
    Image.MAX_IMAGE_PIXELS = MOST_PIXELS_JPEG
    warnings.simplefilter("error", Image.DecompressionBombWarning)
    try:
        image = Image.open(io.BytesIO(content), formats=_FORMATS)
    except (Image.DecompressionBombError, Image.DecompressionBombWarning) as error:
        raise UnreadableError(tr("has too many pixels.")) from error
    except Exception as error:
        raise UnreadableError(
            tr(
                "is no picture that can be read; JPEG, PNG, WebP, TIFF, GIF, BMP, AVIF"
                " and HEIC can."
            )
        ) from error
    is_scaled = image.format in _JPEG and "progressive" not in image.info
    most = MOST_PIXELS_JPEG if is_scaled else MOST_PIXELS
    if image.width * image.height > most:
        raise UnreadableError(
            tr("has {millions} million pixels; up to {most} million are taken.").format(
                millions=fixed(image.width * image.height / 1e6, 0),
                most=fixed(most / 1e6, 0),
            )
        )
    if "progressive" in image.info and scans_of(content) > MOST_SCANS:
        raise UnreadableError(tr("is laid out so that reading it takes hours."))
    return image


def decode(image: Image.Image) -> None:
    """Decode the whole picture; a very large JPEG is decoded scaled down."""
    try:
        if image.width * image.height > MOST_PIXELS:
            image.draft("RGB", (image.width // 4, image.height // 4))
        image.load()
    except Exception as error:
        raise UnreadableError(tr("is damaged or cut short.")) from error


def prove(image: Image.Image, content: bytes) -> None:
    """Refuse a picture that is damaged or cut short: what does not decode to its end.

    A JPEG does where its decoder takes the segments alone; what that doubts, and every
    other form, is decoded.
    """
    if image.format in _JPEG and (small := without_codes(content)) is not None:
        with suppress(UnreadableError):
            _load(opened(small))
            return
    is_small = image.format in _JPEG and "progressive" not in image.info
    with nullcontext() if is_small else _one_large:
        _load(image)


def _load(image: Image.Image) -> None:
    """Decode a picture to its end, a JPEG to as few pixels as its decoder makes."""
    try:
        if image.format in _JPEG:
            image.draft("L", (1, 1))
        image.load()
    except Exception as error:
        raise UnreadableError(tr("is damaged or cut short.")) from error


def said_by_camera(image: Image.Image, today: date) -> tuple[int, date | None]:
    """Give the turn and the day a camera wrote; 1 and none where that is broken."""
    try:
        exif = image.getexif()
        turn = exif.get(ORIENTATION, 1)
        taken_on = _day_taken(exif, today)
    except Exception:  # noqa: BLE001 -- readers of broken blocks raise whatever
        return 1, None
    return turn if isinstance(turn, int) else 1, taken_on


def _day_taken(exif: Image.Exif, today: date) -> date | None:
    """Give the day a camera wrote, unless its clock was plainly wrong."""
    detail = exif.get_ifd(EXIF_IFD)
    text = detail.get(_TAKEN) or detail.get(_DIGITIZED) or exif.get(_CHANGED)
    if not isinstance(text, str):
        return None
    try:
        day = datetime.strptime(text[:10], "%Y:%m:%d").date()  # noqa: DTZ007 -- a day only
    except ValueError:
        return None
    return day if day.year >= _FIRST_YEAR and day <= today else None


def as_jpeg(content: bytes, side_px: int | None, quality: int) -> bytes:
    """Give an upright JPEG of a picture, without anything but its pixels.

    Its longer side has at most ``side_px`` pixels; none leaves it as large as it is,
    or as the form can hold.
    """
    with quietly():
        image = opened(content)
        try:
            if side_px is not None:
                image.draft("RGB", (side_px, side_px))
            image.load()
            made = image if image.mode in _SCALED_AS_THEY_ARE else _rgb(image)
            most = side_px or _MOST_SIDE
            made.thumbnail((most, most))
            out = io.BytesIO()
            _rgb(_upright(made)).save(out, "JPEG", quality=quality)
        except Exception as error:
            raise UnreadableError(tr("is damaged or cut short.")) from error
    return out.getvalue()


def _upright(image: Image.Image) -> Image.Image:
    """Turn a picture as its camera says, where that can be read."""
    from PIL import ImageOps  # noqa: PLC0415 -- loaded with the first photo

    try:
        return ImageOps.exif_transpose(image)
    except Exception:  # noqa: BLE001 -- readers of broken blocks raise whatever
        return image


def drawn_anew(content: bytes) -> bytes:
    """Give a picture in its own form, its first frame, with only turn, day and colours.

    It is coded again: JPEG, WebP and HEIC lose a little by that.
    """
    from PIL import Image  # noqa: PLC0415 -- loaded with the first photo

    with quietly():
        image = opened(content)
        decode(image)
        old, kept = image.getexif(), Image.Exif()
        for tag in (ORIENTATION, _CHANGED):
            if tag in old:
                kept[tag] = old[tag]
        for tag in (_TAKEN, _DIGITIZED):
            if tag in old.get_ifd(EXIF_IFD):
                kept.get_ifd(EXIF_IFD)[tag] = old.get_ifd(EXIF_IFD)[tag]
        out = io.BytesIO()
        form = "JPEG" if image.format == "MPO" else image.format
        colours = image.info.get("icc_profile")
        image.info = {k: v for k, v in image.info.items() if k == "transparency"}
        image.save(out, form, quality=95, exif=kept, icc_profile=colours)
    return out.getvalue()


def _make_ready_for(content: bytes) -> None:
    """Load what reads HEIC, or AVIF where Pillow does not, at the first of them."""
    brand = content[8:12]
    if content[4:8] != b"ftyp" or brand not in _HEIF | _AVIF:
        return
    from PIL import features  # noqa: PLC0415 -- loaded with the first photo

    if brand in _AVIF and features.check("avif"):
        return
    try:
        import pillow_heif
    except ImportError as error:
        raise UnreadableError(tr(_NO_HEIC)) from error
    pillow_heif.register_heif_opener()


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
