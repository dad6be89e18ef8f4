"""Decode photos for the screen: always on a lane, never on the window's thread.

``QImageReader`` scales while it decodes and leaves the window's thread free meanwhile.
What it cannot read (HEIC, AVIF) is read from a JPEG that the store makes once.
"""

from __future__ import annotations

from math import sqrt
from typing import TYPE_CHECKING

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QImage, QImageReader

from growdesk.services import photo_whole

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from growdesk.services.values import PhotoView

FIT_PX = 1600
MOST_PIXELS = 60_000_000
"""What one picture may hold in memory; a larger one is shown scaled to it."""
_FORMS = frozenset({b"jpeg", b"png", b"webp", b"tiff", b"gif", b"bmp"})
"""Never SVG: it is a program rather than a picture, and may name other files."""


def decode(path: Path, side: int | None) -> QImage:
    """Give a picture upright within a square of ``side`` pixels; null if unreadable."""
    reader = QImageReader(str(path))
    reader.setAutoTransform(True)
    if not path.is_file() or bytes(reader.format().data()) not in _FORMS:
        return QImage()
    size = reader.size()
    if size.isValid():
        wanted = _wanted(size, side)
        if wanted != size:
            reader.setScaledSize(wanted)
    return reader.read()


def _wanted(size: QSize, side: int | None) -> QSize:
    longer = max(size.width(), size.height())
    if side is not None and longer > side:
        return size.scaled(side, side, Qt.AspectRatioMode.KeepAspectRatio)
    pixels = size.width() * size.height()
    return size if pixels <= MOST_PIXELS else size * sqrt(MOST_PIXELS / pixels)


def read(
    photo: PhotoView, side: int | None, drawable: Callable[[int], Path | None]
) -> QImage:
    """Give a photo within a square; null if nothing here can draw it.

    Raises ``StoreError`` where its file is not the one that was taken in: Qt would show
    what is left of one cut short.
    """
    photo_whole.check(photo.path)
    image = decode(photo.path, side)
    if not image.isNull():
        return image
    made = drawable(photo.photo_id)
    return image if made is None else decode(made, side)
