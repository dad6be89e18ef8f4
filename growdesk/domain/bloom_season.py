"""When a plant opens its flowers, by the days on which it did so in other years.

A year is a circle: 28 December and 3 January lie six days apart. Mean day and spread
are those of directions on a circle (Mardia and Jupp, Directional Statistics, 2000,
sections 2.2 and 2.3: mean direction, mean resultant length R, and the circular standard
deviation, the root of -2 ln R). Every calendar day has the same place on the circle in
every year; 29 February lies half-way between its neighbours.

Some plants have two seasons a year, or none. Openings more than two months apart on
the circle are of different seasons, and a season is told from two years on. Where
openings fill the year, or a season's spread is over a month and a half, no season is
told: a mean of such days means nothing. These limits are ours, with no source.
"""

from __future__ import annotations

import cmath
import math
from datetime import date, timedelta
from itertools import pairwise
from typing import TYPE_CHECKING

from msgspec import Struct

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

YEAR_DAYS = 365.2425
"""The mean year of our calendar."""

APART_DAYS = 60.0
"""Openings further apart than this on the circle are of different seasons."""

WIDEST_DAYS = 45.0
"""A spread over this is no season."""

YEARS_BACK = 10
"""Openings longer ago than this are left out: plant, place and care were others."""

LEAST_YEARS = 2
_COMMON_DAYS = 365
_COMMON_YEAR = 2001
_FEBRUARY_29 = 59.0
_WAITED_DAYS = 14
_LEAST_STRAYS = 3
"""Fewer openings that lie apart do not show that a plant keeps to no season."""


class Round(Struct, frozen=True):
    """Days taken as directions: their mean place, how close they lie, their spread.

    ``place_days`` counts from the first midnight of the year; ``resultant`` runs from
    0, where days fill the year, to 1, where all are the same; ``spread_days`` is the
    circular standard deviation.
    """

    place_days: float
    resultant: float
    spread_days: float


class Season(Struct, frozen=True):
    """One season of a plant: its mean day, how far from it, and from which openings.

    ``openings`` are the first of each year, oldest first; years are as many.
    """

    mean: Round
    openings: tuple[date, ...]

    @property
    def years(self) -> int:
        """Give the number of years that it is told from."""
        return len(self.openings)

    @property
    def spread_days(self) -> float:
        """Give the circular standard deviation in days."""
        return self.mean.spread_days

    @property
    def apart_days(self) -> int | None:
        """Give how far apart the openings of two years lie; of more years nothing.

        From two days the deviation is half of what lies between them, and says little
        of how far off a third will be.
        """
        if self.years != LEAST_YEARS:
            return None
        first, then = (place_of(day) for day in self.openings)
        between = abs(first - then)
        return round(min(between, YEAR_DAYS - between))

    def day_in(self, year: int) -> date:
        """Give the mean day in a year."""
        return _day(self.mean.place_days, year)

    def coming(self, on: date) -> date:
        """Give the mean day that is next to be waited for on a day.

        What has opened already is not waited for; what is overdue is, for twice its
        spread and at least a fortnight.
        """
        waited = timedelta(days=max(_WAITED_DAYS, round(2 * self.spread_days)))
        half = timedelta(days=YEAR_DAYS / 2)
        last = max((day for day in self.openings if day <= on), default=None)
        year = on.year - 1
        while True:
            day = self.day_in(year)
            has_opened = last is not None and day - last < half
            if day >= on - waited and not has_opened:
                return day
            year += 1


class Coming(Struct, frozen=True):
    """The opening that is next to be waited for."""

    day: date
    season: Season

    @property
    def first_day(self) -> date:
        """Give the mean day less the spread."""
        return self.day - timedelta(days=round(self.season.spread_days))

    @property
    def last_day(self) -> date:
        """Give the mean day and the spread."""
        return self.day + timedelta(days=round(self.season.spread_days))


class Expected(Struct, frozen=True):
    """The seasons of a plant, in the order of the year; none where it keeps to none.

    ``strays`` are openings outside of them, oldest first.
    """

    seasons: tuple[Season, ...]
    strays: tuple[date, ...]

    def coming(self, on: date) -> Coming | None:
        """Give the next opening to be waited for on a day; none without a season."""
        found = [Coming(season.coming(on), season) for season in self.seasons]
        return min(found, key=lambda each: each.day, default=None)


def expected(days: Iterable[date]) -> Expected | None:
    """Give the seasons of a plant by the days its first flowers opened.

    None below two years: one flowering is no season, and two that lie apart are no
    lack of one.
    """
    openings = sorted(set(days))
    if not openings:
        return None
    first = openings[-1] - timedelta(days=round((YEARS_BACK - 0.5) * YEAR_DAYS))
    openings = [day for day in openings if day > first]
    if openings[-1] - openings[0] < timedelta(days=YEAR_DAYS / 2):
        return None
    seasons, strays = [], []
    for group in _groups(openings):
        season = _season(group)
        if season is None:
            strays += group
        else:
            seasons.append(season)
    seasons.sort(key=lambda each: each.mean.place_days)
    if not seasons and len(openings) < _LEAST_STRAYS:
        return None
    return Expected(tuple(seasons), tuple(sorted(strays)))


def round_mean(places_days: Sequence[float]) -> Round:
    """Give mean, resultant length and spread of places on the year, in days."""
    total = sum(cmath.exp(1j * place * math.tau / YEAR_DAYS) for place in places_days)
    resultant = min(1.0, abs(total) / len(places_days))
    place = cmath.phase(total) % math.tau * YEAR_DAYS / math.tau
    spread = math.inf
    if resultant > 0:
        spread = math.sqrt(-2 * math.log(resultant)) * YEAR_DAYS / math.tau
    return Round(place, resultant, spread)


def place_of(day: date) -> float:
    """Give the middle of a calendar day on the year, in days."""
    if (day.month, day.day) == (2, 29):
        number = _FEBRUARY_29
    else:
        number = day.replace(year=_COMMON_YEAR).timetuple().tm_yday - 0.5
    return number * YEAR_DAYS / _COMMON_DAYS


def _day(place_days: float, year: int) -> date:
    number = int(place_days * _COMMON_DAYS / YEAR_DAYS) % _COMMON_DAYS
    common = date(_COMMON_YEAR, 1, 1) + timedelta(days=number)
    return common.replace(year=year)


def _groups(openings: Sequence[date]) -> list[list[date]]:
    """Part openings where the year between two neighbours on the circle is silent."""
    turned = sorted(openings, key=place_of)
    places = [place_of(day) for day in turned]
    gaps = [b - a for a, b in pairwise([*places, places[0] + YEAR_DAYS])]
    cuts = [number + 1 for number, gap in enumerate(gaps) if gap > APART_DAYS]
    if not cuts:
        return [turned]
    start = cuts[-1] % len(turned)
    turned = turned[start:] + turned[:start]
    ends = sorted((cut - start) % len(turned) or len(turned) for cut in cuts)
    return [turned[a:b] for a, b in pairwise([0, *ends])]


def _season(group: Sequence[date]) -> Season | None:
    """Give the season of openings near one another, one a year, if there is one."""
    middle = round_mean([place_of(day) for day in group])
    firsts: dict[int, date] = {}
    for day in sorted(group):
        firsts.setdefault(_year_of(day, middle), day)
    if len(firsts) < LEAST_YEARS:
        return None
    mean = round_mean([place_of(day) for day in firsts.values()])
    if mean.spread_days > WIDEST_DAYS:
        return None
    return Season(mean, tuple(firsts.values()))


def _year_of(day: date, middle: Round) -> int:
    """Give the year of the mean day that a day is nearest to."""
    years = (day.year - 1, day.year, day.year + 1)
    return min(years, key=lambda year: abs(day - _day(middle.place_days, year)))
