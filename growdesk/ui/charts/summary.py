"""Say in words what a chart shows: its caption, and what a screen reader reads.

Whole sentences over frozen values. Nothing is claimed that is not drawn.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from growdesk.domain.performance import Part
from growdesk.domain.phrases import listed
from growdesk.domain.quantity_words import small_text
from growdesk.domain.speech import Phrases, fixed, tr, trn
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

_SIGNS: Mapping[Course, str] = Phrases(
    {
        Course.EMERGING: "an emerging growth",
        Course.EXTENDING: "an extending growth",
        Course.MATURING: "a maturing growth",
        Course.NEW_LEAF: "a new leaf on the move",
        Course.ROOT_TIPS: "root tips on the move",
    }
)

_FLOWERING: Mapping[Course, str] = Phrases(
    {
        Course.IN_FLOWER: "In flower",
        Course.SPIKE: "Spike or buds",
    }
)

_PARTS = Phrases({Part.LEAD: "lead", Part.ROOTS: "roots"})
_LINES = Phrases({Part.LEAD: "dashed", Part.ROOTS: "dash-dotted"})


def title(chart: Chart) -> str:
    """Give the name of a chart."""
    return _TITLES.get(type(chart), _of_plant)(chart)


def _of_plant(chart: PlantChart | SeasonChart) -> str:
    named = f"{chart.tag} {chart.name}".strip()
    if isinstance(chart, PlantChart):
        return tr("{named}: 18 months to {short_day}").format(
            named=named, short_day=words.short_day(chart.on)
        )
    where = chart.place or tr("a place without a name")
    return tr("{named}: the year {year} at {where}").format(
        named=named, year=chart.on.year, where=where
    )


def nothing(chart: PlantChart) -> str:
    """Say that there is nothing to draw, and what would change it."""
    since, on = words.short_day(chart.since), words.short_day(chart.on)
    return tr(
        "Between {since} and {on} nothing is on record of {tag}. "
        "Feeds, flushes, repots and looks are drawn here once they "
        "are written down."
    ).format(since=since, on=on, tag=chart.tag)


def nothing_of(chart: Chart) -> str:
    """Say that a chart has nothing to draw; empty where it has."""
    if isinstance(chart, PlantChart) and chart.is_empty:
        return nothing(chart)
    if isinstance(chart, UsedChart) and not any(chart.nitrogen_g):
        return summary(chart)
    if isinstance(chart, MeterChart) and not chart.readings:
        return summary(chart)
    if isinstance(chart, WhoBlooms) and not chart.lines:
        return summary(chart)
    return ""


def summary(chart: Chart) -> str:
    """Give the whole chart in a few sentences."""
    if isinstance(chart, PlantChart):
        return " ".join(_plant(chart))
    if isinstance(chart, SeasonChart):
        return " ".join(season(chart))
    return "\n".join(_LINES_OF[type(chart)](chart))


def _plant(chart: PlantChart) -> Iterator[str]:
    since, on = words.short_day(chart.since), words.short_day(chart.on)
    yield tr("{since} to {on}.").format(since=since, on=on)
    yield _feeds(chart)
    if chart.flushes:
        times = words.counted(len(chart.flushes), "time", "times")
        last = words.short_day(chart.flushes[-1])
        yield tr("Flushed {times}, last on {last}.").format(times=times, last=last)
    if chart.repots:
        yield tr("Repotted on {days}.").format(days=_days(chart.repots))
    if chart.treatments:
        yield tr("Treated on {days}.").format(days=_days(chart.treatments))
    if chart.moves:
        yield tr("Moved on {days}.").format(days=_days(chart.moves))
    yield from _lengths(chart)
    yield from _growth(chart)
    yield from _flowering(chart)
    latest = [
        tr("{signs} on {short_day}").format(
            signs=_SIGNS[seen.course], short_day=words.short_day(seen.spans[-1].ends)
        )
        for seen in chart.seen
        if seen.course in _SIGNS
    ]
    if latest:
        yield tr("Last seen: {list}.").format(list=listed(latest))


def _days(days: Iterable[date]) -> str:
    return listed([words.short_day(day) for day in days])


def _feeds(chart: PlantChart) -> str:
    if not chart.feeds:
        return tr("No feed is on record.")
    known = [f.strength_ppm_n for f in chart.feeds if f.strength_ppm_n is not None]
    times = words.counted(len(chart.feeds), "time", "times")
    last = chart.feeds[-1]
    said = tr("Fed {times}, last on {short_day}").format(
        times=times, short_day=words.short_day(last.on)
    )
    if last.strength_ppm_n is not None:
        said = tr("{said} at {strength}").format(
            said=said, strength=words.strength(last.strength_ppm_n)
        )
    if not known:
        return tr("{said}; no strength was recorded.").format(said=said)
    return tr("{said}; between {min} and {max} ppm N.").format(
        said=said, min=fixed(min(known), 0), max=fixed(max(known), 0)
    )


def _lengths(chart: PlantChart) -> Iterator[str]:
    if not chart.leads and not chart.roots:
        yield tr("No lead and no root was measured.")
    if chart.leads:
        yield _length(tr("Lead"), chart.leads)
        yield from _earlier(chart.leads)
    if chart.roots:
        yield _length(tr("Longest new root"), chart.roots)


def _earlier(runs: Sequence[Sequence[Length]]) -> Iterator[str]:
    """Say how long the leads before the last one came to be."""
    told = [
        tr("{length} on {day}").format(
            length=small_text(run[-1].length_mm), day=words.short_day(run[-1].on)
        )
        for run in runs[:-1]
    ]
    if told:
        yield trn(
            "The lead before it: {told}.", "The leads before it: {told}.", len(told)
        ).format(told=listed(told))


def _length(what: str, runs: Sequence[Sequence[Length]]) -> str:
    first, last = runs[-1][0], runs[-1][-1]
    if first is last:
        return tr("{what}: {length} on {short_day}.").format(
            what=what,
            length=small_text(last.length_mm),
            short_day=words.short_day(last.on),
        )
    return tr("{what}: from {first} on {first_day} to {last} on {last_day}.").format(
        what=what,
        first=small_text(first.length_mm),
        first_day=words.short_day(first.on),
        last=small_text(last.length_mm),
        last_day=words.short_day(last.on),
    )


def _growth(chart: PlantChart) -> Iterator[str]:
    if (chart.leads or chart.roots) and not chart.growth:
        yield tr("No rate can be told: that takes two lengths within a few weeks.")
    for growth in chart.growth:
        yield _rate(growth)
    counting = [each.part for each in chart.growth if each.counts]
    if counting:
        yield tr("The strength goes by the {parts} now.").format(
            parts=_PARTS[counting[0]]
        )
    elif chart.growth:
        yield tr("No strength goes by these rates now.")


def _rate(growth: Growth) -> str:
    newest, best = growth.newest, growth.best
    rate = small_text(newest.mm_per_week)
    day = words.short_day(newest.on)
    said = tr("Newest rate of the {parts}: {rate} a week on {day}").format(
        parts=_PARTS[growth.part], rate=rate, day=day
    )
    if best is None:
        return tr("{said}; there is no yardstick for it.").format(said=said)
    against = small_text(best.mm_per_week)
    whose = tr("its own best season") if best.is_own else tr("usual for its kind")
    return tr("{said}, against {against} ({whose}, the {lines} line).").format(
        said=said, against=against, whose=whose, lines=_LINES[growth.part]
    )


def _flowering(chart: PlantChart) -> Iterator[str]:
    for seen in chart.seen:
        if seen.course in _FLOWERING:
            spans = listed([_span(span) for span in seen.spans])
            yield f"{_FLOWERING[seen.course]} {spans}."


def _span(span: Span) -> str:
    if span.begins == span.ends:
        return tr("on {short_day}").format(short_day=words.short_day(span.begins))
    return tr("from {begins} to {ends}").format(
        begins=words.short_day(span.begins), ends=words.short_day(span.ends)
    )


_TITLES: Mapping[type[Any], Callable[[Any], str]] = {
    PlaceChart: lambda chart: tr("{place}: the year {year}").format(
        place=chart.place, year=chart.on.year
    ),
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
