"""The decision: gates in their order, strongest first, and what became of each.

A refusal beats a permission and the particular beats the general; the order below is
that precedence, written once. The first gate that holds decides. Gates below it that
would also have held are kept with the reasons, so that nothing known is lost.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain import performance, salt_standing
from growdesk.domain.case import Case
from growdesk.domain.explain import Finding, Judgement, Reason, Role
from growdesk.domain.facts import Flowering, Verdict, Water
from growdesk.domain.kinds import Rest
from growdesk.domain.pouring import round_l
from growdesk.domain.rules import (
    growth,
    harm,
    in_leaf_late,
    leafless_rest,
    look_age,
    overruled,
    potting,
    temperature,
    unfed_rest,
)
from growdesk.domain.strength import strength_of

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Mapping
    from datetime import date

    from growdesk.domain.facts import House, Plant
    from growdesk.domain.kinds import Kind

    Gate = Callable[[Case], Finding | Reason | None]

BLOOM = "bloom"
KIND = "kind"
DATES = "dates"

# Strongest first. The two ahead of the look's age are kept apart: an old look may
# withhold, so they are asked before it; nothing after it may release on an old look.
BEFORE_LOOK: tuple[Gate, ...] = (overruled.check, leafless_rest.check)
AFTER_LOOK: tuple[Gate, ...] = (
    harm.rot,
    in_leaf_late.going_down,
    in_leaf_late.still_green,
    harm.cannot_drink,
    temperature.too_cold,
    temperature.too_hot,
    unfed_rest.check,
    potting.just_repotted,
    potting.salts,
    potting.too_soon,
    growth.idle,
    growth.not_growing,
)
# What only a kind with such a rest is asked; any other is asked of every kind.
ONLY_AT_REST: Mapping[Gate, tuple[Rest, ...]] = {
    in_leaf_late.going_down: (Rest.LEAFLESS,),
    in_leaf_late.still_green: (Rest.LEAFLESS,),
    unfed_rest.check: (Rest.UNFED, Rest.NO_NITROGEN),
    growth.idle: (Rest.NONE,),
}
_ASKED: Mapping[Rest, tuple[Gate, ...]] = {
    rest: tuple(g for g in AFTER_LOOK if rest in ONLY_AT_REST.get(g, tuple(Rest)))
    for rest in Rest
}
# All of them in the one order, for whoever tells of it.
GATES: tuple[Callable[..., Finding | Reason | None], ...] = (
    *BEFORE_LOOK,
    look_age.check,
    *AFTER_LOOK,
    growth.growing,
)


def judge(
    plant: Plant,
    kind: Kind,
    house: House,
    on: date,
    *,
    kind_known: bool = True,
    tells_salts: bool = False,
) -> Judgement:
    """Give the verdict on a plant on a day, with its reasons and its strength.

    Never raises for what is not known: that is a reason too. ``tells_salts`` adds the
    reason on where its pot may stand, which decides nothing: for a plant that is told.
    """
    case = Case(plant, kind, house, on, kind_known)
    found = list(_findings(case, list(_after_look(case))))
    decider = _first(found)
    feeds = decider.verdict is Verdict.FEED
    strength = strength_of(case, decider.factor) if feeds else None
    flush = salt_standing.flush(case) if decider.verdict is Verdict.FLUSH else None
    return Judgement(
        tag=plant.tag,
        name=plant.name,
        on=on,
        verdict=decider.verdict,
        water=decider.water,
        rule=decider.rule,
        strength=strength,
        volume_l=None if decider.water is Water.NONE else round_l(plant, house),
        reasons=(
            decider.reason,
            *decider.more,
            *(potting.flushed_twice(flush) if decider.rule == potting.SALTS else ()),
            *_beside(case, decider, found),
            *(potting.salts_estimated(case, decider) if tells_salts else ()),
            *_not_known(case, decider),
        ),
        flush_l=None if flush is None else flush.volume_l,
    )


def decider_of(
    plant: Plant, kind: Kind, house: House, on: date, *, kind_known: bool = True
) -> Finding:
    """Give only what decides: for those who ask of many altered facts.

    The gates below it are not asked, and neither strength nor reasons are made.
    """
    case = Case(plant, kind, house, on, kind_known)
    return _first(_findings(case, _after_look(case)))


def _first(found: Iterable[Finding | Reason]) -> Finding:
    return next(f for f in found if isinstance(f, Finding))


def _findings(
    case: Case, after_look: Iterable[Finding | Reason]
) -> Iterator[Finding | Reason]:
    for gate in BEFORE_LOOK:
        found = gate(case)
        if found is not None:
            yield found
    stale = look_age.check(case, lambda case: _without_look_age(case, after_look))
    if stale is not None:
        yield stale
    yield from after_look


def _after_look(case: Case) -> Iterator[Finding | Reason]:
    for gate in _ASKED[case.kind.rest]:
        found = gate(case)
        if found is not None:
            yield found
    if case.growing:
        yield growth.growing(case)


def _without_look_age(
    case: Case, after_look: Iterable[Finding | Reason] | None = None
) -> Finding:
    """Give what would decide if the last look were of today."""
    leafless = leafless_rest.check(case)
    if leafless is not None:
        return leafless
    return _first(_after_look(case) if after_look is None else after_look)


def _beside(
    case: Case, decider: Finding, found: list[Finding | Reason]
) -> list[Reason]:
    """Give what else is told beside what decided."""
    told: list[Reason] = []
    if decider.rule == overruled.RULE:
        told.append(_without_own_word(decider, found))
    if decider.rule == look_age.RULE:
        told += _trouble_seen(found)
    else:
        told += _also(case, decider, found)
    told += harm.suspects(case)
    if case.signs.in_bloom:
        told += _bloom(case, decider)
    slip = performance.slip(case) if decider.verdict is Verdict.FEED else None
    if slip is not None:
        told.append(slip)
    return told


def _trouble_seen(found: list[Finding | Reason]) -> Iterator[Reason]:
    """Give the trouble that an old look saw: rot, and no live roots."""
    for each in found:
        reason = each.reason if isinstance(each, Finding) else each
        if reason.key in harm.TOLD_HOWEVER_OLD:
            yield Reason(reason.rule, Role.SUPPORTS, reason.key, reason.values)


def _without_own_word(decider: Finding, found: list[Finding | Reason]) -> Reason:
    """Say what would be done if the grower had said nothing."""
    other = next(f for f in found if isinstance(f, Finding) and f is not decider)
    if (other.verdict, other.water) == (decider.verdict, decider.water):
        return Reason(overruled.RULE, Role.SUPPORTS, "otherwise-same", {})
    key = f"otherwise-{other.verdict.value}-{other.water.value}"
    return Reason(overruled.RULE, Role.NOT_A_REASON, key, {})


def _also(case: Case, decider: Finding, found: list[Finding | Reason]) -> list[Reason]:
    """Give what else held: on the same side it supports, else it did not decide."""
    also: list[Reason] = []
    apart = _apart(case, decider) if len(found) > 1 else ()
    for other in found:
        if isinstance(other, Reason):
            also.append(other)
        elif other is not decider and other.rule not in apart:
            same = (other.verdict, other.water) == (decider.verdict, decider.water)
            role = Role.SUPPORTS if same else Role.NOT_A_REASON
            reason = other.reason
            also.append(Reason(reason.rule, role, reason.key, reason.values))
    if case.signs.moving and not _tells_growth(decider):
        also += _growth_did_not_decide(case, decider)
    return also


def _tells_growth(decider: Finding) -> bool:
    """Tell whether what decides says itself what was seen growing."""
    of_growth = (growth.GROWING, in_leaf_late.STILL_GREEN)
    return decider.rule in of_growth or unfed_rest.names_the_shoot(decider)


def _apart(case: Case, decider: Finding) -> tuple[str, ...]:
    """Give the rules whose finding is told in another way, or not beside this one."""
    always = (growth.GROWING, growth.IDLE)
    if decider.rule == leafless_rest.RULE:
        return (*always, look_age.RULE, growth.NOT_GROWING)
    say_so_themselves = (unfed_rest.RULE, in_leaf_late.STILL_GREEN, growth.IDLE)
    if case.look is None or decider.rule in say_so_themselves:
        return (*always, growth.NOT_GROWING)
    return always


def _growth_did_not_decide(case: Case, decider: Finding) -> Iterator[Reason]:
    signs = growth.seen_growing(case)
    shoots = [key for key in signs if key.startswith("growth")]
    key, values = (shoots or signs)[0], growth.seen_on(case)
    if decider.verdict in (Verdict.FEED, Verdict.FLUSH):
        yield Reason(growth.GROWING, Role.SUPPORTS, key, values)
    elif decider.rule != potting.TOO_SOON:
        yield Reason(growth.GROWING, Role.NOT_A_REASON, f"despite-{key}", values)


def _bloom(case: Case, decider: Finding) -> Iterator[Reason]:
    """Say that bloom did not decide, unless a spike alone did."""
    if case.look is None:
        return
    if decider.rule == growth.GROWING and growth.decided_by_spike(case):
        return
    if decider.rule == unfed_rest.RULE and unfed_rest.says_budded(decider):
        in_bud = bool((case.look.flowering or frozenset()) & unfed_rest.BUDDED)
        key = "bloom-waters-only" if in_bud else "bloom-watered-only"
        yield Reason(BLOOM, Role.NOT_A_REASON, key, {})
        return
    stage = _bloom_stage(case.look.flowering or frozenset())
    now = "today" if case.look.on == case.on else "then"
    side = "fed" if decider.verdict is Verdict.FEED else "not"
    values = {"seen": case.look.on}
    yield Reason(BLOOM, Role.NOT_A_REASON, f"bloom-{stage}-{now}-{side}", values)


def _bloom_stage(flowering: frozenset[Flowering]) -> str:
    for stage in (Flowering.OPEN, Flowering.FADING):
        if stage in flowering:
            return stage.value
    return Flowering.BUDS.value


def _not_known(case: Case, decider: Finding) -> list[Reason]:
    """Tell of a kind not known, and of looks and care dated after the day."""
    told: list[Reason] = []
    by_bareness = case.kind.rest is not Rest.LEAFLESS
    if decider.rule == leafless_rest.RULE and by_bareness:
        named = "" if case.kind_known else case.plant.kind or case.plant.name
        key = "kind-unknown-bare" if named else "kind-not-given-bare"
        told.append(Reason(KIND, Role.UNKNOWN, key, {"kind": named}))
    elif not case.kind_known:
        given = case.plant.kind or case.plant.name
        key = "kind-unknown" if given else "kind-not-given"
        told.append(Reason(KIND, Role.UNKNOWN, key, {"kind": given}))
    plant, on = case.plant, case.on
    if len(case.looks) < len(plant.looks):
        seen = [look.on for look in plant.looks if look.on > on]
        if seen:
            told.append(Reason(DATES, Role.UNKNOWN, "look-later", {"seen": min(seen)}))
    if len(case.care) < len(plant.care):
        later = [care.on for care in plant.care if care.on > on]
        if later:
            told.append(Reason(DATES, Role.UNKNOWN, "care-later", {"done": min(later)}))
    return told
