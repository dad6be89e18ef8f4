"""Out in spring and in by autumn, by the nights that were read at the place itself.

Plants go out once its nights hold at what their warmth asks, and come in once they no
longer do. One cold night is no autumn: so many in a row are, each of them read.
"""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.domain import seasons
from growdesk.domain.jobs.job import Job, Sort
from growdesk.domain.kinds import Warmth

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping
    from datetime import date

    from growdesk.domain.facts import House

YEAR_BACK_DAYS = 760
"""How far back nights are asked for: to the turn of the year before last year's."""
_PASSED_DAYS = 14
"""A run of nights that ended longer ago than this is over, as is a last reading."""
_HALF_YEAR = timedelta(days=180)
_EQUATOR_DAYS = 60
"""Near the equator no month begins a season; so many days are looked through."""


class Outdoors(Struct, frozen=True):
    """A place under the sky: the coldest of each night read, and which plants matter.

    ``here`` are the tags of those that stand there, ``home`` of those that stood there
    within a year and are indoors now, each by the warmth of its kind.
    """

    name: str
    lows_c: Mapping[date, float]
    here: Mapping[Warmth, tuple[str, ...]]
    home: Mapping[Warmth, tuple[str, ...]]


def jobs(place: Outdoors, house: House, on: date, until: date) -> Iterator[Job]:
    """Give the moves that are due at a place, and when they came last year."""
    for warmth in Warmth:
        yield from _moves(place, warmth, house, on, until)


def _moves(
    place: Outdoors, warmth: Warmth, house: House, on: date, until: date
) -> Iterator[Job]:
    near_equator = seasons.equatorial(house.latitude, house.equatorial_band_deg)
    moves = (
        ("in", place.here, seasons.midsummer, _cold(place, warmth, house)),
        ("out", place.home, seasons.midwinter, _warm(place, warmth, house)),
    )
    for way, groups, turn, nights in moves:
        tags = groups.get(warmth, ())
        if not tags:
            continue
        begins = seasons.last_date(on, turn(house.latitude))
        if near_equator:
            begins = on - timedelta(days=_EQUATOR_DAYS)
        values: dict[str, object] = {
            "place": place.name,
            "limit_c": nights.limit_c,
            "nights": nights.wanted,
            "warmth": warmth.value,
            "tags": tags,
        }
        dated = _dated(way, nights, begins, on)
        if dated is not None and dated[0] <= until:
            day, said, last = dated
            if last is not None and near_equator:
                continue  # no season there brings it again on its day
            values = {**values, "said": said, "last": last}
            last_day = begins + _HALF_YEAR if said == "move-out" else None
            key = f"move-{way}-{warmth.value}"
            yield _job(place, key, day, values, last_day)


def _cold(place: Outdoors, warmth: Warmth, house: House) -> _Nights:
    limit_c = in_limit_c(house, warmth)
    return _Nights(
        place.lows_c,
        limit_c,
        house.nights_below,
        lambda low, limit: low < limit,
        seasons.equatorial(house.latitude, house.equatorial_band_deg),
    )


def _warm(place: Outdoors, warmth: Warmth, house: House) -> _Nights:
    limit_c = out_limit_c(house, warmth)
    return _Nights(
        place.lows_c,
        limit_c,
        house.nights_hold,
        lambda low, limit: low >= limit,
        seasons.equatorial(house.latitude, house.equatorial_band_deg),
    )


def in_limit_c(house: House, warmth: Warmth) -> float:
    """Give the night in °C below which plants of a warmth come in."""
    return {
        Warmth.WARM: house.nights_warm_c,
        Warmth.INTERMEDIATE: house.nights_intermediate_c,
        Warmth.COOL: house.nights_cool_c,
    }[warmth]


def out_limit_c(house: House, warmth: Warmth) -> float:
    """Give the night in °C at which plants of a warmth go out."""
    if warmth is Warmth.COOL:
        return house.nights_cool_out_c
    return in_limit_c(house, warmth)


class _Nights(Struct, frozen=True):
    """Nights that pass a limit, so many in a row."""

    lows_c: Mapping[date, float]
    limit_c: float
    wanted: int
    passes: Callable[[float, float], bool]
    unbroken: bool = False
    """Whether a season is followed back past where it is looked for, to its start."""

    def came(self, since: date, until: date) -> date | None:
        """Give the first day of the first season that passes.

        None where the record shows no night before it that did not: it may have come
        before it was read.
        """
        first = next(iter(self._seasons(since, until)), None)
        if first is None:
            return None
        before = (
            low for night, low in self.lows_c.items() if since <= night < first[0]
        )
        turned = any(not self.passes(low, self.limit_c) for low in before)
        return first[0] if turned else None

    def now(self, since: date, on: date) -> date | None:
        """Give the first day of the season that passes now, if one does."""
        if self.unbroken:
            since = min((*self.lows_c, since))
        seasons_found = self._seasons(since, on)
        if not seasons_found or (on - seasons_found[-1][1]).days > _PASSED_DAYS:
            return None
        return seasons_found[-1][0]

    def hold(self, on: date) -> bool:
        """Tell whether the last nights read all pass, none of them long ago."""
        last = sorted(day for day in self.lows_c if day <= on)[-self.wanted :]
        if len(last) < self.wanted or (on - last[-1]).days > _PASSED_DAYS:
            return False
        return all(self.passes(self.lows_c[day], self.limit_c) for day in last)

    def _seasons(self, since: date, until: date) -> list[tuple[date, date]]:
        """Give the first and last days on which a run was full, a fortnight apart."""
        found: list[tuple[date, date]] = []
        run = 0
        for ahead in range((until - since).days + 1):
            day = since + timedelta(days=ahead)
            low = self.lows_c.get(day)
            run = run + 1 if low is not None and self.passes(low, self.limit_c) else 0
            if run < self.wanted:
                continue
            if found and (day - found[-1][1]).days <= _PASSED_DAYS:
                found[-1] = found[-1][0], day
            else:
                found.append((day, day))
        return found


def _dated(
    way: str, nights: _Nights, begins: date, on: date
) -> tuple[date, str, date | None] | None:
    """Give the day of a move, what is said of it, and when it came last."""
    came = nights.now(begins, on)
    in_time = way == "in" or (nights.hold(on) and on <= begins + _HALF_YEAR)
    if came is not None and in_time:
        return came, f"move-{way}", None
    last = _last(nights, begins, on)
    if last is None:
        return None
    this = seasons.next_date(last + _HALF_YEAR, (last.month, last.day))
    return (this, f"move-{way}-expected", last) if on < this else None


def _last(nights: _Nights, begins: date, on: date) -> date | None:
    """Give the day it last came, in the half-year that brings it or that of last year.

    In comes with the days that shorten, out with those that lengthen.
    """
    this_year = nights.came(begins, min(on, begins + _HALF_YEAR))
    if this_year is not None:
        return this_year
    year_before = begins - timedelta(days=365)
    return nights.came(year_before, year_before + _HALF_YEAR)


def _job(
    place: Outdoors,
    key: str,
    on: date,
    values: dict[str, object],
    last_day: date | None,
) -> Job:
    forecast = str(values["said"]).endswith("-expected")
    return Job(
        key,
        Sort.MOVE,
        on,
        place=place.name,
        until=last_day,
        settled=True,
        forecast=forecast,
        values=values,
    )
