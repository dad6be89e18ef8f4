"""Say in words what the year of a place shows, for one plant's kind or for all there.

Whole sentences over frozen values, as in ``summary``.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain import day_words
from growdesk.domain.speech import Phrases, fixed, mark, plain, tr, trn
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

_LIGHT: Mapping[Basis, str] = Phrases(
    {
        Basis.WINDOW: "By its {facing} window",
        Basis.ROOF: "Through its roof",
        Basis.OPEN_SIDE: "Open to the {facing}",
        Basis.OPEN_SKY: "Under the open sky",
        Basis.LAMPS: "By its lamps",
        Basis.LAMPS_AND_DAYLIGHT: "By its lamps and the daylight",
        Basis.READ: "By what was read there",
    }
)
_NOT_RECORDED = mark(
    "Facing, lamps and light of the place are not recorded, so the radiation of the "
    "season stands in for its light."
)
_A_CURVE = mark(
    "How strength follows the season is a curve of the house, not a law of nature."
)


def season(chart: SeasonChart) -> Iterator[str]:
    """Give the year of a plant's place for its kind."""
    days = [day.year_day for day in chart.days]
    yield f"{_latitude(chart, chart.kind_title)}."
    yield from _sun(days, chart.shown.year_day)
    if chart.basis is Basis.CONTROLLED:
        steady = chart.shown.strength_ppm_n
        yield tr(
            "The place is kept steady, so the strength is {steady} ppm N all year."
        ).format(steady=fixed(steady, 0))
    else:
        yield from _light(days, chart.shown.year_day, chart.facing)
        yield _by_light(chart)
        yield _warmth(
            [day.on for day in chart.days if day.strength_read_ppm_n is not None],
            chart.on,
            tr("dashed"),
            chart.shown.strength_read_ppm_n,
        )
    yield tr(
        "Looks, repots and measured growth are left out here; a "
        "verdict counts them, and rounds to {step_ppm_n} ppm N. "
        "{a_curve}"
    ).format(step_ppm_n=plain(chart.step_ppm_n), a_curve=tr(_A_CURVE))


def place_year(chart: PlaceChart) -> Iterator[str]:
    """Give the year of a place for the kinds that stand there, by paragraphs."""
    light = [tr("The place is kept steady, so the season takes nothing off.")]
    if chart.basis is not Basis.CONTROLLED:
        light = list(_light(chart.days, chart.shown, chart.facing))
    yield " ".join(
        [f"{_latitude(chart, chart.place)}.", *_sun(chart.days, chart.shown), *light]
    )
    has_plants = any(each.plants for each in chart.strengths)
    if not has_plants:
        yield tr(
            "No plant stands there, so three classes of light do, "
            "each for a medium feeder."
        )
    for each in chart.strengths:
        yield _kind(each, chart)
    if chart.kinds_left_out:
        yield trn(
            "{count} kind stands there too and not in the chart.",
            "{count} kinds stand there too and not in the chart.",
            chart.kinds_left_out,
        ).format(count=chart.kinds_left_out)
    if chart.basis is not Basis.CONTROLLED and has_plants:
        yield _warmth(_days_read(chart), chart.on, tr("thick"), None)
    yield tr(
        "All of this is for a plant in growth at the house's full "
        "strength of {full_strength_ppm_n} ppm N; a verdict counts "
        "its looks, its pot and measured growth too, and rounds to "
        "{step_ppm_n} ppm N. {a_curve}"
    ).format(
        full_strength_ppm_n=plain(chart.full_strength_ppm_n),
        step_ppm_n=plain(chart.step_ppm_n),
        a_curve=tr(_A_CURVE),
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
    told = (
        tr("{what} at {latitude}° north")
        if latitude >= 0
        else tr("{what} at {latitude}° south")
    )
    said = told.format(what=what, latitude=plain(abs(latitude)))
    if chart.latitude_given:
        return said
    return tr(
        "{said}, which is the program's guess until you give your latitude"
    ).format(said=said)


def _sun(days: Sequence[YearDay], shown: YearDay) -> Iterator[str]:
    on = words.short_day(shown.on)
    shortest = min(days, key=lambda day: day.day_length_h)
    longest = max(days, key=lambda day: day.day_length_h)
    yield tr(
        "On {on} the day is {day_h} h long, sunrise to "
        "sunset; the shortest is {shortest_h} h, in {short_month}, the "
        "longest {longest_h} h, in {long_month}."
    ).format(
        on=on,
        day_h=fixed(shown.day_length_h, 1),
        shortest_h=fixed(shortest.day_length_h, 1),
        short_month=_month(shortest.on),
        longest_h=fixed(longest.day_length_h, 1),
        long_month=_month(longest.on),
    )
    above = [day.ra_mj_per_m2_d for day in days]
    yield tr(
        "The sun's radiation above the air is {ra_mj_per_m2_d} MJ "
        "m⁻² d⁻¹ ({min} to {max})."
    ).format(
        ra_mj_per_m2_d=fixed(shown.ra_mj_per_m2_d, 1),
        min=fixed(min(above), 1),
        max=fixed(max(above), 1),
    )


def _light(days: Sequence[YearDay], shown: YearDay, facing: object) -> Iterator[str]:
    known = [d.light_mol_per_m2_d for d in days if d.light_mol_per_m2_d is not None]
    if shown.light_mol_per_m2_d is None:
        yield tr(_NOT_RECORDED)
    else:
        by = _LIGHT[shown.light_by].format(facing=facing)
        low, high = f"{fixed(min(known), 1)}", f"{fixed(max(known), 1)}"
        year = (
            tr("all year")
            if low == high
            else tr("{low} to {high} through the year").format(low=low, high=high)
        )
        yield tr(
            "{by} a leaf has about {light_mol_per_m2_d} mol m⁻² d⁻¹ of "
            "light on {short_day} ({year})."
        ).format(
            by=by,
            light_mol_per_m2_d=fixed(shown.light_mol_per_m2_d, 1),
            short_day=words.short_day(shown.on),
            year=year,
        )
    read = [day.on for day in days if day.light_by is Basis.READ]
    if read:
        yield tr("Light was read there ({months}) and counts first.").format(
            months=_months(read, shown.on)
        )


def _by_light(chart: SeasonChart) -> str:
    strengths = [day.strength_ppm_n for day in chart.days]
    now = chart.shown.strength_ppm_n
    is_read = any(day.year_day.light_by is Basis.READ for day in chart.days)
    if chart.basis is Basis.LAMPS and not is_read:
        return tr(
            "Under lamps the strength goes by them: {now} ppm N all year."
        ).format(now=fixed(now, 0))
    low, high = min(strengths), max(strengths)
    return tr("By light alone the strength is {now} ppm N ({low} to {high}).").format(
        now=fixed(now, 0), low=fixed(low, 0), high=fixed(high, 0)
    )


def _warmth(read: Sequence[date], on: date, line: str, now: float | None) -> str:
    if not read:
        return tr("No temperatures were read at the place, so temperature is left out.")
    said = tr("The {line} line counts the temperatures read there too").format(
        line=line
    )
    said = f"{said} ({_months(read, on)})"
    if now is None:
        return f"{said}."
    return tr("{said}: {now} ppm N on {short_day}.").format(
        said=said, now=fixed(now, 0), short_day=words.short_day(on)
    )


def _kind(strengths: Strengths, chart: PlaceChart) -> str:
    title = " and ".join(strengths.titles)
    title = f"{title[:1].upper()}{title[1:]}"
    if strengths.plants:
        title = f"{title} ({words.plants(strengths.plants)})"
    now, read = strengths.by_light[chart.number], strengths.read[chart.number]
    said = tr("{title}: {now} ppm N by light on {short_day}").format(
        title=title, now=fixed(now, 0), short_day=words.short_day(chart.on)
    )
    if read is not None:
        same = f"{read:.0f}" == f"{now:.0f}"
        warmth = (
            tr("warmth takes nothing off")
            if same
            else tr("{read} by warmth too").format(read=fixed(read, 0))
        )
        said = f"{said}, {warmth}"
    means = _month_means(chart.days, strengths.by_light)
    strongest = max(means, key=lambda month: means[month])
    weakest = min(means, key=lambda month: means[month])
    if round(means[strongest]) == round(means[weakest]):
        return tr("{said}; by light it is the same all year.").format(said=said)
    return tr(
        "{said}; by light strongest in {strong_month}, at {most}, and "
        "weakest in {weak_month}, at {least}."
    ).format(
        said=said,
        strong_month=day_words.MONTHS[strongest - 1],
        most=fixed(means[strongest], 0),
        weak_month=day_words.MONTHS[weakest - 1],
        least=fixed(means[weakest], 0),
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
        return tr("{said}; for the days to come, what was read a year before").format(
            said=said
        )
    return said


def _month(day: date) -> str:
    return day_words.MONTHS[day.month - 1]
