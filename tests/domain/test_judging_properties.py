"""What holds of the decision whatever is known and whatever is not."""

from __future__ import annotations

import string
from datetime import date
from typing import TYPE_CHECKING

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from growdesk.domain import judging, templates, wording
from growdesk.domain.case import Case
from growdesk.domain.change import would_change
from growdesk.domain.explain import Judgement, Role
from growdesk.domain.facts import House, Plant, Verdict, Water
from growdesk.services.kinds import table
from tests.domain.builders import (
    bloom_told,
    cases,
    judged,
    kind_known,
    kind_of,
    sentences,
)

if TYPE_CHECKING:
    from collections.abc import Callable

Facts = tuple[Plant, House, date]
FORBIDDEN = (
    "active growth detected",
    "plant state",
    "factor",
    "optimal",
    "insufficient data",
    "dormancy protocol",
)
WEAK = (Verdict.FEED, Verdict.FLUSH)
BOUND = ("overruled",)


def any_facts(examples: int = 50) -> Callable[[Callable[[Facts], None]], object]:
    """Run a test on any mixture of facts."""
    slow = [HealthCheck.too_slow]
    limits = settings(max_examples=examples, deadline=None, suppress_health_check=slow)
    return lambda test: limits(given(facts=cases())(test))


def _judged(facts: Facts) -> Judgement:
    one, house, on = facts
    return judged(one, on, house)


def _last_look_age(facts: Facts) -> int | None:
    one, _, on = facts
    return min(((on - k.on).days for k in one.looks if k.on <= on), default=None)


@any_facts(120)
def test_it_never_raises_and_every_sentence_is_whole(facts: Facts) -> None:
    got = _judged(facts)
    told = sentences(got)
    assert told
    for text in told:
        assert "{" not in text
        assert "}" not in text
        assert "None" not in text
        assert "a day not recorded" not in text
        assert "nan" not in text.split()
        assert text[0] in string.ascii_uppercase + string.digits
        assert text.endswith(".")
        assert "  " not in text
        assert ".." not in text
        assert not [words for words in FORBIDDEN if words in text.lower()], text


@any_facts()
def test_one_reason_decides_and_stands_first(facts: Facts) -> None:
    got = _judged(facts)
    roles = [reason.role for reason in got.reasons]
    assert set(roles) <= set(Role)
    assert {role.value for role in Role} == {
        "decides",
        "supports",
        "not-a-reason",
        "unknown",
    }
    assert roles[0] is Role.DECIDES
    assert roles.count(Role.DECIDES) == 1
    assert got.reasons[0].rule == got.rule


@any_facts()
def test_no_sentence_is_said_twice(facts: Facts) -> None:
    told = sentences(_judged(facts))
    assert len(told) == len(set(told))


@any_facts()
def test_the_short_reason_has_six_words_at_most(facts: Facts) -> None:
    words = wording.short(_judged(facts)).split()
    assert 1 <= len(words) <= 6


@any_facts()
def test_the_order_of_what_is_recorded_changes_nothing(facts: Facts) -> None:
    one, house, on = facts
    place = replace(one.place, readings=one.place.readings[::-1])
    turned = replace(one, looks=one.looks[::-1], care=one.care[::-1], place=place)
    assert judged(turned, on, house).reasons == judged(one, on, house).reasons
    assert judged(turned, on, house).strength_ppm_n == _judged(facts).strength_ppm_n


@any_facts(30)
def test_judging_twice_is_equal(facts: Facts) -> None:
    assert _judged(facts) == _judged(facts)


@any_facts(120)
def test_an_old_look_never_releases(facts: Facts) -> None:
    _, house, _ = facts
    age = _last_look_age(facts)
    got = _judged(facts)
    if got.rule not in BOUND and (age is None or age > house.look_limit_days):
        assert got.verdict not in WEAK
        assert got.water is not Water.THROUGH


@any_facts()
def test_strength_is_given_for_feed_alone_and_stays_under_its_ceiling(
    facts: Facts,
) -> None:
    one, house, _ = facts
    got = _judged(facts)
    assert (got.strength is not None) is (got.verdict is Verdict.FEED)
    if got.strength is None:
        assert got.strength_ppm_n is None
        return
    ceilings = [house.strength_ceiling_ppm_n, got.strength.ceiling_ppm_n]
    kind = kind_of(one)
    own = one.feed_ceiling_ppm_n
    ceilings += [own] if own is not None else [kind.ceiling_ppm_n or 400.0]
    assert 0 < got.strength.ppm_n <= min(ceilings)
    assert got.strength.ppm_n >= min(house.strength_floor_ppm_n, *ceilings)


@any_facts()
def test_water_goes_with_the_verdict(facts: Facts) -> None:
    got = _judged(facts)
    if got.rule in BOUND:
        return
    allowed = {
        Verdict.FEED: {Water.THROUGH},
        Verdict.FLUSH: {Water.THROUGH},
        Verdict.KEEP_DRY: {Water.NONE},
        Verdict.LOOK_FIRST: {Water.NONE, Water.SPARING, Water.IF_DRY},
        Verdict.CLEAR_WATER: {Water.SPARING, Water.IF_DRY, Water.THROUGH},
    }
    assert got.water in allowed[got.verdict]
    assert (got.volume_l is None) or got.water is not Water.NONE


@any_facts(120)
def test_bloom_is_told_exactly_once(facts: Facts) -> None:
    """Whatever the verdict, but where a spike or buds are the deciding sign."""
    one, _, on = facts
    got = _judged(facts)
    known = sorted((k for k in one.looks if k.on <= on), key=lambda k: k.on)
    stages = known[-1].flowering if known else None
    in_bloom = bool(stages and {"buds", "open", "fading"} & set(stages))
    by_spike = got.reasons[0].key == "spike-draws-feed"
    assert len(bloom_told(got)) == (1 if in_bloom and not by_spike else 0)


@any_facts()
def test_later_looks_and_care_change_no_verdict(facts: Facts) -> None:
    one, house, on = facts
    then = replace(
        one,
        looks=tuple(look for look in one.looks if look.on <= on),
        care=tuple(care for care in one.care if care.on <= on),
    )
    got, without = _judged(facts), judged(then, on, house)
    assert (got.verdict, got.water, got.rule) == (
        without.verdict,
        without.water,
        without.rule,
    )
    assert got.strength == without.strength


@any_facts(30)
def test_what_would_change_it_is_short_and_settled(facts: Facts) -> None:
    one, house, on = facts
    kind, known = kind_of(one), kind_known(one)
    told = would_change(one, kind, house, on, kind_known=known)
    assert told == would_change(one, kind, house, on, kind_known=known)
    assert len(told) <= 3
    assert len(set(told)) == len(told)
    for sentence in told:
        assert "{" not in sentence
        assert "None" not in sentence
        assert sentence.endswith(".")


@given(st.sampled_from(sorted(templates.REASONS)))
def test_templates_are_whole_sentences(key: str) -> None:
    """Only the grower's own reason stands last, and brings its own mark."""
    text = templates.REASONS[key]
    assert text[0].isupper() or text.startswith("{")
    assert text.endswith("{why}" if key == "overruled" else ".")
    assert "  " not in text


@any_facts(80)
def test_a_gate_that_is_not_asked_of_a_kind_would_find_nothing(facts: Facts) -> None:
    one, house, on = facts
    for kind in table().kinds.values():
        case = Case(one, kind, house, on)
        for gate, rests in judging.ONLY_AT_REST.items():
            assert kind.rest in rests or gate(case) is None
