"""Frozen values of reading a logger's file: what it seems to hold, what came of it.

Temperatures in °C, humidity in %, light in mol m-2 d-1.
"""

from __future__ import annotations

from enum import StrEnum
from typing import TYPE_CHECKING

from msgspec import Struct

if TYPE_CHECKING:
    from datetime import date

    from growdesk.domain.facts import Reading
    from growdesk.services.logger_columns import Quantity, Role
    from growdesk.services.logger_times import DatesRead, DayOrder


class Column(Struct, frozen=True):
    """A column: its name in the file, its first cells, what it is taken for."""

    name: str
    samples: tuple[str, ...]
    role: Role


class Survey(Struct, frozen=True):
    """What a file seems to be. With several ``orders`` its dates have to be asked for.

    ``header_line`` is 0 where there is none; ``notices`` are plain lines.
    """

    source: str
    encoding: str
    delimiter: str
    decimal: str
    header_line: int
    rows: int
    columns: tuple[Column, ...]
    orders: tuple[DatesRead, ...]
    notices: tuple[str, ...]

    @property
    def day_order(self) -> DayOrder | None:
        """Give the order of the dates, or nothing where they allow several."""
        return self.orders[0].order if len(self.orders) == 1 else None

    @property
    def choices(self) -> Choices:
        """Give the choices as the file suggests them."""
        return Choices(tuple(each.role for each in self.columns), self.day_order)


class Choices(Struct, frozen=True):
    """How to read a file: a role for each column, and the order of its dates."""

    roles: tuple[Role, ...]
    day_order: DayOrder | None = None


class Why(StrEnum):
    """Why a row, or one cell of it, was left out."""

    NO_TIME = "no-time"
    NOT_A_NUMBER = "not-a-number"
    OUT_OF_RANGE = "out-of-range"
    OTHER_DEGREES = "other-degrees"
    NO_READING = "no-reading"
    HEADER_AGAIN = "header-again"
    STILL_TO_COME = "still-to-come"
    DAY_TWICE = "day-twice"
    LOW_ABOVE_HIGH = "low-above-high"


class LeftOut(Struct, frozen=True):
    """What was left out of one line: the column's name and what stood there."""

    line: int
    why: Why
    column: str = ""
    text: str = ""


class Record(StrEnum):
    """What taking a day does to the place's record of it."""

    NEW = "new"
    ADDED_TO = "added-to"
    REPLACED = "replaced"
    SAME = "same"


class LoggedDay(Struct, frozen=True):
    """One day of a file. ``hours`` were read; ``too_short`` names what gives nothing.

    A file with one row a day has no hours. Light beyond 80 mol m-2 is ``too_bright``
    to be meant and left out.
    """

    reading: Reading
    hours: float | None
    too_short: tuple[Quantity, ...] = ()
    too_bright: bool = False

    @property
    def on(self) -> date:
        """Give the day."""
        return self.reading.on


class DayOnRecord(Struct, frozen=True):
    """A day found, what is on record of it, and what taking it does to that."""

    day: LoggedDay
    record: Record
    before: Reading | None


class FileRead(Struct, frozen=True):
    """What a file holds, before any collection is asked. ``left_out`` are the first 20.

    ``part_days`` were read for too few hours to give anything.
    """

    source: str
    rows_read: int
    left_out: tuple[LeftOut, ...]
    left_out_count: int
    days: tuple[LoggedDay, ...]
    part_days: tuple[LoggedDay, ...]
    notices: tuple[str, ...]


class Report(Struct, frozen=True):
    """What a file would change at one place."""

    file: FileRead
    place_id: int
    place: str
    days: tuple[DayOnRecord, ...]

    @property
    def to_write(self) -> tuple[DayOnRecord, ...]:
        """Give the days that would change the record."""
        return tuple(day for day in self.days if day.record is not Record.SAME)

    @property
    def replaced(self) -> tuple[DayOnRecord, ...]:
        """Give the days whose record would be lost to the file's."""
        return tuple(day for day in self.days if day.record is Record.REPLACED)
