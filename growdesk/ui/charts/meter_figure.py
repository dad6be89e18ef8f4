"""Draw the EC predicted as bands over a year, and what the meter read as dots.

A dot outside its band is a cross, so that colour alone says nothing.
"""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

from growdesk.domain.meter import Standing
from growdesk.domain.speech import tr
from growdesk.ui.charts import panel, ticks
from growdesk.ui.charts.panel import Panel, Placed

if TYPE_CHECKING:
    from matplotlib.collections import LineCollection
    from matplotlib.figure import Figure
    from matplotlib.lines import Line2D

    from growdesk.services.meter_values import MeterChart, MeterView
    from growdesk.ui.charts.panel import Style

PANEL = 16.0
"""Least height of the panel, in font sizes."""

_BESIDE = timedelta(days=10)


class MeterFigure:
    """The EC predicted and read, on a figure that is its own."""

    def __init__(self, figure: Figure) -> None:
        self._figure = figure
        self._panel = Panel(figure.subplots())
        axes = self._panel.axes
        self._bands: LineCollection = axes.vlines([], [], [], linewidth=9)
        (self._band_key,) = axes.plot(
            [], [], "-", linewidth=9, solid_capstyle="butt", label=tr("predicted")
        )
        (self._right,) = axes.plot(
            [], [], "o", markersize=6, label=tr("read", "of a meter")
        )
        (self._off,) = axes.plot(
            [], [], "X", markersize=9, label=tr("read outside what was predicted")
        )
        self._chart: MeterChart | None = None
        self._style: Style | None = None

    def show(self, chart: MeterChart, style: Style) -> None:
        """Show the readings; the figure is laid out anew."""
        self._chart, self._style = chart, style
        c = style.colours
        right = [view for view in chart.readings if not _is_off(view)]
        off = [view for view in chart.readings if _is_off(view)]
        self._show_bands(chart, style)
        for dots, views, colour in (
            (self._right, right, c.ink),
            (self._off, off, c.flush),
        ):
            dots.set_data(
                [float(view.draft.on.toordinal()) for view in views],
                [view.ec_ms_per_cm for view in views],
            )
            dots.set_color(colour)
            dots.set_markeredgecolor(c.card)
        self._band_key.set_color(c.feed)
        self._band_key.set_alpha(0.45)
        self._panel.dress(style, "EC at 25 °C, mS/cm")
        keys: list[Line2D] = [self._band_key, self._right]
        self._panel.name_lines(style, [*keys, self._off] if off else keys, key_line=1.2)
        ticks.amounts(self._panel.axes, _most(chart))
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
        first, last = chart.since, chart.on + _BESIDE
        self._panel.axes.set_xlim(first.toordinal() - 2, last.toordinal())
        ticks.months(self._panel.axes, first, last, wide_pt / style.size_pt)

    def _show_bands(self, chart: MeterChart, style: Style) -> None:
        segments = []
        for view in chart.readings:
            low = view.draft.expected_low_ms_per_cm
            high = view.draft.expected_high_ms_per_cm
            if low is not None and high is not None:
                day = float(view.draft.on.toordinal())
                segments.append([(day, low), (day, high)])
        self._bands.set_segments(segments)
        self._bands.set_color(style.colours.feed)
        self._bands.set_alpha(0.45)


def height_pt(style: Style) -> float:
    """Give the least height at which the chart is legible."""
    return style.size_pt * (PANEL + 3 * panel.LINE) + 2 * panel.GAP_PT


def _is_off(view: MeterView) -> bool:
    return view.standing not in {None, Standing.IN_BAND}


def _most(chart: MeterChart) -> float:
    return max(
        (
            max(view.ec_ms_per_cm, view.draft.expected_high_ms_per_cm or 0.0)
            for view in chart.readings
        ),
        default=0.0,
    )
