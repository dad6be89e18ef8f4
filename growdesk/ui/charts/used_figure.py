"""Draw the feed used by month: grams of nitrogen, each product a layer of the bar.

Layers differ by colour and by pattern, and are named above the axes.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.day_words import SHORT_MONTHS
from growdesk.domain.speech import mark, tr
from growdesk.ui.charts import panel, ticks
from growdesk.ui.charts.panel import Panel, Placed

if TYPE_CHECKING:
    from matplotlib.figure import Figure
    from matplotlib.patches import Rectangle

    from growdesk.services.chart_values import UsedChart
    from growdesk.ui.charts.panel import Style

PANEL = 14.0
"""Least height of the panel, in font sizes."""

LAYERS: tuple[tuple[str, str], ...] = (
    ("feed", ""),
    ("clear_water", "////"),
    ("look_first", "...."),
    ("flush", "\\\\\\\\"),
    ("muted", "xxxx"),
)
"""Colour and pattern of each product; the last takes all that are left."""

OTHERS = mark("others")
NAME_SIGNS = 24
_BAR = 0.72


class UsedFigure:
    """The feed used by month on a figure that is its own."""

    def __init__(self, figure: Figure) -> None:
        self._figure = figure
        self._panel = Panel(figure.subplots())
        self._bars: list[Rectangle] = []
        self._chart: UsedChart | None = None
        self._style: Style | None = None

    def show(self, chart: UsedChart, style: Style) -> None:
        """Show what was used; the figure is laid out anew."""
        self._chart, self._style = chart, style
        axes = self._panel.axes
        for bar in self._bars:
            bar.remove()
        self._bars = []
        self._panel.dress(style, tr("Nitrogen used, g a month"))
        below = [0.0] * len(chart.months)
        keys = []
        for (name, grams), (colour, pattern) in zip(
            layers(chart), LAYERS, strict=False
        ):
            made = axes.bar(
                range(len(grams)),
                grams,
                _BAR,
                bottom=below,
                label=name,
                facecolor=style.colours.card if pattern else _of(style, colour),
                edgecolor=_of(style, colour),
                hatch=pattern,
                linewidth=1.0,
            )
            keys.append(made)
            self._bars += made.patches
            below = [low + each for low, each in zip(below, grams, strict=True)]
        self._panel.name_lines(style, keys, key_line=1.6)
        ticks.amounts(axes, max(below))
        self.fit()

    def fit(self, heading_pt: float = 0.0) -> None:
        """Lay the figure out for the size it has."""
        chart, style = self._chart, self._style
        if chart is None or style is None:
            return
        wide_pt = panel.lay_out(
            self._figure,
            [Placed(self._panel, share=1)],
            style,
            heading_pt=heading_pt,
            foot_lines=2,
        )
        axes = self._panel.axes
        axes.set_xlim(-0.6, len(chart.months) - 0.4)
        every = ticks.room_for_months(len(chart.months), wide_pt / style.size_pt)
        axes.set_xticks(range(len(chart.months)), _names(chart, every))


def layers(chart: UsedChart) -> list[tuple[str, tuple[float, ...]]]:
    """Give name and grams of nitrogen of each layer, the rest as one."""
    fed = [each for each in chart.products if sum(each.of("N")) > 0]
    most = len(LAYERS)
    alone = fed if len(fed) <= most else fed[: most - 1]
    found = [(_short(each.name), each.of("N")) for each in alone]
    rest = fed[len(alone) :]
    if rest:
        every = zip(*(each.of("N") for each in rest), strict=True)
        found.append((tr(OTHERS), tuple(sum(month) for month in every)))
    return found


def height_pt(style: Style) -> float:
    """Give the least height at which the chart is legible."""
    return style.size_pt * (PANEL + 3 * panel.LINE) + 2 * panel.GAP_PT


def _names(chart: UsedChart, every: int) -> list[str]:
    """Give the months' names, every so many one, with the year where it is new."""
    named = []
    year = 0
    for place, first in enumerate(chart.months):
        if place % every:
            named.append("")
            continue
        below = str(first.year) if first.year != year else " "
        named.append(f"{SHORT_MONTHS[first.month - 1]}\n{below}")
        year = first.year
    return named


def _of(style: Style, colour: str) -> str:
    found: str = getattr(style.colours, colour)
    return found


def _short(name: str) -> str:
    name = f" {name}" if name.startswith("_") else name  # else it is left out
    return name if len(name) <= NAME_SIGNS else f"{name[: NAME_SIGNS - 1]}…"
