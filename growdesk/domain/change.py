"""What would change a verdict, found by judging altered facts, never by hand.

Single sights, acts and dates are tried first, in a fixed order; then two at once.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from itertools import combinations, islice
from typing import TYPE_CHECKING

from growdesk.domain import seasons, sights
from growdesk.domain.case import Case
from growdesk.domain.facts import CareKind, Verdict
from growdesk.domain.judging import judge
from growdesk.domain.kinds import Rest
from growdesk.domain.rules import growth, unfed_rest
from growdesk.domain.wording import day_text

if TYPE_CHECKING:
    from collections.abc import Iterator
    from datetime import date

    from growdesk.domain.facts import House, Plant
    from growdesk.domain.kinds import Kind
    from growdesk.domain.sights import Alteration

MOST_SENTENCES = 3

TO_FEED = "If {clause}, it would be fed."
TO_FEED_TOGETHER = {
    2: "If {} and {}, it would be fed.",
    3: "If {}, {} and {}, it would be fed.",
}
TO_FEED_FROM = "From {day} on it could be fed, if it then looks as it did last time."
TO_FEED_FROM_IF = "From {day} on, if {clause}, it would be fed."
OWN_WORD_ENDS = "Your own word holds until {day}; after that it is judged anew."
STOPS = {
    Verdict.CLEAR_WATER: "If {clause}, it would get clear water instead.",
    Verdict.KEEP_DRY: "If {clause}, it would be kept dry instead.",
    Verdict.FLUSH: "If {clause}, it would be flushed instead.",
}


def would_change(
    plant: Plant, kind: Kind, house: House, on: date, *, kind_known: bool = True
) -> tuple[str, ...]:
    """Give up to three sentences on what would alter the verdict.

    For a plant not fed: what would bring it to feed. For one that is fed: what would
    stop it. None where nothing that can be seen, done or waited for alters it.
    """
    case = Case(plant, kind, house, on, kind_known)
    found = _stops(case) if _verdict(case, plant, on) is Verdict.FEED else _starts(case)
    return tuple(islice(found, MOST_SENTENCES))


def _verdict(case: Case, plant: Plant, on: date) -> Verdict:
    return judge(plant, case.kind, case.house, on, kind_known=case.kind_known).verdict


def _fed(case: Case, plant: Plant, on: date) -> bool:
    return _verdict(case, plant, on) is Verdict.FEED


def _stops(case: Case) -> Iterator[str]:
    for one in sights.harmful(case):
        verdict = _verdict(case, one.apply(case.plant, case.on), case.on)
        if verdict in STOPS:
            yield STOPS[verdict].format(clause=one.clause())
    said = case.plant.overrule
    if said is not None and said.until >= case.on:
        yield OWN_WORD_ENDS.format(day=day_text(said.until, case.on))


def _starts(case: Case) -> Iterator[str]:
    hopeful = list(sights.hopeful(case))
    found: set[str] = set()
    for one in hopeful:
        if found.intersection(one.contains):
            continue
        if _fed(case, one.apply(case.plant, case.on), case.on):
            found.add(one.key)
            yield TO_FEED.format(clause=one.clause())
    day = _first_fed_day(case)
    if day is not None:
        yield TO_FEED_FROM.format(day=day_text(day, case.on))
    elif not found:
        yield from islice(_several_at_once(case, hopeful), 1)


def _several_at_once(case: Case, hopeful: list[Alteration]) -> Iterator[str]:
    yield from _together(case, hopeful, 2)
    for one in hopeful:
        day = _first_fed_day(case, one)
        if day is not None:
            shown = day_text(day, case.on)
            yield TO_FEED_FROM_IF.format(day=shown, clause=one.clause())
    yield from _together(case, hopeful, 3)


def _together(case: Case, hopeful: list[Alteration], count: int) -> Iterator[str]:
    for some in combinations(hopeful, count):
        plant = case.plant
        for one in some:
            plant = one.apply(plant, case.on)
        if _fed(case, plant, case.on):
            yield TO_FEED_TOGETHER[count].format(*(one.clause() for one in some))


def _first_fed_day(case: Case, sight: Alteration | None = None) -> date | None:
    """Give the first turning day on which it is fed, looking the same or as said.

    A plant whose look is out of date is not promised anything by the calendar.
    """
    if case.look is None or not sights.looked_at(case):
        return None
    place = replace(case.plant.place, readings=(), mean_temperature_c=case.mean_c(7))
    for day in sorted(set(_turning_days(case))):
        later = replace(case.look, on=day, lead_length_mm=None)
        plant = replace(case.plant, looks=(*case.plant.looks, later), place=place)
        if sight is not None:
            plant = sight.apply(plant, day)
        if day > case.on and _fed(case, plant, day):
            return day
    return None


def _fed_on(case: Case) -> date | None:
    """Give the last day of a feed, the day itself included."""
    days = [c.on for c in case.plant.care if c.what is CareKind.FEED]
    return max((day for day in days if day <= case.on), default=None)


def _turning_days(case: Case) -> Iterator[date]:
    """Give the days on which the calendar alone could turn the verdict."""
    one = timedelta(days=1)
    house = case.house
    fed_on = _fed_on(case)
    if fed_on is not None:
        yield fed_on + timedelta(days=case.feed_interval_days)
        yield fed_on + timedelta(days=growth.idle_interval_days(case))
    if any(care.on == case.on for care in case.plant.care):
        yield case.on + one
    rest_starts = unfed_rest.starts_on(case)
    if rest_starts is not None:
        yield rest_starts
    if case.repotted_on is not None:
        yield case.repotted_on + timedelta(days=house.settle_days) + one
    if case.plant.overrule is not None:
        yield case.plant.overrule.until + one
    if case.kind.rest is Rest.LEAFLESS:
        yield seasons.next_date(case.on, seasons.midsummer(house.latitude)) + one
        yield seasons.next_date(case.on, seasons.spring_equinox(house.latitude)) + one
    yield from unfed_rest.last_days(case)
