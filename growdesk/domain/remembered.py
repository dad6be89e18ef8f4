"""How far judging looks back: two years, and the newest look however old.

What is older decides nothing, so that it need not be read: a plant of twenty years is
judged at the cost of one of two. An old look may still withhold, so the newest counts
until there is another.
"""

from __future__ import annotations

from bisect import bisect_left
from datetime import timedelta
from operator import attrgetter
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from datetime import date

    from growdesk.domain.facts import Care, Look

REMEMBERED_DAYS = 731
REMEMBERED = timedelta(days=REMEMBERED_DAYS)
_DAY = attrgetter("on")


def forget_looks(looks: list[Look], on: date) -> None:
    """Take away the looks that no longer count on a day; they stand oldest first.

    Where none is of the last two years, those of the newest look's day stay.
    """
    since = on - REMEMBERED
    if looks and looks[0].on < since:
        since = min(since, looks[-1].on)
        del looks[: bisect_left(looks, since, key=_DAY)]


def forget_care(care: list[Care], on: date) -> None:
    """Take away the care that no longer counts on a day; it stands oldest first."""
    since = on - REMEMBERED
    if care and care[0].on < since:
        del care[: bisect_left(care, since, key=_DAY)]
