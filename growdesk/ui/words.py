"""Give the words the window shows for verdicts, signs, days and amounts.

Only display: the sentences of a judgement come ready from the services. Dates are
written with our own month names, since the C locale may be anybody's.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.day_words import (
    dated_text,
    month_day_text,
    on_weekday,
    short_dated_text,
    weekday,
)
from growdesk.domain.facts import (
    CareKind,
    Verdict,
    Water,
)
from growdesk.domain.speech import Phrases, fixed, mark, tr, trimmed, trn
from growdesk.domain.volume_words import volume_text
from growdesk.services import walking
from growdesk.services.values import DoneKind
from growdesk.ui import sign_words

if TYPE_CHECKING:
    from collections.abc import Mapping
    from datetime import date

    from growdesk.services.values import Done, Line, Unjudged

NOT_RECORDED = mark("not recorded")

VERDICT_ORDER = (
    Verdict.FEED,
    Verdict.FLUSH,
    Verdict.CLEAR_WATER,
    Verdict.LOOK_FIRST,
    Verdict.KEEP_DRY,
)
VERDICT: Mapping[Verdict, str] = Phrases(
    {
        Verdict.FEED: "Feed",
        Verdict.CLEAR_WATER: "Clear water",
        Verdict.FLUSH: "Flush",
        Verdict.KEEP_DRY: "Keep dry",
        Verdict.LOOK_FIRST: "Look first",
    }
)
VERDICT_INSIDE: Mapping[Verdict, str] = Phrases(
    {
        Verdict.FEED: "feed",
        Verdict.CLEAR_WATER: "clear water",
        Verdict.FLUSH: "flush",
        Verdict.KEEP_DRY: "keep dry",
        Verdict.LOOK_FIRST: "look first",
    },
    "verdict",
)
"""A verdict as it stands inside a sentence."""
WATER: Mapping[Water, str] = Phrases(
    {
        Water.NONE: "no water",
        Water.SPARING: "sparingly",
        Water.IF_DRY: "if the pot is light",
        Water.THROUGH: "right through",
    }
)
WATER_SHORT: Mapping[Water, str] = Phrases(
    {
        Water.NONE: "no water",
        Water.SPARING: "sparingly",
        Water.IF_DRY: "if the pot is light",
        Water.THROUGH: "right through",
    }
)
"""How to water, as short as a line of the list needs it."""
CARE: Mapping[CareKind, str] = Phrases(
    {
        CareKind.FEED: "fed",
        CareKind.CLEAR_WATER: "clear water",
        CareKind.FLUSH: "flushed",
        CareKind.REPOT: "repotted",
        CareKind.DIVIDE: "divided",
        CareKind.MOVE: "moved",
        CareKind.TREAT: "treated",
        CareKind.RAIN: "rained on",
    }
)


sign, choices = sign_words.sign, sign_words.choices


def long_day(on: date) -> str:
    """Give a day as ``Wednesday 25 November 2026``."""
    return on_weekday(weekday(on), dated_text(on))


def near_day(on: date) -> str:
    """Give a day as ``Wednesday 25 November``."""
    return on_weekday(weekday(on), month_day_text(on.month, on.day))


def short_day(on: date | None) -> str:
    """Give a day as ``25 Nov 2026``, or that none is on record."""
    if on is None:
        return tr(NOT_RECORDED)
    return short_dated_text(on)


def volume(volume_l: float | None) -> str:
    """Give a volume as it is read at the bench, or that none is recorded."""
    return tr("volume not recorded") if volume_l is None else volume_text(volume_l)


def unbroken(text: str, *more: str) -> str:
    """Give a text whose units, and ``more``, stay whole and beside their number."""
    for unit in ("mg/L", "mS/cm", *more):
        text = text.replace(f" {unit}", "\u00a0" + unit.replace("/", "\u2060/\u2060"))
    return text


def number(value: float | None, digits: int = 2) -> str:
    """Give a number without idle zeros; nothing where there is none."""
    return "" if value is None else trimmed(value, digits)


def strength(ppm_n: float | None) -> str:
    """Give a strength with its unit, or nothing."""
    return "" if ppm_n is None else f"{fixed(ppm_n, 0)} ppm N"


def in_jug(line: Line) -> float | None:
    """Give the strength a plant is given: its jug's, else its own."""
    return line.strength_ppm_n if line.jug_ppm_n is None else line.jug_ppm_n


def off_band(own_ppm_n: float | None, jug_ppm_n: float | None) -> str:
    """Say which side of its band a plant is served on; only for one that is outside."""
    if own_ppm_n is None or jug_ppm_n is None or jug_ppm_n == own_ppm_n:
        return ""
    return tr("stronger") if jug_ppm_n > own_ppm_n else tr("weaker")


def is_stronger(own_ppm_n: float | None, jug_ppm_n: float | None) -> bool:
    """Tell whether a plant is served above its own strength."""
    return own_ppm_n is not None and jug_ppm_n is not None and jug_ppm_n > own_ppm_n


def off_band_told(own_ppm_n: float | None, jug_ppm_n: float | None) -> str:
    """Say how a plant is served outside its band, with both strengths."""
    side = off_band(own_ppm_n, jug_ppm_n)
    if not side or own_ppm_n is None or jug_ppm_n is None:
        return ""
    said = (
        tr("stronger than the band: {jug_ppm_n} for {own_ppm_n} ppm N")
        if is_stronger(own_ppm_n, jug_ppm_n)
        else tr("weaker than the band: {jug_ppm_n} for {own_ppm_n} ppm N")
    )
    return said.format(jug_ppm_n=fixed(jug_ppm_n, 0), own_ppm_n=fixed(own_ppm_n, 0))


def served(own_ppm_n: float, jug_ppm_n: float | None, letter: str | None) -> str:
    """Say what is poured, from which jug, and the plant's own where it differs."""
    poured = strength(own_ppm_n if jug_ppm_n is None else jug_ppm_n)
    said = tr("{poured} from jug {letter}") if letter else "{poured}"
    given = said.format(poured=poured, letter=letter)
    if jug_ppm_n is None or round(jug_ppm_n) == round(own_ppm_n):
        return given
    return tr("{given}; its own would be {own_ppm_n}").format(
        given=given, own_ppm_n=fixed(own_ppm_n, 0)
    )


def counted(count: int, one: str, many: str) -> str:
    """Give a count with its noun."""
    return f"{count} {trn(one, many, count)}"


def plants(count: int) -> str:
    """Give a count of plants in words."""
    return counted(count, "plant", "plants")


def done(what: Done) -> str:
    """Say what a tick stands for: what was really given, or passed by."""
    if what.kind is DoneKind.PASSED_BY:
        return tr("passed by, still damp")
    if what.what is None:
        return tr("done")
    if what.what is CareKind.FEED and what.strength_ppm_n is not None:
        return tr("fed {strength_ppm_n} ppm N").format(
            strength_ppm_n=fixed(what.strength_ppm_n, 0)
        )
    return CARE[what.what]


def where(line: Line) -> str:
    """Give where a plant stands: its place, its bench, and how many share the tag.

    That it is handled last, or after the others, stands before it.
    """
    return walking.where(apart(line), stands(line))


def stands(line: Line | Unjudged) -> str:
    """Give place and bench, and how many share the tag, and no more."""
    return walking.where(line.place, line.bench_name, line.together)


def apart(line: Line) -> str:
    """Say that a plant is handled after the others, a suspect last of all."""
    if line.suspect:
        return tr("suspect, last of all")
    return tr("newcomer, after the others") if line.newcomer else ""


def turn(line: Line) -> int:
    """Give a plant's turn on the round: the others, newcomers, suspects."""
    return 2 if line.suspect else int(line.newcomer)


def spoken(line: Line) -> str:
    """Give a whole line of the list as a screen reader should say it."""
    parts = [line.tag, line.name, VERDICT[line.verdict]]
    given = strength(in_jug(line))
    if given:
        parts.append(given)
    if line.letter:
        parts.append(tr("jug {letter}").format(letter=line.letter))
    if line.outside_band and line.done is None:
        parts.append(off_band_told(line.strength_ppm_n, line.jug_ppm_n))
    parts.append(WATER[line.water])
    if where(line):
        parts.append(where(line))
    parts.append(
        tr("done: {done}").format(done=done(line.done))
        if line.done
        else tr("not done yet")
    )
    return ", ".join(parts)
