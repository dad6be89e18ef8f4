"""What the charts draw, as frozen values: one plant's course, and one year's season.

Lengths in mm, strengths in mg N per litre (``ppm_n``), day length in hours, radiation
above the air in MJ m-2 d-1. How any of it looks is not known here.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from datetime import date


class Course(StrEnum):
    """What looks show over a stretch of time, in the order it is drawn."""

    IN_FLOWER = "in-flower"
    SPIKE = "spike"
    EMERGING = "emerging"
    EXTENDING = "extending"
    MATURING = "maturing"
    NEW_LEAF = "new-leaf"
    ROOT_TIPS = "root-tips"


class Basis(StrEnum):
    """What the season of a place goes by."""

    SUN = "sun"
    LAMPS = "lamps"
    CONTROLLED = "controlled"


@dataclass(frozen=True, slots=True)
class FeedGiven:
    """One feed; its strength is None where it was not recorded."""

    on: date
    strength_ppm_n: float | None


@dataclass(frozen=True, slots=True)
class Length:
    """One length measured at a look."""

    on: date
    length_mm: float


@dataclass(frozen=True, slots=True)
class Span:
    """From the first day something was seen to the last, both included."""

    begins: date
    ends: date


@dataclass(frozen=True, slots=True)
class Seen:
    """One course: the looks that showed it, and the spans between them."""

    course: Course
    looks: tuple[date, ...]
    spans: tuple[Span, ...]


@dataclass(frozen=True, slots=True)
class PlantChart:
    """One plant from ``since`` to the day shown, both included, all oldest first.

    ``leads`` and ``roots`` hold one tuple of lengths for each that was followed.
    """

    plant_id: int
    tag: str
    name: str
    since: date
    on: date
    feeds: tuple[FeedGiven, ...]
    flushes: tuple[date, ...]
    repots: tuple[date, ...]
    leads: tuple[tuple[Length, ...], ...]
    roots: tuple[tuple[Length, ...], ...]
    seen: tuple[Seen, ...]

    @property
    def is_empty(self) -> bool:
        """Tell whether nothing at all is there to be drawn."""
        return not any(
            (
                self.feeds,
                self.flushes,
                self.repots,
                self.leads,
                self.roots,
                self.seen,
            )
        )


@dataclass(frozen=True, slots=True)
class SeasonDay:
    """One day of the year: the sun, and the strength that it leaves.

    ``strength_ppm_n`` goes by light alone; ``strength_read_ppm_n`` also by the
    temperatures read, and is None where none were. Both before rounding.
    """

    on: date
    day_length_h: float
    ra_mj_per_m2_d: float
    strength_ppm_n: float
    strength_read_ppm_n: float | None


@dataclass(frozen=True, slots=True)
class SeasonChart:
    """The year of a plant's place, for its kind, with the day shown among its days."""

    plant_id: int
    tag: str
    name: str
    on: date
    kind_title: str
    place: str
    basis: Basis
    latitude: float
    latitude_given: bool
    step_ppm_n: float
    days: tuple[SeasonDay, ...]

    @property
    def shown(self) -> SeasonDay:
        """Give the day shown."""
        return self.days[self.on.timetuple().tm_yday - 1]
