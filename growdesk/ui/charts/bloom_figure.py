"""Draw who blooms when: a row for each plant or kind, the months above and below.

The flowerings of past years lie lightly over one another, so that the season shows
where they meet; one that is open now has an edge. What is expected is a line with a
diamond at its middle, above the bars.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.domain.bloom_season import YEAR_DAYS, place_of
from growdesk.domain.day_words import SHORT_MONTHS
from growdesk.domain.name_runs import Form, Run
from growdesk.domain.speech import tr
from growdesk.services import names
from growdesk.ui import words
from growdesk.ui.charts import panel, ticks
from growdesk.ui.charts.panel import Panel, Placed
from growdesk.ui.charts.row_names import RowName, RowNames

if TYPE_CHECKING:
    from matplotlib.artist import Artist
    from matplotlib.figure import Figure
    from matplotlib.lines import Line2D
    from matplotlib.patches import Patch

    from growdesk.services.bloom_values import BloomLine, Flowered, WhoBlooms
    from growdesk.ui.charts.panel import Style

ROW = 1.9
"""Height of a row, in font sizes."""

NAMES_SHARE = 0.46
"""How much of the width the names may take."""

PAST_SHARE = 0.22
"""How much of the colour one past year has."""

MONTHS_PT = 9.0
"""What stands between the axes and the months above them, with their own gap."""

KEY_LINES = 7
"""Lines that title, key and months take at most."""

LEAST_DAYS = 3.0
_BAR, _ABOVE = 0.5, -0.36
_COMMON = (0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334)


class Stretch(Struct, frozen=True):
    """A stretch of the year as drawn: days from its beginning, and how many."""

    begins: float
    days: float


class BloomFigure:
    """Who blooms when on a figure that is its own."""

    def __init__(self, figure: Figure) -> None:
        self._figure = figure
        self._panel = Panel(figure.subplots())
        self.names = RowNames(self._panel.axes)
        self._made: list[Artist] = []
        self._chart: WhoBlooms | None = None
        self._style: Style | None = None

    def show(self, chart: WhoBlooms, style: Style) -> None:
        """Show the year; the figure is laid out anew."""
        self._chart, self._style = chart, style
        for each in self._made:
            each.remove()
        self._made = []
        axes = self._panel.axes
        self._panel.dress(style, tr("In flower, by month"))
        self._panel.name_lines(style, self._key(chart, style), key_line=1.6)
        axes.grid(visible=False, axis="y")
        axes.grid(visible=True, axis="x", color=style.colours.line, linewidth=0.8)
        for row, line in enumerate(chart.lines):
            self._show_line(row, line, chart, style)
        on = _from(place_of(chart.on), chart.first_month)
        self._made.append(
            axes.axvline(on, linestyle=":", linewidth=1.6, color=style.colours.ink)
        )
        axes.set_xlim(0, YEAR_DAYS)
        axes.set_ylim(len(chart.lines) - 0.4, -0.7)
        axes.set_yticks(range(len(chart.lines)), [""] * len(chart.lines))
        named = [_named(each, is_kind=chart.of_kinds) for each in chart.lines]
        self.names.show(named, style)
        self.fit()

    def fit(self, heading_pt: float = 0.0) -> None:
        """Lay the figure out for the size it has."""
        chart, style = self._chart, self._style
        if chart is None or style is None:
            return
        across_pt = self._figure.bbox.width * 72 / self._figure.dpi
        self._panel.names_pt = self.names.fit(across_pt * NAMES_SHARE)
        wide_pt = panel.lay_out(
            self._figure,
            [Placed(self._panel, share=1)],
            style,
            heading_pt=heading_pt,
            foot_lines=1,
            above_pt=style.size_pt + MONTHS_PT,
        )
        axes = self._panel.axes
        turned = [(chart.first_month - 1 + step) % 12 for step in range(12)]
        starts = [
            _from(_COMMON[month] * YEAR_DAYS / 365, chart.first_month)
            for month in turned
        ]
        every = ticks.room_for_months(12, wide_pt / style.size_pt)
        months = [
            SHORT_MONTHS[month] if number % every == 0 else ""
            for number, month in enumerate(turned)
        ]
        axes.set_xticks(starts, months, horizontalalignment="left")
        axes.tick_params(
            axis="x", which="major", pad=4, labeltop=True, labelbottom=True
        )

    def _key(self, chart: WhoBlooms, style: Style) -> list[Line2D | Patch]:
        from matplotlib.lines import Line2D
        from matplotlib.patches import Patch

        c = style.colours
        past = Patch(facecolor=c.accent, alpha=0.45, label=tr("past years"))
        open_now = Patch(
            facecolor=c.accent, edgecolor=c.ink, linewidth=1.2, label=tr("open now")
        )
        ahead = Line2D(
            [],
            [],
            color=c.ink,
            linewidth=1.6,
            marker="D",
            markersize=4,
            label=tr("expected"),
        )
        day = words.short_day(chart.on)
        today = Line2D([], [], color=c.ink, linewidth=1.6, linestyle=":", label=day)
        spans = [span for line in chart.lines for span in line.spans]
        named: list[Line2D | Patch] = []
        if any(not span.is_on for span in spans):
            named.append(past)
        if any(span.is_on for span in spans):
            named.append(open_now)
        if any(line.expected is not None for line in chart.lines):
            named.append(ahead)
        return [*named, today]

    def _show_line(
        self, row: int, line: BloomLine, chart: WhoBlooms, style: Style
    ) -> None:
        c, axes = style.colours, self._panel.axes
        for span in line.spans:
            for each in stretches(span, chart.first_month):
                made = axes.barh(
                    row,
                    each.days,
                    _BAR,
                    left=each.begins,
                    color=c.accent,
                    alpha=1.0 if span.is_on else PAST_SHARE,
                    edgecolor=c.ink if span.is_on else "none",
                    linewidth=1.2 if span.is_on else 0.0,
                )
                self._made += made.patches
        seasons = () if line.expected is None else line.expected.seasons
        for season in seasons:
            middle = _from(season.mean.place_days, chart.first_month)
            spread = max(season.spread_days, 1.0)
            ends = [max(middle - spread, 0.0), min(middle + spread, YEAR_DAYS)]
            at = [row + _ABOVE, row + _ABOVE]
            self._made += axes.plot(
                ends, at, "-", color=c.ink, linewidth=1.6, clip_on=False
            )
            self._made += axes.plot(
                [middle], at[:1], "D", color=c.ink, markersize=4, clip_on=False
            )


def height_pt(chart: WhoBlooms, style: Style) -> float:
    """Give the least height at which the year is legible."""
    size = style.size_pt
    rows = max(1, len(chart.lines)) * size * ROW
    return rows + KEY_LINES * size * panel.LINE + 3 * panel.GAP_PT + MONTHS_PT


def stretches(span: Flowered, first_month: int) -> tuple[Stretch, ...]:
    """Give a flowering as it lies on the drawn year; over its end it begins anew."""
    days = max(float((span.ends - span.begins).days + 1), LEAST_DAYS)
    if days >= YEAR_DAYS:
        return (Stretch(0.0, YEAR_DAYS),)
    begins = _from(place_of(span.begins) - 0.5, first_month)
    over = begins + days - YEAR_DAYS
    if over <= 0:
        return (Stretch(begins, days),)
    return Stretch(begins, days - over), Stretch(0.0, over)


def _from(place_days: float, first_month: int) -> float:
    """Give a place on the year as days from the first of its first month."""
    return (place_days - _COMMON[first_month - 1] * YEAR_DAYS / 365) % YEAR_DAYS


def _named(line: BloomLine, *, is_kind: bool) -> RowName:
    """Give the name of a row; a plant's genus is abbreviated as in the list."""
    after = f" ({line.plants})" if line.plants > 1 else ""
    if is_kind:
        return RowName((Run(line.title),), after)
    tag, _, rest = line.title.partition(" ")
    if not rest:
        return RowName((Run(tag),), after)
    return RowName((Run(f"{tag} "), *names.runs_of(rest, Form.SHORT)), after)
