"""Say in words what a chart shows: its caption, and what a screen reader reads.

Whole sentences over frozen values. Nothing is claimed that is not drawn.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from growdesk.domain.performance import Part
from growdesk.domain.phrases import listed
from growdesk.services.bloom_values import WhoBlooms
from growdesk.services.chart_values import (
    Course,
    PlaceChart,
    PlantChart,
    SeasonChart,
    UsedChart,
)
from growdesk.services.meter_values import MeterChart
from growdesk.services.recipe_values import MixChart
from growdesk.ui import words
from growdesk.ui.charts.bloom_summary import bloom_lines, bloom_title
from growdesk.ui.charts.meter_summary import meter, meter_title
from growdesk.ui.charts.mix_summary import mix, mix_title
from growdesk.ui.charts.used_summary import used, used_title
from growdesk.ui.charts.year_summary import place_year, season

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
    from datetime import date

    from growdesk.services.chart_values import Growth, Length, Span
    from growdesk.ui.charts.drawing import Chart

_SIGNS: Mapping[Course, str] = {
    Course.EMERGING: "an emerging growth",
    Course.EXTENDING: "an extending growth",
    Course.MATURING: "a maturing growth",
    Course.NEW_LEAF: "a new leaf on the move",
    Course.ROOT_TIPS: "root tips on the move",
}

_FLOWERING: Mapping[Course, str] = {
    Course.IN_FLOWER: "In flower",
    Course.SPIKE: "Spike or buds",
}

_PARTS: Mapping[Part, str] = {Part.LEAD: "lead", Part.ROOTS: "roots"}
_LINES: Mapping[Part, str] = {Part.LEAD: "dashed", Part.ROOTS: "dash-dotted"}


def title(chart: Chart) -> str:
    """Give the name of a chart."""
    return _TITLES.get(type(chart), _of_plant)(chart)


def _of_plant(chart: PlantChart | SeasonChart) -> str:
    named = f"{chart.tag} {chart.name}".strip()
    if isinstance(chart, PlantChart):
        return f"{named}: 18 months to {words.short_day(chart.on)}"
    where = chart.place or "a place without a name"
    return f"{named}: the year {chart.on.year} at {where}"


def nothing(chart: PlantChart) -> str:
    """Say that there is nothing to draw, and what would change it."""
    since, on = words.short_day(chart.since), words.short_day(chart.on)
    return (
        f"Between {since} and {on} nothing is on record of {chart.tag}. "
        "Feeds, flushes, repots and looks are drawn here once they are written down."
    )


def summary(chart: Chart) -> str:
    """Give the whole chart in a few sentences."""
    if isinstance(chart, PlantChart):
        return " ".join(_plant(chart))
    if isinstance(chart, SeasonChart):
        return " ".join(season(chart))
    return "\n".join(_LINES_OF[type(chart)](chart))


def _plant(chart: PlantChart) -> Iterator[str]:
    since, on = words.short_day(chart.since), words.short_day(chart.on)
    yield f"{since} to {on}."
    yield _feeds(chart)
    if chart.flushes:
        times = words.counted(len(chart.flushes), "time", "times")
        last = words.short_day(chart.flushes[-1])
        yield f"Flushed {times}, last on {last}."
    if chart.repots:
        yield f"Repotted on {_days(chart.repots)}."
    if chart.treatments:
        yield f"Treated on {_days(chart.treatments)}."
    if chart.moves:
        yield f"Moved on {_days(chart.moves)}."
    yield from _lengths(chart)
    yield from _growth(chart)
    yield from _flowering(chart)
    latest = [
        f"{_SIGNS[seen.course]} on {words.short_day(seen.spans[-1].ends)}"
        for seen in chart.seen
        if seen.course in _SIGNS
    ]
    if latest:
        yield f"Last seen: {listed(latest)}."


def _days(days: Iterable[date]) -> str:
    return listed([words.short_day(day) for day in days])


def _feeds(chart: PlantChart) -> str:
    if not chart.feeds:
        return "No feed is on record."
    known = [f.strength_ppm_n for f in chart.feeds if f.strength_ppm_n is not None]
    times = words.counted(len(chart.feeds), "time", "times")
    last = chart.feeds[-1]
    said = f"Fed {times}, last on {words.short_day(last.on)}"
    if last.strength_ppm_n is not None:
        said = f"{said} at {words.strength(last.strength_ppm_n)}"
    if not known:
        return f"{said}; no strength was recorded."
    return f"{said}; between {min(known):.0f} and {max(known):.0f} ppm N."


def _lengths(chart: PlantChart) -> Iterator[str]:
    if not chart.leads and not chart.roots:
        yield "No lead and no root was measured."
    if chart.leads:
        yield _length("Lead", chart.leads)
    if chart.roots:
        yield _length("Longest new root", chart.roots)


def _length(what: str, runs: Sequence[Sequence[Length]]) -> str:
    first, last = runs[-1][0], runs[-1][-1]
    if first is last:
        return f"{what}: {last.length_mm:g} mm on {words.short_day(last.on)}."
    return (
        f"{what}: from {first.length_mm:g} mm on {words.short_day(first.on)} "
        f"to {last.length_mm:g} mm on {words.short_day(last.on)}."
    )


def _growth(chart: PlantChart) -> Iterator[str]:
    if (chart.leads or chart.roots) and not chart.growth:
        yield "No rate can be told: that takes two lengths within a few weeks."
    for growth in chart.growth:
        yield _rate(growth)
    counting = [each.part for each in chart.growth if each.counts]
    if counting:
        yield f"The strength goes by the {_PARTS[counting[0]]} now."
    elif chart.growth:
        yield "No strength goes by these rates now."


def _rate(growth: Growth) -> str:
    newest, best = growth.newest, growth.best
    rate = words.number(newest.mm_per_week, 1)
    day = words.short_day(newest.on)
    said = f"Newest rate of the {_PARTS[growth.part]}: {rate} mm a week on {day}"
    if best is None:
        return f"{said}; there is no yardstick for it."
    against = words.number(best.mm_per_week, 1)
    whose = "its own best season" if best.is_own else "usual for its kind"
    return f"{said}, against {against} mm ({whose}, the {_LINES[growth.part]} line)."


def _flowering(chart: PlantChart) -> Iterator[str]:
    for seen in chart.seen:
        if seen.course in _FLOWERING:
            spans = listed([_span(span) for span in seen.spans])
            yield f"{_FLOWERING[seen.course]} {spans}."


def _span(span: Span) -> str:
    if span.begins == span.ends:
        return f"on {words.short_day(span.begins)}"
    return f"from {words.short_day(span.begins)} to {words.short_day(span.ends)}"


_TITLES: Mapping[type[Any], Callable[[Any], str]] = {
    PlaceChart: lambda chart: f"{chart.place}: the year {chart.on.year}",
    UsedChart: used_title,
    MixChart: mix_title,
    MeterChart: meter_title,
    WhoBlooms: bloom_title,
}
_LINES_OF: Mapping[type[Any], Callable[[Any], Iterable[str]]] = {
    PlaceChart: place_year,
    UsedChart: used,
    MixChart: mix,
    MeterChart: meter,
    WhoBlooms: bloom_lines,
}
