"""Painting marks: the only part of the sheet that holds a painter.

Knows nothing of plants or of where things go; it is handed marks and a corner.
"""

from __future__ import annotations

from itertools import groupby
from typing import TYPE_CHECKING, assert_never

from PySide6.QtCore import QByteArray, QPointF, QRectF, QSizeF, Qt
from PySide6.QtGui import QImageReader, QPainterPath, QPen

from growdesk.ui.printing.marks import (
    Drawing,
    Face,
    Frame,
    Modules,
    Picture,
    Rule,
    Words,
)
from growdesk.ui.printing.setting import font

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from PySide6.QtGui import QFont, QPainter

    from growdesk.ui.printing.marks import Mark


class Canvas:
    """Paints marks on any device, black on white, at the device's own resolution."""

    def __init__(self, painter: QPainter, dots_per_pt: float) -> None:
        self._painter = painter
        self._scale = dots_per_pt
        self._fonts: dict[Face, QFont] = {}
        self._face: Face | None = None
        self._thick_pt: float | None = None
        painter.setBrush(Qt.BrushStyle.NoBrush)

    def draw(self, marks: Iterable[Mark], x_pt: float, y_pt: float) -> None:
        """Paint marks, their corner at a place on the page."""
        for mark in marks:
            match mark:
                case Words():
                    self._words(mark, x_pt, y_pt)
                case Rule():
                    self._rule(mark, x_pt, y_pt)
                case Frame():
                    self._frame(mark, x_pt, y_pt)
                case Modules():
                    self._modules(mark, x_pt, y_pt)
                case Drawing():
                    self._drawing(mark, x_pt, y_pt)
                case Picture():
                    self._picture(mark, x_pt, y_pt)
                case _:
                    assert_never(mark)

    def _words(self, mark: Words, x_pt: float, y_pt: float) -> None:
        self._pen(0.0)
        self._type(mark.face)
        self._painter.drawText(self._at(x_pt + mark.x_pt, y_pt + mark.y_pt), mark.text)

    def _rule(self, mark: Rule, x_pt: float, y_pt: float) -> None:
        self._pen(mark.thick_pt)
        self._painter.drawLine(
            self._at(x_pt + mark.x1_pt, y_pt + mark.y1_pt),
            self._at(x_pt + mark.x2_pt, y_pt + mark.y2_pt),
        )

    def _frame(self, mark: Frame, x_pt: float, y_pt: float) -> None:
        self._pen(mark.thick_pt)
        corner = self._at(x_pt + mark.x_pt, y_pt + mark.y_pt)
        across = self._at(mark.width_pt, mark.height_pt)
        self._painter.drawRect(QRectF(corner, corner + across))

    def _modules(self, mark: Modules, x_pt: float, y_pt: float) -> None:
        """Fill one path of bars, so that no seam shows between neighbours."""
        path = QPainterPath()
        side = mark.module_pt
        for number, row in enumerate(mark.rows):
            for begin, end in _bars(row):
                corner = self._at(
                    x_pt + mark.x_pt + begin * side, y_pt + mark.y_pt + number * side
                )
                across = self._at((end - begin) * side, side)
                path.addRect(QRectF(corner, corner + across))
        self._painter.fillPath(path, Qt.GlobalColor.black)

    def _drawing(self, mark: Drawing, x_pt: float, y_pt: float) -> None:
        from PySide6.QtSvg import QSvgRenderer  # noqa: PLC0415 -- only where one is

        renderer = QSvgRenderer(mark.svg)
        renderer.render(self._painter, self._room(mark, x_pt, y_pt))
        self._face = self._thick_pt = None

    def _picture(self, mark: Picture, x_pt: float, y_pt: float) -> None:
        image = QImageReader(mark.file, QByteArray(b"jpg")).read()
        if image.isNull():
            return
        room = self._room(mark, x_pt, y_pt)
        fitted = QSizeF(image.size()).scaled(
            room.size(), Qt.AspectRatioMode.KeepAspectRatio
        )
        at = QRectF(QPointF(), fitted)
        at.moveCenter(room.center())
        self._painter.drawImage(at, image)

    def _room(self, mark: Drawing | Picture, x_pt: float, y_pt: float) -> QRectF:
        corner = self._at(x_pt + mark.x_pt, y_pt + mark.y_pt)
        return QRectF(corner, corner + self._at(mark.width_pt, mark.height_pt))

    def _type(self, face: Face) -> None:
        """Take a font in hand; one is made a face, since making one is slow."""
        if face == self._face:
            return
        if face not in self._fonts:
            self._fonts[face] = font(face, round(face.size_pt * self._scale))
        self._painter.setFont(self._fonts[face])
        self._face = face

    def _pen(self, thick_pt: float) -> None:
        if thick_pt == self._thick_pt:
            return
        self._thick_pt = thick_pt
        pen = QPen(Qt.GlobalColor.black, thick_pt * self._scale)
        pen.setCapStyle(Qt.PenCapStyle.FlatCap)
        pen.setJoinStyle(Qt.PenJoinStyle.MiterJoin)
        self._painter.setPen(pen)

    def _at(self, x_pt: float, y_pt: float) -> QPointF:
        return QPointF(x_pt * self._scale, y_pt * self._scale)


def _bars(row: Sequence[bool]) -> Iterator[tuple[int, int]]:
    """Give where each unbroken run of black begins and ends."""
    at = 0
    for black, run in groupby(row):
        end = at + len(list(run))
        if black:
            yield at, end
        at = end
