"""Give the words of the week's table: a cell's two lines, a day's heading.

Whole sentences come ready with the cells; these are the few words that fit beside a
mark. Knows no widget.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.day_words import (
    dated_text,
    month_day_text,
    on_weekday,
    short_text,
    short_weekday,
    weekday,
)
from growdesk.domain.facts import CareKind, Verdict
from growdesk.domain.speech import Phrases, mark, tr
from growdesk.domain.volume_words import volume_text
from growdesk.domain.week_because import How
from growdesk.domain.week_wording import ordinal_text
from growdesk.services.values import DoneKind
from growdesk.ui import jug_words, words

if TYPE_CHECKING:
    from datetime import date

    from growdesk.domain.week_because import Because
    from growdesk.services.values import Done
    from growdesk.services.week_values import WeekCell, WeekDay, WeekLine, WeekView

_DONE = Phrases(
    {
        CareKind.FEED: "Fed",
        CareKind.CLEAR_WATER: "Clear water",
        CareKind.FLUSH: "Flushed",
        CareKind.RAIN: "Rain",
    }
)
_GAVE = Phrases(
    {
        CareKind.FEED: "fed {day}",
        CareKind.CLEAR_WATER: "watered {day}",
        CareKind.FLUSH: "flushed {day}",
        CareKind.RAIN: "rain {day}",
    }
)
_NOT_GIVEN = Phrases(
    {
        CareKind.FEED: "not fed {day}",
        CareKind.CLEAR_WATER: "not watered {day}",
        CareKind.FLUSH: "not flushed {day}",
        CareKind.RAIN: "not rain {day}",
    }
)
MISSED = mark("nothing recorded")


def title(view: WeekView) -> str:
    """Give the week as a title."""
    named = dated_text(view.begins)
    if not view.is_this_week:
        return tr("Week of {named}").format(named=named)
    return tr("This week, from {day}").format(
        day=on_weekday(weekday(view.begins), named)
    )


def section(view: WeekView) -> str:
    """Give the heading over one plant's week."""
    if view.is_this_week:
        return tr("This week")
    return tr("Week of {day}").format(
        day=month_day_text(view.begins.month, view.begins.day)
    )


def upper(cell: WeekCell) -> str:
    """Give what a cell says first: what was done, else the verdict."""
    if cell.done is None:
        return words.VERDICT[cell.verdict]
    if cell.done.kind is DoneKind.PASSED_BY or cell.done.what is None:
        return tr("Passed by")
    return _DONE[cell.done.what]


def under(cell: WeekCell) -> str:
    """Give strength and jug, or how to water, and the day it hangs on."""
    if cell.done is not None:
        return _given(cell.done)
    if cell.missed:
        return tr(MISSED)
    parts = [_how(cell)]
    if cell.because is not None:
        parts.append(cause(cell.because))
    return ", ".join(part for part in parts if part)


def cause(because: Because) -> str:
    """Say in two or three words which day another hangs on."""
    day = short_weekday(because.on)
    if because.how is How.PASSED_BY:
        return tr("passed by {day}").format(day=day)
    if because.how is How.MISSED:
        return tr("{day} missed").format(day=day)
    if because.feeds is not None:
        return tr("{ordinal} feed {day}").format(
            ordinal=ordinal_text(because.feeds), day=day
        )
    said = _NOT_GIVEN if because.how is How.INSTEAD else _GAVE
    return said[because.what].format(day=day)


def spoken(line: WeekLine, cell: WeekCell) -> str:
    """Give a cell as a screen reader should say it."""
    parts = [line.tag, line.name, upper(cell), under(cell), cell.sentence]
    return ", ".join(part for part in parts if part)


def day_title(on: date, *, brief: bool = False) -> str:
    """Give a day as the head of a column; ``brief`` cuts the weekday short."""
    return on_weekday(short_weekday(on) if brief else weekday(on), short_text(on))


def day_near(day: WeekDay) -> str:
    """Say whether a day is today, to come, or what came of it."""
    if day.is_missed:
        return tr(MISSED)
    if day.is_today:
        if not day.done:
            return tr("today")
        return tr("today, {done} done").format(done=day.done)
    if not day.is_past:
        return tr("to come")
    if not day.missed:
        return tr("{done} done").format(done=day.done)
    return tr("{done} done, {missed} missed").format(done=day.done, missed=day.missed)


def day_amounts(day: WeekDay, *, brief: bool = False) -> tuple[str, ...]:
    """Give what to have ready, a jug a line; nothing for a day gone by.

    ``brief`` leaves the strengths to the cells.
    """
    if day.mix is None:
        return ()
    jugs = [
        (
            tr("jug {letter} {volume}")
            if brief
            else tr("{letter}  {strength_ppm_n} ppm N, {volume}")
        ).format(
            letter=jug.letter,
            strength_ppm_n=jug.strength_ppm_n,
            volume=jug_words.volume(jug),
        )
        for jug in day.mix.jugs
    ]
    clear_l = jug_words.clear_total_l(day.mix)
    if clear_l:
        said = tr("clear {volume}") if brief else tr("clear water {volume}")
        jugs.append(said.format(volume=volume_text(clear_l)))
    return tuple(jugs)


def day_counts(day: WeekDay) -> str:
    """Count a day's plants by verdict."""
    counts = dict(day.counts)
    return ", ".join(
        f"{counts[verdict]} {words.VERDICT_INSIDE[verdict]}"
        for verdict in words.VERDICT_ORDER
        if verdict in counts
    )


def day_spoken(day: WeekDay) -> str:
    """Give a day's heading as a screen reader should say it."""
    parts = (words.near_day(day.on), day_near(day), day_counts(day), *day_amounts(day))
    return "; ".join(part for part in parts if part)


def _given(done: Done) -> str:
    if done.kind is DoneKind.PASSED_BY:
        return tr("still damp")
    if done.strength_ppm_n is not None:
        return words.strength(done.strength_ppm_n)
    return words.volume(done.volume_l) if done.volume_l else ""


def _how(cell: WeekCell) -> str:
    if cell.verdict is Verdict.FEED:
        strength = words.strength(cell.strength_ppm_n)
        if not cell.letter:
            return strength
        said = tr("jug {letter}, {strength}")
        return said.format(letter=cell.letter, strength=strength)
    if cell.verdict is Verdict.FLUSH:
        return words.volume(cell.volume_l) if cell.volume_l else ""
    if cell.verdict is Verdict.CLEAR_WATER:
        return words.WATER_SHORT[cell.water]
    return cell.reason
