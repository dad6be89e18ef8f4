"""Words of the calendar's face: groups of days, days and spans, what a line says."""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING

from growdesk.domain.day_words import (
    month_year,
    on_weekday,
    short_dated_text,
    short_text,
    short_weekday,
    week_start,
)
from growdesk.domain.job_templates import SORTS
from growdesk.domain.jobs.job import Sort
from growdesk.domain.speech import Phrases, mark, tr, trn
from growdesk.services.calendar_values import Closed
from growdesk.ui import theme, words

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from growdesk.services.calendar_values import JobLine

OVERDUE = mark("Overdue")
THIS_WEEK = mark("This week")
NEXT_WEEK = mark("Next week")
UNDER_WAY = mark("Under way, nothing to do")
EVERY_SORT = mark("Every job")
EVERY_PLACE = mark("Every place")
NOTHING = mark(
    "Nothing is due within a year. Jobs come from looks, repots with their day, rests "
    "of the kinds, treatments with a repeat day, and nights read at a place."
)
READING = mark("The calendar is being read…")
_OVERDUE, _THIS_WEEK, _NEXT_WEEK, _UNDER_WAY = ((0, each) for each in range(4))
_NEAR = {
    _OVERDUE: OVERDUE,
    _THIS_WEEK: THIS_WEEK,
    _NEXT_WEEK: NEXT_WEEK,
    _UNDER_WAY: UNDER_WAY,
}
_WEEK = timedelta(weeks=1)
_CLOSED = Phrases({Closed.DONE: "Done", Closed.LET_GO: "Let go"})


def grouped(lines: Iterable[JobLine], today: date) -> Mapping[str, list[JobLine]]:
    """Give the lines by group, in the order of the groups; looks stand last in each."""
    found: dict[tuple[int, int], list[JobLine]] = {}
    ends = week_start(today) + timedelta(days=7)
    for line in lines:
        found.setdefault(_group(line, today, ends), []).append(line)
    for group in found.values():
        group.sort(key=lambda line: line.sort is Sort.LOOK)
    return {_name(place): group for place, group in sorted(found.items())}


def _group(line: JobLine, today: date, ends: date) -> tuple[int, int]:
    """Give the place of a line's group; ``ends`` is where this week does."""
    on = line.on
    if line.is_overdue(today):
        return _OVERDUE
    if line.is_under_way(today):
        return _UNDER_WAY
    if on < ends:
        return _THIS_WEEK
    if on < ends + _WEEK:
        return _NEXT_WEEK
    return on.year, on.month


def _name(place: tuple[int, int]) -> str:
    if place in _NEAR:
        return tr(_NEAR[place])
    return month_year(date(*place, 1))


def day(line: JobLine, today: date) -> str:
    """Give the first day of a line, with its weekday where it is near."""
    near = abs((line.on - today).days) <= 14
    if near:
        return on_weekday(short_weekday(line.on), short_text(line.on))
    return _brief(line.on, today)


def span(line: JobLine, today: date) -> str:
    """Give the last day that fits, where a line has another than its first."""
    if line.until is None or line.until == line.on:
        return ""
    return tr("to {day}").format(day=_brief(line.until, today))


def _brief(day: date, today: date) -> str:
    return short_text(day) if day.year == today.year else short_dated_text(day)


def beside(line: JobLine) -> str:
    """Say at the end of a line of what sort it is, or how and when it was closed."""
    if line.closed is None:
        return SORTS[line.sort]
    return f"{_CLOSED[line.closed]} {words.short_day(line.closed_on)}"


def whom(line: JobLine) -> str:
    """Name the plant of a line, or its place."""
    return f"{line.tag} {line.name}".strip() or line.place


def spoken(line: JobLine, today: date) -> str:
    """Give a line as a screen reader says it."""
    late = tr("overdue") if line.is_overdue(today) else ""
    days = " ".join(filter(None, (words.near_day(line.on), span(line, today))))
    closed = "" if line.closed is None else beside(line)
    parts = (SORTS[line.sort], line.title, whom(line), days, late, closed)
    return f"{', '.join(filter(None, parts))}. {line.sentence}"


def folded(line: JobLine) -> str:
    """Give what a find goes through."""
    parts = (line.tag, line.name, line.place, line.title, SORTS[line.sort])
    return " ".join((*parts, line.sentence, line.note)).casefold()


def told(lines: Iterable[JobLine], today: date) -> str:
    """Say in a line how much there is to do."""
    to_do = [line for line in lines if line.closed is None and not line.forecast]
    late = sum(line.is_overdue(today) for line in to_do)
    ends = week_start(today) + timedelta(days=6)
    week = sum(line.on <= ends and not line.is_overdue(today) for line in to_do)
    if not late and not week:
        return tr("Nothing is overdue, and nothing is left this week.")
    if late and week:
        return tr("{late} overdue, {week} this week.").format(late=late, week=week)
    if late:
        return tr("{late} overdue, none left this week.").format(late=late)
    return tr("Nothing is overdue, {week} this week.").format(week=week)


def beside_the_round(lines: Iterable[JobLine], today: date) -> str:
    """Say what is overdue and which places have plants to move today, or nothing."""
    to_do = [line for line in lines if line.closed is None and not line.forecast]
    late = sum(line.is_overdue(today) for line in to_do)
    said = []
    if late:
        jobs = trn("{count} job is overdue.", "{count} jobs are overdue.", late)
        said.append(jobs.format(count=late))
    for begins, told in (
        ("cold-", tr("Plants to move for the cold night: {where}.")),
        ("heat-", tr("Plants to move for the heat: {where}.")),
    ):
        due = [line for line in to_do if line.on == today]
        places = [line.place for line in due if line.ref.key.startswith(begins)]
        if places:
            said.append(told.format(where="; ".join(dict.fromkeys(places))))
    return " ".join(said)


def colour(sort: Sort) -> str:
    """Give the colour of a sort's mark and word in the scheme in force."""
    c = theme.colours()
    return {
        Sort.REST: c.keep_dry,
        Sort.REPOT: c.accent,
        Sort.LOOK: c.look_first,
        Sort.BLOOM: c.flush,
        Sort.MOVE: c.clear_water,
        Sort.WATER: c.clear_water,
        Sort.TREAT: c.warn,
        Sort.NEWCOMER: c.look_first,
        Sort.STEM: c.feed,
        Sort.WEATHER: c.warn,
    }[sort]


def weeks(lines: Iterable[JobLine], today: date) -> list[tuple[date, int]]:
    """Count what is to be done in each of the 53 weeks from this one on.

    What is overdue counts in this week; what is only told does not count.
    """
    begins = week_start(today)
    counts = [0] * 53
    for line in lines:
        if line.closed is None and not line.forecast:
            week = max(0, (line.on - begins).days // 7)
            if week < len(counts):
                counts[week] += 1
    return [(begins + timedelta(weeks=n), count) for n, count in enumerate(counts)]
