"""Draw one picture at any scale; zoom, move and mark it by mouse and by keyboard.

Scale is pixels of the window per pixel of the picture. A small copy is drawn while it
is sharp enough, and the whole one asked for beyond that.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QColor,
    QImage,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QResizeEvent,
    QWheelEvent,
)
from PySide6.QtWidgets import QLabel, QSizePolicy
from typing_extensions import override

from growdesk.ui import theme

if TYPE_CHECKING:
    from collections.abc import Mapping

_STEP, _MOST_SCALE, _PAN_PX, _FINE_PX = 1.25, 16.0, 60.0, 8.0
_ARROWS: Mapping[int, tuple[int, int]] = {
    Qt.Key.Key_Left: (-1, 0),
    Qt.Key.Key_Right: (1, 0),
    Qt.Key.Key_Up: (0, -1),
    Qt.Key.Key_Down: (0, 1),
}
_IN = {Qt.Key.Key_Plus, Qt.Key.Key_Equal}
_SET = {Qt.Key.Key_Space, Qt.Key.Key_Return, Qt.Key.Key_Enter}


class Picture(QLabel):
    """One picture, or words in its place."""

    full_wanted = Signal()
    moved = Signal()
    arrived = Signal()
    fit_wanted = Signal()
    marked = Signal()

    def __init__(self, name: str) -> None:
        super().__init__()
        self.setAccessibleName(name)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setMinimumSize(160, 140)
        self.words = ""
        self.scale = 1.0
        self.centre = QPointF()
        self.is_fit = True
        self.marks: tuple[QPointF, ...] = ()
        self.marking = False
        self._cursor = QPointF()
        self._whole = QSize()
        self._small = QImage()
        self._full = QImage()
        self._dragged: QPointF | None = None

    @override
    def sizeHint(self) -> QSize:
        return QSize(720, 520)

    # -- what is shown --------------------------------------------------------------

    @property
    def has_image(self) -> bool:
        """Tell whether a picture is shown, and no words."""
        return not self._small.isNull()

    @property
    def whole(self) -> QSize:
        """Give the picture's size in its own pixels."""
        return self._whole

    def show_words(self, text: str) -> None:
        """Show words in place of a picture."""
        self._small, self._full = QImage(), QImage()
        self.words = text
        self.marks = ()
        self.setAccessibleDescription(text)
        self.update()

    def show_fit(self, image: QImage, whole: QSize) -> None:
        """Show a small copy of a picture of that size, as large as fits."""
        self._small, self._whole, self.words = image, whole, ""
        self.setAccessibleDescription("")
        self._cursor = QPointF(whole.width() / 2, whole.height() / 2)
        self.fit()
        self.arrived.emit()

    def show_full(self, image: QImage) -> None:
        """Draw the whole picture from now on, where the small copy is not enough."""
        self._full = image
        self.update()

    # -- scale and place ------------------------------------------------------------

    @property
    def fit_scale(self) -> float:
        """Give the scale at which the whole picture is in sight."""
        if self._whole.isEmpty():
            return 1.0
        wide = self.width() / self._whole.width()
        return min(wide, self.height() / self._whole.height())

    @property
    def own_scale(self) -> float:
        """Give the scale at which a pixel of the picture is one of the screen."""
        return 1 / self.devicePixelRatioF()

    def fit(self) -> None:
        """Show the whole picture."""
        self.is_fit = True
        middle = QPointF(self._whole.width() / 2, self._whole.height() / 2)
        self._place(self.fit_scale, middle)

    def zoom(self, scale: float, about: QPointF | None = None) -> None:
        """Take a scale; the point of the window ``about`` stays where it is."""
        if not self.has_image:
            return
        about = self._middle() if about is None else about
        kept = self.to_picture(about)
        least = min(self.fit_scale, self.own_scale)
        scale = min(max(scale, least), max(_MOST_SCALE, least))
        self.is_fit = False
        self._place(scale, kept - (about - self._middle()) / scale)
        self.moved.emit()

    def pan(self, across_px: float, down_px: float) -> None:
        """Move what is seen by pixels of the window."""
        if self.has_image:
            self.is_fit = False
            self._place(
                self.scale, self.centre + QPointF(across_px, down_px) / self.scale
            )
            self.moved.emit()

    def put(self, scale: float, centre: QPointF) -> None:
        """Show the picture at a scale about one of its points; tells nobody."""
        self.is_fit = False
        self._place(scale, centre, stays=False)

    def to_picture(self, at: QPointF) -> QPointF:
        """Give the picture's point under a point of the window."""
        return self.centre + (at - self._middle()) / self.scale

    def to_window(self, point: QPointF) -> QPointF:
        """Give where a point of the picture is drawn."""
        return self._middle() + (point - self.centre) * self.scale

    def mark(self, point: QPointF) -> None:
        """Set a mark; after two the next begins anew."""
        before = self.marks if len(self.marks) < 2 else ()
        self.marks = (*before, point)
        self.update()
        self.marked.emit()

    def _middle(self) -> QPointF:
        return QPointF(self.width() / 2, self.height() / 2)

    def _place(self, scale: float, centre: QPointF, *, stays: bool = True) -> None:
        """Take scale and middle; the middle ``stays`` on the picture, or need not."""
        self.scale = scale
        wide, high = self._whole.width(), self._whole.height()
        across, down = centre.x(), centre.y()
        if stays:
            across, down = min(max(across, 0.0), wide), min(max(down, 0.0), high)
        self.centre = QPointF(across, down)
        sharp = scale * self.devicePixelRatioF() * wide
        is_small = self._small.width() < min(sharp / 1.1, wide)
        if self.has_image and self._full.isNull() and is_small:
            self.full_wanted.emit()
        self.update()

    # -- keys and mouse -------------------------------------------------------------

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        if not (self.has_image and self._key(event)):
            event.ignore()

    def _key(self, event: QKeyEvent) -> bool:
        key = event.key()
        if key in _IN:
            self.zoom(self.scale * _STEP)
        elif key == Qt.Key.Key_Minus:
            self.zoom(self.scale / _STEP)
        elif key == Qt.Key.Key_0:
            self.fit()
            self.fit_wanted.emit()
        elif key == Qt.Key.Key_1:
            self.zoom(self.own_scale)
        elif key in _ARROWS:
            return self._arrow(event)
        elif key in _SET and self.marking:
            self.mark(self._cursor)
        else:
            return False
        return True

    def _arrow(self, event: QKeyEvent) -> bool:
        across, down = _ARROWS[event.key()]
        if self.marking:
            fine = event.modifiers() & Qt.KeyboardModifier.ShiftModifier
            step = (1.0 if fine else _FINE_PX) / self.scale
            self._cursor = self._cursor + QPointF(across * step, down * step)
            self.update()
            return True
        if self.is_fit:
            return False
        self.pan(across * _PAN_PX, down * _PAN_PX)
        return True

    @override
    def wheelEvent(self, event: QWheelEvent) -> None:
        notches = event.angleDelta().y() / 120
        self.zoom(self.scale * _STEP**notches, event.position())
        event.accept()

    @override
    def mousePressEvent(self, event: QMouseEvent) -> None:
        if event.button() != Qt.MouseButton.LeftButton or not self.has_image:
            return
        if self.marking:
            self._cursor = self.to_picture(event.position())
            self.mark(self._cursor)
        else:
            self._dragged = event.position()
            self.setCursor(Qt.CursorShape.ClosedHandCursor)

    @override
    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        if self._dragged is not None:
            by = self._dragged - event.position()
            self._dragged = event.position()
            self.pan(by.x(), by.y())

    @override
    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        self._dragged = None
        self.unsetCursor()

    @override
    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        if self.marking or not self.has_image:
            return
        if self.is_fit:
            self.zoom(self.own_scale, event.position())
        else:
            self.fit()
            self.fit_wanted.emit()

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if self.is_fit and self.has_image:
            self.fit()

    # -- drawing --------------------------------------------------------------------

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        colours = theme.colours()
        painter.fillRect(self.rect(), QColor(colours.band))
        if self.has_image:
            painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
            self._draw(painter)
            self._draw_marks(painter)
        else:
            painter.setPen(QColor(colours.muted))
            flags = Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap
            painter.drawText(self.rect().adjusted(20, 20, -20, -20), flags, self.words)
        if self.hasFocus():
            painter.setPen(QPen(QColor(colours.focus), 2))
            painter.drawRect(self.rect().adjusted(1, 1, -1, -1))
        painter.end()

    def _draw(self, painter: QPainter) -> None:
        """Draw what is in sight, from the copy that is sharp enough."""
        sharp = self.scale * self.devicePixelRatioF() * self._whole.width()
        small = self._full.isNull() or sharp <= self._small.width()
        image = self._small if small else self._full
        whole = QRectF(0, 0, self._whole.width(), self._whole.height())
        seen = QRectF(
            self.to_picture(QPointF(0, 0)),
            self.to_picture(QPointF(self.width(), self.height())),
        ).intersected(whole)
        if seen.isEmpty():
            return
        target = QRectF(
            self.to_window(seen.topLeft()), self.to_window(seen.bottomRight())
        )
        ratio = image.width() / self._whole.width()
        source = QRectF(seen.topLeft() * ratio, seen.size() * ratio)
        painter.drawImage(target, image, source)

    def _draw_marks(self, painter: QPainter) -> None:
        if not (self.marks or self.marking):
            return
        colours = theme.colours()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        drawn = [self.to_window(point) for point in self.marks]
        for width, colour in ((5, colours.card), (2, colours.accent)):
            painter.setPen(QPen(QColor(colour), width))
            for point in drawn:
                painter.drawEllipse(point, 7, 7)
            if len(drawn) == 2:
                painter.drawLine(drawn[0], drawn[1])
            if self.marking and self.hasFocus():
                at = self.to_window(self._cursor)
                painter.drawLine(at - QPointF(14, 0), at + QPointF(14, 0))
                painter.drawLine(at - QPointF(0, 14), at + QPointF(0, 14))
