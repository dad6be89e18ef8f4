"""What a column of a logger's file holds, by its header and by what stands in it."""

from __future__ import annotations

import re
from enum import StrEnum
from typing import TYPE_CHECKING

from growdesk.services import logger_times

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence


class Role(StrEnum):
    """What a column is read as."""

    LEAVE_OUT = "-"
    TIME = "time"
    DATE = "date"
    TEMPERATURE_C = "temperature_c"
    TEMPERATURE_F = "temperature_f"
    LOW_C = "low_c"
    LOW_F = "low_f"
    HIGH_C = "high_c"
    HIGH_F = "high_f"
    HUMIDITY = "humidity"
    LUX = "lux"
    FC = "fc"
    PPFD = "ppfd"
    W_PER_M2 = "w_per_m2"
    DLI = "dli"


class Quantity(StrEnum):
    """What is read of a place; a file gives each at most once."""

    TEMPERATURE = "temperature"
    LOW = "low"
    HIGH = "high"
    HUMIDITY = "humidity"
    LIGHT = "light"


QUANTITY: Mapping[Role, Quantity] = {
    Role.TEMPERATURE_C: Quantity.TEMPERATURE,
    Role.TEMPERATURE_F: Quantity.TEMPERATURE,
    Role.LOW_C: Quantity.LOW,
    Role.LOW_F: Quantity.LOW,
    Role.HIGH_C: Quantity.HIGH,
    Role.HIGH_F: Quantity.HIGH,
    Role.HUMIDITY: Quantity.HUMIDITY,
    Role.LUX: Quantity.LIGHT,
    Role.FC: Quantity.LIGHT,
    Role.PPFD: Quantity.LIGHT,
    Role.W_PER_M2: Quantity.LIGHT,
    Role.DLI: Quantity.LIGHT,
}
DEGREES = frozenset({Quantity.TEMPERATURE, Quantity.LOW, Quantity.HIGH})
FAHRENHEIT = frozenset({Role.TEMPERATURE_F, Role.LOW_F, Role.HIGH_F})
_IN_F = {
    Role.TEMPERATURE_C: Role.TEMPERATURE_F,
    Role.LOW_C: Role.LOW_F,
    Role.HIGH_C: Role.HIGH_F,
}
_NO_PLACE_HAS_C = 45.0

_SAYS: tuple[tuple[Role, str], ...] = (
    (Role.LEAVE_OUT, r"dew|taupunkt|ros[ée]e|roc[ií]o|wet.?bulb|heat.?index|feels|vpd"),
    (Role.LEAVE_OUT, r"batter|volt|signal|rssi|pressure|druck|co2|wind|rain|\bid\b"),
    (Role.DLI, r"\bdli\b|(?<![µμum])mol[\s/·.]{0,2}m.{0,6}d|daily light"),
    (Role.PPFD, r"ppfd|\bpar\b|[µμu]mol"),
    (Role.W_PER_M2, r"w/m|w m-2|w·m|watt|solar|global rad|irradian|pyranom"),
    (Role.FC, r"foot.?c|\bfc\b|ft.?cd?\b|lum/ft|lm/ft|lumen"),
    (Role.LUX, r"lux|\blx\b|illumin|beleucht|helligk|lumino"),
    (Role.HUMIDITY, r"\bhum|humid|feuch|umidit|humed|vochtig|\brh\b|r\.h\.|%\s?r|fugt"),
    (
        Role.TEMPERATURE_C,
        r"t[eéä]mp|°|℃|℉|deg\.? ?[cf]|celsius|fahrenh|\bt_?(min|max|avg|mean|\d)?\b",
    ),
)
_LOW = re.compile(r"\b(min|low|lowest|tief|mini)|min\b", re.IGNORECASE)
_HIGH = re.compile(r"\b(max|hi|high|highest|hoch|maxi)\b|max", re.IGNORECASE)
_IS_F = re.compile(r"°\s?f|℉|deg\.? ?f|fahrenh|[(_ \d\[]f\b", re.IGNORECASE)
_IS_C = re.compile(r"°\s?c|℃|deg\.? ?c|celsius|[(_ \d\[]c\b", re.IGNORECASE)
_UTC = re.compile(r"\b(utc|gmt)\b", re.IGNORECASE)
_LEADING = re.compile(r"[+-]?\d+(?:[.,]\d+)?")


def guess(names: Sequence[str], samples: Sequence[Sequence[str]]) -> tuple[Role, ...]:
    """Give a role for each column from its name and some of its cells.

    Of two columns of one quantity the first is taken.
    """
    times = _times(names, samples)
    roles: list[Role] = []
    taken: set[Quantity] = set()
    for at, (name, cells) in enumerate(zip(names, samples, strict=True)):
        role = times.get(at) or alone(name, cells)
        quantity = QUANTITY.get(role)
        if quantity in taken:
            role = Role.LEAVE_OUT
        elif quantity is not None:
            taken.add(quantity)
        roles.append(role)
    return tuple(roles)


def _times(names: Sequence[str], samples: Sequence[Sequence[str]]) -> dict[int, Role]:
    """Give the columns that say when: one of both, or a date and a time."""
    both: list[int] = []
    days: list[int] = []
    clocks: list[int] = []
    for at, cells in enumerate(samples):
        read = [logger_times.moment(cell) for cell in cells if cell.strip()]
        found = [each for each in read if each is not None]
        if not found or len(found) < 0.6 * len(read):
            continue
        clocked = [m for m in found if m.clock is not None]
        if any(each.epoch for each in found):
            both.append(at)
        elif not any(each.day_text for each in found):
            clocks.append(at)
        else:
            (both if clocked else days).append(at)
    if both:
        local = [at for at in both if not _UTC.search(names[at])]
        return {(local or both)[0]: Role.TIME}
    found_roles = {days[0]: Role.DATE} if days else {}
    if days and clocks:
        found_roles[clocks[0]] = Role.TIME
    return found_roles


def alone(name: str, cells: Sequence[str]) -> Role:
    """Give the role of a column by its own name, whatever the others hold."""
    said = (role for role, says in _SAYS if re.search(says, name, re.IGNORECASE))
    role = next(said, Role.LEAVE_OUT)
    if role is not Role.TEMPERATURE_C:
        return role
    if _HIGH.search(name):
        role = Role.HIGH_C
    elif _LOW.search(name):
        role = Role.LOW_C
    return _IN_F[role] if _is_fahrenheit(name, cells) else role


def names_degrees(name: str, cells: Sequence[str]) -> bool:
    """Tell whether a header or the cells say which degrees they are in."""
    return any(says.search(text) for text in (name, *cells) for says in (_IS_F, _IS_C))


def _is_fahrenheit(name: str, cells: Sequence[str]) -> bool:
    """Tell °F by the header or the cells, else by more than any place has in °C."""
    for text in (name, *cells):
        if _IS_F.search(text):
            return True
        if _IS_C.search(text):
            return False
    leading = [_LEADING.match(cell.strip()) for cell in cells]
    numbers = sorted(float(m[0].replace(",", ".")) for m in leading if m)
    return bool(numbers) and numbers[len(numbers) // 2] > _NO_PLACE_HAS_C
