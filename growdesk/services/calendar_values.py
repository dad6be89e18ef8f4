"""The dated jobs as they are handed out: frozen, in whole sentences."""

from __future__ import annotations

from enum import StrEnum
from typing import TYPE_CHECKING

from msgspec import Struct

if TYPE_CHECKING:
    from datetime import date

    from growdesk.domain.jobs.job import Sort
    from growdesk.services.walking import Walk


class Closed(StrEnum):
    """How a job was closed by hand."""

    DONE = "done"
    LET_GO = "let-go"


class JobRef(Struct, frozen=True):
    """What a record of a closed job is found by: the plant or place, key and day."""

    key: str
    on: date
    plant_id: int | None = None
    place_id: int | None = None


class JobLine(Struct, frozen=True):
    """One job of a plant, or of a place.

    ``until`` is the last day that still fits. ``settled`` ones close by what is written
    elsewhere, ``forecast`` ones only tell, ``floating`` ones have no day of
    their own; ``closed`` is how it was closed by hand.
    """

    ref: JobRef
    sort: Sort
    until: date | None
    tag: str
    name: str
    place: str
    title: str
    sentence: str
    walk: Walk
    settled: bool = False
    forecast: bool = False
    floating: bool = False
    closed: Closed | None = None
    closed_on: date | None = None
    note: str = ""

    @property
    def on(self) -> date:
        """Give its first day."""
        return self.ref.on

    @property
    def plant_id(self) -> int | None:
        """Give the number of its plant; of a place's job there is none."""
        return self.ref.plant_id

    def is_overdue(self, today: date) -> bool:
        """Tell whether its days have passed and it is still to be done."""
        is_open = self.closed is None and not self.forecast
        return is_open and (self.until or self.on) < today

    def is_under_way(self, today: date) -> bool:
        """Tell whether it has begun and only goes on, with nothing to be done."""
        begun = self.on <= today and (self.until is None or today <= self.until)
        return self.forecast and begun
