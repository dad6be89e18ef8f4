"""Show pages under one another, each as a picture made beside the window.

Pictures are made of the pages in sight and of the next, the one in the middle first.
Until one is there its page is white, or the picture of another size, stretched.
"""

from __future__ import annotations

from enum import Enum
from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QRectF, QSizeF, Qt, QTimer, Signal
from PySide6.QtGui import QColor, QPainter, QPen
from PySide6.QtWidgets import QAbstractScrollArea
from typing_extensions import override

from growdesk.domain.speech import tr
from growdesk.ui import theme
from growdesk.ui.printing.page_picture import page_picture, page_words
from growdesk.ui.tasks import Job

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from PySide6.QtGui import (
        QFocusEvent,
        QImage,
        QKeyEvent,
        QPaintEvent,
        QResizeEvent,
        QWheelEvent,
    )

    from growdesk.ui.printing.pages import Page

GAP_PX = 14
LEAST_PX_PER_PT, MOST_PX_PER_PT = 0.25, 5.0
ZOOM = 1.25
REST_MS = 80
KEPT_DOTS = 24_000_000
"""How many dots of pictures are kept: some 100 MB."""

_STEP_PX = 48
_RING_PX = 2.0
_WHITE = "#ffffff"


class Fit(Enum):
    """What of a page fills the view."""

    PAGE = "page"
    WIDTH = "width"
    NOTHING = "nothing"


class PageView(QAbstractScrollArea):
    """Pages to look at; ``work_wanted`` hands out the job of a picture."""

    work_wanted = Signal(object, object)
    turned = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.pages: tuple[Page, ...] = ()
        self.pictures: dict[int, tuple[float, QImage]] = {}
        self.px_per_pt = 1.0
        self._size_pt = QSizeF(1, 1)
        self._fit = Fit.PAGE
        self._asked = False
        self._rest = QTimer(self)
        self._rest.setSingleShot(True)
        self._rest.timeout.connect(self._ask)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAccessibleName(tr("The pages"))
        self.verticalScrollBar().setSingleStep(_STEP_PX)
        self.verticalScrollBar().valueChanged.connect(self._scrolled)
        self.horizontalScrollBar().setSingleStep(_STEP_PX)

    def show_pages(self, pages: Sequence[Page], wide_pt: float, high_pt: float) -> None:
        """Show pages of a size, from the first on."""
        self.pages, self._size_pt = tuple(pages), QSizeF(wide_pt, high_pt)
        self.pictures.clear()
        self._lay_out()
        self.go_to(0)
        self._told()
        self._rest.start(0)

    @property
    def page(self) -> int:
        """Give the page in the middle of the view, counted from 0."""
        middle = self.verticalScrollBar().value() + self.viewport().height() / 2
        return max(0, min(int(middle / self._step_px()), len(self.pages) - 1))

    def go_to(self, page: int) -> None:
        """Bring the top of a page into sight; there is none before the first."""
        page = max(0, min(page, len(self.pages) - 1))
        self.verticalScrollBar().setValue(round(page * self._step_px()))

    def fit(self, what: Fit) -> None:
        """Fill the view with a whole page or with its width."""
        self._fit = what
        self._lay_out()
        self._rest.start(0)

    def zoom(self, times: float) -> None:
        """Show the pages so many times as large, the middle of the view staying."""
        self._fit = Fit.NOTHING
        wanted = self.px_per_pt * times
        self._take_scale(max(LEAST_PX_PER_PT, min(wanted, MOST_PX_PER_PT)))
        self._rest.start(REST_MS)

    def _lay_out(self) -> None:
        room = self.viewport().size()
        across = (room.width() - 2 * GAP_PX) / self._size_pt.width()
        down = (room.height() - 2 * GAP_PX) / self._size_pt.height()
        scales = {Fit.PAGE: min(across, down), Fit.WIDTH: across}
        wanted = scales.get(self._fit, self.px_per_pt)
        self._take_scale(max(LEAST_PX_PER_PT, min(wanted, MOST_PX_PER_PT)))

    def _take_scale(self, px_per_pt: float) -> None:
        bar, across = self.verticalScrollBar(), self.horizontalScrollBar()
        room = self.viewport().size()
        share = (bar.value() + room.height() / 2) / self._step_px()
        self.px_per_pt = px_per_pt
        content = len(self.pages) * self._step_px() + GAP_PX
        bar.setPageStep(room.height())
        bar.setRange(0, max(0, round(content) - room.height()))
        bar.setValue(round(share * self._step_px() - room.height() / 2))
        wide = round(self._size_pt.width() * px_per_pt) + 2 * GAP_PX
        across.setPageStep(room.width())
        across.setRange(0, max(0, wide - room.width()))
        across.setValue(across.maximum() // 2)
        self.viewport().update()

    def _step_px(self) -> float:
        return self._size_pt.height() * self.px_per_pt + GAP_PX

    def _rect_of(self, page: int) -> QRectF:
        wide = self._size_pt.width() * self.px_per_pt
        high = self._size_pt.height() * self.px_per_pt
        beside = max((self.viewport().width() - wide) / 2, GAP_PX)
        return QRectF(
            round(beside - self.horizontalScrollBar().value()),
            round(page * self._step_px() + GAP_PX - self.verticalScrollBar().value()),
            round(wide),
            round(high),
        )

    def in_sight(self) -> list[int]:
        """Give the pages of which anything is in sight."""
        top = self.verticalScrollBar().value()
        first = int(top / self._step_px())
        last = int((top + self.viewport().height()) / self._step_px())
        return list(range(max(first, 0), min(last + 1, len(self.pages))))

    def _scrolled(self) -> None:
        self.viewport().update()
        self._told()
        self._rest.start(0)

    def _told(self) -> None:
        said = page_words(self.pages[self.page]) if self.pages else ""
        self.setAccessibleDescription(said)
        self.turned.emit()

    def _dots_per_pt(self) -> float:
        return self.px_per_pt * self.devicePixelRatioF()

    def _ask(self) -> None:
        """Have the next picture made that is wanted and not there."""
        if self._asked or not self.isVisible() or not self.pages:
            return
        dots = self._dots_per_pt()
        seen = self.in_sight()
        seen.sort(key=lambda page: (page != self.page, page))
        for page in (*seen, self.page + 1):
            if page < len(self.pages) and self.pictures.get(page, (0.0,))[0] != dots:
                break
        else:
            return
        self._asked = True
        size_pt = self._size_pt.width(), self._size_pt.height()
        work = partial(page_picture, self.pages[page], size_pt, dots)
        take = partial(self._take, self.pages, page, dots)
        self.work_wanted.emit(self, Job(work, take, self._refused))

    def _take(
        self, of: tuple[Page, ...], page: int, dots: float, picture: QImage
    ) -> None:
        self._asked = False
        if of is self.pages:
            self.pictures[page] = dots, picture
            self._let_go()
            self.viewport().update()
        self._ask()

    def _refused(self, _error: Exception) -> None:
        self._asked = False

    def _let_go(self) -> None:
        """Keep the pictures nearest to the page shown, as many as have room."""
        kept, here = 0, self.page
        for page in sorted(self.pictures, key=lambda each: abs(each - here)):
            picture = self.pictures[page][1]
            kept += picture.width() * picture.height()
            if kept > KEPT_DOTS and abs(page - here) > 1:
                del self.pictures[page]

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        colours = theme.colours()
        painter = QPainter(self.viewport())
        painter.fillRect(self.viewport().rect(), QColor(colours.page))
        painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
        for page in self.in_sight():
            rect = self._rect_of(page)
            painter.fillRect(rect, QColor(_WHITE))
            if page in self.pictures:
                painter.drawImage(rect, self.pictures[page][1])
            painter.setPen(QPen(QColor(colours.edge), 1.0))
            painter.drawRect(rect.adjusted(-0.5, -0.5, 0.5, 0.5))
        if self.hasFocus():
            painter.setPen(QPen(QColor(colours.focus), _RING_PX))
            painter.drawRect(QRectF(self.viewport().rect()).adjusted(1, 1, -1, -1))
        painter.end()

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._lay_out()
        self._rest.start(REST_MS if self.pictures else 0)

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        keys: dict[int, Callable[[], None]] = {
            Qt.Key.Key_PageDown: lambda: self.go_to(self.page + 1),
            Qt.Key.Key_PageUp: lambda: self.go_to(self.page - 1),
            Qt.Key.Key_Home: lambda: self.go_to(0),
            Qt.Key.Key_End: lambda: self.go_to(len(self.pages) - 1),
            Qt.Key.Key_Plus: lambda: self.zoom(ZOOM),
            Qt.Key.Key_Minus: lambda: self.zoom(1 / ZOOM),
            Qt.Key.Key_0: lambda: self.fit(Fit.PAGE),
            Qt.Key.Key_1: lambda: self.fit(Fit.WIDTH),
        }
        done = keys.get(event.key())
        if done is None:
            super().keyPressEvent(event)
        else:
            done()

    @override
    def wheelEvent(self, event: QWheelEvent) -> None:
        if event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            self.zoom(ZOOM if event.angleDelta().y() > 0 else 1 / ZOOM)
        else:
            super().wheelEvent(event)

    @override
    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self.viewport().update()

    @override
    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        self.viewport().update()
