"""Say in words what a chart shows: its caption, and what a screen reader reads.

Whole sentences over frozen values. Nothing is claimed that is not drawn.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain import wording
from growdesk.services.chart_values import Basis, Course, PlantChart
from growdesk.ui import words

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence
    from datetime import date

    from growdesk.services.chart_values import Length, SeasonChart, Span

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


def title(chart: PlantChart | SeasonChart) -> str:
    """Give the name of a chart."""
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


def summary(chart: PlantChart | SeasonChart) -> str:
    """Give the whole chart in a few sentences."""
    if isinstance(chart, PlantChart):
        return " ".join(_plant(chart))
    return " ".join(_season(chart))


# -- one plant ----------------------------------------------------------------------


def _plant(chart: PlantChart) -> Iterator[str]:
    since, on = words.short_day(chart.since), words.short_day(chart.on)
    yield f"{since} to {on}."
    yield _feeds(chart)
    if chart.flushes:
        times = words.counted(len(chart.flushes), "time", "times")
        last = words.short_day(chart.flushes[-1])
        yield f"Flushed {times}, last on {last}."
    if chart.repots:
        yield f"Repotted on {_listed([words.short_day(d) for d in chart.repots])}."
    yield from _lengths(chart)
    yield from _flowering(chart)
    latest = [
        f"{_SIGNS[seen.course]} on {words.short_day(seen.spans[-1].ends)}"
        for seen in chart.seen
        if seen.course in _SIGNS
    ]
    if latest:
        yield f"Last seen: {_listed(latest)}."


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


def _flowering(chart: PlantChart) -> Iterator[str]:
    for seen in chart.seen:
        if seen.course in _FLOWERING:
            spans = _listed([_span(span) for span in seen.spans])
            yield f"{_FLOWERING[seen.course]} {spans}."


def _span(span: Span) -> str:
    if span.begins == span.ends:
        return f"on {words.short_day(span.begins)}"
    return f"from {words.short_day(span.begins)} to {words.short_day(span.ends)}"


def _listed(parts: Sequence[str]) -> str:
    if len(parts) < 2:
        return "".join(parts)
    return f"{', '.join(parts[:-1])} and {parts[-1]}"


# -- a season -----------------------------------------------------------------------


def _season(chart: SeasonChart) -> Iterator[str]:
    shown = chart.shown
    on = words.short_day(chart.on)
    yield f"{_latitude(chart)}."
    hours = [day.day_length_h for day in chart.days]
    yield (
        f"On {on} the day is {shown.day_length_h:.1f} h long, sunrise to sunset "
        f"(the year: {min(hours):.1f} to {max(hours):.1f} h)."
    )
    above = [day.ra_mj_per_m2_d for day in chart.days]
    yield (
        f"The sun's radiation above the air is {shown.ra_mj_per_m2_d:.1f} MJ m⁻² d⁻¹ "
        f"({min(above):.1f} to {max(above):.1f})."
    )
    yield from _strength(chart)
    yield (
        "Looks, repots and measured growth are left out here; a verdict counts them, "
        f"and rounds to {chart.step_ppm_n:g} ppm N. How strength follows the season is "
        "a curve of the house, not a law of nature."
    )


def _latitude(chart: SeasonChart) -> str:
    side = "north" if chart.latitude >= 0 else "south"
    said = f"{chart.kind_title} at {abs(chart.latitude):g}° {side}"
    if chart.latitude_given:
        return said
    return f"{said}, which is the program's guess until you give your latitude"


def _strength(chart: SeasonChart) -> Iterator[str]:
    strengths = [day.strength_ppm_n for day in chart.days]
    low, high = min(strengths), max(strengths)
    now = chart.shown.strength_ppm_n
    if chart.basis is Basis.CONTROLLED:
        yield f"The place is kept steady, so the strength is {now:.0f} ppm N all year."
        return
    if chart.basis is Basis.LAMPS:
        yield f"Under lamps the strength goes by them: {now:.0f} ppm N all year."
    else:
        yield (
            f"By light alone the strength is {now:.0f} ppm N ({low:.0f} to {high:.0f})."
        )
    yield _warmth(chart)


def _warmth(chart: SeasonChart) -> str:
    read = [day for day in chart.days if day.strength_read_ppm_n is not None]
    if not read:
        return "No temperatures were read at the place, so temperature is left out."
    months = _months(read[0].on, read[-1].on)
    said = f"The dashed line counts the temperatures read there too ({months}"
    if read[-1].on > chart.on:
        said = f"{said}; for the days to come, those of a year before"
    now = chart.shown.strength_read_ppm_n
    if now is None:
        return f"{said})."
    return f"{said}): {now:.0f} ppm N on {words.short_day(chart.on)}."


def _months(begins: date, ends: date) -> str:
    names = [wording.MONTHS[day.month - 1] for day in (begins, ends)]
    return names[0] if names[0] == names[1] else " to ".join(names)
