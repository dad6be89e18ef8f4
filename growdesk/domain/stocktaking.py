"""How much of a good is on hand, what it is used at, and until when it lasts.

What was counted, what came in since and what the rounds took since make what is on
hand. The rate is the season's: it goes by the same weeks of last year where they are on
record. Amounts are in the good's own unit; what a good is made of is not known here.
"""

from __future__ import annotations

import math
from datetime import timedelta
from enum import StrEnum
from typing import TYPE_CHECKING

from msgspec import Struct

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence
    from datetime import date

YEAR_DAYS = 364
"""52 whole weeks, so that a year ago was the same day of the week."""
RECENT_DAYS = 56
MOST_DAYS = 2 * YEAR_DAYS
"""How far ahead an end is told."""
_SEASON_DAYS = 28
_DUST = 1e-9


class Sort(StrEnum):
    """What sort of good stands on the shelf."""

    TIN = "tin"
    STOCK = "stock"
    WATER = "water"


class Good(Struct, frozen=True):
    """One tin (g, of a liquid mL), bottle of stock solution (mL) or water (L)."""

    sort: Sort
    key: int


class What(StrEnum):
    """What an entry of the shelf says."""

    COUNTED = "counted"
    ADDED = "added"


class Entry(Struct, frozen=True):
    """What was counted, or what came in; ``price`` is paid for what came in.

    ``after_round`` tells that the round of that day was done by then.
    """

    on: date
    what: What
    amount: float
    after_round: bool = True
    price: float | None = None


class Taken(Struct, frozen=True):
    """What was taken from the shelf on a day.

    ``for_bottle`` tells that it went into a stock bottle, not into a round.
    """

    on: date
    amount: float
    for_bottle: bool = False


class OnHand(Struct, frozen=True):
    """What is on hand by the record, and the entry that the record begins with.

    ``amount`` is below 0 where more was taken than was there.
    """

    amount: float
    since: Entry

    @property
    def there(self) -> float:
        """Give what can still be taken."""
        return max(self.amount, 0.0)

    @property
    def is_overdrawn(self) -> bool:
        """Tell whether more was taken than was counted, beyond rounding."""
        return self.amount < -1e-6 * max(self.since.amount, 1.0)


class Basis(StrEnum):
    """What a rate goes by."""

    LAST_YEAR = "last-year"
    RECENT = "recent"
    PLAN = "plan"


class Rate(Struct, frozen=True):
    """What a week takes now. ``by_day`` is the year ahead, where last year tells it."""

    per_week: float
    basis: Basis
    by_day: tuple[float, ...] = ()


def on_hand(
    entries: Iterable[Entry], taken: Iterable[Taken], on: date
) -> OnHand | None:
    """Give what is on hand at the end of a day; None where nothing was ever entered.

    Entries come in the order in which they were written. The newest count begins the
    record; what came in later on its day is on top of it. Without a count the record
    begins with the first that came in.
    """
    known = sorted((e for e in entries if e.on <= on), key=lambda entry: entry.on)
    if not known:
        return None
    counts = [n for n, entry in enumerate(known) if entry.what is What.COUNTED]
    first = counts[-1] if counts else 0
    since = known[first]
    came_in = math.fsum(e.amount for e in known[first:] if e.what is What.ADDED)
    counted = since.amount if since.what is What.COUNTED else 0.0
    after = [each for each in taken if _is_after(each, since, on)]
    of_day = [each for each in after if each.for_bottle and each.on == since.on]
    if math.fsum(each.amount for each in of_day) > counted + came_in:
        after = [each for each in after if each not in of_day]
    return OnHand(counted + came_in - math.fsum(each.amount for each in after), since)


def _is_after(taken: Taken, since: Entry, until: date) -> bool:
    if taken.on == since.on:
        return not since.after_round
    return since.on < taken.on <= until


def rate(taken: Sequence[Taken], on: date, planned_per_week: float | None) -> Rate:
    """Give what a week takes in the season of a day.

    It goes by the same weeks of last year where a year is on record, else by the mean
    of the last eight weeks, else by what is planned. The day itself is not over yet
    and does not count.
    """
    before = [each for each in taken if each.on < on]
    began = min((each.on for each in before), default=on)
    if began <= on - timedelta(days=YEAR_DAYS):
        by_day = _last_year(before, on)
        if sum(by_day) > 0:
            weeks = _SEASON_DAYS / 7
            return Rate(sum(by_day[:_SEASON_DAYS]) / weeks, Basis.LAST_YEAR, by_day)
    since = on - timedelta(days=RECENT_DAYS)
    recent = math.fsum(each.amount for each in before if each.on >= since)
    if began <= since and recent > 0:
        return Rate(recent / (RECENT_DAYS / 7), Basis.RECENT)
    return Rate(planned_per_week or 0.0, Basis.PLAN)


def _last_year(taken: Iterable[Taken], on: date) -> tuple[float, ...]:
    """Give what each day of the year ahead takes, by the day 52 weeks before it."""
    by_day = [0.0] * YEAR_DAYS
    first = on - timedelta(days=YEAR_DAYS)
    for each in taken:
        if each.on >= first:
            by_day[(each.on - first).days] += each.amount
    return tuple(by_day)


def days_left(amount: float, used: Rate) -> int | None:
    """Give the days that an amount lasts; None for more than two years, or for ever."""
    if amount <= 0:
        return 0
    if not used.by_day:
        per_day = used.per_week / 7
        days = amount / per_day if per_day > 0 else math.inf
        return math.floor(days * (1 + _DUST)) if days <= MOST_DAYS else None
    left = amount
    for day in range(MOST_DAYS):
        left -= used.by_day[day % YEAR_DAYS]
        if left < -_DUST * amount:
            return day
    return None


def unit_price(price: float | None, amount: float | None) -> float | None:
    """Give what one unit costs, of a pack and its price; None where it is not known."""
    if price is None or not amount:
        return None
    return price / amount
