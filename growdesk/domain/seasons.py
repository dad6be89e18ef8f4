"""Where in the year a day stands, for either hemisphere.

Dates of rests and limits are written for the north and turn by six months in the
south. Latitude 0 counts as north. Within a band around the equator, which is a house
rule, months say nothing about a plant's rest.
"""

from __future__ import annotations

import calendar
from datetime import date

MonthDay = tuple[int, int]

_MIDSUMMER: MonthDay = (6, 21)
_MIDWINTER: MonthDay = (12, 21)
_NORTH_SPRING_EQUINOX: MonthDay = (3, 20)
_SOUTH_SPRING_EQUINOX: MonthDay = (9, 22)


def northern(latitude: float) -> bool:
    """Tell whether the northern calendar holds."""
    return latitude >= 0


def equatorial(latitude: float, band_deg: float) -> bool:
    """Tell whether the place is too near the equator for months to mean a season."""
    return abs(latitude) <= band_deg


def turned(month_day: MonthDay, latitude: float) -> MonthDay:
    """Give a northern month and day for this latitude's hemisphere."""
    month, day = month_day
    return month_day if northern(latitude) else ((month + 5) % 12 + 1, day)


def turned_months(months: tuple[int, ...], latitude: float) -> tuple[int, ...]:
    """Give northern months for this latitude's hemisphere."""
    return tuple(turned((month, 1), latitude)[0] for month in months)


def first_month(months: tuple[int, ...]) -> int:
    """Give the month a run of months begins with, over the turn of the year too."""
    return next((m for m in months if (m - 2) % 12 + 1 not in months), months[0])


def last_month(months: tuple[int, ...]) -> int:
    """Give the month a run of months ends with, over the turn of the year too."""
    return next((m for m in months if m % 12 + 1 not in months), months[-1])


def midsummer(latitude: float) -> MonthDay:
    """Give the longest day."""
    return _MIDSUMMER if northern(latitude) else _MIDWINTER


def midwinter(latitude: float) -> MonthDay:
    """Give the shortest day."""
    return _MIDWINTER if northern(latitude) else _MIDSUMMER


def spring_equinox(latitude: float) -> MonthDay:
    """Give the equinox after which days are longer than nights."""
    return _NORTH_SPRING_EQUINOX if northern(latitude) else _SOUTH_SPRING_EQUINOX


def within(on: date, start: MonthDay, end: MonthDay) -> bool:
    """Tell whether a day lies between two days of the year, both included."""
    now = (on.month, on.day)
    if start <= end:
        return start <= now <= end
    return now >= start or now <= end


def day_after(month_day: MonthDay) -> MonthDay:
    """Give the day of the year after one; March follows any end of February."""
    month, day = month_day
    if day < calendar.monthrange(2001, month)[1]:
        return month, day + 1
    return month % 12 + 1, 1


def last_of_month(month: int) -> MonthDay:
    """Give the last day of a month, 29 for February so that none is left out."""
    return (month, 29 if month == 2 else calendar.monthrange(2001, month)[1])


def next_date(on: date, month_day: MonthDay) -> date:
    """Give the first date from ``on`` that falls on a day of the year.

    29 February stands in for the last of February in other years.
    """
    for year in (on.year, on.year + 1):
        found = _dated(year, month_day)
        if found >= on:
            return found
    return _dated(on.year + 1, month_day)


def last_date(on: date, month_day: MonthDay) -> date:
    """Give the latest date up to ``on`` that falls on a day of the year."""
    this_year = _dated(on.year, month_day)
    return this_year if this_year <= on else _dated(on.year - 1, month_day)


def _dated(year: int, month_day: MonthDay) -> date:
    month, day = month_day
    if day <= 28:  # every month has it
        return date(year, month, day)
    return date(year, month, min(day, calendar.monthrange(year, month)[1]))
