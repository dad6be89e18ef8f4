"""A place on one day as all its plants share it: what was read of it, and its light."""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.domain import leaf_light
from growdesk.domain.once import ByDay, once

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping
    from datetime import date

    from growdesk.domain.facts import House, Place
    from growdesk.domain.kinds import Kind
    from growdesk.domain.leaf_light import Light

    Seasonal = tuple[tuple[str, float, Mapping[str, object]], ...]

MOST_KINDS = 64
"""So many kinds are kept at a place, and their values with them; then anew."""


class Over(Struct, frozen=True):
    """The mean over some days in °C, and which of them were read, the newest first.

    Where none was read the mean is the place's own, if it has one.
    """

    mean_c: float | None
    read: tuple[date, ...]


class PlaceDay:
    """What is known of a place on a day, each reckoned when first asked for."""

    def __init__(self, place: Place, house: House, on: date) -> None:
        self.place = place
        self.house = house
        self.on = on
        self._over: dict[int, Over] = {}
        self._by_kind: dict[int, tuple[Kind, Seasonal]] = {}

    def over(self, days: int) -> Over:
        """Give the mean over some days; a reading as old as they are counts."""
        found = self._over.get(days)
        if found is None:
            found = self._over[days] = self._made(days)
        return found

    def for_kind(self, kind: Kind, made: Callable[[], Seasonal]) -> Seasonal:
        """Give what the season is for a kind here: made for the first plant of it."""
        found = self._by_kind.get(id(kind))
        if found is None:
            if len(self._by_kind) >= MOST_KINDS:
                self._by_kind.clear()
            found = self._by_kind[id(kind)] = (kind, made())
        return found[1]

    @once
    def lately_c(self) -> float | None:
        """Give the mean over the days that hold feed in cold and heat, in °C."""
        return self.over(self.house.cold_window_days).mean_c

    @once
    def light(self) -> Light | None:
        """Give the light at the leaf, where anything of it is known."""
        return leaf_light.at_leaf(self.place, self.house, self.on)

    def _made(self, days: int) -> Over:
        means = [mean for age, mean in self._aged if age <= days]
        if not means:
            return Over(self.place.mean_temperature_c, ())
        ages = sorted({age for age, _ in self._aged if age <= days})
        read = tuple(self.on - timedelta(days=age) for age in ages)
        return Over(sum(means) / len(means), read)

    @once
    def _aged(self) -> list[tuple[int, float]]:
        """Give age in days and mean in °C of each reading that can still count."""
        house, on = self.house, self.on
        oldest = max(house.temperature_window_days, house.cold_window_days)
        first = on - timedelta(days=oldest)
        return [
            ((on - reading.on).days, mean_c)
            for reading in self.place.readings
            if first <= reading.on <= on and (mean_c := reading.day_mean_c) is not None
        ]


place_day: ByDay[Place, PlaceDay] = ByDay(PlaceDay)
