"""What the charts draw, as frozen values: one plant's course, a season, a place's year.

Lengths in mm, strengths in mg N per litre (``ppm_n``), day length in hours, radiation
above the air in MJ m-2 d-1, light at the leaf in mol m-2 d-1. How any of it looks is
not known here.
"""

from __future__ import annotations

from enum import StrEnum
from typing import TYPE_CHECKING

from msgspec import Struct

if TYPE_CHECKING:
    from datetime import date

    from growdesk.domain.facts import Facing
    from growdesk.domain.performance import Part, Rate, Yardstick


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
    """What the season of a place goes by; the keys of its light's sentences."""

    SUN = "season-light"
    WINDOW = "season-window"
    ROOF = "season-roof"
    OPEN_SIDE = "season-open-side"
    OPEN_SKY = "season-open-sky"
    LAMPS = "season-lamps"
    LAMPS_AND_DAYLIGHT = "season-lamps-and-daylight"
    READ = "season-light-read"
    CONTROLLED = "season-controlled"


class FeedGiven(Struct, frozen=True):
    """One feed; its strength is None where it was not recorded."""

    on: date
    strength_ppm_n: float | None


class Length(Struct, frozen=True):
    """One length measured at a look."""

    on: date
    length_mm: float


class Span(Struct, frozen=True):
    """From the first day something was seen to the last, both included."""

    begins: date
    ends: date

    def holds(self, day: date) -> bool:
        """Tell whether a day lies inside."""
        return self.begins <= day <= self.ends


class Seen(Struct, frozen=True):
    """One course: the looks that showed it, and the spans between them."""

    course: Course
    looks: tuple[date, ...]
    spans: tuple[Span, ...]


class Growth(Struct, frozen=True):
    """The rates of one part, those without a long silence between them together.

    ``best`` is what today's rate is held against, none where neither the plant nor its
    kind has one. ``counts`` tells whether it takes the season's place on the day shown.
    """

    part: Part
    rates: tuple[tuple[Rate, ...], ...]
    best: Yardstick | None
    counts: bool

    @property
    def newest(self) -> Rate:
        """Give the newest rate."""
        return self.rates[-1][-1]


class PlantChart(Struct, frozen=True):
    """One plant from ``since`` to the day shown, both included, all oldest first.

    ``leads`` and ``roots`` hold one tuple of lengths for each that was followed;
    ``growth`` the rates of those of which one can be told.
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
    growth: tuple[Growth, ...] = ()
    moves: tuple[date, ...] = ()
    treatments: tuple[date, ...] = ()

    @property
    def is_empty(self) -> bool:
        """Tell whether nothing at all is there to be drawn."""
        return not any(
            (
                self.feeds,
                self.flushes,
                self.repots,
                self.moves,
                self.treatments,
                self.leads,
                self.roots,
                self.seen,
            )
        )


class YearDay(Struct, frozen=True):
    """One day of a place's year: the sun, and the light that it has at the leaf.

    The light is None where nothing of it is known, and in a controlled place.
    """

    on: date
    day_length_h: float
    ra_mj_per_m2_d: float
    light_mol_per_m2_d: float | None
    light_by: Basis


class SeasonDay(Struct, frozen=True):
    """One day of the year with the strength that it leaves for a kind.

    ``strength_ppm_n`` goes by light alone; ``strength_read_ppm_n`` also by the
    temperatures read, and is None where none were. Both before rounding.
    """

    year_day: YearDay
    strength_ppm_n: float
    strength_read_ppm_n: float | None

    @property
    def on(self) -> date:
        """Give the day."""
        return self.year_day.on

    @property
    def day_length_h(self) -> float:
        """Give the hours from sunrise to sunset."""
        return self.year_day.day_length_h

    @property
    def ra_mj_per_m2_d(self) -> float:
        """Give the radiation above the air."""
        return self.year_day.ra_mj_per_m2_d


class SeasonChart(Struct, frozen=True):
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
    facing: Facing | None = None

    @property
    def shown(self) -> SeasonDay:
        """Give the day shown."""
        return self.days[self.on.timetuple().tm_yday - 1]


class Strengths(Struct, frozen=True):
    """The strengths of a year for kinds that have the very same, day by day.

    Of a plant in growth with the house's full strength, before rounding; ``read`` also
    goes by the temperatures read, None on days without. ``plants`` is 0 for a class of
    light where no plant stands.
    """

    titles: tuple[str, ...]
    plants: int
    by_light: tuple[float, ...]
    read: tuple[float | None, ...]


class PlaceChart(Struct, frozen=True):
    """The year of a place, with the day shown among its days.

    ``kinds_left_out`` counts the kinds there beyond the commonest, which are drawn.
    """

    place_id: int
    place: str
    on: date
    basis: Basis
    facing: Facing | None
    latitude: float
    latitude_given: bool
    step_ppm_n: float
    full_strength_ppm_n: float
    days: tuple[YearDay, ...]
    strengths: tuple[Strengths, ...]
    kinds_left_out: int

    @property
    def number(self) -> int:
        """Give the place of the day shown among the days."""
        return self.on.timetuple().tm_yday - 1

    @property
    def shown(self) -> YearDay:
        """Give the day shown."""
        return self.days[self.number]


class ProductUsed(Struct, frozen=True):
    """What was used of one product, month by month.

    ``amounts`` are in ``unit`` (g or mL); ``grams`` are of each element, through the
    product's analysis, empty where it cannot be read.
    """

    name: str
    unit: str
    amounts: tuple[float, ...]
    grams: tuple[tuple[str, tuple[float, ...]], ...]

    def of(self, element: str) -> tuple[float, ...]:
        """Give the grams of an element month by month."""
        return dict(self.grams).get(element, (0.0,) * len(self.amounts))


class UsedChart(Struct, frozen=True):
    """The feed used by month, over twelve months up to a day; the most nitrogen first.

    ``months`` are their first days. A stock solution's use stands with its products.
    """

    on: date
    months: tuple[date, ...]
    products: tuple[ProductUsed, ...]

    @property
    def nitrogen_g(self) -> tuple[float, ...]:
        """Give the grams of nitrogen of all products month by month."""
        every = [product.of("N") for product in self.products]
        return tuple(sum(of_month) for of_month in zip(*every, strict=True)) or (
            0.0,
        ) * len(self.months)
