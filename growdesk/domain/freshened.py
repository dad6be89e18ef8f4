"""The last look as a grower would record it again on a day, if it looked the same.

Only what could still be seen is carried over. Root tips of before a repot are not, nor
a length that is to be measured anew, unless it shows that a lead stands still. The old
looks stay with the plant, so a reading of its runoff keeps its own day.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec.structs import replace

from growdesk.domain import rain, signs
from growdesk.domain.case import REPOTTING
from growdesk.domain.facts import CareKind, Health, Look
from growdesk.domain.kinds import Rest
from growdesk.domain.remembered import REMEMBERED

if TYPE_CHECKING:
    from collections.abc import Callable, Collection, Iterator
    from datetime import date

    from growdesk.domain.case import Case
    from growdesk.domain.facts import Care, Plant


def fresh_look(case: Case, on: date | None = None) -> Look:
    """Give the last look made fresh on a day, by default the day of the case.

    An old look at a kind that rests bare says nothing of its leaf or roots today.
    """
    day = on or case.on
    last = case.look
    if last is None:
        return Look(day)
    kept = _length_of_a_lead_that_stands(case)
    fresh = replace(last, on=day, lead_length_mm=kept, runoff_ec_ms_per_cm=None)
    if last.root_tips is not None and _done_since(case, REPOTTING, last.on, day):
        fresh = replace(fresh, root_tips=None)
    if last.health is not None:
        fresh = replace(fresh, health=health(case, day))
    if case.kind.rest is Rest.LEAFLESS and not looked_at(case):
        fresh = replace(fresh, leaves=None, new_leaf=None, longest_new_root_mm=None)
    return fresh


def looked(case: Case, becomes: Callable[[Look], Look]) -> Plant:
    """Give the plant looked at on the day, as last time but for what is altered."""
    look = becomes(fresh_look(case))
    return replace(case.plant, looks=(*case.plant.looks, look))


def looked_at(case: Case) -> bool:
    """Tell whether the last look is within the house's limit."""
    age = case.look_age_days
    return age is not None and age <= case.house.look_limit_days


def health(case: Case, on: date) -> frozenset[Health]:
    """Give the health last recorded, without salt burn that was washed since."""
    look = case.health_look
    found = (look.health if look is not None else None) or frozenset()
    if (
        look is not None
        and Health.SALT_BURN in found
        and _washed_since(case, look.on, on)
    ):
        return found - {Health.SALT_BURN}
    return found


def _length_of_a_lead_that_stands(case: Case) -> float | None:
    stands = case.look is not None and signs.lead_stands_still(
        case.looks, case.house.stall_days
    )
    return case.look.lead_length_mm if stands and case.look is not None else None


def _washed_since(case: Case, since: date, until: date) -> bool:
    """Tell whether salts were carried out since a look, by water, rain or a repot."""
    rained = any(
        since <= care.on < until and rain.flushes(care, case.house)
        for care in _remembered(case)
    )
    return rained or _done_since(case, (CareKind.FLUSH, *REPOTTING), since, until)


def _remembered(case: Case) -> Iterator[Care]:
    since = case.on - REMEMBERED
    return (care for care in case.plant.care if care.on >= since)


def _done_since(
    case: Case, whats: Collection[CareKind], since: date, until: date
) -> bool:
    """Tell of care since a look; of the day itself only a repot counts."""
    repotted = case.plant.repotted_on
    if repotted is not None and since <= repotted <= until:
        return True
    return any(
        since <= care.on and (care.on < until or care.what in REPOTTING)
        for care in _remembered(case)
        if care.what in whats and care.on <= until
    )
