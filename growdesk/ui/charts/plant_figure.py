"""Draw one plant through time: feed, what was measured, and rows of what was seen.

The artists are made once and given new data for each plant. Every row has its name
beside it and a mark of its own shape, so that nothing hangs on a colour.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.domain import speech
from growdesk.domain.speech import tr
from growdesk.services.chart_values import Course
from growdesk.ui import words
from growdesk.ui.charts import panel, ticks
from growdesk.ui.charts.measured_panels import GrowthPanel, LengthPanel
from growdesk.ui.charts.panel import Panel, Placed

if TYPE_CHECKING:
    from collections.abc import Mapping

    from matplotlib.figure import Figure
    from matplotlib.lines import Line2D

    from growdesk.services.chart_values import PlantChart, Seen
    from growdesk.ui.charts.panel import Style

NAN = float("nan")
PANEL = 5.5
"""Least height of a panel of amounts, in font sizes."""

FOOT_LINES = 2
"""The months, and the years below them."""

ROW = 1.4
"""Height of a row, in font sizes."""

FLUSHED, REPOTTED = speech.mark("flushed"), speech.mark("repotted")
TREATED, MOVED = speech.mark("treated"), speech.mark("moved")


class Mark(Struct, frozen=True):
    """How a row is drawn: its name, its colour in the theme, its shape and line."""

    title: str
    colour: str
    shape: str
    thick_pt: float
    filled: bool = True
    size_pt: float = 5.0


MARKS: Mapping[str, Mark] = {
    Course.IN_FLOWER: Mark(speech.mark("in flower"), "accent", "", 7.0),
    Course.SPIKE: Mark(speech.mark("spike, buds"), "accent", "", 2.5),
    Course.EMERGING: Mark(speech.mark("emerging"), "ink", "^", 1.2, filled=False),
    Course.EXTENDING: Mark(speech.mark("extending"), "ink", "^", 1.2),
    Course.MATURING: Mark(speech.mark("maturing"), "ink", "D", 1.2, size_pt=4.0),
    Course.NEW_LEAF: Mark(speech.mark("new leaf"), "ink", "d", 1.2, filled=False),
    Course.ROOT_TIPS: Mark(
        speech.mark("root tips"), "clear_water", "o", 1.2, size_pt=4.0
    ),
    FLUSHED: Mark(FLUSHED, "flush", "v", 0.0, size_pt=6.0),
    REPOTTED: Mark(REPOTTED, "warn", "s", 0.0, size_pt=6.0),
    TREATED: Mark(TREATED, "ink", "P", 0.0, size_pt=6.0),
    MOVED: Mark(MOVED, "muted", ">", 0.0, size_pt=6.0),
}


class PlantFigure:
    """One plant's chart on a figure that is its own."""

    def __init__(self, figure: Figure) -> None:
        from matplotlib.collections import LineCollection

        self._figure = figure
        feed, length, growth, rows = figure.subplots(4, 1)
        self._feed, self._rows = Panel(feed), Panel(rows)
        self._length, self._growth = LengthPanel(length), GrowthPanel(growth)
        self._panels = [
            self._feed,
            self._length.panel,
            self._growth.panel,
            self._rows,
        ]
        self._stems = LineCollection([], linewidths=1.4)
        feed.add_collection(self._stems, autolim=False)
        (self._heads,) = feed.plot([], [], "o", markersize=4)
        (self._unknown,) = feed.plot([], [], "x", markersize=6, clip_on=False)
        self._marks = {name: self._row(mark) for name, mark in MARKS.items()}
        self._days = [
            each.axes.axvline(0, linestyle=":", linewidth=1.6) for each in self._panels
        ]
        self._chart: PlantChart | None = None
        self._style: Style | None = None

    def show(self, chart: PlantChart, style: Style) -> None:
        """Show a plant; the figure is laid out anew."""
        self._chart, self._style = chart, style
        self._show_feed(chart, style)
        self._length.show(chart, style)
        self._growth.show(chart, style)
        self._show_rows(chart, style)
        on = chart.on.toordinal()
        span = on - chart.since.toordinal()
        for each, line in zip(self._panels, self._days, strict=True):
            each.axes.set_xlim(chart.since.toordinal() - span * 0.01, on + span * 0.015)
            line.set_xdata([on, on])
            line.set_color(style.colours.ink)
        self.fit()

    def fit(self, heading_pt: float = 0.0) -> None:
        """Lay the figure out for the size it has."""
        chart, style = self._chart, self._style
        if chart is None or style is None:
            return
        placed = [
            Placed(each, share=1)
            for each in self._panels[:-1]
            if each.axes.get_visible()
        ]
        rows_pt = max(1, len(_rows(chart))) * style.size_pt * ROW
        placed.append(Placed(self._rows, height_pt=rows_pt))
        wide_pt = panel.lay_out(
            self._figure, placed, style, heading_pt=heading_pt, foot_lines=FOOT_LINES
        )
        for each in self._panels:
            room = wide_pt / style.size_pt
            ticks.months(each.axes, chart.since, chart.on, room)

    def _row(self, mark: Mark) -> Line2D:
        line: Line2D
        (line,) = self._rows.axes.plot(
            [],
            [],
            linestyle="-" if mark.thick_pt else "none",
            linewidth=mark.thick_pt,
            marker=mark.shape or "none",
            markersize=mark.size_pt,
            solid_capstyle="butt",
        )
        return line

    def _show_feed(self, chart: PlantChart, style: Style) -> None:
        c = style.colours
        known = [
            (float(each.on.toordinal()), each.strength_ppm_n)
            for each in chart.feeds
            if each.strength_ppm_n is not None
        ]
        unknown = [
            float(each.on.toordinal())
            for each in chart.feeds
            if each.strength_ppm_n is None
        ]
        self._stems.set_segments([[(on, 0.0), (on, ppm)] for on, ppm in known])
        self._stems.set_color(c.feed)
        self._heads.set_data([on for on, _ in known], [ppm for _, ppm in known])
        self._heads.set_color(c.feed)
        self._unknown.set_data(unknown, [0.0] * len(unknown))
        self._unknown.set_color(c.ink)
        title = tr("Feed given, ppm N")
        if unknown:
            title = tr("{title} (× unknown)").format(title=title)
        note = tr("dotted: {day}").format(day=words.short_day(chart.on))
        self._feed.dress(style, title, note)
        self._feed.hide_months()
        ticks.amounts(self._feed.axes, max((ppm for _, ppm in known), default=0.0))

    def _show_rows(self, chart: PlantChart, style: Style) -> None:
        rows = _rows(chart)
        for name, line in self._marks.items():
            mark = MARKS[name]
            line.set_visible(name in rows)
            if name not in rows:
                continue
            xs = rows[name]
            line.set_data(xs, [list(rows).index(name)] * len(xs))
            colour = getattr(style.colours, mark.colour)
            line.set_color(colour)
            line.set_markerfacecolor(colour if mark.filled else style.colours.card)
        self._rows.dress(style, tr("Seen at looks, and done"))
        self._rows.axes.set_ylim(max(1, len(rows)) - 0.5, -0.5)
        titles = [speech.tr(MARKS[name].title) for name in rows]
        self._rows.axes.set_yticks(range(len(rows)), titles)


def height_pt(chart: PlantChart, style: Style) -> float:
    """Give the least height at which a plant's chart is legible."""
    size = style.size_pt
    panels = 1 + bool(chart.leads or chart.roots) + bool(chart.growth)
    heads = (panels + 1) * (size * panel.LINE + panel.GAP_PT)
    heads += (panels - 1) * size * panel.LINE
    rows = max(1, len(_rows(chart))) * size * ROW
    foot = size * panel.LINE * FOOT_LINES + panel.GAP_PT
    return panels * PANEL * size + heads + rows + foot


def _rows(chart: PlantChart) -> dict[str, list[float]]:
    """Give the rows that have anything in them, each with its days."""
    rows: dict[str, list[float]] = {}
    for seen in chart.seen:
        bars = not MARKS[seen.course].shape
        rows[seen.course] = _bars(seen) if bars else _looks(seen)
    given = (
        (FLUSHED, chart.flushes),
        (REPOTTED, chart.repots),
        (TREATED, chart.treatments),
        (MOVED, chart.moves),
    )
    for name, days in given:
        if days:
            rows[name] = [float(day.toordinal()) for day in days]
    return rows


def _bars(seen: Seen) -> list[float]:
    """Give ends of bars with a gap after each; a single day is three days wide."""
    xs: list[float] = []
    for span in seen.spans:
        begins, ends = span.begins.toordinal(), span.ends.toordinal()
        xs += [begins - 1.5, ends + 1.5, NAN]
    return xs


def _looks(seen: Seen) -> list[float]:
    xs: list[float] = []
    for span in seen.spans:
        xs += [
            float(day.toordinal())
            for day in seen.looks
            if span.begins <= day <= span.ends
        ]
        xs.append(NAN)
    return xs
