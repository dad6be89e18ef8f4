"""Draw the year of a place: day length, radiation, and the strength that they leave.

Three panels, one amount each, so that no axis serves two units. The artists are made
once and given new data.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.speech import Phrases, fixed, tr
from growdesk.services.chart_values import Basis
from growdesk.ui import words
from growdesk.ui.charts import panel, telling, ticks
from growdesk.ui.charts.panel import Panel, Placed

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from growdesk.services.chart_values import SeasonChart
    from growdesk.ui.charts.panel import Style

NAN = float("nan")
PANEL = 5.0
"""Least height of a panel, in font sizes."""

BY = Phrases({Basis.LAMPS: "by the lamps", Basis.CONTROLLED: "steady"})


class SeasonFigure:
    """A season's chart on a figure that is its own."""

    def __init__(self, figure: Figure) -> None:
        self._figure = figure
        self._panels = [Panel(axes) for axes in figure.subplots(3, 1)]
        every = [each.axes for each in self._panels]
        hours, radiation, strength = every
        (self._hours,) = hours.plot([], [], "-", linewidth=1.8)
        (self._radiation,) = radiation.plot([], [], "-", linewidth=1.8)
        (self._light,) = strength.plot([], [], "-", linewidth=1.4)
        (self._read,) = strength.plot(
            [], [], "--", linewidth=2.2, label=tr("and by warmth")
        )
        self._days = [each.axvline(0, linestyle=":", linewidth=1.6) for each in every]
        self._dots = [each.plot([], [], "o", markersize=5)[0] for each in every]
        self._tells = [telling.amount(each) for each in every]
        self._chart: SeasonChart | None = None
        self._style: Style | None = None

    def show(self, chart: SeasonChart, style: Style) -> None:
        """Show a season; the figure is laid out anew."""
        self._chart, self._style = chart, style
        c = style.colours
        days = [float(day.on.toordinal()) for day in chart.days]
        hours = [day.day_length_h for day in chart.days]
        radiation = [day.ra_mj_per_m2_d for day in chart.days]
        light = [day.strength_ppm_n for day in chart.days]
        read = [day.strength_read_ppm_n for day in chart.days]
        self._hours.set_data(days, hours)
        self._hours.set_color(c.look_first)
        self._radiation.set_data(days, radiation)
        self._radiation.set_color(c.look_first)
        self._light.set_data(days, light)
        self._light.set_color(c.ink)
        self._light.set_label(BY.get(chart.basis, tr("by light")))
        self._read.set_data(days, [NAN if each is None else each for each in read])
        self._read.set_color(c.feed)
        self._titles(chart, style)
        ticks.hours(self._panels[0].axes, min(hours), max(hours))
        ticks.amounts(self._panels[1].axes, max(radiation))
        ticks.amounts(self._panels[2].axes, max(light))
        self._mark_day(chart, style)
        self.fit()

    def fit(self, heading_pt: float = 0.0) -> None:
        """Lay the figure out for the size it has."""
        chart, style = self._chart, self._style
        if chart is None or style is None:
            return
        placed = [Placed(each, share=1) for each in self._panels]
        wide_pt = panel.lay_out(
            self._figure, placed, style, heading_pt=heading_pt, foot_lines=1
        )
        first, last = chart.days[0].on, chart.days[-1].on
        for each in self._panels:
            each.axes.set_xlim(first.toordinal() - 2, last.toordinal() + 2)
            ticks.months(each.axes, first, last, wide_pt / style.size_pt)
        curves = ([self._hours], [self._radiation], [self._light, self._read])
        for each, told, lines in zip(self._panels, self._tells, curves, strict=True):
            telling.settle(told, each.axes, lines)

    def _titles(self, chart: SeasonChart, style: Style) -> None:
        hours, radiation, strength = self._panels
        hours.dress(
            style,
            tr("Day length, h"),
            tr("dotted: {short_day}").format(short_day=words.short_day(chart.on)),
        )
        radiation.dress(style, tr("Radiation, MJ m⁻² d⁻¹"))
        strength.dress(style, tr("Strength, ppm N"))
        for each in (hours, radiation):
            each.hide_months()
        is_read = any(day.strength_read_ppm_n is not None for day in chart.days)
        lines = [self._light, self._read] if is_read else [self._light]
        strength.name_lines(style, lines)

    def _mark_day(self, chart: SeasonChart, style: Style) -> None:
        c = style.colours
        shown = chart.shown
        strength = shown.strength_ppm_n
        if shown.strength_read_ppm_n is not None:
            strength = shown.strength_read_ppm_n
        on = float(chart.on.toordinal())
        told = (
            (shown.day_length_h, f"{fixed(shown.day_length_h, 1)} h"),
            (shown.ra_mj_per_m2_d, f"{fixed(shown.ra_mj_per_m2_d, 1)}"),
            (strength, f"{fixed(strength, 0)} ppm N"),
        )
        for number, (amount, text) in enumerate(told):
            self._days[number].set_xdata([on, on])
            self._days[number].set_color(c.ink)
            self._dots[number].set_data([on], [amount])
            self._dots[number].set_color(c.ink)
            telling.say(self._tells[number], (on, amount), text, style)


def height_pt(style: Style) -> float:
    """Give the least height at which a season's chart is legible."""
    size = style.size_pt
    heads = 3 * (size * panel.LINE + panel.GAP_PT)
    return 3 * PANEL * size + heads + size * panel.LINE + panel.GAP_PT
