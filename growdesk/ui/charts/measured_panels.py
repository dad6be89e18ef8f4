"""Draw what was measured of a plant: its lengths, and how fast they grew.

Both panels draw lead and roots the same way; a yardstick is a line without a mark.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.performance import Part
from growdesk.domain.quantity_words import length_unit, small_length
from growdesk.domain.speech import Phrases, tr
from growdesk.ui.charts import ticks
from growdesk.ui.charts.panel import Panel

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence
    from datetime import date

    from matplotlib.axes import Axes
    from matplotlib.lines import Line2D

    from growdesk.services.chart_values import Growth, Length, PlantChart
    from growdesk.ui.charts.panel import Style

Dots = tuple[list[float], list[float]]
NAN = float("nan")

NAMES = Phrases({Part.LEAD: "lead", Part.ROOTS: "longest new root"})
COLOURS = {Part.LEAD: "accent", Part.ROOTS: "clear_water"}
LINES = {Part.LEAD: "-o", Part.ROOTS: "--s"}
YARDSTICKS = {Part.LEAD: (0, (7, 3)), Part.ROOTS: (0, (7, 2, 1.5, 2))}
OWN = Phrases({Part.LEAD: "lead's own best", Part.ROOTS: "roots' own best"})
USUAL = Phrases({Part.LEAD: "usual for a lead", Part.ROOTS: "usual for roots"})


class LengthPanel:
    """The lengths of lead and roots in mm."""

    def __init__(self, axes: Axes) -> None:
        self.panel = Panel(axes)
        self.lines = {part: _line(axes, part) for part in Part}

    def show(self, chart: PlantChart, style: Style) -> None:
        """Show the lengths of a plant; nothing where none was measured."""
        runs = {Part.LEAD: chart.leads, Part.ROOTS: chart.roots}
        for part, line in self.lines.items():
            line.set_data(*_lengths(runs[part]))
            _colour(line, part, style)
        named = [self.lines[part] for part in Part if runs[part]]
        self.panel.axes.set_visible(bool(named))
        self.panel.dress(style, tr("Length, {unit}").format(unit=length_unit()))
        self.panel.name_lines(style, named)
        self.panel.hide_months()
        measured = (
            small_length(m.length_mm)
            for run in (*chart.leads, *chart.roots)
            for m in run
        )
        ticks.amounts(self.panel.axes, max(measured, default=0.0))


class GrowthPanel:
    """How fast lead and roots grow in mm a week, and what that is held against.

    Their lines are those of the lengths, which are named above; only the yardsticks are
    named here.
    """

    def __init__(self, axes: Axes) -> None:
        self.panel = Panel(axes)
        self.lines = {part: _line(axes, part) for part in Part}
        self.yardsticks = {
            part: axes.axhline(0, linestyle=YARDSTICKS[part], linewidth=1.4)
            for part in Part
        }

    def show(self, chart: PlantChart, style: Style) -> None:
        """Show the rates of a plant; nothing where none can be told."""
        growth = {each.part: each for each in chart.growth}
        named = []
        for part in Part:
            line, yardstick = self.lines[part], self.yardsticks[part]
            told = growth.get(part)
            line.set_data(*_rates(told))
            _colour(line, part, style)
            best = None if told is None else told.best
            yardstick.set_visible(best is not None)
            if best is not None:
                yardstick.set_ydata([small_length(best.mm_per_week)] * 2)
                yardstick.set_color(getattr(style.colours, COLOURS[part]))
                yardstick.set_label((OWN if best.is_own else USUAL)[part])
                named.append(yardstick)
        self.panel.axes.set_visible(bool(growth))
        self.panel.dress(style, tr("Growth, {unit} a week").format(unit=length_unit()))
        self.panel.name_lines(style, named)
        self.panel.hide_months()
        ticks.rates(self.panel.axes, _amounts(chart.growth))


def _line(axes: Axes, part: Part) -> Line2D:
    line: Line2D
    (line,) = axes.plot([], [], LINES[part], label=NAMES[part], markersize=4)
    return line


def _colour(line: Line2D, part: Part, style: Style) -> None:
    colour = getattr(style.colours, COLOURS[part])
    line.set_color(colour)
    line.set_markerfacecolor(colour if part is Part.LEAD else style.colours.card)


def _lengths(runs: Iterable[Sequence[Length]]) -> Dots:
    return _joined(
        [[(each.on, small_length(each.length_mm)) for each in run] for run in runs]
    )


def _rates(growth: Growth | None) -> Dots:
    runs = () if growth is None else growth.rates
    return _joined(
        [[(each.on, small_length(each.mm_per_week)) for each in run] for run in runs]
    )


def _amounts(growth: Iterable[Growth]) -> list[float]:
    found = []
    for each in growth:
        found += [small_length(r.mm_per_week) for run in each.rates for r in run]
        if each.best is not None:
            found.append(small_length(each.best.mm_per_week))
    return found


def _joined(runs: Iterable[Sequence[tuple[date, float]]]) -> Dots:
    """Give dots, with a gap between one lead or root and the next."""
    xs: list[float] = []
    ys: list[float] = []
    for run in runs:
        xs += [float(on.toordinal()) for on, _ in run]
        ys += [amount for _, amount in run]
        xs.append(NAN)
        ys.append(NAN)
    return xs, ys
