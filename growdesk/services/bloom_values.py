"""Blooms of plants: what is written of one, and what is shown."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct

if TYPE_CHECKING:
    from datetime import date

    from growdesk.domain.bloom_season import Coming, Expected


class BloomDraft(Struct, frozen=True):
    """One flowering. ``size_mm`` is the natural spread of a flower.

    ``flowers`` are all flowers of the plant, ``spikes`` what carried them.
    """

    spike_seen_on: date | None = None
    first_open_on: date | None = None
    last_faded_on: date | None = None
    flowers: int | None = None
    spikes: int | None = None
    size_mm: float | None = None
    note: str = ""
    award: str = ""

    @property
    def begins(self) -> date | None:
        """Give its earliest day."""
        days = (self.spike_seen_on, self.first_open_on, self.last_faded_on)
        return min((day for day in days if day is not None), default=None)

    @property
    def is_over(self) -> bool:
        """Tell whether its last flower has faded."""
        return self.last_faded_on is not None


class BloomView(Struct, frozen=True):
    """A flowering as recorded."""

    bloom_id: int
    draft: BloomDraft


class Proposal(Struct, frozen=True):
    """What a look says of a bloom that is not written yet.

    ``sentence`` tells it, ``action`` is what one press writes: ``draft`` as a new
    bloom, or in place of the bloom ``bloom_id``.
    """

    sentence: str
    action: str
    draft: BloomDraft
    bloom_id: int | None = None


class PlantBlooms(Struct, frozen=True):
    """The blooms of a plant, the newest first, and what its years say of the next.

    ``told`` is in sentences, empty below two years.
    """

    blooms: tuple[BloomView, ...] = ()
    expected: Expected | None = None
    coming: Coming | None = None
    told: tuple[str, ...] = ()
    proposal: Proposal | None = None


NO_BLOOMS = PlantBlooms()


class Flowered(Struct, frozen=True):
    """One flowering as who-blooms-when draws it; ``is_on`` while it is still open.

    ``opened`` tells that it begins with the day the first flower opened; without such
    a day it is drawn from the day the last one faded, and tells no season.
    """

    begins: date
    ends: date
    is_on: bool = False
    opened: bool = True


class BloomLine(Struct, frozen=True):
    """One row of who blooms when: a plant, or the plants of a kind."""

    title: str
    plants: int
    spans: tuple[Flowered, ...]
    expected: Expected | None


class WhoBlooms(Struct, frozen=True):
    """Who blooms when through the year, from ``first_month`` on, up to a day.

    ``this_month`` names plants that were in flower in the day's month in past years,
    with those years; ``now`` those in flower by the record; ``of_kinds`` tells that the
    rows are kinds; ``without`` counts plants with no bloom on record.
    """

    on: date
    first_month: int
    of_kinds: bool
    lines: tuple[BloomLine, ...]
    this_month: tuple[tuple[str, tuple[int, ...]], ...]
    now: tuple[str, ...]
    without: int
