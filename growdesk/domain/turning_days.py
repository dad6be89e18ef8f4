"""The days on which the calendar alone could turn a verdict, and which are promised.

A sight of today is not promised for a far day. The end of a rest, of a settle time, of
an interval or of the grower's own word is, as long as what decides can last so long.
"""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.domain import freshened, seasons
from growdesk.domain.facts import CareKind, Flowering
from growdesk.domain.kinds import Rest
from growdesk.domain.rules import growth, in_leaf_late, leafless_rest, unfed_rest

if TYPE_CHECKING:
    from collections.abc import Iterator

    from growdesk.domain.case import Case

AHEAD_DAYS = 60
ONE = timedelta(days=1)
NITROGEN_BACK = "no-nitrogen-after"
BLOOM = frozenset({Flowering.BUDS, Flowering.OPEN})


class Turn(Struct, frozen=True):
    """A day of the calendar; ``ends`` says that something that holds ends with it."""

    day: date
    ends: bool = False


def soon(case: Case) -> tuple[date, ...]:
    """Give the turning days within two months."""
    last = case.on + timedelta(days=AHEAD_DAYS)
    return tuple(sorted({t.day for t in _turns(case) if case.on < t.day <= last}))


def promised(case: Case) -> tuple[date, ...]:
    """Give the days for which something may be promised, if it looks the same then.

    None where the look is out of date.
    """
    if not freshened.looked_at(case):
        return ()
    lasts = not _cannot_last(case)
    far = {t.day for t in _turns(case) if t.ends and t.day > case.on and lasts}
    return tuple(sorted(far.union(soon(case))))


def _cannot_last(case: Case) -> bool:
    """Tell whether the plant cannot look the same for long: leaves go, flowers fade."""
    look = case.look
    if look is None:
        return True
    if look.leaves in in_leaf_late.LEAVES_GOING or growth.decided_by_spike(case):
        return True
    resting = unfed_rest.check(case)
    budded = resting is not None and unfed_rest.says_budded(resting)
    return budded and bool((look.flowering or frozenset()) & BLOOM)


def _turns(case: Case) -> Iterator[Turn]:
    house = case.house
    fed_on = _fed_on(case)
    if fed_on is not None:
        yield Turn(fed_on + timedelta(days=case.feed_interval_days), ends=True)
        yield Turn(fed_on + timedelta(days=growth.idle_interval_days(case)), ends=True)
    if any(care.on == case.on for care in case.plant.care):
        yield Turn(case.on + ONE)
    rest_starts = unfed_rest.starts_on(case)
    if rest_starts is not None:
        yield Turn(rest_starts)
        yield Turn(rest_starts - timedelta(days=house.flush_before_rest_days))
    if case.repotted_on is not None:
        settled = case.repotted_on + timedelta(days=house.settle_days) + ONE
        yield Turn(settled, ends=True)
    if case.plant.overrule is not None:
        yield Turn(case.plant.overrule.until + ONE, ends=True)
    yield from _leafless_turns(case)
    resting = unfed_rest.check(case)
    held = resting is not None and not resting.reason.key.startswith(NITROGEN_BACK)
    yield from (Turn(day, ends=held) for day in unfed_rest.last_days(case))


def _leafless_turns(case: Case) -> Iterator[Turn]:
    if case.kind.rest is not Rest.LEAFLESS:
        return
    latitude = case.house.latitude
    held = leafless_rest.check(case) is not None
    midsummer = seasons.next_date(case.on, seasons.midsummer(latitude))
    yield Turn(midsummer + ONE, ends=held)
    late = (in_leaf_late.still_green(case), in_leaf_late.going_down(case))
    equinox = seasons.next_date(case.on, seasons.spring_equinox(latitude))
    yield Turn(equinox + ONE, ends=any(found is not None for found in late))


def _fed_on(case: Case) -> date | None:
    """Give the last day of a feed, the day itself included."""
    days = [c.on for c in case.plant.care if c.what is CareKind.FEED]
    return max((day for day in days if day <= case.on), default=None)
