"""The year of one plant's place: the sun day by day, and the strength it leaves.

The strength is the judging's own chain for a plant of this kind, potting and place, as
if nothing had been looked at: its looks, care and repots are left out, since nobody
knows them for the rest of the year.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from dataclasses import replace
from datetime import date, timedelta
from typing import TYPE_CHECKING

from growdesk.domain.case import Case
from growdesk.domain.strength import strength_of
from growdesk.domain.sun import sun
from growdesk.services.chart_values import Basis, SeasonDay

if TYPE_CHECKING:
    from collections.abc import Iterable

    from growdesk.domain.explain import Strength
    from growdesk.domain.facts import House, Place, Plant, Reading
    from growdesk.domain.kinds import Kind

YEAR_DAYS = 365


def season_days(
    plant: Plant, kind: Kind, house: House, on: date
) -> tuple[SeasonDay, ...]:
    """Give the days of the year that holds ``on``; the place has its readings."""
    bare = _unlooked(plant)
    readings = _readings(plant.place.readings, on)
    read_on = [reading.on for reading in readings]
    first = date(on.year, 1, 1)
    count = (date(on.year, 12, 31) - first).days + 1
    window = timedelta(days=house.temperature_window_days)
    days = []
    for day in (first + timedelta(days=passed) for passed in range(count)):
        begins = bisect_left(read_on, day - window)
        near = readings[begins : bisect_right(read_on, day)]
        read = replace(bare, place=replace(bare.place, readings=near))
        by_light = Case(bare, kind, house, day)
        days.append(_day(by_light, Case(read, kind, house, day)))
    return tuple(days)


def basis_of(place: Place) -> Basis:
    """Give what the season of a place goes by; lamps in a window have a season too."""
    if place.controlled:
        return Basis.CONTROLLED
    by_lamps_alone = place.lamps is not None and place.facing is None
    return Basis.LAMPS if by_lamps_alone else Basis.SUN


def _unlooked(plant: Plant) -> Plant:
    place = replace(plant.place, mean_temperature_c=None, readings=())
    return replace(
        plant,
        looks=(),
        care=(),
        repotted_on=None,
        slow_release_until=None,
        place=place,
    )


def _readings(readings: Iterable[Reading], on: date) -> tuple[Reading, ...]:
    """Give the readings to the day shown, then those of a year before, oldest first."""
    kept = sorted(readings, key=lambda reading: reading.on)
    year = timedelta(days=YEAR_DAYS)
    before = (replace(reading, on=reading.on + year) for reading in kept)
    return (
        *(reading for reading in kept if reading.on <= on),
        *(reading for reading in before if reading.on > on),
    )


def _day(by_light: Case, by_reading: Case) -> SeasonDay:
    above = sun(by_light.house.latitude, by_light.on)
    strength_read = None
    warmth_counts = not by_light.plant.place.controlled
    window_days = by_reading.house.temperature_window_days
    if warmth_counts and by_reading.mean_is_dated(window_days):
        strength_read = _unrounded(strength_of(by_reading))
    return SeasonDay(
        on=by_light.on,
        day_length_h=above.sunrise_to_sunset_h,
        ra_mj_per_m2_d=above.ra_mj_per_m2_d,
        strength_ppm_n=_unrounded(strength_of(by_light)),
        strength_read_ppm_n=strength_read,
    )


def _unrounded(strength: Strength) -> float:
    """Give a strength as it stood before the house rounded it."""
    steps = [step for step in strength.steps if step.key != "rounded"]
    return steps[-1].strength_ppm_n
