"""Give the drawn marks and icons, coloured for the scheme in force.

Each SVG is drawn in one colour, written as ``#000``; that colour is replaced at load.
"""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from PySide6.QtCore import QByteArray, QRectF, Qt
from PySide6.QtGui import QIcon, QPainter, QPixmap
from PySide6.QtSvg import QSvgRenderer

from growdesk import assets
from growdesk.ui import scratch

if TYPE_CHECKING:
    from growdesk.domain.facts import Verdict


@lru_cache(maxsize=64)
def resource_text(name: str) -> str:
    """Give the text of a shipped file."""
    return assets.read_text(name)


@lru_cache(maxsize=256)
def renderer(name: str, colour: str) -> QSvgRenderer:
    """Give the renderer of an icon in a colour."""
    text = resource_text(f"icons/{name}.svg").replace("#000", colour)
    return QSvgRenderer(QByteArray(text.encode()))


def paint(painter: QPainter, name: str, colour: str, where: QRectF) -> None:
    """Paint an icon in a colour into a rectangle."""
    renderer(name, colour).render(painter, where)


def mark_name(verdict: Verdict) -> str:
    """Give the name of a verdict's mark."""
    return f"verdict-{verdict.value}"


def pixmap(name: str, colour: str, size: int, ratio: float = 1.0) -> QPixmap:
    """Give an icon as a pixmap of ``size`` logical pixels."""
    picture = QPixmap(round(size * ratio), round(size * ratio))
    picture.setDevicePixelRatio(ratio)
    picture.fill(Qt.GlobalColor.transparent)
    painter = QPainter(picture)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    paint(painter, name, colour, QRectF(0, 0, size, size))
    painter.end()
    return picture


@lru_cache(maxsize=64)
def coloured_file(name: str, colour: str) -> str:
    """Give the path of an icon as a file in a colour, for the style sheet."""
    text = resource_text(f"icons/{name}.svg").replace("#000", colour)
    path = scratch.folder() / f"{name}-{colour.lstrip('#')}.svg"
    path.write_text(text, encoding="utf-8")
    return path.as_posix()


@lru_cache(maxsize=128)
def icon(name: str, colour: str) -> QIcon:
    """Give an icon in a colour, sharp up to twice its size; it is drawn once."""
    made = QIcon()
    for size in (16, 24, 32, 48):
        made.addPixmap(pixmap(name, colour, size))
    return made
