"""What would change a verdict, found by judging altered facts, never by hand.

Single sights, acts and dates are tried first, in a fixed order; then two at once, and
three only where nothing smaller does. A plant kept dry is first told what would bring
it water, which comes before feed.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from itertools import combinations, islice
from typing import TYPE_CHECKING

from growdesk.domain import seasons, sights
from growdesk.domain.case import Case
from growdesk.domain.facts import CareKind, Verdict, Water
from growdesk.domain.judging import decider_of
from growdesk.domain.kinds import Rest
from growdesk.domain.rules import growth, overruled, unfed_rest
from growdesk.domain.wording import day_text

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence
    from datetime import date

    from growdesk.domain.explain import Finding
    from growdesk.domain.facts import House, Plant
    from growdesk.domain.kinds import Kind
    from growdesk.domain.sights import Alteration

MOST_SENTENCES = 3
STOP_AHEAD_DAYS = 60

TO_FEED = "If {clause}, it would be fed."
TO_FEED_TOGETHER = {
    2: "If {} and {}, it would be fed.",
    3: "If {}, {} and {}, it would be fed.",
}
TO_FEED_FROM = "From {day} on it could be fed, if it then looks as it did last time."
TO_FEED_FROM_IF = {
    1: "From {day} on, if {}, it would be fed.",
    2: "From {day} on, if {} and {}, it would be fed.",
}
TO_WATER = {
    Water.SPARING: "If {clause}, it would get a little clear water.",
    Water.IF_DRY: "If {clause}, it would get clear water, if the pot is light.",
    Water.THROUGH: "If {clause}, it would get clear water, right through the pot.",
}
OWN_WORD_ENDS = "Your own word holds until {day}; after that it is judged anew."
STOPS = {
    Verdict.CLEAR_WATER: "If {clause}, it would get clear water instead.",
    Verdict.KEEP_DRY: "If {clause}, it would be kept dry instead.",
    Verdict.FLUSH: "If {clause}, it would be flushed instead.",
}
STOPS_FROM = {
    Verdict.CLEAR_WATER: "From {day} on it would get clear water, even if it looks as "
    "it does now.",
    Verdict.KEEP_DRY: "From {day} on it would be kept dry, even if it looks as it does "
    "now.",
    Verdict.FLUSH: "From {day} on it would be flushed before it is fed again.",
}


def would_change(
    plant: Plant, kind: Kind, house: House, on: date, *, kind_known: bool = True
) -> tuple[str, ...]:
    """Give up to three sentences on what would alter the verdict.

    For a plant not fed: what would bring it to feed, and one kept dry also to water.
    For one that is fed: what would stop it. None where nothing that can be seen, done
    or waited for alters it.
    """
    case = Case(plant, kind, house, on, kind_known)
    found = _stops(case) if _verdict(case, plant, on) is Verdict.FEED else _starts(case)
    return tuple(islice(found, MOST_SENTENCES))


def _decider(case: Case, plant: Plant, on: date) -> Finding:
    return decider_of(plant, case.kind, case.house, on, kind_known=case.kind_known)


def _verdict(case: Case, plant: Plant, on: date) -> Verdict:
    return _decider(case, plant, on).verdict


def _gets_clear_water(finding: Finding) -> bool:
    return finding.verdict is Verdict.CLEAR_WATER and finding.water in TO_WATER


def _fed(case: Case, plant: Plant, on: date) -> bool:
    return _verdict(case, plant, on) is Verdict.FEED


def _stops(case: Case) -> Iterator[str]:
    for one in sights.harmful(case):
        verdict = _verdict(case, one.apply(case.plant, case.on), case.on)
        if verdict in STOPS:
            yield STOPS[verdict].format(clause=one.clause())
    yield from _stop_day(case)
    yield from _own_word(case)


def _own_word(case: Case) -> Iterator[str]:
    """Say until when the grower's own word holds, where it does."""
    said = case.plant.overrule
    if said is not None and overruled.check(case) is not None:
        yield OWN_WORD_ENDS.format(day=day_text(said.until, case.on))


def _stop_day(case: Case) -> Iterator[str]:
    """Give the first day soon on which the calendar alone would stop feed."""
    horizon = case.on + timedelta(days=STOP_AHEAD_DAYS)
    for day in sorted(set(_turning_days(case))):
        if not case.on < day <= horizon:
            continue
        verdict = _verdict(case, _looking_the_same(case, day), day)
        if verdict in STOPS_FROM:
            yield STOPS_FROM[verdict].format(day=day_text(day, case.on))
            return


def _after_own_word(case: Case) -> Iterator[str]:
    """Say from when it could be fed, else only until when the own word holds."""
    day = _first_fed_day(case, _days_to_come(case))
    if day is None:
        yield from _own_word(case)
    else:
        yield TO_FEED_FROM.format(day=day_text(day, case.on))


def _starts(case: Case) -> Iterator[str]:
    if overruled.check(case) is not None:
        yield from _after_own_word(case)
        return
    hopeful = list(sights.hopeful(case))
    kept_dry = _verdict(case, case.plant, case.on) is Verdict.KEEP_DRY
    waters: list[str] = []
    feeds: list[str] = []
    found: set[str] = set()
    for one in hopeful:
        if found.intersection(one.contains):
            continue
        got = _decider(case, one.apply(case.plant, case.on), case.on)
        if got.verdict is Verdict.FEED:
            found.add(one.key)
            feeds.append(TO_FEED.format(clause=one.clause()))
        elif kept_dry and not waters and _gets_clear_water(got):
            waters.append(TO_WATER[got.water].format(clause=one.clause()))
    yield from waters
    yield from feeds
    days = _days_to_come(case)
    day = _first_fed_day(case, days)
    if day is not None:
        yield TO_FEED_FROM.format(day=day_text(day, case.on))
    elif not found:
        yield from islice(_several_at_once(case, hopeful, days), 1)


def _several_at_once(
    case: Case, hopeful: list[Alteration], days: list[tuple[date, Plant]]
) -> Iterator[str]:
    yield from _together(case, hopeful, 2)
    yield from _from_a_day_on(case, hopeful, days, 1)
    yield from _together(case, hopeful, 3)
    yield from _from_a_day_on(case, hopeful, days, 2)


def _from_a_day_on(
    case: Case,
    hopeful: list[Alteration],
    days: list[tuple[date, Plant]],
    count: int,
) -> Iterator[str]:
    for some in combinations(hopeful, count):
        day = _first_fed_day(case, days, some)
        if day is not None:
            shown = day_text(day, case.on)
            clauses = (one.clause() for one in some)
            yield TO_FEED_FROM_IF[count].format(*clauses, day=shown)


def _together(case: Case, hopeful: list[Alteration], count: int) -> Iterator[str]:
    for some in combinations(hopeful, count):
        plant = case.plant
        for one in some:
            plant = one.apply(plant, case.on)
        if _fed(case, plant, case.on):
            yield TO_FEED_TOGETHER[count].format(*(one.clause() for one in some))


def _days_to_come(case: Case) -> list[tuple[date, Plant]]:
    """Give the turning days ahead, each with the plant looking the same then.

    A plant whose look is out of date is not promised anything by the calendar.
    """
    if not sights.looked_at(case):
        return []
    days = sorted({day for day in _turning_days(case) if day > case.on})
    return [(day, _looking_the_same(case, day)) for day in days]


def _first_fed_day(
    case: Case, days: list[tuple[date, Plant]], some: Sequence[Alteration] = ()
) -> date | None:
    """Give the first of some days on which it is fed, as it looks or with sights."""
    for day, looking_the_same in days:
        plant = looking_the_same
        for one in some:
            plant = one.apply(plant, day)
        if _fed(case, plant, day):
            return day
    return None


def _looking_the_same(case: Case, day: date) -> Plant:
    """Give the plant looked at on a later day as it did last time, as warm as now."""
    mean_c = case.mean_c(case.house.cold_window_days)
    place = replace(case.plant.place, readings=(), mean_temperature_c=mean_c)
    looks = case.plant.looks
    if case.look is not None:
        unmeasured = {"lead_length_mm": None, "runoff_ec_ms_per_cm": None}
        looks = (*looks, replace(case.look, on=day, **unmeasured))
    return replace(case.plant, looks=looks, place=place)


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
        yield rest_starts - timedelta(days=house.flush_before_rest_days)
    if case.repotted_on is not None:
        yield case.repotted_on + timedelta(days=house.settle_days) + one
    if case.plant.overrule is not None:
        yield case.plant.overrule.until + one
    if case.kind.rest is Rest.LEAFLESS:
        yield seasons.next_date(case.on, seasons.midsummer(house.latitude)) + one
        yield seasons.next_date(case.on, seasons.spring_equinox(house.latitude)) + one
    yield from unfed_rest.last_days(case)
