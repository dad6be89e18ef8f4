"""Which light a place gives its leaves, in mol m-2 d-1, and by what it is known.

What was read at the leaf goes first, then lamps, with the daylight where the place's
facing is known, then the daylight alone. A place of which none is recorded gives
nothing here, and its plants go by the sun's radiation of the season.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct, field

from growdesk.domain import window_light
from growdesk.domain.facts import Facing, Glass
from growdesk.domain.sun import dli_mol_per_m2

if TYPE_CHECKING:
    from collections.abc import Mapping
    from datetime import date

    from growdesk.domain.facts import House, Place


class Light(Struct, frozen=True):
    """A day's light at the leaf, with the key of its sentence and what it names."""

    key: str
    mol_per_m2_d: float
    values: Mapping[str, object] = field(default_factory=dict)


def at_leaf(place: Place, house: House, on: date) -> Light | None:
    """Give the light of a place on a day, or nothing where nothing of it is known."""
    read = _read(place, house, on)
    if read is not None:
        return read
    daylight = window_light.at_place(place, house, on)
    if place.lamps is None:
        return None if daylight is None else _by_day(place, daylight)
    lamps = dli_mol_per_m2(place.lamps.ppfd, place.lamps.hours)
    if daylight is None:
        return Light("season-lamps", lamps)
    values = {"lamps_dli": lamps, "daylight_dli": daylight}
    return Light("season-lamps-and-daylight", lamps + daylight, values)


def _read(place: Place, house: House, on: date) -> Light | None:
    """Give the mean of what was read in the last weeks, if it was read often enough."""
    read = [
        reading.light_mol_per_m2_d
        for reading in place.readings
        if reading.light_mol_per_m2_d is not None
        and 0 <= (on - reading.on).days <= house.light_window_days
    ]
    if len(read) < house.light_least_days:
        return None
    values = {"read_days": len(read), "days": house.light_window_days}
    return Light("season-light-read", sum(read) / len(read), values)


def _by_day(place: Place, daylight: float) -> Light:
    open_to_air = window_light.glass_of(place) is Glass.NONE
    if place.facing is Facing.OVERHEAD:
        return Light("season-open-sky" if open_to_air else "season-roof", daylight)
    key = "season-open-side" if open_to_air else "season-window"
    return Light(key, daylight, {"facing": place.facing})
