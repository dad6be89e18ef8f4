"""What would change a verdict, found by judging altered facts, never by hand.

Single sights, acts and dates are tried first, then two at once, and three only where
nothing smaller does anything. A plant that gets no water is first told what would
bring it some; where feed is out of reach, what would let it be flushed.
"""

from __future__ import annotations

from datetime import timedelta
from itertools import combinations, islice
from typing import TYPE_CHECKING

from growdesk.domain import change_words, sights_lost, turning_days
from growdesk.domain.case import Case
from growdesk.domain.day_words import day_text
from growdesk.domain.facts import Verdict, Water
from growdesk.domain.rules import overruled
from growdesk.domain.sights import BARE, FLUSHED
from growdesk.domain.speech import tr
from growdesk.domain.trials import Found, Trials, smallest

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator
    from datetime import date

    from growdesk.domain.facts import House, Plant
    from growdesk.domain.kinds import Kind
    from growdesk.domain.sights import Alteration

    Wanted = Callable[[Found], bool]

MOST_SENTENCES = 3
WATERS = (Water.NONE, Water.SPARING, Water.IF_DRY, Water.THROUGH)


def would_change(
    plant: Plant, kind: Kind, house: House, on: date, *, kind_known: bool = True
) -> tuple[str, ...]:
    """Give up to three sentences on what would alter the verdict.

    For a plant not fed: what would bring it to feed, else to a flush, else to water;
    one without water is told of that too. For one that is fed: what would stop it.
    None where nothing that can be seen, done or waited for alters it.
    """
    trials = Trials(Case(plant, kind, house, on, kind_known))
    fed = trials.now.verdict is Verdict.FEED
    found = _stops(trials) if fed else _starts(trials)
    return tuple(islice(found, MOST_SENTENCES))


def _starts(trials: Trials) -> Iterator[str]:
    if trials.now.rule == overruled.RULE:
        yield from _after_own_word(trials)
        return
    dry = trials.now.water is Water.NONE
    waters = _first(trials, (1,), _gets_clear_water) if dry else []
    founds = _alone(trials, _fed)
    if not founds:
        founds = _first(trials, (2,), _fed)
        if dry and not waters:
            waters = _first(trials, (2,), _gets_clear_water)
    soon = [found for found in waters if found.day is None]
    late = [found for found in waters if found.day is not None]
    founds = founds or _less(trials, told=waters)
    dries = [] if dry else [one for one in trials.tier(1) if _ends_water(one)]
    more = [found for found in (*late, *dries) if found not in founds]
    for found in (*soon, *founds, *more):
        yield from _told(trials, found)


def _less(trials: Trials, told: list[Found]) -> list[Found]:
    """Give what else turns where feed is out of reach of two things."""
    now = trials.now
    if now.verdict is not Verdict.FLUSH:
        found = _first(trials, (1, 2), lambda one: one.verdict is Verdict.FLUSH)
        if found:
            return found
    if told:
        return []

    def wetter(one: Found) -> bool:
        more = WATERS.index(one.water) > WATERS.index(now.water)
        return more and _gets_clear_water(one)

    def other(one: Found) -> bool:
        turned = (one.verdict, one.water) != (now.verdict, now.water)
        return turned and one.verdict is not Verdict.LOOK_FIRST

    return (
        _first(trials, (1, 2), wetter)
        or _first(trials, (3,), _fed)
        or _first(trials, (3,), lambda one: one.verdict is Verdict.FLUSH)
        or _first(trials, (1, 2), other)
    )


def _fed(found: Found) -> bool:
    return found.verdict is Verdict.FEED


def _ends_water(found: Found) -> bool:
    """Tell whether a look that finds the plant gone to rest would end its water."""
    return BARE in found.keys and found.verdict is Verdict.KEEP_DRY


def _gets_clear_water(found: Found) -> bool:
    watered = found.water is not Water.NONE
    return found.verdict is Verdict.CLEAR_WATER and watered


def _alone(trials: Trials, wanted: Wanted) -> list[Found]:
    """Give each single thing that does it; of the dates the first."""
    founds = smallest([found for found in trials.tier(1) if wanted(found)])
    dated = [found for found in founds if found.day is not None]
    return [found for found in founds if found.day is None] + dated[:1]


def _first(trials: Trials, counts: tuple[int, ...], wanted: Wanted) -> list[Found]:
    """Give the first set that does it, of the smallest count; without a date first."""
    for count in counts:
        founds = smallest([found for found in trials.tier(count) if wanted(found)])
        if founds:
            return [min(founds, key=lambda found: found.day or trials.case.on)]
    return []


def _told(trials: Trials, found: Found) -> Iterator[str]:
    outcome = found.verdict.value
    if found.verdict is Verdict.CLEAR_WATER:
        outcome = found.water.value
    elif found.verdict is Verdict.FLUSH:
        then = trials.decided((*found.some, FLUSHED), found.day)
        outcome = "flush-then-feed" if then.verdict is Verdict.FEED else "flush"
    sentence = change_words.told(outcome, found.some, found.day, trials.case.on)
    if sentence is not None:
        yield sentence


def _after_own_word(trials: Trials) -> Iterator[str]:
    """Say from when it could be fed, else only until when the own word holds."""
    for day in trials.days:
        got = trials.decided(day=day)
        if got.verdict is Verdict.FEED:
            yield from _told(trials, Found((), day, got.verdict, got.water))
            return
    yield from _own_word(trials.case)


def _own_word(case: Case) -> Iterator[str]:
    said = case.plant.overrule
    if said is not None and overruled.check(case) is not None:
        yield tr(change_words.OWN_WORD_ENDS).format(day=day_text(said.until, case.on))


def _stops(trials: Trials) -> Iterator[str]:
    case = trials.case
    harmful = tuple(sights_lost.harmful(case))
    alone = list(_stopping(trials, [(one,) for one in harmful]))
    yield from alone or islice(_stopping(trials, combinations(harmful, 2)), 1)
    day, sentence = _stop_day(trials)
    if sentence is not None:
        yield sentence
    said = case.plant.overrule
    if said is None or day != said.until + timedelta(days=1):
        yield from _own_word(case)


def _stopping(trials: Trials, sets: Iterable[tuple[Alteration, ...]]) -> Iterator[str]:
    for some in sets:
        verdict = trials.decided(some).verdict
        if verdict in change_words.STOPS:
            clauses = change_words.joined(some)
            yield change_words.STOPS[verdict].format(clauses=clauses)


def _stop_day(trials: Trials) -> tuple[date | None, str | None]:
    """Give the first day soon on which the calendar alone would stop feed."""
    for day in turning_days.soon(trials.case):
        verdict = trials.decided(day=day).verdict
        if verdict in change_words.STOPS_FROM:
            shown = day_text(day, trials.case.on)
            return day, change_words.STOPS_FROM[verdict].format(day=shown)
    return None, None
