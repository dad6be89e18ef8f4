"""The days of a plant's rest by the calendar, as the judging itself has them.

Whether a rest really holds on a day is asked of the rule that judges it, so that
calendar and verdict cannot disagree.
"""

from __future__ import annotations

import dataclasses
from datetime import date, timedelta
from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.domain import seasons
from growdesk.domain.facts import Size
from growdesk.domain.kinds import Rest
from growdesk.domain.rules import unfed_rest

if TYPE_CHECKING:
    from collections.abc import Iterator

    from growdesk.domain.case import Case

ONE = timedelta(days=1)
_YEAR = timedelta(days=366)


class Span(Struct, frozen=True):
    """Whole days from ``begin`` to ``end``, both included."""

    begin: date
    end: date

    def has(self, on: date) -> bool:
        """Tell whether a day lies within."""
        return self.begin <= on <= self.end


def at(case: Case, on: date) -> Case:
    """Give the same plant on another day, by what is on record today."""
    return dataclasses.replace(case, on=on)


def spans(case: Case, until: date) -> Iterator[Span]:
    """Give the rests that the calendar knows of, from that of a year ago on.

    None near the equator, for a seedling, or for a plant that ignores its rest.
    """
    if case.near_equator or case.plant.ignores_rest:
        return
    if case.kind.rest is not Rest.LEAFLESS and case.plant.size is Size.SEEDLING:
        return
    if case.kind.rest in (Rest.UNFED, Rest.NO_NITROGEN):
        yield from _judged(case, until)
    elif case.kind.rest is not Rest.NONE:
        yield from _by_months(case, until)


def holds(case: Case) -> bool:
    """Tell whether a rest that the calendar has today holds for the plant as seen."""
    if case.kind.rest is Rest.REDUCED:
        return not case.signs.moving
    return unfed_rest.check(case) is not None


def _judged(case: Case, until: date) -> Iterator[Span]:
    begin = unfed_rest.starts_on(at(case, case.on - _YEAR))
    while begin is not None and begin <= until:
        after = next(unfed_rest.last_days(at(case, begin)))
        yield Span(begin, after - ONE)
        begin = unfed_rest.starts_on(at(case, after))


def _by_months(case: Case, until: date) -> Iterator[Span]:
    months = seasons.turned_months(case.kind.rest_months, case.house.latitude)
    first = (seasons.first_month(months), 1)
    last = seasons.last_of_month(seasons.last_month(months))
    begin = seasons.next_date(case.on - _YEAR, first)
    while begin <= until:
        end = seasons.next_date(begin, last)
        yield Span(begin, end)
        begin = seasons.next_date(end + ONE, first)
