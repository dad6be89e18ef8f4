"""The days a logger's file gives: from many rows a day, or from one row a day."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from msgspec.structs import replace

from growdesk.domain import facts
from growdesk.domain.day_course import courses
from growdesk.domain.facts_plant import LIGHT_MOL_PER_M2_D
from growdesk.services.logger_columns import Quantity, Role
from growdesk.services.logger_values import LoggedDay, Why

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from datetime import date

    from growdesk.domain.day_course import Course
    from growdesk.services.logger_rows import LeftOuts, Reading


_APART_S = 20 * 3600
_OF_A_DAY = {Role.LOW_C, Role.LOW_F, Role.HIGH_C, Role.HIGH_F, Role.DLI}


def is_daily(readings: Sequence[Reading], roles: Sequence[Role]) -> bool:
    """Tell whether a file has one row a day, about a day apart.

    A single row is a day's where it has no time of day or gives what only a day has.
    """
    moments = sorted({each.at for each in readings})
    if len(moments) > 1:
        apart_s = (after - before for before, after in pairwise(moments))
        return min(each.total_seconds() for each in apart_s) >= _APART_S
    is_midnight = all(not each.hour and not each.minute for each in moments)
    return is_midnight or any(role in _OF_A_DAY for role in roles)


def from_rows_a_day(readings: Sequence[Reading], left_out: LeftOuts) -> list[LoggedDay]:
    """Give the days of a file with one row a day; of a day that stands twice the first.

    The temperature is the day's mean; light counts from a DLI column only.
    """
    days: dict[date, LoggedDay] = {}
    for each in sorted(readings, key=lambda reading: (reading.at, reading.line)):
        on, values = each.at.date(), each.values
        low, high = values.get(Quantity.LOW), values.get(Quantity.HIGH)
        if on in days:
            left_out.add(each.line, Why.DAY_TWICE, text=on.isoformat())
        elif low is not None and high is not None and low > high:
            left_out.add(each.line, Why.LOW_ABOVE_HIGH)
        else:
            days[on] = LoggedDay(
                facts.Reading(
                    on=on,
                    mean_c=_rounded(values.get(Quantity.TEMPERATURE), 2),
                    low_c=_rounded(low, 2),
                    high_c=_rounded(high, 2),
                    humidity_percent=_rounded(values.get(Quantity.HUMIDITY), 1),
                    light_mol_per_m2_d=_rounded(values.get(Quantity.LIGHT), 2),
                ),
                None,
            )
    return list(days.values())


def from_samples(readings: Sequence[Reading]) -> list[LoggedDay]:
    """Give the days of a file with many rows a day, by the file's own clock."""
    by_quantity: dict[Quantity, Mapping[date, Course]] = {}
    for quantity in Quantity:
        samples = [(r.at, r.values[quantity]) for r in readings if quantity in r.values]
        if samples:
            by_quantity[quantity] = courses(samples)
    days = sorted({reading.at.date() for reading in readings})
    return [_day(on, by_quantity) for on in days]


def without_light(readings: Sequence[Reading]) -> list[Reading]:
    """Give the readings without their light, and without rows that had only that."""
    kept = [
        replace(
            each,
            values={q: v for q, v in each.values.items() if q is not Quantity.LIGHT},
        )
        for each in readings
    ]
    return [each for each in kept if each.values]


def times_read_twice(readings: Sequence[Reading]) -> int:
    """Count the moments that stand more than once."""
    return len(readings) - len({reading.at for reading in readings})


def _day(on: date, by_quantity: Mapping[Quantity, Mapping[date, Course]]) -> LoggedDay:
    read = {q: by_day[on] for q, by_day in by_quantity.items() if on in by_day}
    whole = {q: course for q, course in read.items() if _is_whole(q, course)}
    warmth, humid = whole.get(Quantity.TEMPERATURE), whole.get(Quantity.HUMIDITY)
    light_mol = (
        whole[Quantity.LIGHT].dli_mol_per_m2 if Quantity.LIGHT in whole else None
    )
    too_bright = light_mol is not None and not LIGHT_MOL_PER_M2_D.holds(light_mol)
    lows = [whole[q].low for q in (Quantity.LOW, Quantity.TEMPERATURE) if q in whole]
    highs = [whole[q].high for q in (Quantity.HIGH, Quantity.TEMPERATURE) if q in whole]
    return LoggedDay(
        facts.Reading(
            on=on,
            mean_c=_rounded(warmth.mean if warmth else None, 2),
            low_c=_rounded(min(lows, default=None), 2),
            high_c=_rounded(max(highs, default=None), 2),
            humidity_percent=_rounded(humid.mean if humid else None, 1),
            light_mol_per_m2_d=_rounded(None if too_bright else light_mol, 2),
        ),
        max(course.hours for course in read.values()),
        tuple(quantity for quantity in by_quantity if quantity not in whole),
        too_bright,
    )


def _is_whole(quantity: Quantity, course: Course) -> bool:
    is_light = quantity is Quantity.LIGHT
    return course.is_whole_for_light if is_light else course.is_whole


def _rounded(value: float | None, digits: int) -> float | None:
    return None if value is None else round(value, digits)
