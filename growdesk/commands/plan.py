"""Tells the jugs of a watering day: for the collection, or for facts from a file."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.commands import answer, output, reading
from growdesk.commands.plan_report import mix_report
from growdesk.domain.ladder import plan_report, sentences
from growdesk.domain.measure_words import amount_text
from growdesk.domain.phrases import listed
from growdesk.domain.water_words import have_ready
from growdesk.services.serving import plan_of

if TYPE_CHECKING:
    from argparse import Namespace
    from collections.abc import Sequence
    from datetime import date

    from growdesk.commands.desk import Desk
    from growdesk.domain.batches import BatchPlan
    from growdesk.domain.facts import House, Plant
    from growdesk.domain.kinds import KindTable
    from growdesk.domain.measuring import Measured
    from growdesk.services.values import Jug, MixPlan


_OR_DILUTED = (
    "Or mix once and dilute down, instead of the doses above, never on top of them:"
)
_OR_ALONE = (
    "Or dose each jug on its own, instead of the steps above, never on top of them:"
)


def run(arguments: Namespace, desk: Desk) -> None:
    """Print batches and ladder; without ``--on``, of today."""
    on = reading.day("--on", arguments.on, desk.today)
    if arguments.facts is None:
        with desk.reading(on) as collection:
            mix = collection.day.view(on).mix
        report, lines = mix_report(mix), _mix_lines(mix)
    else:
        house, plants, table = reading.facts(arguments.facts)
        plan = batch_plan(house, plants, on, table)
        report, lines = plan_report(plan), _plan_lines(plan)
    if arguments.json:
        output.say_json(report)
        return
    for line in [f"Jugs for {on:%A} {on.isoformat()}", *lines]:
        output.say(line)


def batch_plan(
    house: House, plants: Sequence[Plant], on: date, table: KindTable | None = None
) -> BatchPlan:
    """Give the batches for the plants that are fed on a day."""
    judged = answer.judgements(house, plants, on, table)
    return plan_of(zip(plants, judged, strict=True), house)


def _plan_lines(plan: BatchPlan) -> list[str]:
    rows = [
        _row(batch.letter, batch.strength_ppm_n, batch.volume_l, batch.tags)
        for batch in plan.batches
    ]
    return [
        *_jug_lines(rows),
        *sentences(plan.batches),
        *_named(plan.outside_band, plan.volume_unknown),
    ]


def _mix_lines(mix: MixPlan) -> list[str]:
    rows = [
        _row(jug.letter, jug.strength_ppm_n, jug.volume_l, jug.tags) for jug in mix.jugs
    ]
    return [
        *_jug_lines(rows),
        *_ways(mix),
        *mix.remarks,
        *mix.short,
        *_named(mix.outside_band, mix.volume_unknown),
        f"Clear water: {mix.clear_l:.2f} L; to flush with: {mix.flush_l:.2f} L.",
        *((f"Clear water is a blend. {mix.clear_blend}",) if mix.clear_blend else ()),
        *(have_ready(need) for need in mix.waters),
    ]


def _diluted(mix: MixPlan) -> list[str]:
    """Tell what a meter should read down a ladder that goes first."""
    return [
        f"Diluted so, jug {jug.letter} should read {jug.ec.low_ms_per_cm:.2f} to "
        f"{jug.ec.high_ms_per_cm:.2f} mS/cm at 25 °C."
        for jug in mix.ladder_jugs
        if jug.ec is not None
    ]


def _ways(mix: MixPlan) -> list[str]:
    """Tell doses and ladder, the closer way first, never as one on top of the other."""
    alone = [line for jug in mix.jugs for line in _jug(jug)]
    why = [mix.ladder_why] if mix.ladder_why else []
    steps = [*mix.ladder, *_diluted(mix)]
    if len(mix.jugs) < 2 or not steps or not any(jug.doses for jug in mix.jugs):
        return [*alone, *why, *steps]
    if mix.ladder_first:
        return [*why, *steps, _OR_ALONE, *alone]
    return [*alone, *why, _OR_DILUTED, *steps]


def _jug(jug: Jug) -> list[str]:
    """Tell what goes into a jug, what a meter should read, and what is to be minded."""
    told = _doses(jug)
    low, high = jug.ec_low_ms_per_cm, jug.ec_high_ms_per_cm
    if low is not None and high is not None:
        told.append(
            f"Jug {jug.letter} should read {low:.2f} to {high:.2f} mS/cm at 25 °C."
        )
    return [*told, *(f"Jug {jug.letter}: {warning}" for warning in jug.warnings)]


def _doses(jug: Jug) -> list[str]:
    """Tell the doses, mix by mix where there are several."""
    if not jug.doses:
        return []
    if not jug.fills:
        return [_into(jug, 1, jug.volume_l + jug.spare_l, jug.doses)]
    return [_into(jug, each.how_many, each.volume_l, each.doses) for each in jug.fills]


def _into(jug: Jug, count: int, volume_l: float, doses: Sequence[Measured]) -> str:
    taken = listed([f"{amount_text(dose)} of {dose.taken_from}" for dose in doses])
    litres = output.litres(volume_l)
    mixed = litres if count == 1 else f"each of {count} mixes of {litres}"
    return f"Into jug {jug.letter}, for {mixed}: {taken}."


def _row(
    letter: str, strength_ppm_n: int, volume_l: float, tags: Sequence[str]
) -> tuple[str, ...]:
    strength = output.ppm_n(strength_ppm_n)
    return (f"jug {letter}", strength, output.litres(volume_l), ", ".join(tags))


def _jug_lines(rows: list[tuple[str, ...]]) -> list[str]:
    return output.columns(rows) or ["No plant is fed."]


def _named(outside_band: Sequence[str], volume_unknown: Sequence[str]) -> list[str]:
    lines = []
    if outside_band:
        lines.append(f"Served outside their band: {', '.join(outside_band)}.")
    if volume_unknown:
        tags = ", ".join(volume_unknown)
        lines.append(f"Not in the litres, because no volume is recorded: {tags}.")
    return lines
