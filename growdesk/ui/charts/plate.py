"""Draw charts into pictures, away from the window's thread.

A plate keeps its figure, which serves for the next chart of the same sort again. Only
the lane that draws touches it.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from PySide6.QtGui import QImage

from growdesk.ui.charts.turns import in_turn

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from growdesk.ui.charts.drawing import Chart, Drawn
    from growdesk.ui.charts.panel import Style

_ROUNDING_PX = 0.01
_BYTES_A_DOT = 4


@dataclass(frozen=True, slots=True, eq=False)
class Sitting:
    """A chart to be drawn: in which style, for how large a place on which screen.

    ``dots_per_in`` are those that the type is measured by; ``ratio`` is how many dots
    of the screen are one of the window's.
    """

    chart: Chart
    style: Style
    wide_px: int
    high_px: int
    dots_per_in: int
    ratio: float

    def is_like(self, other: Sitting | None) -> bool:
        """Tell whether another gives the very same picture."""
        return (
            other is not None
            and self.chart == other.chart
            and self.style == other.style
            and self.place == other.place
        )

    @property
    def place(self) -> tuple[int, int, int, float]:
        """Give how large a place it is drawn for, on which screen."""
        return self.wide_px, self.high_px, self.dots_per_in, self.ratio


class Plate:
    """A figure that one place in the window has its charts drawn on."""

    def __init__(self) -> None:
        self.figure: Figure | None = None
        self.drawn: Drawn | None = None
        self._last: Sitting | None = None

    @in_turn
    def draw(self, sitting: Sitting) -> QImage:
        """Give the picture of a chart, at the dots of the screen."""
        from matplotlib.backends.backend_agg import FigureCanvasAgg
        from matplotlib.figure import Figure

        from growdesk.ui.charts import drawing  # noqa: PLC0415

        if self.figure is None:
            self.figure = Figure()
            FigureCanvasAgg(self.figure)
        figure, last = self.figure, self._last
        dots_per_in = sitting.dots_per_in * sitting.ratio
        figure.set_dpi(dots_per_in)
        wide, high = (
            (round(side * sitting.ratio) + _ROUNDING_PX) / dots_per_in
            for side in (sitting.wide_px, sitting.high_px)
        )
        figure.set_size_inches(wide, high)
        figure.set_facecolor(sitting.style.colours.card)
        self._last = None
        is_same = (
            last is not None
            and last.chart == sitting.chart
            and last.style == sitting.style
        )
        if is_same and last is not None and self.drawn is not None:
            if last.place != sitting.place:
                self.drawn.fit()
        else:
            self.drawn = drawing.draw(figure, sitting.chart, sitting.style, self.drawn)
        self._last = sitting
        return _picture(figure, sitting.ratio)


def _picture(figure: Figure, ratio: float) -> QImage:
    canvas = figure.canvas
    canvas.draw()
    dots = canvas.buffer_rgba()  # type: ignore[attr-defined]
    high, wide = dots.shape[:2]
    plain = QImage(dots, wide, high, wide * _BYTES_A_DOT, QImage.Format.Format_RGBA8888)
    picture = plain.convertToFormat(QImage.Format.Format_RGB32)
    picture.setDevicePixelRatio(ratio)
    return picture
