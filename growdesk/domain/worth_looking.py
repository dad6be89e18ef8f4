"""How likely a look today is to change what is done with a plant today.

Each thing a sign may have become is judged by the judging itself, on the last look made
fresh with that one sign altered. The chances of those that alter the verdict, or how to
water, are joined as independent ones. Where no sign alone alters it, two together are
asked: all that moves come to rest, or a growth and root tips both begun.

The number ranks plants; it is no forecast. It never shrinks as a look ages while the
last look still counts; once it is out of date, what the bench would decide is held
against what is done until it is looked at.
"""

from __future__ import annotations

from math import prod
from typing import TYPE_CHECKING

from msgspec import Struct
from msgspec.structs import replace

from growdesk.domain import fading, fading_hold, fading_pairs, freshened
from growdesk.domain.bare_by_now import may_be_bare
from growdesk.domain.case import Case
from growdesk.domain.facts import Leaves, Verdict, Water
from growdesk.domain.judging import decider_of, judge
from growdesk.domain.kinds import Rest
from growdesk.domain.rules import overruled

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping
    from datetime import date

    from growdesk.domain.explain import Judgement
    from growdesk.domain.facts import House, Look, Plant
    from growdesk.domain.fading import Fade
    from growdesk.domain.kinds import Kind

EVEN_ODDS = 0.5
LOOKED_LONG_AGO = "looked-long-ago"
NEVER_LOOKED = "never-looked"
MAY_BE_BARE = "may-be-bare"
TIPS_NONE = "tips-none"

Decided = tuple[Verdict, Water]


class Worth(Struct, frozen=True):
    """How likely (0 to 1) a look alters today's verdict, by which sign, to what.

    ``key`` and ``values`` make the sentence; ``age_days`` and ``holds_days`` are of the
    sign. ``turns_to`` is what would most likely be decided.
    """

    likelihood: float
    key: str
    values: Mapping[str, object]
    age_days: int | None
    holds_days: float | None
    chance: float
    verdict: Verdict
    water: Water
    turns_to: Decided | None


class _Found(Struct, frozen=True):
    """What a sign may have become, how likely, and what would then be decided."""

    key: str
    chance: float
    decided: Decided
    fade: Fade | None = None


def worth_looking(
    plant: Plant,
    kind: Kind,
    house: House,
    on: date,
    *,
    judgement: Judgement | None = None,
) -> Worth:
    """Give what a look at a plant is worth on a day.

    ``judgement`` is the day's own where it is at hand. A dozen judgements at most.
    """
    case = Case(plant, kind, house, on)
    now = judgement or judge(plant, kind, house, on)
    if now.rule == overruled.RULE:
        return _nothing(now)
    if case.look is None:
        return _never_looked(case, now)
    done_until = _done_until(now)
    if now.verdict is Verdict.LOOK_FIRST and may_be_bare(case):
        return _may_be_bare(case, now)
    fresh = _decided(case, _as_last_time(case))
    found = list(_found(case))
    if now.verdict is Verdict.LOOK_FIRST and fresh != done_until:
        return _looked_long_ago(case, now, found, fresh)
    same = (done_until, fresh)
    return _joined(case, now, _where(case, found, lambda d: d not in same))


def signs_of(case: Case) -> tuple[Fade, ...]:
    """Give every sign of the last look with how long it holds for the kind."""
    return (
        *fading.of_growth(case),
        *fading.of_tips(case),
        *fading.of_flowering(case),
        *fading_hold.of_hold(case),
    )


def most_faded(case: Case, turning: str = "") -> Fade | None:
    """Give the sign that has most probably moved on, if one has outlived its time.

    The sign of the key ``turning`` comes before all others. A pot dries in days, and
    its weight is felt before every watering; it is left out.
    """
    faded = [fade for fade in signs_of(case) if fade.key != "pot"]
    gone = [fade for fade in faded if fade.chance(case.on) >= EVEN_ODDS]
    return max(
        gone,
        key=lambda fade: (fade.key == turning, fade.chance(case.on), fade.key),
        default=None,
    )


def outlived(
    judgement: Judgement, plant: Plant, kind: Kind, house: House
) -> Fade | None:
    """Give the sign to name beside a verdict, since it has probably moved on.

    The one that would turn the verdict if there is such a one. Nothing where the whole
    look is out of date, or where the grower has decided.
    """
    if judgement.verdict is Verdict.LOOK_FIRST or judgement.rule == overruled.RULE:
        return None
    on = judgement.on
    case = Case(plant, kind, house, on)
    if most_faded(case) is None:
        return None
    worth = worth_looking(plant, kind, house, on, judgement=judgement)
    return most_faded(case, worth.key)


def _found(case: Case) -> Iterator[_Found]:
    """Give what each sign may have become, with what would then be decided."""
    for fade in signs_of(case):
        if fade.seen >= case.on:
            continue
        plant = freshened.looked(case, fade.becomes)
        yield _Found(fade.key, fade.chance(case.on), _decided(case, plant), fade)


def _together(case: Case) -> Iterator[_Found]:
    """Give what several signs at once may have become, and what that decides."""
    for both in fading_pairs.together(case):
        plant = freshened.looked(case, both.becomes)
        yield _Found(both.key, both.chance, _decided(case, plant))


def _where(
    case: Case, found: list[_Found], wanted: Callable[[Decided], bool]
) -> list[_Found]:
    """Give what leads to a wanted decision; several signs at once where none does."""
    alone = [f for f in found if wanted(f.decided)]
    return alone or [f for f in _together(case) if wanted(f.decided)]


def _joined(case: Case, now: Judgement, turning: list[_Found]) -> Worth:
    likelihood = 1.0 - prod(1.0 - f.chance for f in turning)
    if likelihood <= 0.0:
        return _nothing(now)
    turns_to = _likeliest(turning)
    to_it = [f for f in turning if f.decided == turns_to]
    best = max(to_it, key=lambda f: (f.chance, f.key))
    return _told(case, now, _both_named(best, to_it), likelihood)


def _both_named(best: _Found, to_it: list[_Found]) -> _Found:
    """Let one sentence name growth and root tips where both were looked for in vain."""
    if not best.key.startswith(TIPS_NONE):
        return best
    waking = best.key.removeprefix(TIPS_NONE)
    for part in ("growth", "leaf"):
        if any(found.key == f"{part}-none{waking}" for found in to_it):
            return replace(best, key=f"{part}-and-{best.key}")
    return best


def _likeliest(turning: list[_Found]) -> Decided:
    """Give the decision that most of the chance leads to."""
    sums: dict[Decided, float] = {}
    for found in turning:
        sums[found.decided] = sums.get(found.decided, 0.0) + found.chance
    return max(sums, key=lambda decided: (sums[decided], decided))


def _looked_long_ago(
    case: Case, now: Judgement, found: list[_Found], fresh: Decided
) -> Worth:
    """Weigh that it still shows what it did, which would be dealt with otherwise.

    Where nothing that it may have become leads to what is done, nothing is to have
    changed at all.
    """
    done_until = _done_until(now)
    gone = _where(case, found, lambda decided: decided == done_until) or found
    likelihood = prod(1.0 - f.chance for f in gone) if gone else EVEN_ODDS
    if likelihood <= 0.0:
        return _nothing(now)
    return _told(case, now, _Found(LOOKED_LONG_AGO, likelihood, fresh), likelihood)


def _told(case: Case, now: Judgement, best: _Found, likelihood: float) -> Worth:
    fade = best.fade
    seen = case.look.on if case.look is not None else None
    if fade is not None:
        seen = fade.seen
    return Worth(
        likelihood=likelihood,
        key=best.key,
        values={"seen": seen, **({} if fade is None else fade.values)},
        age_days=None if seen is None else (case.on - seen).days,
        holds_days=None if fade is None else fade.holds_days,
        chance=best.chance,
        verdict=now.verdict,
        water=now.water,
        turns_to=best.decided,
    )


def _nothing(now: Judgement) -> Worth:
    return Worth(0.0, "", {}, None, None, 0.0, now.verdict, now.water, None)


def _done_until(now: Judgement) -> Decided:
    """Give what is done with the plant today, looked at or not."""
    if now.verdict is not Verdict.LOOK_FIRST:
        return now.verdict, now.water
    dry = now.water is Water.NONE
    return (Verdict.KEEP_DRY if dry else Verdict.CLEAR_WATER), now.water


def _decided(case: Case, plant: Plant) -> Decided:
    decider = decider_of(plant, case.kind, case.house, case.on)
    return decider.verdict, decider.water


def _as_last_time(case: Case) -> Plant:
    return freshened.looked(case, lambda look: look)


def _never_looked(case: Case, now: Judgement) -> Worth:
    """Give each thing that a first look may show, and that it shows nothing, alike."""
    leafless = case.kind.rest is Rest.LEAFLESS
    key = f"{NEVER_LOOKED}-leafless" if leafless else NEVER_LOOKED
    return _first_looks(case, now, key, list(fading_pairs.first_sights(case)))


def _may_be_bare(case: Case, now: Judgement) -> Worth:
    """Give that it is in leaf, bare with long roots, and bare at rest, alike."""
    rooted = list(fading_pairs.first_sights(case))
    bare = [replace(look, leaves=Leaves.LEAFLESS) for look in rooted]
    return _first_looks(case, now, MAY_BE_BARE, [*rooted, *bare])


def _first_looks(case: Case, now: Judgement, key: str, looks: list[Look]) -> Worth:
    share = 1.0 / (len(looks) + 1)
    found = [_Found(key, share, _decided(case, _first_look(case, k))) for k in looks]
    turning = [f for f in found if f.decided != _done_until(now)]
    if not turning:
        return _nothing(now)
    best = _Found(key, share, _likeliest(turning))
    return _told(case, now, best, share * len(turning))


def _first_look(case: Case, look: Look) -> Plant:
    return replace(case.plant, looks=(*case.plant.looks, look))
