"""Days and times of day as loggers write them, and which order their dates are in.

A date like 05/06/2026 is read in the order the caller names; which orders a whole file
allows is counted here, never guessed from one row. The clock is the file's own: an
offset from UTC behind a time is passed over, and epoch seconds count in UTC.
"""

from __future__ import annotations

import re
from datetime import UTC, date, datetime, time, timedelta
from enum import StrEnum
from functools import lru_cache

from msgspec import Struct

from growdesk.domain.day_words import MONTHS
from growdesk.domain.facts_fields import FIRST_YEAR, LAST_YEAR


class DayOrder(StrEnum):
    """The order of day, month and year in a date."""

    YMD = "ymd"
    DMY = "dmy"
    MDY = "mdy"


_NUMBERED = r"\d{1,4}(?:[-/]|\. ?)\d{1,2}(?:[-/]|\. ?)\d{1,4}"
_PACKED = r"(?:19|20|21)\d\d[01]\d[0-3]\d"
_NAMED = r"\d{1,2}[-/. ]{1,2}[A-Za-z]{3,9}\.?[-/, ]{1,2}\d{2,4}"
_NAMED_US = r"[A-Za-z]{3,9}\.?[-/ ]\d{1,2}[-/, ]{1,2}\d{2,4}"
_DATE = rf"(?P<date>{_NUMBERED}|{_PACKED}|{_NAMED}|{_NAMED_US})"
_ZONE = r"(?:\s*(?:Z|UTC|GMT)?(?:[+-]\d{2}:?\d{2})?)"
_HALF = r"(?:\s*(?P<half>[ap])\.?\s?m\.?)?"
_CLOCK = (
    r"(?P<hour>\d{1,2})[:%s](?P<minute>\d{2})"
    r"(?:[:%s](?P<second>\d{2})(?:[.,](?P<part>\d+))?)?"
)
_MOMENT = re.compile(
    rf"{_DATE}(?:(?:T|[,;]?\s+){_CLOCK % ('.h', '.')}{_HALF}{_ZONE})?", re.IGNORECASE
)
_DAY = re.compile(_DATE, re.IGNORECASE)
_CLOCK_BEHIND = re.compile(rf"{_CLOCK % ('.h', '.')}{_HALF}{_ZONE}", re.IGNORECASE)
_TIME = re.compile(rf"{_CLOCK % ('h', '')}{_HALF}{_ZONE}", re.IGNORECASE)
_EPOCH = re.compile(r"(?P<seconds>[1-4]\d{9})(?:\d{3})?(?:\.\d+)?")
_SPLIT = re.compile(r"[-/.,\s]+")


class Moment(Struct, frozen=True):
    """A day and a time of day as written; either may be missing."""

    day_text: str
    clock: timedelta | None
    epoch: datetime | None = None


def moment(text: str) -> Moment | None:
    """Give what a cell says of day and time, or nothing where it says neither."""
    plain = text.strip().replace("\u202f", " ").replace("\xa0", " ")
    day_text, _, rest = plain.partition(" ")
    if rest and _is_day(day_text) and (since := _since_midnight(rest)) is not None:
        return Moment(day_text, since)
    return _moment(plain)


@lru_cache(maxsize=4096)
def _is_day(text: str) -> bool:
    return _DAY.fullmatch(text) is not None


@lru_cache(maxsize=4096)
def _since_midnight(text: str) -> timedelta | None:
    found = _CLOCK_BEHIND.fullmatch(text)
    return None if found is None else _clock(found)


def _moment(plain: str) -> Moment | None:
    """Read a cell as a whole, where day and clock are not parted by one space."""
    epoch = _EPOCH.fullmatch(plain)
    if epoch:
        seconds = int(epoch["seconds"])
        at = datetime.fromtimestamp(seconds, tz=UTC).replace(tzinfo=None)
        return Moment("", None, at)
    found = _MOMENT.fullmatch(plain)
    if found is None:
        alone = _TIME.fullmatch(plain)
        clock = _clock(alone) if alone else None
        return None if clock is None else Moment("", clock)
    if found["hour"] is None:
        return Moment(found["date"], None)
    clock = _clock(found)
    return None if clock is None else Moment(found["date"], clock)


def _clock(found: re.Match[str]) -> timedelta | None:
    """Give the time since midnight; 24:00 is the next day's midnight."""
    hour, minute, second = int(found["hour"]), int(found["minute"]), 0
    if found["second"]:
        second = int(found["second"])
    if found["half"]:
        if hour > 12:
            return None
        hour = hour % 12 + (12 if found["half"].lower() == "p" else 0)
    is_midnight = (hour, minute, second) == (24, 0, 0)
    if not is_midnight and (hour > 23 or minute > 59 or second > 59):
        return None
    return timedelta(hours=hour, minutes=minute, seconds=second)


@lru_cache(maxsize=4096)
def day(text: str, order: DayOrder) -> date | None:
    """Give the day of a date in an order, or nothing where there is no such day."""
    if len(text) == 8 and text.isdigit():
        text = f"{text[:4]}-{text[4:6]}-{text[6:]}"
    parts = _SPLIT.split(text.strip())
    if len(parts) != 3:
        return None
    if not all(part.isdigit() for part in parts):
        return _named_day(parts)
    if order is DayOrder.MDY and "." in text:
        return None  # dots are written day first everywhere
    year_at = {DayOrder.YMD: 0}.get(order, 2)
    if len(parts[2 - year_at]) > 2 or len(parts[year_at]) not in {2, 4}:
        return None
    numbers = [int(part) for part in parts]
    year, month, on = {
        DayOrder.YMD: (numbers[0], numbers[1], numbers[2]),
        DayOrder.DMY: (numbers[2], numbers[1], numbers[0]),
        DayOrder.MDY: (numbers[2], numbers[0], numbers[1]),
    }[order]
    return _day(year, month, on)


def _named_day(parts: list[str]) -> date | None:
    name = next((part for part in parts if not part.isdigit()), "")
    numbers = [int(part) for part in parts if part.isdigit()]
    months = {
        number
        for names in (MONTHS, MONTHS.texts)
        for number, month in enumerate(names, 1)
        if month.lower().startswith(name.lower())
    }
    if len(numbers) != 2 or len(months) != 1:
        return None
    return _day(numbers[1], months.pop(), numbers[0])


def _day(year: int, month: int, on: int) -> date | None:
    full_year = year if year > 99 else 2000 + year
    if not FIRST_YEAR <= full_year <= LAST_YEAR:
        return None
    try:
        return date(full_year, month, on)
    except ValueError:
        return None


def at(on: date, clock: timedelta | None) -> datetime:
    """Give the moment of a day and the time since its midnight."""
    return datetime.combine(on, time()) + (clock or timedelta())


class DatesRead(Struct, frozen=True):
    """What a file's dates are in one order: how many, the first and the last day."""

    order: DayOrder
    count: int
    first: date
    last: date


def orders(texts: set[str]) -> tuple[DatesRead, ...]:
    """Give the orders that read most of the dates, each with what it makes of them.

    More than one means that the dates can be read in several ways. Orders that make
    the same days of all dates are one.
    """
    found: dict[frozenset[tuple[str, date]], DayOrder] = {}
    for order in DayOrder:
        read = ((text, day(text, order)) for text in texts)
        days = frozenset((text, on) for text, on in read if on is not None)
        if days and days not in found:
            found[days] = order
    most = max(map(len, found), default=0)
    return tuple(
        DatesRead(
            order, len(days), min(on for _, on in days), max(on for _, on in days)
        )
        for days, order in found.items()
        if len(days) == most
    )
