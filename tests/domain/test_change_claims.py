"""Whatever is said to change a verdict does so, is the least that does, and is said."""

from __future__ import annotations

import re
from datetime import date, timedelta
from itertools import combinations
from typing import TYPE_CHECKING

from hypothesis import HealthCheck, given, settings

from growdesk.domain import day_words, sights_lost, turning_days
from growdesk.domain.case import Case
from growdesk.domain.change import would_change
from growdesk.domain.facts import House, Plant, Verdict, Water
from growdesk.domain.trials import Trials
from tests.domain.builders import cases, judged, kind_known, kind_of
from tests.domain.retold import brought_about, clauses_of, day_named

if TYPE_CHECKING:
    from collections.abc import Iterator

Facts = tuple[Plant, House, date]
Outcome = tuple[Verdict, Water | None]

FEED = (Verdict.FEED, None)
FLUSH = (Verdict.FLUSH, None)
OUTCOMES: tuple[tuple[str, Outcome], ...] = (
    ("be fed", FEED),
    ("be flushed", FLUSH),
    ("be kept dry", (Verdict.KEEP_DRY, None)),
    ("a little clear water", (Verdict.CLEAR_WATER, Water.SPARING)),
    ("the pot is light", (Verdict.CLEAR_WATER, Water.IF_DRY)),
    ("right through the pot", (Verdict.CLEAR_WATER, Water.THROUGH)),
    ("clear water", (Verdict.CLEAR_WATER, None)),
)
LARGER = {
    "root tips are seen running": (
        "its longest new root",
        "a new shoot is seen with root tips",
        "live roots are seen again",
    ),
    "a new growth is seen extending": (
        "a new shoot is seen with root tips",
        "a new growth is seen maturing",
    ),
}

any_facts = settings(
    max_examples=80, deadline=None, suppress_health_check=[HealthCheck.too_slow]
)


def told(facts: Facts) -> tuple[str, ...]:
    one, house, on = facts
    return would_change(one, kind_of(one), house, on, kind_known=kind_known(one))


def promised(sentence: str) -> Outcome:
    """Give the outcome that a sentence speaks of."""
    said = re.split(r"\bit (?:would|could) ", sentence)[1]
    return next(outcome for words, outcome in OUTCOMES if words in said)


def comes_true(facts: Facts, sentence: str, when: date) -> Outcome:
    """Give what is decided once a sentence's conditions are met, as it is promised."""
    one, house, on = facts
    made = brought_about(one, kind_of(one), house, on, sentence, when)
    got = judged(made, when, house)
    return got.verdict, got.water if promised(sentence)[1] is not None else None


def own_word(facts: Facts, sentence: str) -> bool:
    one, house, on = facts
    said = one.overrule
    assert said is not None
    after = judged(one, said.until + timedelta(days=1), house)
    return (
        day_words.day_text(said.until, on) in sentence
        and judged(one, on, house).rule == "overruled"
        and after.rule != "overruled"
    )


@any_facts
@given(facts=cases())
def test_each_claim_is_true(facts: Facts) -> None:
    for sentence in told(facts):
        if sentence.startswith("Your overrule"):
            assert own_word(facts, sentence), sentence
            continue
        when = day_named(sentence, facts[2]) or facts[2]
        assert comes_true(facts, sentence, when) == promised(sentence), sentence


@any_facts
@given(facts=cases())
def test_feed_that_follows_a_flush_follows(facts: Facts) -> None:
    for sentence in told(facts):
        if not sentence.endswith("feed follows."):
            continue
        when = day_named(sentence, facts[2]) or facts[2]
        flushed = re.sub(r"([Ii]f) ", r"\1 it has been flushed and ", sentence)
        if not clauses_of(sentence):
            flushed = re.sub(
                r" on it .*", " on, if it has been flushed, it would be fed.", sentence
            )
        assert comes_true(facts, flushed, when)[0] is Verdict.FEED, sentence


@any_facts
@given(facts=cases())
def test_a_set_is_named_only_where_none_of_its_parts_does(facts: Facts) -> None:
    for sentence in told(facts):
        clauses = clauses_of(sentence)
        when = day_named(sentence, facts[2])
        for some in _parts(clauses, dated=when is not None):
            less = f"If {' and '.join(some)}, it would {sentence.split('it would ')[1]}"
            found = comes_true(facts, less, when or facts[2])
            assert found != promised(sentence), (sentence, some)


def _parts(clauses: list[str], *, dated: bool) -> Iterator[tuple[str, ...]]:
    least = 0 if dated else 1
    for count in range(max(least, 1), len(clauses)):
        yield from combinations(clauses, count)


@any_facts
@given(facts=cases())
def test_no_two_sentences_say_the_same_fact(facts: Facts) -> None:
    sentences = told(facts)
    assert len(set(sentences)) == len(sentences) <= 3
    days = [day_named(sentence, facts[2]) for sentence in sentences]
    named = [day for day in days if day is not None]
    assert len(set(named)) == len(named)
    for one, other in combinations(sentences, 2):
        if "Your overrule" in one + other or promised(one) != promised(other):
            continue
        for smaller, larger in ((one, other), (other, one)):
            some = set(clauses_of(smaller))
            assert not some or not some < set(clauses_of(larger)), sentences
            for clause in clauses_of(smaller):
                beyond = LARGER.get(clause, ())
                alone = len(clauses_of(smaller)) == 1
                assert not alone or not any(each in larger for each in beyond), (
                    sentences
                )


@any_facts
@given(facts=cases())
def test_a_flush_is_offered_only_where_it_is_what_is_to_be_done(facts: Facts) -> None:
    one, house, on = facts
    now = judged(one, on, house)
    for sentence in told(facts):
        if "flushed with rain" in sentence:
            assert now.reasons[0].key == "water-too-salty"
        elif "it has been flushed" in sentence:
            assert now.verdict is Verdict.FLUSH


@any_facts
@given(facts=cases())
def test_a_day_far_off_is_the_end_of_something(facts: Facts) -> None:
    one, house, on = facts
    for sentence in told(facts):
        when = day_named(sentence, on)
        if when is None or (when - on).days <= 60:
            continue
        now = judged(one, on, house)
        last = max((k for k in one.looks if k.on <= on), key=lambda k: k.on)
        assert last.leaves is None or last.leaves.value not in ("yellowing", "dropping")
        fed = [care.on for care in one.care if care.what.value == "feed"]
        spoken = one.overrule is not None and when == one.overrule.until + timedelta(
            days=1
        )
        days = {(when - day).days for day in fed}
        waits = any(0 < count <= 365 for count in days)
        resting = {r.rule for r in now.reasons} & {
            "unfed-rest",
            "still-green",
            "going-down",
            "leafless-rest",
        }
        assert spoken or waits or resting, sentence


@any_facts
@given(facts=cases())
def test_what_turns_by_one_or_two_things_is_told(facts: Facts) -> None:
    """Of all that is offered, tried in full: not only of what the search went by."""
    one, house, on = facts
    case = Case(one, kind_of(one), house, on, kind_known(one))
    trials = Trials(case)
    if trials.now.verdict is Verdict.FEED:
        offered, days = tuple(sights_lost.harmful(case)), turning_days.soon(case)
    else:
        offered, days = trials.hopeful, trials.days
    now = (trials.now.verdict, trials.now.water)
    sets = [
        (some, day) for day in (None, *days) for some in [(), *((o,) for o in offered)]
    ]
    sets += [(some, None) for some in combinations(offered, 2)]
    sets.remove(((), None))
    for some, day in sets:
        got = trials.decided(some, day)
        turned = (got.verdict, got.water) != now
        turned = turned and got.verdict is not Verdict.LOOK_FIRST
        if trials.now.verdict is Verdict.FEED:
            turned = got.verdict is not Verdict.FEED and (day is None or not some)
        if turned:
            assert told(facts), ([each.key for each in some], day, got)
            return
