"""Paint one page into a picture, for a screen; it may run on any thread."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtGui import QImage, QPainter

from growdesk.ui.printing.drawing import Canvas
from growdesk.ui.printing.marks import Words

if TYPE_CHECKING:
    from growdesk.ui.printing.pages import Page


def page_picture(
    page: Page, size_pt: tuple[float, float], dots_per_pt: float
) -> QImage:
    """Give a page, black on white, with so many dots to the point."""
    wide, high = (max(round(side * dots_per_pt), 1) for side in size_pt)
    picture = QImage(wide, high, QImage.Format.Format_RGB32)
    picture.fill(0xFFFFFFFF)
    painter = QPainter(picture)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    canvas = Canvas(painter, dots_per_pt)
    try:
        for placed in page.placed:
            canvas.draw(placed.marks, placed.x_pt, placed.y_pt)
    finally:
        painter.end()
    return picture


def page_words(page: Page) -> str:
    """Give what stands on a page as text, a block a line."""
    blocks = (
        " ".join(mark.text for mark in placed.marks if isinstance(mark, Words))
        for placed in page.placed
    )
    return "\n".join(block for block in blocks if block)
