"""Let a scroll area end softly where more lies below, so that no line is sliced."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtGui import QColor, QLinearGradient, QPainter
from PySide6.QtWidgets import QWidget
from typing_extensions import override

from growdesk.ui import theme

if TYPE_CHECKING:
    from PySide6.QtGui import QPaintEvent
    from PySide6.QtWidgets import QScrollArea

_HIGH_PX = 34


class SoftEdge(QWidget):
    """The foot of a scroll area's viewport; it is there while there is more below."""

    def __init__(self, area: QScrollArea) -> None:
        self._view = area.viewport()
        super().__init__(self._view)
        self._bar = area.verticalScrollBar()
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self._view.installEventFilter(self)
        self._bar.valueChanged.connect(self._place)
        self._bar.rangeChanged.connect(self._place)
        self._place()

    @override
    def eventFilter(self, _watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.Resize:
            self._place()
        return False

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        fade = QLinearGradient(0, 0, 0, self.height())
        page = QColor(theme.colours().card)
        clear = QColor(page)
        clear.setAlpha(0)
        fade.setColorAt(0, clear)
        fade.setColorAt(0.65, page)
        painter = QPainter(self)
        painter.fillRect(self.rect(), fade)
        painter.end()

    def _place(self, *_moved: int) -> None:
        high = self._view.height()
        self.setGeometry(0, high - _HIGH_PX, self._view.width(), _HIGH_PX)
        self.setVisible(self._bar.value() < self._bar.maximum())
        self.raise_()
