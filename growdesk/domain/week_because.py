"""Which earlier day a day of the week hangs on, found by judging without it.

A plant is judged again with a day's care taken out, or with a missed day's planned care
put in; where verdict, water or strength come out otherwise, that day is the cause. No
rule is asked what it went by, so a new rule is covered from its first day.
"""

from __future__ import annotations

from enum import StrEnum
from typing import TYPE_CHECKING

from msgspec import Struct
from msgspec.structs import replace

from growdesk.domain.facts import CareKind
from growdesk.domain.judging import judge
from growdesk.domain.kinds import GENERAL_KEY
from growdesk.domain.week import OUTCOMES

if TYPE_CHECKING:
    from collections.abc import Callable, Collection, Sequence
    from datetime import date

    from growdesk.domain.explain import Judgement
    from growdesk.domain.facts import Care, House, Plant
    from growdesk.domain.kinds import Kind


_SINCE = {
    "feeds-at-limit": "washed",
    "feeds-at-limit-repotted": "repotted",
    "feeds-at-limit-never-washed": "ever",
}
"""What the count of feeds begins with, by the sentence that decides."""


class How(StrEnum):
    """What an earlier day did to a later one."""

    GIVEN = "given"
    MISSED = "missed"
    PASSED_BY = "passed-by"
    INSTEAD = "instead"


class Because(Struct, frozen=True):
    """The day that another hangs on, and what it gave, or by its plan ought to have.

    Where a flush is due by count, ``feeds`` is which feed that day's is ``since`` the
    pot was ``washed`` or ``repotted``, or ``ever`` where neither is on record.
    """

    on: date
    how: How
    what: CareKind
    feeds: int | None = None
    since: str = ""


class Earlier(Struct, frozen=True):
    """A walked day before the one judged, for one plant.

    ``forgone`` is the care that was planned where the record has none, or another;
    ``passed_by`` says that the plant was passed by, still damp.
    """

    on: date
    forgone: Care | None = None
    passed_by: bool = False


def because(
    plant: Plant,
    kind: Kind,
    house: House,
    judged: Judgement,
    earlier: Sequence[Earlier],
) -> Because | None:
    """Give the latest earlier day without which the plant were judged otherwise.

    ``plant`` stands as on the day judged. Where no day alone makes the difference, the
    latest of those that do so together is given.
    """
    gist = _gist(judged)

    def turns(other: Plant) -> bool:
        known = kind.key != GENERAL_KEY
        return _gist(judge(other, kind, house, judged.on, kind_known=known)) != gist

    days = sorted(earlier, key=lambda day: day.on, reverse=True)
    for day in days:
        given = _given(plant, day.on)
        bare = _without(plant, {day.on})
        if given and turns(bare):
            return _counted(Because(day.on, How.GIVEN, given[-1].what), judged)
        if day.forgone is not None and turns(_with(bare, day.forgone)):
            return Because(day.on, _how(day, given), day.forgone.what)
    return _together(plant, days, turns)


def _counted(found: Because, judged: Judgement) -> Because:
    """Add which feed it is where the count of feeds decides."""
    reason = judged.reasons[0]
    count = reason.values.get("count")
    since = _SINCE.get(reason.key)
    if since is None or found.what is not CareKind.FEED or not isinstance(count, int):
        return found
    return replace(found, feeds=count, since=since)


def _together(
    plant: Plant, days: Sequence[Earlier], turns: Callable[[Plant], bool]
) -> Because | None:
    """Give the latest of the days whose care only together makes a difference."""
    gave = {day.on: care for day in days if (care := _given(plant, day.on))}
    if len(gave) < 2 or not turns(_without(plant, set(gave))):
        return None
    feeds = {on: care for on, care in gave.items() if care[-1].what is CareKind.FEED}
    on, care = next(iter((feeds or gave).items()))
    return Because(on, How.GIVEN, care[-1].what)


def _gist(judged: Judgement) -> tuple[object, ...]:
    return judged.verdict, judged.water, judged.strength_ppm_n


def _given(plant: Plant, on: date) -> list[Care]:
    return [care for care in plant.care if care.on == on and care.what in OUTCOMES]


def _how(day: Earlier, given: Sequence[Care]) -> How:
    if day.passed_by:
        return How.PASSED_BY
    return How.INSTEAD if given else How.MISSED


def _with(plant: Plant, care: Care) -> Plant:
    return replace(plant, care=(*plant.care, care))


def _without(plant: Plant, days: Collection[date]) -> Plant:
    kept = tuple(
        care for care in plant.care if care.on not in days or care.what not in OUTCOMES
    )
    return replace(plant, care=kept)
