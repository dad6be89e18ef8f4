"""Declare the columns of the watering day's list, and what a line says in them.

A column gives its text for people and the smaller one under it; what a find goes
through and what is read aloud stand beside them. It knows no Qt.
"""

from __future__ import annotations

from enum import IntEnum
from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.domain.facts import Verdict
from growdesk.domain.speech import fixed, mark, tr
from growdesk.services.values import DoneKind
from growdesk.ui import words

if TYPE_CHECKING:
    from collections.abc import Callable

    from growdesk.services.values import Line, Unjudged

NOT_YET = mark("not judged yet")
_TICKED = frozenset({Verdict.FEED, Verdict.CLEAR_WATER, Verdict.FLUSH})


class Place(IntEnum):
    """The columns by number, in the order of ``COLUMNS``."""

    TICK = 0
    TAG = 1
    PLANT = 2
    VERDICT = 3
    STRENGTH = 4


class Column(Struct, frozen=True):
    """A column as data: its title, its text, and the smaller text under it."""

    key: str
    title: str
    text: Callable[[Line], str]
    under: Callable[[Line], str]


def _strength(line: Line) -> str:
    """Give the jug's strength, how to water, or what was given."""
    if line.done is not None and line.done.kind is DoneKind.PASSED_BY:
        return tr("passed by")
    if line.done is not None:
        return words.done(line.done)
    if line.verdict is Verdict.FEED:
        poured = words.strength(words.in_jug(line))
        if not band_mark(line) or line.strength_ppm_n is None:
            return poured
        own = fixed(line.strength_ppm_n, 0)
        given = fixed(words.in_jug(line) or 0.0, 0)
        return tr("{given} for {own} ppm N").format(given=given, own=own)
    if line.verdict is Verdict.LOOK_FIRST:
        return tr("until then")
    return words.WATER_SHORT[line.water] if can_tick(line) else ""


def _under_strength(line: Line) -> str:
    """Give jug and volume, or what a plant gets until it is looked at."""
    if line.done is not None and line.done.kind is DoneKind.PASSED_BY:
        return tr("still damp")
    if line.verdict is Verdict.LOOK_FIRST and line.done is None:
        return words.WATER_SHORT[line.water]
    if line.done is not None or line.verdict is not Verdict.FEED:
        return words.volume(line.volume_l) if line.volume_l and can_tick(line) else ""
    volume = words.volume(line.volume_l)
    if not line.letter:
        return volume
    return tr("jug {letter}, {volume}").format(letter=line.letter, volume=volume)


COLUMNS: tuple[Column, ...] = (
    Column("tick", mark("Done"), lambda _line: "", lambda _line: ""),
    Column("tag", mark("Tag"), lambda line: line.tag, lambda _line: ""),
    Column("plant", mark("Plant"), lambda line: line.name, words.where),
    Column(
        "verdict",
        mark("Verdict"),
        lambda line: words.VERDICT[line.verdict],
        lambda line: line.short_reason,
    ),
    Column("strength", mark("Strength"), _strength, _under_strength),
)


def band_mark(line: Line) -> str:
    """Say the side of its band on which a plant is yet to be fed; nothing within it."""
    if not line.outside_band or line.done is not None:
        return ""
    return words.off_band(line.strength_ppm_n, line.jug_ppm_n)


def can_tick(line: Line) -> bool:
    """Tell whether the line has something to be done on the round."""
    return line.verdict in _TICKED


def folded(line: Line) -> str:
    """Give all that a filter may find of a line, folded to one case."""
    parts = words.apart(line), words.VERDICT[line.verdict], line.short_reason
    return "\n".join((*_named(line), *parts)).casefold()


def folded_before(line: Line | Unjudged) -> str:
    """Give what a filter may find while not all are judged: no word of a verdict."""
    return "\n".join(_named(line)).casefold()


def _named(line: Line | Unjudged) -> tuple[str, ...]:
    return line.tag, line.name, line.place, line.bench_name, line.together


def unjudged(line: Unjudged, column: int) -> tuple[str, str]:
    """Give the texts of a plant that has no verdict yet."""
    if column == Place.TAG:
        return line.tag, ""
    if column == Place.PLANT:
        return line.name, words.stands(line)
    return (tr(NOT_YET), "") if column == Place.VERDICT else ("", "")


def spoken(line: Line, column: int) -> str:
    """Give a cell as it is read aloud."""
    if column == Place.TICK:
        return (
            tr("done: {done}").format(done=words.done(line.done))
            if line.done
            else tr("not done yet")
        )
    if column == Place.VERDICT:
        said = f"{words.VERDICT[line.verdict]}, {words.WATER[line.water]}"
        if not band_mark(line):
            return said
        told = words.off_band_told(line.strength_ppm_n, line.jug_ppm_n)
        return f"{said}, {told}"
    if column == Place.PLANT:
        return words.spoken(line)
    return COLUMNS[column].text(line)
