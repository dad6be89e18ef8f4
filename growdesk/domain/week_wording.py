"""Words for one plant's week: each day a sentence, days that say the same in one."""

from __future__ import annotations

from datetime import date, timedelta
from itertools import groupby
from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.domain import week_templates as templates
from growdesk.domain.day_words import month_day_text, on_weekday, week_start, weekday
from growdesk.domain.facts import CareKind, Verdict, Water
from growdesk.domain.phrases import listed
from growdesk.domain.speech import Lines, Phrases, tr
from growdesk.domain.week_because import How
from growdesk.domain.wording import number_text

if TYPE_CHECKING:
    from collections.abc import Sequence

    from growdesk.domain.week_because import Because

_ORDINALS = Lines(
    "first",
    "second",
    "third",
    "fourth",
    "fifth",
    "sixth",
    "seventh",
    "eighth",
    "ninth",
    "tenth",
    context="feed",
)
_FURTHER = Phrases(
    {1: "{number}st", 2: "{number}nd", 3: "{number}rd", 4: "{number}th"}, "feed"
)


class PlantDay(Struct, frozen=True):
    """One plant on one day of the week, as it is to be said.

    ``strength_ppm_n`` is mg N per litre: as given where ``given`` is on record, else as
    poured from the jug. ``given`` and ``passed_by`` are the record's; ``missed`` says
    that care was planned on a past day and none is on record.
    """

    on: date
    verdict: Verdict
    water: Water
    strength_ppm_n: float | None
    because: Because | None = None
    given: CareKind | None = None
    passed_by: bool = False
    missed: bool = False


def sentence(day: PlantDay, today: date) -> str:
    """Give one day in a sentence, with the day it hangs on."""
    return _said(day, today, _when([day.on], today))


def sentences(days: Sequence[PlantDay], today: date) -> tuple[str, ...]:
    """Give the days in their order; neighbours that say the same share a sentence."""
    groups = groupby(days, key=lambda day: _said(day, today, ""))
    told = []
    for _, group in groups:
        same = list(group)
        told.append(_said(same[0], today, _when([day.on for day in same], today)))
    return tuple(told)


def missed_round(missed: date, today: date) -> str:
    """Say that the last round has nothing recorded and that today goes by that."""
    day = weekday(missed)
    if (today - missed).days >= 7:
        day = _dated(missed)
    return tr(templates.MISSED_TODAY).format(day=day)


def _said(day: PlantDay, today: date, when: str) -> str:
    shown = {"when": when, "strength": _strength(day.strength_ppm_n)}
    if day.passed_by:
        return templates.RECORDED["passed-by"].format(**shown)
    if day.given is not None:
        unmeasured = day.given is CareKind.FEED and day.strength_ppm_n is None
        key = "feed-unmeasured" if unmeasured else day.given.value
        return templates.RECORDED[key].format(**shown)
    if day.on < today:
        past = templates.UNRECORDED if day.missed else templates.GONE_BY
        return past[day.verdict.value].format(**shown)
    plan = templates.PLANS[day.verdict.value, day.water.value].format(**shown)
    if day.because is None:
        return f"{plan}."
    template = templates.BECAUSE[_because_key(day, day.because, today)]
    named = day_name(day.because.on, today, day.on)
    is_today = day.because.on == today
    on_day = named if is_today else tr("on {named}").format(named=named)
    ordinal = "" if day.because.feeds is None else ordinal_text(day.because.feeds)
    return template.format(plan=plan, day=named, on_day=on_day, ordinal=ordinal)


def ordinal_text(number: int) -> str:
    """Give a place in a row: first to tenth in words, then 11th, 22nd."""
    if 1 <= number <= len(_ORDINALS):
        return _ORDINALS[number - 1]
    is_teen = 10 <= number % 100 < 20
    last = number % 10
    further = _FURTHER[4 if is_teen or last not in _FURTHER else last]
    return further.format(number=number)


def _because_key(day: PlantDay, cause: Because, today: date) -> str:
    if cause.how is How.PASSED_BY:
        return "passed-by"
    if cause.how in (How.MISSED, How.INSTEAD):
        return f"{cause.what.value}-{cause.how.value}"
    is_done = cause.on < today or cause.what is CareKind.RAIN
    tense = "done" if is_done else "planned"
    if cause.feeds is not None:
        return f"{cause.since}-{tense}"
    feeds_again = cause.what is CareKind.FEED and day.verdict is Verdict.FEED
    return f"{'again' if feeds_again else cause.what.value}-{tense}"


def day_name(on: date, today: date, beside: date) -> str:
    """Give a day as today, its weekday, or with its date outside ``beside``'s week."""
    if on == today:
        return tr("today")
    begins = week_start(beside)
    if begins <= on < begins + timedelta(days=7):
        return weekday(on)
    return _dated(on)


def _dated(on: date) -> str:
    return on_weekday(weekday(on), month_day_text(on.month, on.day))


def _when(days: Sequence[date], today: date) -> str:
    if days[0] == today:
        return listed([tr("Today"), *(weekday(on) for on in days[1:])])
    names = [tr("today") if on == today else weekday(on) for on in days]
    return tr("On {days}").format(days=listed(names))


def _strength(ppm_n: float | None) -> str:
    return "" if ppm_n is None else f"{number_text(ppm_n, 0)} ppm N"
