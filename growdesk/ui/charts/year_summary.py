"""Say in words what the year of a place shows, for one plant's kind or for all there.

Whole sentences over frozen values, as in ``summary``.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain import day_words
from growdesk.services.chart_values import Basis
from growdesk.ui import words

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence
    from datetime import date

    from growdesk.services.chart_values import (
        PlaceChart,
        SeasonChart,
        Strengths,
        YearDay,
    )

_LIGHT: Mapping[Basis, str] = {
    Basis.WINDOW: "By its {facing} window",
    Basis.ROOF: "Through its roof",
    Basis.OPEN_SIDE: "Open to the {facing}",
    Basis.OPEN_SKY: "Under the open sky",
    Basis.LAMPS: "By its lamps",
    Basis.LAMPS_AND_DAYLIGHT: "By its lamps and the daylight",
    Basis.READ: "By what was read there",
}
_NOT_RECORDED = (
    "Facing, lamps and light of the place are not recorded, so the radiation of the "
    "season stands in for its light."
)
_A_CURVE = (
    "How strength follows the season is a curve of the house, not a law of nature."
)


def season(chart: SeasonChart) -> Iterator[str]:
    """Give the year of a plant's place for its kind."""
    days = [day.year_day for day in chart.days]
    yield f"{_latitude(chart, chart.kind_title)}."
    yield from _sun(days, chart.shown.year_day)
    if chart.basis is Basis.CONTROLLED:
        steady = chart.shown.strength_ppm_n
        yield (
            f"The place is kept steady, so the strength is {steady:.0f} ppm N all year."
        )
    else:
        yield from _light(days, chart.shown.year_day, chart.facing)
        yield _by_light(chart)
        yield _warmth(
            [day.on for day in chart.days if day.strength_read_ppm_n is not None],
            chart.on,
            "dashed",
            chart.shown.strength_read_ppm_n,
        )
    yield (
        "Looks, repots and measured growth are left out here; a verdict counts them, "
        f"and rounds to {chart.step_ppm_n:g} ppm N. {_A_CURVE}"
    )


def place_year(chart: PlaceChart) -> Iterator[str]:
    """Give the year of a place for the kinds that stand there, by paragraphs."""
    light = ["The place is kept steady, so the season takes nothing off."]
    if chart.basis is not Basis.CONTROLLED:
        light = list(_light(chart.days, chart.shown, chart.facing))
    yield " ".join(
        [f"{_latitude(chart, chart.place)}.", *_sun(chart.days, chart.shown), *light]
    )
    has_plants = any(each.plants for each in chart.strengths)
    if not has_plants:
        yield (
            "No plant stands there, so three classes of light do, each for a medium "
            "feeder."
        )
    for each in chart.strengths:
        yield _kind(each, chart)
    if chart.kinds_left_out:
        stand = words.counted(chart.kinds_left_out, "kind stands", "kinds stand")
        yield f"{stand} there too and not in the chart."
    if chart.basis is not Basis.CONTROLLED and has_plants:
        yield _warmth(_days_read(chart), chart.on, "thick", None)
    yield (
        "All of this is for a plant in growth at the house's full strength of "
        f"{chart.full_strength_ppm_n:g} ppm N; a verdict counts its looks, its pot and "
        f"measured growth too, and rounds to {chart.step_ppm_n:g} ppm N. {_A_CURVE}"
    )


def _days_read(chart: PlaceChart) -> list[date]:
    reads = zip(*(each.read for each in chart.strengths), strict=True)
    return [
        day.on
        for day, known in zip(chart.days, reads, strict=True)
        if any(each is not None for each in known)
    ]


def _latitude(chart: SeasonChart | PlaceChart, what: str) -> str:
    latitude = chart.latitude
    side = "north" if latitude >= 0 else "south"
    said = f"{what} at {abs(latitude):g}° {side}"
    if chart.latitude_given:
        return said
    return f"{said}, which is the program's guess until you give your latitude"


def _sun(days: Sequence[YearDay], shown: YearDay) -> Iterator[str]:
    on = words.short_day(shown.on)
    shortest = min(days, key=lambda day: day.day_length_h)
    longest = max(days, key=lambda day: day.day_length_h)
    yield (
        f"On {on} the day is {shown.day_length_h:.1f} h long, sunrise to sunset; the "
        f"shortest is {shortest.day_length_h:.1f} h, in {_month(shortest.on)}, the "
        f"longest {longest.day_length_h:.1f} h, in {_month(longest.on)}."
    )
    above = [day.ra_mj_per_m2_d for day in days]
    yield (
        f"The sun's radiation above the air is {shown.ra_mj_per_m2_d:.1f} MJ m⁻² d⁻¹ "
        f"({min(above):.1f} to {max(above):.1f})."
    )


def _light(days: Sequence[YearDay], shown: YearDay, facing: object) -> Iterator[str]:
    known = [d.light_mol_per_m2_d for d in days if d.light_mol_per_m2_d is not None]
    if shown.light_mol_per_m2_d is None:
        yield _NOT_RECORDED
    else:
        by = _LIGHT[shown.light_by].format(facing=facing)
        low, high = f"{min(known):.1f}", f"{max(known):.1f}"
        year = "all year" if low == high else f"{low} to {high} through the year"
        yield (
            f"{by} a leaf has about {shown.light_mol_per_m2_d:.1f} mol m⁻² d⁻¹ of "
            f"light on {words.short_day(shown.on)} ({year})."
        )
    read = [day.on for day in days if day.light_by is Basis.READ]
    if read:
        yield f"Light was read there ({_months(read, shown.on)}) and counts first."


def _by_light(chart: SeasonChart) -> str:
    strengths = [day.strength_ppm_n for day in chart.days]
    now = chart.shown.strength_ppm_n
    is_read = any(day.year_day.light_by is Basis.READ for day in chart.days)
    if chart.basis is Basis.LAMPS and not is_read:
        return f"Under lamps the strength goes by them: {now:.0f} ppm N all year."
    low, high = min(strengths), max(strengths)
    return f"By light alone the strength is {now:.0f} ppm N ({low:.0f} to {high:.0f})."


def _warmth(read: Sequence[date], on: date, line: str, now: float | None) -> str:
    if not read:
        return "No temperatures were read at the place, so temperature is left out."
    said = f"The {line} line counts the temperatures read there too"
    said = f"{said} ({_months(read, on)})"
    if now is None:
        return f"{said}."
    return f"{said}: {now:.0f} ppm N on {words.short_day(on)}."


def _kind(strengths: Strengths, chart: PlaceChart) -> str:
    title = " and ".join(strengths.titles)
    title = f"{title[:1].upper()}{title[1:]}"
    if strengths.plants:
        title = f"{title} ({words.plants(strengths.plants)})"
    now, read = strengths.by_light[chart.number], strengths.read[chart.number]
    said = f"{title}: {now:.0f} ppm N by light on {words.short_day(chart.on)}"
    if read is not None:
        same = f"{read:.0f}" == f"{now:.0f}"
        warmth = "warmth takes nothing off" if same else f"{read:.0f} by warmth too"
        said = f"{said}, {warmth}"
    means = _month_means(chart.days, strengths.by_light)
    strongest = max(means, key=lambda month: means[month])
    weakest = min(means, key=lambda month: means[month])
    if round(means[strongest]) == round(means[weakest]):
        return f"{said}; by light it is the same all year."
    return (
        f"{said}; by light strongest in {day_words.MONTHS[strongest - 1]}, at "
        f"{means[strongest]:.0f}, and weakest in {day_words.MONTHS[weakest - 1]}, at "
        f"{means[weakest]:.0f}."
    )


def _month_means(
    days: Sequence[YearDay], amounts: Sequence[float]
) -> Mapping[int, float]:
    by_month: dict[int, list[float]] = {}
    for day, amount in zip(days, amounts, strict=True):
        by_month.setdefault(day.on.month, []).append(amount)
    return {month: sum(found) / len(found) for month, found in by_month.items()}


def _months(read: Sequence[date], on: date) -> str:
    names = list(dict.fromkeys((_month(read[0]), _month(read[-1]))))
    said = " to ".join(names)
    if read[-1] > on:
        return f"{said}; for the days to come, what was read a year before"
    return said


def _month(day: date) -> str:
    return day_words.MONTHS[day.month - 1]
