"""Frozen values of a walk: its stops in order, and what is known at each of them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.services.walking import where

if TYPE_CHECKING:
    from datetime import date

    from growdesk.domain.facts import Look
    from growdesk.services.values import LookView, PhotoView


class Stop(Struct, frozen=True):
    """A plant on a walk. ``last_on`` is the day of its last look, up to the walk's.

    ``is_due`` where that look is older than a look may be, or there is none.
    """

    plant_id: int
    tag: str
    name: str
    place_id: int | None
    place: str
    bench: str
    last_on: date | None
    days_since: int | None
    is_due: bool

    @property
    def where(self) -> str:
        """Give place and bench in words."""
        return where(self.place, self.bench)


class Walkable(Struct, frozen=True):
    """All plants that can be walked to on a day, in walking order."""

    on: date
    limit_days: int
    stops: tuple[Stop, ...]

    @property
    def places(self) -> tuple[tuple[int | None, str], ...]:
        """Give the places with plants in them as they are walked."""
        found = {stop.place_id: stop.place for stop in self.stops}
        return tuple(found.items())

    def chosen(self, choice: WalkChoice) -> tuple[Stop, ...]:
        """Give the stops that a choice names."""
        return tuple(stop for stop in self.stops if choice.takes(stop))


class WalkChoice(Struct, frozen=True):
    """Which plants are walked to: of all places or one, all or those due for a look."""

    everywhere: bool = True
    place_id: int | None = None
    only_due: bool = False

    def takes(self, stop: Stop) -> bool:
        """Tell whether a plant is among them."""
        here = self.everywhere or stop.place_id == self.place_id
        return here and (stop.is_due or not self.only_due)


class AtStop(Struct, frozen=True):
    """What the form of a stop opens with.

    ``look`` is what it is filled with; ``saved_id`` is the look that was recorded on
    this walk, to be changed. ``last`` is the look before it.
    """

    look: Look
    note: str
    saved_id: int | None
    last: LookView | None
    photo: PhotoView | None
