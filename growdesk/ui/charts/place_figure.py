"""Draw the year of a place: the sun, the light at the leaf, and its kinds' strengths.

Each kind has a line of its own pattern, named above with what it has on the day shown.
"""

from __future__ import annotations

import textwrap
from typing import TYPE_CHECKING

from growdesk.domain.speech import fixed, tr
from growdesk.services.chart_values import Basis
from growdesk.ui import words
from growdesk.ui.charts import panel, telling, ticks
from growdesk.ui.charts.panel import Panel, Placed

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from growdesk.services.chart_values import PlaceChart, Strengths
    from growdesk.ui.charts.panel import Style

NAN = float("nan")
PANEL = 5.0
"""Least height of a panel, in font sizes; the kinds' is half as high again."""

KINDS_SHARE = 1.5
NAME_SIGNS = 34
PATTERNS: tuple[tuple[str, str | tuple[int, tuple[float, ...]]], ...] = (
    ("ink", "-"),
    ("clear_water", (0, (5, 2))),
    ("flush", (0, (1, 1.2))),
    ("feed", (0, (4, 1.5, 1, 1.5))),
)
"""Colour and pattern of each kind's line, in the order in which they are named."""

WARM_PT, LIGHT_PT, ALONE_PT = 2.4, 1.0, 1.8
KEY_LINE = 3.6


class PlaceFigure:
    """A place's chart on a figure that is its own."""

    def __init__(self, figure: Figure) -> None:
        self._figure = figure
        self._panels = [Panel(axes) for axes in figure.subplots(4, 1)]
        every = [each.axes for each in self._panels]
        hours, radiation, light, strength = every
        (self._hours,) = hours.plot([], [], "-", linewidth=1.8)
        (self._radiation,) = radiation.plot([], [], "-", linewidth=1.8)
        (self._reckoned,) = light.plot([], [], "-", linewidth=1.8, label=tr("reckoned"))
        (self._read,) = light.plot([], [], "--", linewidth=2.6, label=tr("by readings"))
        self._by_light = [strength.plot([], [], linestyle=p)[0] for _, p in PATTERNS]
        self._warm = [strength.plot([], [], linestyle=p)[0] for _, p in PATTERNS]
        self._days = [each.axvline(0, linestyle=":", linewidth=1.6) for each in every]
        self._dots = [each.plot([], [], "o", markersize=5)[0] for each in every]
        self._tells = [telling.amount(each) for each in every[:-1]]
        self._chart: PlaceChart | None = None
        self._style: Style | None = None

    def show(self, chart: PlaceChart, style: Style) -> None:
        """Show the year of a place; the figure is laid out anew."""
        self._chart, self._style = chart, style
        self._show_sun(chart, style)
        self._show_light(chart, style)
        self._show_strengths(chart, style)
        self._mark_day(chart, style)
        self.fit()

    def fit(self, heading_pt: float = 0.0) -> None:
        """Lay the figure out for the size it has."""
        chart, style = self._chart, self._style
        if chart is None or style is None:
            return
        placed = [Placed(each, share=1) for each in self._panels[:3] if _is_seen(each)]
        placed.append(Placed(self._panels[3], share=KINDS_SHARE))
        wide_pt = panel.lay_out(
            self._figure, placed, style, heading_pt=heading_pt, foot_lines=1
        )
        first, last = chart.days[0].on, chart.days[-1].on
        for each in self._panels:
            each.axes.set_xlim(first.toordinal() - 2, last.toordinal() + 2)
            ticks.months(each.axes, first, last, wide_pt / style.size_pt)
        curves = ([self._hours], [self._radiation], [self._reckoned, self._read])
        for each, told, lines in zip(self._panels, self._tells, curves, strict=False):
            if _is_seen(each):
                telling.settle(told, each.axes, lines)

    def _show_sun(self, chart: PlaceChart, style: Style) -> None:
        days = _numbers(chart)
        hours = [day.day_length_h for day in chart.days]
        radiation = [day.ra_mj_per_m2_d for day in chart.days]
        self._hours.set_data(days, hours)
        self._radiation.set_data(days, radiation)
        for line in (self._hours, self._radiation):
            line.set_color(style.colours.look_first)
        first, second, *_ = self._panels
        first.dress(
            style,
            tr("Day length, h"),
            tr("dotted: {short_day}").format(short_day=words.short_day(chart.on)),
        )
        second.dress(style, tr("Radiation above the air, MJ m⁻² d⁻¹"))
        for each in (first, second):
            each.hide_months()
        ticks.hours(first.axes, min(hours), max(hours))
        ticks.amounts(second.axes, max(radiation))

    def _show_light(self, chart: PlaceChart, style: Style) -> None:
        known = [(day.light_mol_per_m2_d, day.light_by) for day in chart.days]
        light = [NAN if mol is None else mol for mol, _ in known]
        is_read = [by is Basis.READ for _, by in known]
        days = _numbers(chart)
        pairs = list(zip(light, is_read, strict=True))
        self._reckoned.set_data(days, [NAN if read else mol for mol, read in pairs])
        self._read.set_data(days, [mol if read else NAN for mol, read in pairs])
        self._reckoned.set_color(style.colours.look_first)
        self._read.set_color(style.colours.look_first)
        third = self._panels[2]
        third.axes.set_visible(any(mol is not None for mol, _ in known))
        third.dress(style, tr("Light at the leaf, mol m⁻² d⁻¹"))
        third.name_lines(style, [self._reckoned, self._read] if any(is_read) else [])
        third.hide_months()
        ticks.amounts(third.axes, max((mol for mol, _ in known if mol), default=0.0))

    def _show_strengths(self, chart: PlaceChart, style: Style) -> None:
        days, warm = _numbers(chart), has_warmth(chart)
        fourth = self._panels[3]
        named = []
        for number, (colour, _) in enumerate(PATTERNS):
            light, read = self._by_light[number], self._warm[number]
            has_one = number < len(chart.strengths)
            light.set_visible(has_one)
            read.set_visible(has_one and warm)
            if not has_one:
                continue
            strengths = chart.strengths[number]
            light.set_data(days, strengths.by_light)
            read.set_data(days, [NAN if s is None else s for s in strengths.read])
            light.set_linewidth(LIGHT_PT if warm else ALONE_PT)
            read.set_linewidth(WARM_PT)
            for line in (light, read):
                line.set_color(getattr(style.colours, colour))
                line.set_label(_name(strengths, chart.number))
            named.append(read if warm else light)
        also = tr(" (thick: by warmth too)") if warm else ""
        fourth.dress(style, tr("Strength, ppm N{also}").format(also=also))
        fourth.name_lines(style, named, KEY_LINE)
        ticks.amounts(fourth.axes, max(max(s.by_light) for s in chart.strengths))

    def _mark_day(self, chart: PlaceChart, style: Style) -> None:
        shown, on = chart.shown, float(chart.on.toordinal())
        for line in self._days:
            line.set_xdata([on, on])
            line.set_color(style.colours.ink)
        told = (
            (shown.day_length_h, f"{fixed(shown.day_length_h, 1)} h"),
            (shown.ra_mj_per_m2_d, f"{fixed(shown.ra_mj_per_m2_d, 1)}"),
            (shown.light_mol_per_m2_d, f"{fixed(shown.light_mol_per_m2_d or 0.0, 1)}"),
        )
        for number, (amount, text) in enumerate(told):
            at = NAN if amount is None else amount
            self._dots[number].set_data([on], [at])
            telling.say(self._tells[number], (on, amount or 0.0), text, style)
        now = [strength_now(each, chart.number) for each in chart.strengths]
        self._dots[3].set_data([on] * len(now), now)
        for dot in self._dots:
            dot.set_color(style.colours.ink)


def height_pt(chart: PlaceChart, style: Style) -> float:
    """Give the least height at which a place's chart is legible."""
    size = style.size_pt
    lit = chart.shown.light_mol_per_m2_d is not None
    panels = (3 if lit else 2) + KINDS_SHARE
    heads = (4 if lit else 3) * (size * panel.LINE + panel.GAP_PT)
    key = len(chart.strengths) * size * panel.LINE
    return panels * PANEL * size + heads + key + size * panel.LINE + panel.GAP_PT


def has_warmth(chart: PlaceChart) -> bool:
    """Tell whether temperatures were read for any day of the year."""
    return any(read is not None for each in chart.strengths for read in each.read)


def strength_now(strengths: Strengths, number: int) -> float:
    """Give the strength of a day: by what was read there, else by light alone."""
    read = strengths.read[number]
    return strengths.by_light[number] if read is None else read


def _name(strengths: Strengths, number: int) -> str:
    first, *others = strengths.titles
    title = textwrap.shorten(first.split(" (")[0], NAME_SIGNS, placeholder="…")
    more = tr(" and {count} more").format(count=len(others)) if others else ""
    return f"{title}{more}: {fixed(strength_now(strengths, number), 0)}"


def _numbers(chart: PlaceChart) -> list[float]:
    return [float(day.on.toordinal()) for day in chart.days]


def _is_seen(one: Panel) -> bool:
    return one.axes.get_visible()
