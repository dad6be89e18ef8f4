"""The year of a place: the sun, the light at the leaf, and the strength they leave.

The strength is the judging's own chain for a plant of a kind, as if nothing had been
looked at: looks, care and repots are left out, since nobody knows them for the rest of
the year. What was read a year before stands in for the days to come.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from datetime import date, timedelta
from typing import TYPE_CHECKING

from msgspec.structs import replace

from growdesk.domain.case import Case
from growdesk.domain.facts import Reading
from growdesk.domain.leaf_light import at_leaf
from growdesk.domain.strength import strength_of
from growdesk.domain.sun import sun
from growdesk.services.chart_values import Basis, SeasonDay, YearDay

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from growdesk.domain.explain import Strength
    from growdesk.domain.facts import House, Place, Plant
    from growdesk.domain.kinds import Kind

YEAR_DAYS = 365


def days_back(house: House) -> int:
    """Give how many days before the year began a reading can still count."""
    return YEAR_DAYS + _window_days(house)


def season_days(
    plant: Plant, kind: Kind, house: House, on: date
) -> tuple[SeasonDay, ...]:
    """Give the days of the year that holds ``on``; the place has its readings."""
    bare = _unlooked(plant)
    days = []
    for day, lit, read in _places(plant.place, house, on):
        by_light = Case(replace(bare, place=lit), kind, house, day)
        by_reading = Case(replace(bare, place=read), kind, house, day)
        strength, strength_read = _strengths(by_light, by_reading)
        days.append(SeasonDay(_year_day(lit, house, day), strength, strength_read))
    return tuple(days)


def year_days(place: Place, house: House, on: date) -> tuple[YearDay, ...]:
    """Give the days of the year that holds ``on``, of a place with its readings."""
    return tuple(
        _year_day(lit, house, day) for day, lit, _ in _places(place, house, on)
    )


def basis_of(place: Place, house: House, on: date) -> Basis:
    """Give what the season of a place goes by where nothing was read."""
    return _light(replace(place, readings=()), house, on)[1]


def _places(
    place: Place, house: House, on: date
) -> Iterator[tuple[date, Place, Place]]:
    """Give each day with the place by its light alone, and by all that was read."""
    bare = replace(place, mean_temperature_c=None, readings=())
    readings = _readings(place.readings, on)
    lights = tuple(
        Reading(each.on, light_mol_per_m2_d=each.light_mol_per_m2_d)
        for each in readings
    )
    read_on = [reading.on for reading in readings]
    window = timedelta(days=_window_days(house))
    first = date(on.year, 1, 1)
    for passed in range((date(on.year, 12, 31) - first).days + 1):
        day = first + timedelta(days=passed)
        near = slice(bisect_left(read_on, day - window), bisect_right(read_on, day))
        lit = replace(bare, readings=lights[near])
        yield day, lit, replace(bare, readings=readings[near])


def _window_days(house: House) -> int:
    return max(house.temperature_window_days, house.light_window_days)


def _unlooked(plant: Plant) -> Plant:
    return replace(plant, looks=(), care=(), repotted_on=None, slow_release_until=None)


def _readings(readings: Iterable[Reading], on: date) -> tuple[Reading, ...]:
    """Give the readings to the day shown, then those of a year before, oldest first."""
    kept = sorted(readings, key=lambda reading: reading.on)
    year = timedelta(days=YEAR_DAYS)
    before = (replace(reading, on=reading.on + year) for reading in kept)
    return (
        *(reading for reading in kept if reading.on <= on),
        *(reading for reading in before if reading.on > on),
    )


def _year_day(place: Place, house: House, day: date) -> YearDay:
    above = sun(house.latitude, day)
    return YearDay(
        day, above.sunrise_to_sunset_h, above.ra_mj_per_m2_d, *_light(place, house, day)
    )


def _light(place: Place, house: House, day: date) -> tuple[float | None, Basis]:
    if place.controlled:
        return None, Basis.CONTROLLED
    light = at_leaf(place, house, day)
    if light is None:
        return None, Basis.SUN
    return light.mol_per_m2_d, Basis(light.key)


def _strengths(by_light: Case, by_reading: Case) -> tuple[float, float | None]:
    """Give the strength by light alone, and by the temperatures read where any were."""
    warmth_counts = not by_light.plant.place.controlled
    window_days = by_reading.house.temperature_window_days
    read = None
    if warmth_counts and by_reading.mean_is_dated(window_days):
        read = _unrounded(strength_of(by_reading))
    return _unrounded(strength_of(by_light)), read


def _unrounded(strength: Strength) -> float:
    """Give a strength as it stood before the house rounded it."""
    steps = [step for step in strength.steps if step.key != "rounded"]
    return steps[-1].strength_ppm_n
