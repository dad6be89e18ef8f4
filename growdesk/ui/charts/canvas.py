"""Show a chart as a picture, in the pane's own type and colours.

The picture is drawn beside the window, for the dots of the screen that it stands on.
While another size or another look of it is drawn, the one at hand is shown, stretched.
The wheel is left to the area that scrolls.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QRectF, QSize, Qt, QTimer, Signal
from PySide6.QtGui import QColor, QFontInfo, QPainter, QPen, QPixmap
from PySide6.QtWidgets import QLabel
from typing_extensions import override

from growdesk.ui import theme
from growdesk.ui.charts.panel import Style
from growdesk.ui.charts.plate import Plate, Sitting
from growdesk.ui.tasks import Job

if TYPE_CHECKING:
    from PySide6.QtGui import (
        QFocusEvent,
        QImage,
        QPaintEvent,
        QResizeEvent,
        QShowEvent,
        QWheelEvent,
    )

    from growdesk.ui.charts.drawing import Chart

TYPE_SHARE = 0.9
"""Size of a chart's type against the window's."""

REST_MS = 80
"""How long a size must stand before a chart is drawn for it."""

_RING_PX = 3.0
_WIDE_PX = 300


class ChartCanvas(QLabel):
    """A place with one chart in it; with a pixmap, a label is told as a picture.

    ``drawing_wanted`` hands out who wants a picture and the job that draws it.
    """

    drawing_wanted = Signal(object, object)
    failed = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.setPixmap(QPixmap(1, 1))
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.plate = Plate()
        self.drawn: QImage | None = None
        self._said: tuple[Chart, str, str] | None = None
        self._shown: Sitting | None = None
        self._asked: Sitting | None = None
        self._rest = QTimer(self)
        self._rest.setSingleShot(True)
        self._rest.timeout.connect(self._draw)

    def show_chart(self, chart: Chart, name: str, text: str) -> None:
        """Have a chart drawn; ``name`` and ``text`` say it to a screen reader."""
        from growdesk.ui.charts import drawing  # noqa: PLC0415

        self._said = chart, name, text
        height_pt = drawing.height_pt(chart, self.style_now())
        self.setMinimumHeight(round(height_pt * self.logicalDpiX() / 72))
        self.setAccessibleName(name)
        self.setAccessibleDescription(text)
        self._draw_after(0)

    def style_now(self) -> Style:
        """Give the colours in force and the size of the type here."""
        size_pt = QFontInfo(self.font()).pointSizeF() * TYPE_SHARE
        return Style(theme.colours(), size_pt)

    def _draw_after(self, rest_ms: int) -> None:
        """Draw once nothing has changed so long; what is to be drawn now stays so."""
        if not self._rest.isActive() or self._rest.interval() >= rest_ms:
            self._rest.start(rest_ms)

    def _draw(self) -> None:
        if self._said is None or self._asked is not None or not self.isVisible():
            return
        sitting = Sitting(
            self._said[0],
            self.style_now(),
            max(self.width(), 1),
            max(self.height(), 1),
            self.logicalDpiX(),
            self.devicePixelRatioF(),
        )
        if sitting.is_like(self._shown):
            return
        self._asked = sitting
        job = Job(partial(self.plate.draw, sitting), self._take, self._refuse)
        self.drawing_wanted.emit(self, job)

    def _take(self, picture: QImage) -> None:
        self.drawn = picture
        self._shown, self._asked = self._asked, None
        self.update()
        self._draw()

    def _refuse(self, _error: Exception) -> None:
        self._asked = None
        self.failed.emit()

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        colours = theme.colours()
        painter = QPainter(self)
        painter.fillRect(self.rect(), QColor(colours.card))
        if self.drawn is not None:
            painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
            painter.drawImage(QRectF(self.rect()), self.drawn)
        if self.hasFocus():
            inner = QRectF(self.rect()).adjusted(
                _RING_PX / 2, _RING_PX / 2, -_RING_PX / 2, -_RING_PX / 2
            )
            painter.setPen(QPen(QColor(colours.focus), _RING_PX))
            painter.drawRect(inner)
        painter.end()

    @override
    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.FontChange and self._said is not None:
            self.show_chart(*self._said)

    @override
    def event(self, event: QEvent) -> bool:
        if event.type() == QEvent.Type.DevicePixelRatioChange:
            self._draw_after(0)
        return super().event(event)

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._draw_after(REST_MS)

    @override
    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self._draw_after(0)

    @override
    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self.update()

    @override
    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        self.update()

    @override
    def wheelEvent(self, event: QWheelEvent) -> None:
        event.ignore()

    @override
    def sizeHint(self) -> QSize:
        """Ask for what is legible; what is drawn now is no wish for as much again."""
        return QSize(_WIDE_PX, self.minimumHeight())
