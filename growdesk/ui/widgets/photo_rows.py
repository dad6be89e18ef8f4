"""Show photos in rows, some rows together made when they come near to sight.

Rows that are not made yet are as high as they will be, so that nothing moves when they
are.
"""

from __future__ import annotations

from functools import cache, partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QObject, QPoint, QRect, Qt
from PySide6.QtGui import QFontMetrics
from PySide6.QtWidgets import (
    QApplication,
    QGridLayout,
    QPushButton,
    QVBoxLayout,
    QWidget,
)
from typing_extensions import override

from growdesk.domain.speech import tr
from growdesk.ui import photo_words, sizes
from growdesk.ui.typeset import on_screen
from growdesk.ui.widgets import focus
from growdesk.ui.widgets.parts import Page, column, label
from growdesk.ui.widgets.thumbs import SIDE, tile

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from PySide6.QtGui import QMoveEvent, QResizeEvent, QShowEvent

    from growdesk.services.values import PhotoView
    from growdesk.ui.widgets.thumbs import Thumbs

    Tiled = Callable[[PhotoView], QPushButton]

_COLUMNS = 3
_TOGETHER = 4
"""Rows made at once: about as many as the pane shows."""
_NOTE = 60
_GAP_PX, _BESIDE_PX = 1, 8
_ENDLESS_PX = 10_000
_FIGURES = str.maketrans("123456789", "0" * 9)
"""All figures are of one width (``theme``), so that most days need no measuring."""


class PhotoRows(QWidget):
    """A few rows of photos with their days, notes and marks."""

    def __init__(
        self,
        within: QWidget | None,
        photos: Sequence[PhotoView],
        tiled: Tiled,
        high: int,
    ) -> None:
        super().__init__(within)
        self._photos = photos
        self._tiled = tiled
        self.tiles: list[QPushButton] = []
        side = max(SIDE, sizes.px(SIDE))
        self.setFixedSize(_COLUMNS * (side + _BESIDE_PX) - _BESIDE_PX, high)

    def make(self) -> None:
        """Put the photos into their rows."""
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setSpacing(_BESIDE_PX)
        for number, photo in enumerate(self._photos):
            grid.addWidget(self._cell(photo), number // _COLUMNS, number % _COLUMNS)
        grid.setColumnStretch(_COLUMNS, 1)

    def _cell(self, photo: PhotoView) -> QWidget:
        cell = QWidget(self)
        inner = column(spacing=_GAP_PX)
        cell.setLayout(inner)
        made = self._tiled(photo)
        self.tiles.append(made)
        inner.addWidget(made)
        for text, tone in _lines(photo):
            line = label(text, tone=tone)
            sizes.wide(line, SIDE)
            inner.addWidget(line, 0, Qt.AlignmentFlag.AlignTop)
        inner.addStretch(1)
        return cell


class InSight(Page):
    """A page whose rows of photos are made as it is scrolled to them."""

    def __init__(
        self,
        thumbs: Thumbs,
        opened: Callable[[PhotoView], object],
        within: QWidget | None = None,
    ) -> None:
        super().__init__(within)
        self._tiled: Tiled = partial(tile, thumbs=thumbs, opened=opened)
        self._rows: list[PhotoRows] = []
        self._watched: QObject | None = None

    def forget_rows(self) -> None:
        """Make no more of the rows given so far."""
        self._rows.clear()

    def add_rows(self, photos: Sequence[PhotoView], below: QVBoxLayout) -> None:
        """Put photos as rows into a column of the page."""
        high = cache(partial(_high, QFontMetrics(QApplication.font())))
        within = below.parentWidget()
        for first in range(0, len(photos), _COLUMNS * _TOGETHER):
            some = photos[first : first + _COLUMNS * _TOGETHER]
            tall = [
                SIDE
                + sum(high(text.translate(_FIGURES)) for text, _tone in _lines(each))
                for each in some
            ]
            rows = [max(tall[n : n + _COLUMNS]) for n in range(0, len(tall), _COLUMNS)]
            whole = sum(rows) + _BESIDE_PX * (len(rows) - 1)
            made = PhotoRows(within, some, self._tiled, whole)
            below.addWidget(made)
            self._rows.append(made)
            if len(self._rows) == 1:
                made.make()

    @override
    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        around: QWidget | None = self.parentWidget()
        if around is not None and around is not self._watched:
            self._watched = around
            around.installEventFilter(self)
        self._make_near()

    @override
    def moveEvent(self, event: QMoveEvent) -> None:
        super().moveEvent(event)
        self._make_near()

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._make_near()

    @override
    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.Resize:
            self._make_near()
        return super().eventFilter(watched, event)

    def _make_near(self) -> None:
        """Make what is in sight, and as much above and below it."""
        seen = self.visibleRegion().boundingRect()
        if seen.isEmpty():
            return
        near = seen.adjusted(0, -seen.height(), 0, seen.height())
        last: list[QPushButton] = []
        for row in self._rows:
            place = QRect(row.mapTo(self, QPoint()), row.size())
            if not row.tiles and near.intersects(place):
                row.make()
                focus.chain([*last[-1:], *row.tiles])
            last = row.tiles or last


def _lines(photo: PhotoView) -> list[tuple[str, str]]:
    """Give what stands under a photo, each line with its tone."""
    lines = [(photo_words.day(photo), "")]
    if photo.note:
        note = photo.note.split("\n", 1)[0]
        cut = note if len(note) <= _NOTE else f"{note[:_NOTE].rstrip()}…"
        lines.append((f"“{cut}”", "muted"))
    if photo.problem:
        lines.append((tr("The file is missing"), "wrong"))
    if photo.has_location:
        lines.append((f"● {tr(photo_words.PLACE_INSIDE)}", "muted"))
    return lines


def _high(metrics: QFontMetrics, text: str) -> int:
    """Give how high a text under a photo is, wrapped."""
    room = QRect(0, 0, sizes.px(SIDE), _ENDLESS_PX)
    wrapped = Qt.TextFlag.TextWordWrap
    return _GAP_PX + metrics.boundingRect(room, wrapped, on_screen(text)).height()
