"""The words of the sheet: doses, volumes rounded for a jug's scale, days.

Short because a wet hand reads them at arm's length. Knows no layout.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.day_words import dated_text
from growdesk.domain.facts import CareKind, Verdict, Water
from growdesk.domain.mugs import in_mugs
from growdesk.domain.pouring import rounded_l
from growdesk.domain.quantity_words import temperature_unit
from growdesk.domain.speech import mark, tr
from growdesk.services.sheet_words import CLEAR
from growdesk.services.values import DoneKind
from growdesk.ui import dose_words, jug_words, words
from growdesk.ui.printing.framed import Line

if TYPE_CHECKING:
    from datetime import date

    from growdesk.domain.vessels import Vessel
    from growdesk.services.sheet_values import Sheet, SheetLine
    from growdesk.services.values import Done, Jug, MixPlan

DO_NOT_WATER = mark("DO NOT WATER")
_BLANK = "_________"


def title(sheet: Sheet) -> str:
    """Give the sheet's title, for its head, the file and the printer's queue."""
    return tr("Mixing sheet, week of {split}").format(split=dated_text(sheet.week_of))


def made(sheet: Sheet) -> str:
    """Say when the sheet was made: what was looked at later is not in it."""
    day = words.long_day(sheet.made_at.astimezone().date())
    return tr("Made on {day}, from what was recorded by then.").format(day=day)


def dose(line: SheetLine) -> str:
    """Say what the plant gets: jug with its strength, clear water, flush or nothing."""
    match line.verdict:
        case Verdict.FEED:
            strength = words.strength(line.strength_ppm_n)
            return f"{line.letter} {strength}" if line.letter else strength
        case Verdict.CLEAR_WATER:
            return CLEAR[line.water]
        case Verdict.FLUSH:
            return tr("flush")
        case Verdict.KEEP_DRY:
            return tr(DO_NOT_WATER)
        case Verdict.LOOK_FIRST:
            return tr("LOOK FIRST")


def poured(line: SheetLine, mug: Vessel | None = None) -> tuple[str, str]:
    """Give the volume to pour, rounded, and in mugs; a blank where none is known."""
    if line.verdict is Verdict.KEEP_DRY or line.water is Water.NONE:
        return ("", "")
    if line.volume_l is None:
        return ("___ mL", "")
    volume_l = rounded_l(line.volume_l)
    return (words.volume(volume_l), in_mugs(volume_l, mug))


def seen(on: date | None) -> str:
    """Give the day of the look, without its year."""
    return tr("no look") if on is None else words.short_day(on).rsplit(" ", 1)[0]


def boxes_ticked(done: Done | None) -> tuple[bool, bool, bool]:
    """Tell which of the boxes fed, clear, passed by is ticked already."""
    if done is None:
        return (False, False, False)
    if done.kind is DoneKind.PASSED_BY:
        return (False, False, True)
    fed = done.what is CareKind.FEED
    return (fed, not fed, False)


def weigh(jug: Jug, mix: MixPlan) -> str:
    """Say what goes into a jug, with a blank where that is for the hand to write."""
    said = jug_words.weigh(jug, mix)
    return (
        said
        if jug_words.has_weight(jug)
        else tr("{said} Write it here: ________").format(said=said)
    )


def weighing(jug: Jug, mix: MixPlan) -> tuple[Line, ...]:
    """Give what goes into a jug, a line with a box for each product or each mix."""
    if jug_words.in_parts(jug):
        return tuple(
            Line(jug_words.part(each), boxes=each.how_many, large=True)
            for each in jug.fills
        )
    if len(jug.doses) < 2:
        known = jug_words.has_weight(jug)
        return (Line(weigh(jug, mix), boxes=int(known), large=known),)
    return (
        *(
            Line(
                tr("{amount} of {name}").format(
                    amount=dose_words.amount(each), name=name
                ),
                boxes=1,
                large=True,
            )
            for each, name in dose_words.named_doses(jug.doses)
        ),
        Line(tr("into {into}.").format(into=jug_words.into_words(jug, mix))),
    )


def outcome(jug: Jug) -> tuple[str, ...]:
    """Give what comes out, the EC to expect, and blanks for what the meter reads."""
    reading = _reading("EC", jug_words.expected(jug))
    return tuple(part for part in (jug_words.gives(jug), reading) if part)


def diluted(mix: MixPlan) -> tuple[str, ...]:
    """Give the EC to expect of each jug of a ladder that goes first, with its blank."""
    return tuple(
        _reading(
            tr("EC of jug {letter}").format(letter=jug.letter),
            jug_words.expected_diluted(jug),
        )
        for jug in mix.ladder_jugs
    )


def _reading(name: str, told: str) -> str:
    line = (
        tr(
            "{name} at 25 °C: expect {told}, read "
            "{blank}\xa0mS/cm at\xa0{blank}\xa0{unit}"
        )
        if told
        else tr("{name}: read {blank}\xa0mS/cm at\xa0{blank}\xa0{unit}")
    )
    return line.format(unit=temperature_unit(), name=name, told=told, blank=_BLANK)
