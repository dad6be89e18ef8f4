"""Draw the elements of a litre of feed: what comes, and what was wanted, side by side.

What comes has two layers, the products' and the water's; they differ by pattern too.
Traces of less than 1 mg/L would have no bar and are left to the table.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.speech import mark, tr
from growdesk.services.recipe_look import SHOWN
from growdesk.ui.charts import panel, ticks
from growdesk.ui.charts.panel import Panel, Placed

if TYPE_CHECKING:
    from collections.abc import Sequence

    from matplotlib.container import BarContainer
    from matplotlib.figure import Figure
    from matplotlib.patches import Rectangle

    from growdesk.services.recipe_values import ElementRow, MixChart
    from growdesk.ui.charts.panel import Style

PANEL = 14.0
"""Least height of the panel, in font sizes."""

LEAST_MG_PER_L = 1.0
WANTED = mark("wanted")
PRODUCTS, WATER = mark("from the products"), mark("from the water")
_BAR = 0.38


class MixFigure:
    """The elements of a litre on a figure that is its own."""

    def __init__(self, figure: Figure) -> None:
        self._figure = figure
        self._panel = Panel(figure.subplots())
        self._bars: list[Rectangle] = []
        self._chart: MixChart | None = None
        self._style: Style | None = None

    def show(self, chart: MixChart, style: Style) -> None:
        """Show a litre of feed; the figure is laid out anew."""
        self._chart, self._style = chart, style
        for bar in self._bars:
            bar.remove()
        self._bars = []
        rows = drawn(chart)
        self._panel.dress(style, tr("In a litre, mg"))
        is_solved = any(row.wanted_mg_per_l is not None for row in rows)
        side = _BAR / 2 if is_solved else 0.0
        water = [row.from_water_mg_per_l for row in rows]
        products = [row.got_mg_per_l - row.from_water_mg_per_l for row in rows]
        c = style.colours
        named = [
            self._bar(rows, products, water, (side, tr(PRODUCTS), c.feed, c.feed, "")),
        ]
        if any(water):
            none = [0.0] * len(rows)
            look = (side, tr(WATER), c.card, c.clear_water, "////")
            named.append(self._bar(rows, water, none, look))
        if is_solved:
            wanted = [row.wanted_mg_per_l or 0.0 for row in rows]
            none = [0.0] * len(rows)
            look = (-side, tr(WANTED), c.card, c.ink, "")
            named.insert(0, self._bar(rows, wanted, none, look))
        self._panel.name_lines(style, named, key_line=1.6)
        most = max(max(row.got_mg_per_l, row.wanted_mg_per_l or 0.0) for row in rows)
        ticks.amounts(self._panel.axes, most)
        self.fit()

    def fit(self, heading_pt: float = 0.0) -> None:
        """Lay the figure out for the size it has."""
        chart, style = self._chart, self._style
        if chart is None or style is None:
            return
        panel.lay_out(
            self._figure,
            [Placed(self._panel, share=1)],
            style,
            heading_pt=heading_pt,
            foot_lines=1,
        )
        names = [row.element for row in drawn(chart)]
        axes = self._panel.axes
        axes.set_xlim(-0.6, len(names) - 0.4)
        axes.set_xticks(range(len(names)), names)

    def _bar(
        self,
        rows: Sequence[ElementRow],
        heights: Sequence[float],
        bottoms: Sequence[float],
        look: tuple[float, str, str, str, str],
    ) -> BarContainer:
        """Draw one layer; ``look`` is its side, name, fill, edge and pattern."""
        side, name, fill, edge, pattern = look
        made = self._panel.axes.bar(
            [place + side for place in range(len(rows))],
            list(heights),
            _BAR,
            bottom=list(bottoms),
            label=name,
            facecolor=fill,
            edgecolor=edge,
            hatch=pattern,
            linewidth=1.2,
        )
        self._bars += made.patches
        return made


def drawn(chart: MixChart) -> tuple[ElementRow, ...]:
    """Give the elements that have a bar; the five of a recipe always have."""
    return tuple(
        row
        for row in chart.look.rows
        if row.element in SHOWN or row.got_mg_per_l >= LEAST_MG_PER_L
    )


def height_pt(style: Style) -> float:
    """Give the least height at which the chart is legible."""
    return style.size_pt * (PANEL + 3 * panel.LINE) + 2 * panel.GAP_PT
