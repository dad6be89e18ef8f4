"""Put an amount beside its dot where it covers no curve and stays inside the axes."""

from __future__ import annotations

from math import isfinite
from typing import TYPE_CHECKING

from msgspec import Struct

if TYPE_CHECKING:
    from collections.abc import Sequence

    from matplotlib.axes import Axes
    from matplotlib.lines import Line2D
    from matplotlib.text import Annotation

    from growdesk.ui.charts.panel import Style

ASIDE_PT, APART_PT = 6.0, 4.0
CORNERS = tuple(
    (side, height) for height in (1, -1, 3, -3, 6, -6, 9) for side in (1, -1)
)
"""Right or left of the dot, above or below it, and how far; the first that stands as
clear as need be is taken."""

CLEAR_PT = 3.0

Dot = tuple[float, float]


class _Box(Struct, frozen=True):
    """Edges in dots of the screen."""

    left: float
    low: float
    right: float
    top: float

    def holds(self, other: _Box) -> bool:
        """Tell whether another box lies inside."""
        across = self.left <= other.left and other.right <= self.right
        return across and self.low <= other.low and other.top <= self.top

    def clearance(self, dots: Sequence[Dot]) -> float:
        """Give how far above or below the nearest of some dots pass, 0 through it."""
        passing = [y for x, y in dots if self.left - 3 <= x <= self.right + 3]
        gaps = (max(self.low - y, y - self.top, 0.0) for y in passing)
        return min(gaps, default=float("inf"))


def amount(axes: Axes) -> Annotation:
    """Give the words of an amount, not yet said."""
    return axes.annotate("", (0, 0), (ASIDE_PT, APART_PT), textcoords="offset points")


def say(told: Annotation, at: Dot, text: str, style: Style) -> None:
    """Say an amount at a dot of the curve."""
    told.xy = at
    told.set_text(text)
    told.set_fontsize(style.size_pt)
    told.set_color(style.colours.ink)


def settle(told: Annotation, axes: Axes, curves: Sequence[Line2D]) -> None:
    """Move an amount to the corner of its dot where it stands clearest."""
    per_pt = axes.get_figure(root=True).dpi / 72  # type: ignore[union-attr]
    renderer = axes.figure.canvas.get_renderer()  # type: ignore[attr-defined]
    extent = told.get_window_extent(renderer)
    to_screen = axes.transData.transform
    x, y = to_screen(told.xy)
    frame = axes.bbox
    whole = _Box(frame.x0, frame.y0, frame.x1, frame.y1)
    seen = [to_screen(curve.get_xydata()) for curve in curves]
    dots = [(float(a), float(b)) for each in seen for a, b in each if isfinite(b)]

    def rank(corner: tuple[int, int]) -> tuple[bool, float]:
        side, height = corner
        left = (
            x + ASIDE_PT * per_pt if side > 0 else x - ASIDE_PT * per_pt - extent.width
        )
        apart = APART_PT * per_pt * height
        low = y + apart if height > 0 else y + apart - extent.height
        box = _Box(left, low, left + extent.width, low + extent.height)
        return whole.holds(box), min(box.clearance(dots), CLEAR_PT * per_pt)

    side, height = max(CORNERS, key=rank)
    told.set_position((ASIDE_PT * side, APART_PT * height))
    told.set_horizontalalignment("left" if side > 0 else "right")
    told.set_verticalalignment("bottom" if height > 0 else "top")
