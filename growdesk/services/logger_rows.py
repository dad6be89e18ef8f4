"""The rows of a logger's file as moments with readings, and what had to be left out."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct, field

from growdesk.domain.facts_plant import (
    HUMIDITY_PERCENT,
    LAMP_PPFD,
    LIGHT_MOL_PER_M2_D,
    TEMPERATURE_C,
)
from growdesk.domain.light_units import LightUnit, fahrenheit_as_c, ppfd
from growdesk.services import logger_table, logger_times
from growdesk.services.logger_columns import (
    DEGREES,
    FAHRENHEIT,
    QUANTITY,
    Quantity,
    Role,
)
from growdesk.services.logger_values import LeftOut, Why

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence
    from datetime import date, datetime

    from growdesk.domain.facts_fields import Range
    from growdesk.services.logger_table import Layout, Row
    from growdesk.services.logger_times import DayOrder

LISTED = 20
_DARK_PPFD = -10.0
_RANGES: Mapping[Quantity, Range] = {
    Quantity.TEMPERATURE: TEMPERATURE_C,
    Quantity.LOW: TEMPERATURE_C,
    Quantity.HIGH: TEMPERATURE_C,
    Quantity.HUMIDITY: HUMIDITY_PERCENT,
    Quantity.LIGHT: LAMP_PPFD,
}


class Reading(Struct, frozen=True):
    """What one row gives: °C, %, and PPFD or, of a DLI column, mol m-2 d-1."""

    line: int
    at: datetime
    values: Mapping[Quantity, float]


class LeftOuts(Struct):
    """What was left out: the first lines in words' reach, all of them as a count."""

    first: list[LeftOut] = field(default_factory=list)
    lines: set[int] = field(default_factory=set)

    def add(self, line: int, why: Why, column: str = "", text: str = "") -> None:
        """Keep one reason; a line counts once."""
        self.lines.add(line)
        if len(self.first) < LISTED:
            self.first.append(LeftOut(line, why, column, text))


class Reader(Struct, frozen=True):
    """Reads rows by the roles of their columns and the order of their dates.

    ``known`` keeps what a cell's text gave: loggers write the same few over and over.
    """

    shape: Layout
    roles: Sequence[Role]
    order: DayOrder
    decimal: str
    today: date
    left_out: LeftOuts = field(default_factory=LeftOuts)
    known: dict[tuple[int, str], float] = field(default_factory=dict)

    def read(self, rows: Iterable[Row]) -> list[Reading]:
        """Give the rows that can be read; the others are kept as left out."""
        headers = set(self.shape.headers)
        found = []
        for line, cells in rows:
            if cells in headers:
                self.left_out.add(line, Why.HEADER_AGAIN)
                continue
            reading = self._row(line, cells)
            if reading is not None:
                found.append(reading)
        return found

    def _row(self, line: int, cells: Sequence[str]) -> Reading | None:
        at = self._at(line, cells)
        if at is None:
            return None
        if at.date() > self.today:
            self.left_out.add(line, Why.STILL_TO_COME, text=at.date().isoformat())
            return None
        values = self._values(line, cells)
        if values:
            return Reading(line, at, values)
        if line not in self.left_out.lines:
            self.left_out.add(line, Why.NO_READING)
        return None

    def _values(self, line: int, cells: Sequence[str]) -> dict[Quantity, float]:
        values: dict[Quantity, float] = {}
        for (place, role), text in zip(enumerate(self.roles), cells, strict=False):
            if not text or role not in QUANTITY:
                continue
            value = self.known.get((place, text))
            if value is None:
                value = self._value(line, place, text)
            if value is not None:
                values[QUANTITY[role]] = value
        return values

    def _at(self, line: int, cells: Sequence[str]) -> datetime | None:
        """Give a row's moment from its columns for date and time."""
        texts = [
            cells[place]
            for place, role in enumerate(self.roles)
            if role in {Role.DATE, Role.TIME} and place < len(cells)
        ]
        day, clock = None, None
        for found in map(logger_times.moment, texts):
            if found is None:
                break
            if found.epoch is not None:
                return found.epoch
            if found.day_text:
                day = logger_times.day(found.day_text, self.order)
            clock = clock if found.clock is None else found.clock
        else:
            if day is not None and (clock is not None or len(texts) == 1):
                return logger_times.at(day, clock)
        self.left_out.add(line, Why.NO_TIME, text=" ".join(texts))
        return None

    def _value(self, line: int, place: int, text: str) -> float | None:
        """Give a cell in the quantity's own unit, or keep why not."""
        found = self._read(self.roles[place], text)
        if isinstance(found, Why):
            self.left_out.add(line, found, self.shape.names[place], text)
            return None
        self.known[place, text] = found
        return found

    def _read(self, role: Role, text: str) -> float | Why:
        number = logger_table.number(text, self.decimal)
        if number is None:
            return Why.NOT_A_NUMBER
        named = logger_table.in_fahrenheit(text)
        is_degrees = QUANTITY[role] in DEGREES
        if is_degrees and named is not None and named is not (role in FAHRENHEIT):
            return Why.OTHER_DEGREES
        value = in_own_unit(role, number)
        return Why.OUT_OF_RANGE if value is None else value


def in_own_unit(role: Role, number: float) -> float | None:
    """Give °C, %, PPFD or mol m-2 d-1, or nothing for what cannot be meant.

    A sun meter reads a little below zero at night; that is dark.
    """
    if role is Role.DLI:
        return number if LIGHT_MOL_PER_M2_D.holds(number) else None
    quantity = QUANTITY[role]
    value = number
    if role in FAHRENHEIT:
        value = fahrenheit_as_c(number)
    elif quantity is Quantity.LIGHT:
        value = ppfd(number, LightUnit(role.value))
        if _DARK_PPFD <= value < 0:
            value = 0.0
    return value if _RANGES[quantity].holds(value) else None
