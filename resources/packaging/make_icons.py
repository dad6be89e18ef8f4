"""Draw the program's icon in the sizes and forms that desktops ask for, from its SVG.

``make_icons.py`` writes the PNG files of the hicolor theme anew; the recipe of the
frozen program calls ``write_ico`` and ``write_icns`` as it builds.
"""

from __future__ import annotations

import sys
from pathlib import Path

from PIL import Image
from PySide6.QtCore import Qt
from PySide6.QtGui import QImage, QPainter
from PySide6.QtSvg import QSvgRenderer

RESOURCES = Path(__file__).resolve().parents[1]
DRAWN = RESOURCES / "icons" / "growdesk.svg"
HICOLOR = RESOURCES / "linux" / "share" / "icons" / "hicolor"
# 48 is asked of every program by the Icon Theme Specification 0.13; the others are for
# panels, shells and software shops that draw no SVG.
SIZES = (48, 64, 128, 256)
ICO_SIZES = (16, 24, 32, 48, 64, 128, 256)
ICNS_SIZES = (16, 32, 64, 128, 256, 512, 1024)


def drawn(size: int) -> Image.Image:
    """Give the icon as a picture of ``size`` pixels each way."""
    image = QImage(size, size, QImage.Format.Format_ARGB32_Premultiplied)
    image.fill(Qt.GlobalColor.transparent)
    painter = QPainter(image)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    QSvgRenderer(str(DRAWN)).render(painter)
    painter.end()
    straight = image.convertToFormat(QImage.Format.Format_RGBA8888)
    return Image.frombytes("RGBA", (size, size), bytes(straight.constBits()))


def write_ico(path: Path) -> None:
    """Write the icon for Windows."""
    largest, *others = (drawn(size) for size in reversed(ICO_SIZES))
    sizes = [(size, size) for size in ICO_SIZES]
    largest.save(path, sizes=sizes, append_images=others)


def write_icns(path: Path) -> None:
    """Write the icon for macOS."""
    largest, *others = (drawn(size) for size in reversed(ICNS_SIZES))
    largest.save(path, append_images=others)


def write_hicolor(identifier: str) -> None:
    """Write the PNG files of the hicolor theme, and the SVG beside them."""
    for size in SIZES:
        path = HICOLOR / f"{size}x{size}" / "apps" / f"{identifier}.png"
        path.parent.mkdir(parents=True, exist_ok=True)
        drawn(size).save(path, optimize=True)
    scalable = HICOLOR / "scalable" / "apps" / f"{identifier}.svg"
    scalable.parent.mkdir(parents=True, exist_ok=True)
    scalable.write_bytes(DRAWN.read_bytes())


if __name__ == "__main__":
    sys.path.insert(0, str(RESOURCES.parent))
    from growdesk import APPLICATION_ID

    write_hicolor(APPLICATION_ID)
