"""Days in words and in figures, in the language and the order of the place."""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING, Final

from growdesk.domain.speech import Lines, manner, tr

if TYPE_CHECKING:
    from datetime import date

MONTHS: Final = Lines(
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)
SHORT_MONTHS: Final = Lines(
    "Jan",
    "Feb",
    "Mar",
    "Apr",
    "May",
    "Jun",
    "Jul",
    "Aug",
    "Sep",
    "Oct",
    "Nov",
    "Dec",
    context="short",
)
WEEKDAYS: Final = Lines(
    "Monday",
    "Tuesday",
    "Wednesday",
    "Thursday",
    "Friday",
    "Saturday",
    "Sunday",
)
SHORT_WEEKDAYS: Final = Lines(
    "Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun", context="short"
)
YEAR_SHOWN_AFTER_DAYS: Final = 180


def month_day_text(month: int, day: int) -> str:
    """Give a day of every year: "25 November"."""
    return _dated(MONTHS[month - 1], day)


def dated_text(day: date) -> str:
    """Give a day with its year: "25 November 2026"."""
    return _with_year(MONTHS[day.month - 1], day)


def day_text(day: date, on: date) -> str:
    """Give a day as people say it, with its year when it is far from ``on``."""
    if abs((on - day).days) > YEAR_SHOWN_AFTER_DAYS:
        return dated_text(day)
    return month_day_text(day.month, day.day)


def short_text(day: date) -> str:
    """Give a day in few letters, without its year: "25 Nov"."""
    return _dated(SHORT_MONTHS[day.month - 1], day.day)


def short_dated_text(day: date) -> str:
    """Give a day in few letters, with its year: "25 Nov 2026"."""
    return _with_year(SHORT_MONTHS[day.month - 1], day)


def weekday(day: date) -> str:
    """Give the name of the day in its week: "Wednesday"."""
    return WEEKDAYS[day.weekday()]


def short_weekday(day: date) -> str:
    """Give the name of the day in its week in few letters: "Wed"."""
    return SHORT_WEEKDAYS[day.weekday()]


def on_weekday(weekday_said: str, day_said: str) -> str:
    """Give a day said with its weekday before it: "Wednesday 25 November"."""
    month_first = manner().month_first
    said = tr("{weekday}, {day}") if month_first else tr("{weekday} {day}")
    return said.format(weekday=weekday_said, day=day_said)


def month_year(day: date) -> str:
    """Give a month of a year: "November 2026"."""
    return tr("{month} {year}").format(month=MONTHS[day.month - 1], year=day.year)


def week_start(day: date) -> date:
    """Give the first day of the week that holds a day, as weeks begin here."""
    return day - timedelta(days=(day.weekday() - manner().week_begins) % 7)


def figures(day: date) -> str:
    """Give a day in figures, in the order of the place: "2026-11-25", "25.11.2026"."""
    return manner().day_form.format(y=day.year, m=day.month, d=day.day)


def _dated(month: str, day: int) -> str:
    said = tr("{month} {day}") if manner().month_first else tr("{day} {month}")
    return said.format(month=month, day=day)


def _with_year(month: str, day: date) -> str:
    month_first = manner().month_first
    said = tr("{month} {day}, {year}") if month_first else tr("{day} {month} {year}")
    return said.format(month=month, day=day.day, year=day.year)
