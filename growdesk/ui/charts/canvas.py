"""Hold the one canvas that charts are drawn on, in the pane's own type and colours.

The same canvas serves every plant; a figure is built anew only when another sort of
chart is wanted. The wheel is left to the area that scrolls.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QObject, QSize, Qt
from PySide6.QtGui import QFontInfo
from PySide6.QtWidgets import QVBoxLayout, QWidget
from typing_extensions import override

from growdesk.ui import theme
from growdesk.ui.charts.panel import Style

if TYPE_CHECKING:
    from growdesk.ui.charts.drawing import Chart, Drawn

TYPE_SHARE = 0.9
"""Size of a chart's type against the window's."""


class ChartCanvas(QWidget):
    """A canvas with one chart on it; loads the drawing library when made."""

    def __init__(self) -> None:
        from matplotlib.backends.backend_qtagg import FigureCanvasQTAgg
        from matplotlib.figure import Figure

        super().__init__()
        self.figure = Figure(dpi=self.logicalDpiX())
        self.canvas = FigureCanvasQTAgg(self.figure)  # type: ignore[no-untyped-call]
        self.canvas.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.canvas.installEventFilter(self)
        self.canvas.mpl_connect("resize_event", self._refit)
        self._drawn: Drawn | None = None
        self._said: tuple[Chart, str, str] | None = None
        outer = QVBoxLayout(self)
        outer.setContentsMargins(0, 0, 0, 0)
        outer.addWidget(self.canvas)

    def show_chart(self, chart: Chart, name: str, text: str) -> None:
        """Draw a chart; ``name`` and ``text`` say it to a screen reader."""
        from growdesk.ui.charts import drawing  # noqa: PLC0415

        self._said = chart, name, text
        style = self.style_now()
        self.figure.set_facecolor(style.colours.card)
        self.figure.set_edgecolor(style.colours.focus)
        self._need(drawing.height_pt(chart, style))
        self._drawn = drawing.draw(self.figure, chart, style, self._drawn)
        self.canvas.setAccessibleName(name)
        self.canvas.setAccessibleDescription(text)
        self._draw_soon()

    def style_now(self) -> Style:
        """Give the colours in force and the size of the type here."""
        size_pt = QFontInfo(self.font()).pointSizeF() * TYPE_SHARE
        return Style(theme.colours(), size_pt)

    def _draw_soon(self) -> None:
        self.canvas.draw_idle()  # type: ignore[no-untyped-call]

    def _need(self, height_pt: float) -> None:
        self.canvas.setMinimumHeight(round(height_pt * self.logicalDpiX() / 72))

    def _refit(self, _event: object) -> None:
        if self._drawn is not None:
            self._drawn.fit()

    @override
    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.FontChange and self._said is not None:
            self.show_chart(*self._said)

    @override
    def sizeHint(self) -> QSize:
        """Ask for what is legible; what is drawn now is no wish for as much again."""
        return QSize(300, self.canvas.minimumHeight())

    @override
    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.Wheel:
            event.ignore()
            return True
        if event.type() in {QEvent.Type.FocusIn, QEvent.Type.FocusOut}:
            has_focus = event.type() == QEvent.Type.FocusIn
            self.figure.set_linewidth(3.0 if has_focus else 0.0)
            self._draw_soon()
        return super().eventFilter(watched, event)
