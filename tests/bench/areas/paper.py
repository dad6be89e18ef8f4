"""Paper: the weekly sheet from an open collection to its file, and its painting."""

from __future__ import annotations

import subprocess
import sys
from contextlib import closing
from typing import TYPE_CHECKING

from PySide6.QtCore import QBuffer, QIODevice, QMarginsF, QPointF, QRectF, Qt
from PySide6.QtGui import QGuiApplication, QPageSize, QPainter, QPdfWriter

from growdesk.services.collection import Collection
from growdesk.ui.printing.marks import Frame, Rule, Words
from growdesk.ui.printing.pages import lay_out
from growdesk.ui.printing.setting import font
from growdesk.ui.printing.sheet_pdf import write_pdf
from tests.bench.bars import Bar, Limit, Pair

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from growdesk.ui.printing.pages import Page
    from tests.bench.ground import Ground

DOTS_PER_INCH = 1200
A4 = QPageSize(QPageSize.PageSizeId.A4)
FIRST = """
import sys, time
from datetime import date
from pathlib import Path
from growdesk.services.clock import FixedClock
from PySide6.QtWidgets import QApplication
from growdesk.services.collection import Collection
application = QApplication(["bench"])
folder, to, on = sys.argv[1:]
day = date.fromisoformat(on)
collection = Collection.open(Path(folder), FixedClock(day))
import growdesk.ui.window
collection.day.view()
began = time.perf_counter()
from growdesk.ui.printing.sheet_pdf import write_pdf
write_pdf(collection.sheet.week(day), Path(to), "A4")
print(time.perf_counter() - began)
collection.close()
"""


def first(ground: Ground) -> Pair:
    """Make the first sheet of a window that has shown its day and no more."""
    folder, to = ground.copy(photos=False), ground.tmp / "first.pdf"
    words = [sys.executable, "-c", FIRST, str(folder), str(to), str(ground.today)]

    def ours() -> float:
        done = subprocess.run(words, capture_output=True, check=True, text=True)
        return float(done.stdout)

    return Pair(ours)


def again(ground: Ground) -> Pair:
    """Make the sheet from an open collection, as every time but the first."""
    collection = Collection.open(ground.copy(photos=False), ground.clock())

    def ours() -> None:
        sheet = collection.sheet.week(ground.today)
        write_pdf(sheet, ground.tmp / "sheet.pdf", "A4")

    return Pair(ours, close=collection.close)


def painted(ground: Ground) -> Pair:
    """Set, paint and write a sheet; by hand the same runs stand where they stood."""
    _application = QGuiApplication.instance() or QGuiApplication(["bench"])
    folder = ground.copy(photos=False)
    with closing(Collection.open(folder, ground.clock())) as collection:
        sheet = collection.sheet.week(ground.today)
    points = A4.sizePoints()
    pages = lay_out(sheet, points.width(), points.height())
    assert len(pages) > 10, len(pages)
    target = ground.tmp / "painted.pdf"
    assert _application is not None
    return Pair(lambda: write_pdf(sheet, target, "A4"), lambda: _by_hand(pages, target))


def _by_hand(pages: Sequence[Page], target: Path) -> None:
    buffer = QBuffer()
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    writer = QPdfWriter(buffer)
    writer.setResolution(DOTS_PER_INCH)
    writer.setPageSize(A4)
    writer.setPageMargins(QMarginsF(0, 0, 0, 0))
    painter = QPainter(writer)
    painter.setPen(Qt.GlobalColor.black)
    dots = DOTS_PER_INCH / 72
    marks = [mark for page in pages for each in page.placed for mark in each.marks]
    faces = {mark.face for mark in marks if isinstance(mark, Words)}
    fonts = {face: font(face, round(face.size_pt * dots)) for face in faces}
    for number, page in enumerate(pages):
        if number:
            writer.newPage()
        for placed in page.placed:
            corner = QPointF(placed.x_pt, placed.y_pt)
            for mark in placed.marks:
                match mark:
                    case Words():
                        painter.setFont(fonts[mark.face])
                        at = corner + QPointF(mark.x_pt, mark.y_pt)
                        painter.drawText(at * dots, mark.text)
                    case Rule():
                        start = corner + QPointF(mark.x1_pt, mark.y1_pt)
                        end = corner + QPointF(mark.x2_pt, mark.y2_pt)
                        painter.drawLine(start * dots, end * dots)
                    case Frame():
                        at = corner + QPointF(mark.x_pt, mark.y_pt)
                        across = QPointF(mark.width_pt, mark.height_pt)
                        painter.drawRect(QRectF(at * dots, (at + across) * dots))
                    case _:
                        raise AssertionError(mark)
    painter.end()
    target.write_bytes(bytes(buffer.data().data()))


BARS = (
    Bar(
        "paper-sheet-first",
        "First weekly sheet, 40 plants, after the day",
        "",
        Limit.ms(300),
        first,
        (40,),
    ),
    Bar("paper-sheet-40", "Weekly sheet, 40 plants", "", Limit.ms(300), again, (40,)),
    Bar(
        "paper-sheet-2000",
        "Weekly sheet, 2 000 plants",
        "",
        Limit.ms(4_000),
        again,
        (2_000,),
    ),
    Bar(
        "paper-sheet-first-2000",
        "First weekly sheet, 2 000 plants, after the day",
        "",
        Limit.ms(4_000),
        first,
        (2_000,),
    ),
    Bar(
        "paper-growth",
        "Weekly sheet as plants grow",
        "",
        Limit.ms(20_000),
        again,
        (40, 1_000, 2_000),
        grows=True,
    ),
    Bar(
        "paper-painted",
        "Weekly sheet of 100 plants, set and painted",
        "QPainter by hand, the same runs at the same places",
        Limit.times(2.5),
        painted,
        (100,),
    ),
)
