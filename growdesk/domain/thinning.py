"""Which kept backups may go: thinner the older, and none because a clock was wrong.

Days, weeks and months are counted by the backups there are, never by how long ago the
clock says they were: who is away for a season loses nothing by it. A backup that is
dated to come is kept and not counted until its day has come, and where the last one
lies before the one before it, or a season after, nothing goes: that is a clock that
was set, or somebody who was away, and the next day tells.
"""

from __future__ import annotations

from enum import StrEnum
from typing import TYPE_CHECKING, TypeVar

from msgspec import Struct

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence
    from datetime import date

_Key = TypeVar("_Key", int, "date", tuple[int, int])


class Why(StrEnum):
    """What a kept backup was made for."""

    DAILY = "daily"
    BY_HAND = "by-hand"
    BEFORE_FORM = "before-form"
    BEFORE_RESTORE = "before-restore"
    BEFORE_EMPTYING = "before-emptying"


class Dated(Struct, frozen=True):
    """A sound backup as thinning sees it; a higher number was made later."""

    number: int
    day: date
    why: Why = Why.DAILY
    form: int = 0


WHOLE_DAYS = 2
"""Days of which every backup stays: a slip is mostly seen the day after."""
DAYS = 7
"""Days with one backup each: what went wrong since the last watering round."""
WEEKS = 6
"""Weeks with one each: what is missed when a plant is next repotted or in bloom."""
MONTHS = 12
"""Months with one each: a round of the seasons; each year keeps one for good."""
DOUBTFUL_DAYS = 92
"""A step between two backups that may be a wrong clock's."""
FEWEST = 5
"""However they lie, that many of the newest stay."""
NEWEST_OF = {Why.BY_HAND: 10, Why.BEFORE_RESTORE: 5, Why.BEFORE_EMPTYING: 5}
"""Asked for, or the way back from a great step: so many stay beyond the rest."""


def to_go(backups: Iterable[Dated], today: date) -> frozenset[int]:
    """Give the numbers of those that may go; the others are enough without them."""
    ordered = sorted(backups, key=lambda each: each.number, reverse=True)
    if _is_doubtful(ordered):
        return frozenset()
    past = [each for each in ordered if each.day <= today]
    staying = {each.number for each in ordered[:FEWEST]}
    staying.update(each.number for each in ordered if each.day > today)
    last_days = _newest(past, lambda each: each.day, WHOLE_DAYS)
    staying.update(each.number for each in past if each.day in last_days)
    staying.update(_first_of_each(past, lambda each: each.day, DAYS))
    staying.update(_first_of_each(past, _week, WEEKS))
    staying.update(_first_of_each(past, _month, MONTHS))
    staying.update(_first_of_each(past, lambda each: each.day.year, len(past)))
    staying.update(_of_their_own(ordered))
    return frozenset(each.number for each in ordered) - staying


def _is_doubtful(ordered: Sequence[Dated]) -> bool:
    """Tell whether the clock may have been set before the last backup was made."""
    if len(ordered) < 2:
        return False
    step = (ordered[0].day - ordered[1].day).days
    return not 0 <= step <= DOUBTFUL_DAYS


def is_due(newest: date | None, today: date) -> bool:
    """Tell whether a day has come that has no backup yet.

    A last one that is dated to come says that the clock was set back: then too.
    """
    return newest != today


def _of_their_own(ordered: Sequence[Dated]) -> Iterable[int]:
    """Give those that stay for what they were made for.

    Of each form the first and the last that was kept before leaving it stay for good.
    """
    for why, most in NEWEST_OF.items():
        yield from [each.number for each in ordered if each.why is why][:most]
    before: dict[int, list[int]] = {}
    for each in ordered:
        if each.why is Why.BEFORE_FORM:
            before.setdefault(each.form, []).append(each.number)
    for numbers in before.values():
        yield from (numbers[0], numbers[-1])


def _first_of_each(
    past: Sequence[Dated], key: Callable[[Dated], _Key], most: int
) -> Iterable[int]:
    """Give the first of each of the newest days, weeks or months.

    The first, since it stays the first when more are made in the same week.
    """
    wanted = _newest(past, key, most)
    first = {key(each): each.number for each in past}
    return [number for found, number in first.items() if found in wanted]


def _newest(
    past: Sequence[Dated], key: Callable[[Dated], _Key], most: int
) -> frozenset[_Key]:
    return frozenset(sorted({key(each) for each in past}, reverse=True)[:most])


def _week(backup: Dated) -> tuple[int, int]:
    year, week, _ = backup.day.isocalendar()
    return year, week


def _month(backup: Dated) -> tuple[int, int]:
    return backup.day.year, backup.day.month
