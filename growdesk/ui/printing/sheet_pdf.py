"""The weekly sheet as a PDF file, made without a screen where there is none.

Pages are laid out first, since every page says how many there are, then painted. The
file is there whole or not at all.
"""

from __future__ import annotations

import os
import sys
from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QBuffer, QIODevice, QMarginsF
from PySide6.QtGui import QGuiApplication, QPageSize, QPainter, QPdfWriter

from growdesk.domain.errors import StoreError
from growdesk.domain.speech import tr
from growdesk.services.long_work import quietly
from growdesk.store.whole_files import write_whole
from growdesk.ui.printing.drawing import Canvas
from growdesk.ui.printing.pages import lay_out
from growdesk.ui.printing.paper import choose_paper
from growdesk.ui.printing.searchable import spaces_as_spaces
from growdesk.ui.printing.wording import title

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence
    from pathlib import Path

    from PySide6.QtGui import QPagedPaintDevice

    from growdesk.services.long_work import Step
    from growdesk.services.sheet_values import Sheet
    from growdesk.ui.printing.pages import Page

_DOTS_PER_INCH = 1200

_kept: list[QGuiApplication] = []
"""The application made here, alive as long as the program: type is bound to it."""


def write_pdf(
    sheet: Sheet, path: Path, paper: str | None = None, step: Step = quietly
) -> None:
    """Save the sheet as a PDF; ``paper`` is ``A4``, ``Letter`` or the machine's own."""
    content = pages_pdf(title(sheet), partial(lay_out, sheet), paper, step)
    save_pdf(content, path, tr("The sheet"))


def pdf_bytes(sheet: Sheet, paper: str | None = None) -> bytes:
    """Give the sheet as the content of a PDF file."""
    return pages_pdf(title(sheet), partial(lay_out, sheet), paper)


def save_pdf(content: bytes, path: Path, what: str) -> None:
    """Save the content of a PDF file whole; ``what`` it is stands in the refusal."""
    try:
        write_whole(path, content)
    except OSError as error:
        reason = error.strerror or str(error)
        raise StoreError(
            tr("{what} cannot be saved as {path}: {reason}.").format(
                what=what, path=path, reason=reason
            ),
            tr("Choose another folder or name."),
        ) from error


def pages_pdf(
    titled: str,
    laid_out: Callable[[float, float], Sequence[Page]],
    paper: str | QPageSize | None = None,
    step: Step = quietly,
) -> bytes:
    """Give pages as the content of a PDF file; they are laid out for the paper.

    ``step`` is told of each page, and may stop the work before anything is written.
    """
    _ensure_type_can_be_set()
    size = paper if isinstance(paper, QPageSize) else QPageSize(choose_paper(paper))
    points = size.sizePoints()
    pages = laid_out(points.width(), points.height())
    buffer = QBuffer()
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    writer = QPdfWriter(buffer)
    writer.setTitle(titled)
    writer.setCreator("growdesk")
    writer.setResolution(_DOTS_PER_INCH)
    writer.setPageSize(size)
    writer.setPageMargins(QMarginsF(0, 0, 0, 0))
    painter = QPainter(writer)
    try:
        paint_pages(painter, writer, pages, step)
    finally:
        painter.end()
    step(len(pages), len(pages))
    return spaces_as_spaces(bytes(buffer.data().data()))


def paint_pages(
    painter: QPainter,
    device: QPagedPaintDevice,
    pages: Sequence[Page],
    step: Step = quietly,
) -> None:
    """Paint pages one after another on a device that the painter has begun on."""
    canvas = Canvas(painter, device.logicalDpiX() / 72)
    for number, page in enumerate(pages):
        step(number, len(pages))
        if number:
            device.newPage()
        for placed in page.placed:
            canvas.draw(placed.marks, placed.x_pt, placed.y_pt)


def _ensure_type_can_be_set() -> None:
    """Make an application without a screen where none runs; Qt sets no type without."""
    if QGuiApplication.instance() is not None or _kept:
        return
    chosen = "QT_QPA_PLATFORM" in os.environ or not sys.platform.startswith("linux")
    platform = [] if chosen else ["-platform", "offscreen"]
    _kept.append(QGuiApplication(["growdesk", *platform]))
