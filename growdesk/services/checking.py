"""Checks of what forms hand in: one plain refusal per slip, by the domain's ranges.

The field of an error is the name of the draft's field, so that a form can show it
beside its input.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.errors import InputError
from growdesk.domain.facts_fields import Range, read_number, read_text, read_whole
from growdesk.domain.speech import tr

if TYPE_CHECKING:
    from datetime import date

LONG_TEXT = 10_000
SHORT_TEXT = 300
NAME = 120
FIRST_YEAR = 1900


def text(field: str, value: str, most: int = LONG_TEXT) -> str:
    """Give a text trimmed; refuse one that is too long or holds control characters."""
    return value if value == "" else read_text(field, value, most)


def needed_text(field: str, value: str, hint: str, most: int = SHORT_TEXT) -> str:
    """Give a one-line text that may not be left empty."""
    kept = line(field, value, most)
    if not kept:
        raise InputError(field, value, tr("is empty"), hint)
    return kept


def line(field: str, value: str, most: int = SHORT_TEXT) -> str:
    """Give a text of one line, trimmed."""
    kept = text(field, value, most)
    if "\n" in kept or "\t" in kept:
        raise InputError(
            field, value, tr("has more than one line"), tr("Write it on one.")
        )
    return kept


def number(field: str, value: float | None, allowed: Range) -> float | None:
    """Give a finite number in its range, or nothing where nothing is recorded."""
    return None if value is None else read_number(field, value, allowed)


def whole(field: str, value: int | None, allowed: Range) -> int | None:
    """Give a whole number in its range, or nothing where nothing is recorded."""
    return None if value is None else read_whole(field, value, allowed)


def day_done(field: str, day: date | None, today: date) -> date | None:
    """Give the day of something that has happened; refuse one that is still to come."""
    if day is None:
        return None
    if day > today:
        raise InputError(
            field,
            day.isoformat(),
            tr("is still to come"),
            tr("Give a day up to today, {isoformat}.").format(
                isoformat=today.isoformat()
            ),
        )
    if day.year < FIRST_YEAR:
        raise InputError(
            field, day.isoformat(), tr("cannot be meant"), tr("Look at the year.")
        )
    return day
