"""Whether a plant that rests bare may stand bare by now, whatever was last seen of it.

What was seen before its rest, or before the last midwinter, is of another season. Near
the equator no month says when that is, and days stand in.
"""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING

from growdesk.domain import seasons
from growdesk.domain.kinds import Rest

if TYPE_CHECKING:
    from growdesk.domain.case import Case

EQUATOR_BARE_DAYS = 120
EQUATOR_SEASON_DAYS = 180


def may_be_bare(case: Case) -> bool:
    """Tell whether the last look is out of date and lies before the plant's rest."""
    look, age = case.look, case.look_age_days
    if case.kind.rest is not Rest.LEAFLESS or look is None or age is None:
        return False
    old = age > case.house.look_limit_days
    return old and before_rest(case, look.on, case.on)


def before_rest(case: Case, seen: date, on: date) -> bool:
    """Tell whether a rest lies between what was seen and a later look or day."""
    return seen < since_rest(case, on)


def since_rest(case: Case, on: date) -> date:
    """Give the day from which on what was seen is of the same season as a day.

    A rest that began within the days for which a look holds is not taken to have bared
    what was seen before it.
    """
    if case.near_equator:
        return on - timedelta(days=EQUATOR_BARE_DAYS)
    since = season_began(case, on)
    began = _rest_began(case, on)
    if began is None:
        return since
    return max(since, min(began, on - timedelta(days=case.house.look_limit_days)))


def season_began(case: Case, on: date) -> date:
    """Give the last midwinter up to a day, or what stands for it near the equator."""
    if case.near_equator:
        return on - timedelta(days=EQUATOR_SEASON_DAYS)
    return seasons.last_date(on, seasons.midwinter(case.house.latitude))


def _rest_began(case: Case, on: date) -> date | None:
    months = case.kind.rest_months
    if not months:
        return None
    first = (seasons.first_month(months), 1)
    return seasons.last_date(on, seasons.turned(first, case.house.latitude))
