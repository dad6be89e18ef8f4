"""Let the window be smaller than its panes need: what finds no room is scrolled to.

At the usual size of text nothing scrolls; with text twice as large a small screen
holds less than the panes need, and no control may be out of reach.
"""

from __future__ import annotations

from PySide6.QtCore import QEvent, QObject, QSize, Qt
from PySide6.QtWidgets import QApplication, QFrame, QScrollArea, QWidget
from typing_extensions import override


class Body(QWidget):
    """What is scrolled over: it asks for the height it needs, not for what it likes."""

    @override
    def heightForWidth(self, width: int) -> int:
        layout = self.layout()
        return -1 if layout is None else layout.totalMinimumHeightForWidth(width)


class Roomy(QScrollArea):
    """Shows all of the panes, or scrolls over them from ``least`` on."""

    def __init__(self, inner: QWidget, least: QSize) -> None:
        super().__init__()
        self._least = least
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setWidgetResizable(True)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setWidget(inner)
        inner.installEventFilter(self)
        app = QApplication.instance()
        if isinstance(app, QApplication):
            app.focusChanged.connect(self._keep_in_sight)

    @override
    def minimumSizeHint(self) -> QSize:
        inner = self.widget()
        return inner.minimumSizeHint().boundedTo(self._least) if inner else self._least

    @override
    def sizeHint(self) -> QSize:
        inner = self.widget()
        return inner.sizeHint() if inner else self._least

    @override
    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.LayoutRequest:
            self.updateGeometry()
        return super().eventFilter(watched, event)

    def _keep_in_sight(self, _before: QWidget | None, now: QWidget | None) -> None:
        inner = self.widget()
        if now is not None and inner is not None and inner.isAncestorOf(now):
            self.ensureWidgetVisible(now)
