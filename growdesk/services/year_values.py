"""Frozen values of a year in review. Lengths in mm, strengths in mg N per litre."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct

if TYPE_CHECKING:
    from datetime import date, datetime

    from growdesk.domain.facts import Verdict
    from growdesk.domain.holding import Descent, Status


class Who(Struct, frozen=True):
    """A plant as it is named in a review."""

    plant_id: int
    tag: str
    name: str


class YearBloom(Struct, frozen=True):
    """A flowering that was open within the year; ``is_first`` here, by the record.

    ``ends`` is None while it is open, or where nobody wrote its end down.
    """

    who: Who
    begins: date
    ends: date | None
    flowers: int | None
    spikes: int | None
    award: str
    is_first: bool

    @property
    def days(self) -> int | None:
        """Give how many days it was open, both ends counted."""
        return None if self.ends is None else (self.ends - self.begins).days + 1


class YearMonth(Struct, frozen=True):
    """What was given in a month: so many plants fed, watered and flushed.

    ``nitrogen_g`` is what the feeds took of it from the shelf.
    """

    first: date
    fed: int
    clear: int
    flushed: int
    rained: int
    nitrogen_g: float


class Grown(Struct, frozen=True):
    """The longest measured of a plant this year and the year before, in mm."""

    who: Who
    lead_mm: float | None
    root_mm: float | None
    lead_before_mm: float | None
    root_before_mm: float | None

    @property
    def gain(self) -> float | None:
        """Give this year's lead over last year's; None where one is missing."""
        if self.lead_mm is None or not self.lead_before_mm:
            return None
        return self.lead_mm / self.lead_before_mm


class Came(Struct, frozen=True):
    """A plant that came: bought or given, or taken from ``parent``."""

    who: Who
    on: date
    source: str
    how: Descent | None
    parent: str


class Went(Struct, frozen=True):
    """A plant that left, and why in the grower's words."""

    who: Who
    status: Status
    on: date
    why: str


class YearPhoto(Struct, frozen=True):
    """A photo of the year and its picture's file, None where it cannot be read."""

    who: Who
    on: date
    file: str | None


class YearMark(Struct, frozen=True):
    """How often one verdict should have been another, by the grower's hindsight."""

    was: Verdict
    better: Verdict
    times: int


class YearReview(Struct, frozen=True):
    """A year of a collection, both days included.

    ``rounds`` are watering days with something on record, of ``rounds_of`` that the
    house rules had. ``photos`` are the chosen ones of ``photos_of``.
    """

    collection: str
    begins: date
    ends: date
    made_at: datetime
    growing: int
    blooms: tuple[YearBloom, ...]
    months: tuple[YearMonth, ...]
    strength_ppm_n: float | None
    grown: tuple[Grown, ...]
    came: tuple[Came, ...]
    went: tuple[Went, ...]
    repotted: tuple[tuple[Who, date], ...]
    looks: int
    looked_at: int
    rounds: int
    rounds_of: int
    marks: tuple[YearMark, ...]
    photos: tuple[YearPhoto, ...]
    photos_of: int
