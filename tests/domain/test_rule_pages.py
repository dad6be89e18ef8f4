"""Each rule's page: five parts, true examples, the numbers of the house in force."""

from __future__ import annotations

import re
import string
from collections import Counter
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from growdesk.domain import judging, templates, wording
from growdesk.domain.case import Case
from growdesk.domain.change import would_change
from growdesk.domain.explain import Finding, Role
from growdesk.domain.facts import House
from growdesk.domain.facts_house import FLAGS, MONTH_DAYS, NUMBERS, WHOLE_NUMBERS
from growdesk.domain.kinds import Resume, Warmth
from growdesk.domain.pages_strength import OF_STEP, STEPS
from growdesk.domain.rule_book import (
    PAGE_OF_GATE,
    Entry,
    Part,
    book,
    gate_pages,
    rule_of,
)
from growdesk.domain.rule_pages import HOUSE_RULES, SPELT, house_numbers
from growdesk.domain.rules import growth, look_age
from growdesk.domain.worth_looking import outlived
from growdesk.domain.worth_words import faded
from growdesk.services import house_rules_calendar, kinds
from tests.domain import rule_examples
from tests.domain.builders import (
    HOUSE,
    SOUTH,
    judged,
    kind_known,
    kind_of,
    moving,
    plant,
)
from tests.domain.rule_examples import HOUSES
from tests.domain.test_judging_properties import FORBIDDEN, any_facts

if TYPE_CHECKING:
    from growdesk.domain.explain import Judgement
    from tests.domain.test_judging_properties import Facts

BOOK = {entry.page.rule: entry for entry in book(HOUSE)}
ENTRIES = tuple(pytest.param(entry, id=rule) for rule, entry in BOOK.items())
MARKS = ("http", "house rule", "House rule", "no source", "from memory", "ASHS")
SENTENCE_ENDS = re.compile(r"[.?!](?:\s|$)")


def _in_range(low: float, high: float, *, above: bool) -> st.SearchStrategy[float]:
    return st.floats(low, high, exclude_min=above)


def any_house() -> st.SearchStrategy[House]:
    """Give any house that a person may set."""
    rules: dict[str, st.SearchStrategy[Any]] = {
        name: _in_range(r.low, r.high, above=r.above) for name, r in NUMBERS.items()
    }
    rules["resume_root_mm"] |= st.none()
    for name, allowed in WHOLE_NUMBERS.items():
        rules[name] = st.integers(int(allowed.low), int(allowed.high))
    rules.update(dict.fromkeys(FLAGS, st.booleans()))
    days = st.tuples(st.integers(1, 12), st.integers(1, 28))
    rules.update(dict.fromkeys(MONTH_DAYS, days))
    return st.builds(House, **rules)


# -- every key has a page --------------------------------------------------------------


def test_every_gate_has_a_page_and_every_page_a_gate() -> None:
    assert set(PAGE_OF_GATE) == set(judging.GATES)
    assert len(judging.GATES) == len(set(judging.GATES)) >= 16


def test_no_rule_has_two_pages() -> None:
    counted = Counter(entry.page.rule for entry in book(HOUSE))
    titles = Counter(entry.page.title for entry in book(HOUSE))
    assert set(counted.values()) == set(titles.values()) == {1}


def test_every_step_that_can_be_told_has_a_page() -> None:
    assert set(OF_STEP) == set(templates.STEPS)
    assert set(OF_STEP.values()) <= set(BOOK)
    assert {page.rule for page in STEPS} <= set(OF_STEP.values())


def test_a_page_is_found_by_rule_and_by_step() -> None:
    assert rule_of("ceiling-kind-ours") == "ceiling"
    assert rule_of("idle") == growth.IDLE
    assert rule_of("rot") == "rot"


@any_facts(150)
def test_whatever_is_told_has_a_page(facts: Facts) -> None:
    one, house, on = facts
    got = judged(one, on, house)
    assert {got.rule, *(reason.rule for reason in got.reasons)} <= set(BOOK)
    assert {told.rule for told in wording.tell(got)} <= set(BOOK)
    if got.strength is not None:
        assert {rule_of(step.key) for step in got.strength.steps} <= set(BOOK)


@any_facts(150)
def test_the_steps_come_in_the_order_of_their_pages(facts: Facts) -> None:
    one, house, on = facts
    strength = judged(one, on, house).strength
    order = [page.rule for page in STEPS]
    found = [rule_of(step.key) for step in strength.steps] if strength else []
    places = [order.index(rule) for rule in found if rule in order]
    assert places == sorted(places)


@any_facts(80)
def test_a_gates_page_is_of_the_rule_that_the_gate_finds(facts: Facts) -> None:
    one, house, on = facts
    case = Case(one, kind_of(one), house, on, kind_known(one))
    for gate in judging.GATES:
        if gate is growth.growing and not case.growing:
            continue
        more = (judging._without_look_age,) if gate is look_age.check else ()
        found = gate(case, *more)
        if isinstance(found, Finding):
            assert found.rule == found.reason.rule == PAGE_OF_GATE[gate].rule


# -- where it stands -------------------------------------------------------------------


def test_what_stands_above_and_below_is_the_order_of_the_gates() -> None:
    order = tuple(page.rule for page in gate_pages())
    assert order[:3] == ("overruled", "leafless-rest", "look-out-of-date")
    assert order[-1] == "growing"
    for place, rule in enumerate(order):
        assert BOOK[rule].part is Part.GATE
        assert (*BOOK[rule].above, rule, *BOOK[rule].below) == order
        assert len(BOOK[rule].above) == place


def test_what_never_decides_stands_in_no_order() -> None:
    alone = ("order", "bloom", "kind", "dates", "would-change", "old-sign", "strength")
    for rule in alone:
        assert BOOK[rule].above == BOOK[rule].below == ()


# -- the five parts --------------------------------------------------------------------


@pytest.mark.parametrize("entry", ENTRIES)
def test_a_page_has_five_parts_that_are_whole(entry: Entry) -> None:
    page = entry.page
    assert len(page.texts()) == len(SPELT) == 5
    for text in (page.title, *page.texts()):
        assert text == text.strip()
        assert text[0] in string.ascii_uppercase + string.digits + '"'
        assert "  " not in text
        assert ".." not in text
        assert not [word for word in FORBIDDEN if word in text.lower()], text
    assert page.asks.endswith("?")
    assert all(text.endswith(".") for text in page.texts()[1:])
    assert not page.title.endswith(".")


@pytest.mark.parametrize("entry", ENTRIES)
def test_a_part_has_four_sentences_at_most(entry: Entry) -> None:
    for text in entry.page.texts()[:4]:
        assert 1 <= len(SENTENCE_ENDS.findall(text)) <= 4, text


@pytest.mark.parametrize("entry", ENTRIES)
def test_a_source_is_named_or_the_lack_of_one(entry: Entry) -> None:
    assert any(mark in entry.page.source for mark in MARKS)


@settings(max_examples=60, deadline=None)
@given(any_house())
def test_no_brace_is_left_for_any_house(house: House) -> None:
    for entry in book(house):
        for text in entry.page.texts():
            assert "{" not in text
            assert "}" not in text
            assert "None" not in text


def test_every_house_rule_but_the_weekdays_can_be_told() -> None:
    assert {*HOUSE_RULES, "watering_weekdays"} == set(House.__struct_fields__)
    assert set(HOUSE_RULES) <= set(house_numbers(HOUSE))


def test_every_house_rule_that_decides_is_spoken_of() -> None:
    """What is left decides on jugs, litres and bottles, which no page tells of."""
    spoken = {name for entry in BOOK.values() for name in entry.house_rules}
    jugs = {"jugs", "band_low", "band_high", "pot_share", "measure_off_share"}
    bottles = {"stock_share", "stock_coolest_c", "stock_keep_months"}
    dates = {each.key for each in house_rules_calendar.DECLARED}
    rain = {"rain_waters_mm"}
    assert set(HOUSE_RULES) - spoken == jugs | bottles | dates | rain


def test_numbers_carry_their_unit_and_turn_with_the_hemisphere() -> None:
    north, south = house_numbers(HOUSE), house_numbers(SOUTH)
    assert north["look_limit_days"] == "21 days"
    assert north["rooted_mm"] == "2.5 cm"
    assert north["feeds_before_flush"] == "3 feeds"
    assert north["runoff_margin_ms_per_cm"] == "0.4 mS/cm"
    assert north["band_low"] == "25 %"
    assert north["clear_sky_share_winter"] == "30 %"
    assert north["still_green_after"] == "20 December"
    assert south["still_green_after"] == "20 June"
    assert north["february"] == "February"
    assert south["february"] == "August"
    assert south["latitude"] == "37° south"


def test_a_changed_house_rule_shows_its_own_number() -> None:
    changed = {entry.page.rule: entry for entry in book(rule_examples.OTHER)}
    assert "30 days" in changed["look-out-of-date"].page.asks
    assert "21 days" in BOOK["look-out-of-date"].page.asks
    assert changed["look-out-of-date"].house_rules == ("look_limit_days",)
    assert "6 cm" in changed["leafless-rest"].page.silent


# -- the examples are true -------------------------------------------------------------


def _verdict(got: Judgement) -> str:
    return templates.VERDICTS[got.verdict.value, got.water.value]


@pytest.mark.parametrize("house", HOUSES, ids=["north", "south", "other"])
@pytest.mark.parametrize("rule", rule_examples.OF_RULE)
def test_an_example_ends_as_its_page_says(rule: str, house: House) -> None:
    make, decides = rule_examples.OF_RULE[rule]
    got = judged(*make(house), house)
    page = next(entry.page for entry in book(house) if entry.page.rule == rule)
    assert got.rule == decides
    assert _verdict(got) in page.example
    if rule not in ("order", decides):
        assert rule in {reason.rule for reason in got.reasons}


@pytest.mark.parametrize("house", HOUSES, ids=["north", "south", "other"])
def test_the_example_of_bloom_names_it_on_both_plants(house: House) -> None:
    text = next(e.page.example for e in book(house) if e.page.rule == "bloom")
    verdicts = []
    for make in rule_examples.IN_BLOOM:
        got = judged(*make(house), house)
        roles = [reason.role for reason in got.reasons if reason.rule == "bloom"]
        assert roles == [Role.NOT_A_REASON]
        verdicts.append(_verdict(got))
    assert len(set(verdicts)) == 2
    assert all(verdict in text for verdict in verdicts)


@pytest.mark.parametrize("house", HOUSES, ids=["north", "south", "other"])
def test_the_example_of_what_would_change_it_is_told(house: House) -> None:
    one, on = rule_examples.IN_BLOOM[1](house)
    text = next(e.page.example for e in book(house) if e.page.rule == "would-change")
    told = would_change(one, kind_of(one), house, on)
    assert any(text.endswith(sentence) for sentence in told)


@pytest.mark.parametrize("house", HOUSES, ids=["north", "south", "other"])
def test_the_example_of_an_old_sign_is_one(house: House) -> None:
    on = rule_examples.at(house, 12, 15)
    text = next(e.page.example for e in book(house) if e.page.rule == "old-sign")
    for days, is_old in ((15, True), (13, False)):
        one = plant("cattleya", moving(rule_examples.ago(on, days)))
        fade = outlived(judged(one, on, house), one, kind_of(one), house)
        assert (fade is not None) is is_old
        if fade is not None:
            assert f"{days} days ago" in text
            assert "they may have closed since" in text
            assert "they may have closed since" in faded(fade, on)


@pytest.mark.parametrize("house", HOUSES, ids=["north", "south", "other"])
@pytest.mark.parametrize("rule", rule_examples.OF_STEP)
def test_an_example_of_strength_leaves_what_its_page_says(
    rule: str, house: House
) -> None:
    make, key, said = rule_examples.OF_STEP[rule]
    one, on, where = make(house)
    strength = judged(one, on, where).strength
    assert strength is not None
    step = next(step for step in strength.steps if step.key == key)
    page = next(entry.page for entry in book(where) if entry.page.rule == rule)
    told = said.format_map(house_numbers(where))
    assert told in page.example
    if told.endswith("%"):
        assert f"{(step.factor or 0) * 100:.0f} %" == told
    elif rule == "rounded":
        assert step.strength_ppm_n == house.strength_step_ppm_n * 5
    else:
        assert f"{wording.number_text(step.strength_ppm_n)} ppm N" == told


def test_every_page_has_a_checked_example() -> None:
    checked = {*rule_examples.OF_RULE, *rule_examples.OF_STEP}
    checked |= {"bloom", "would-change", "old-sign"}  # by the tests above
    assert checked == set(BOOK)


def test_the_kinds_bear_out_the_limits_that_the_pages_quote() -> None:
    known = tuple(kinds.table().kinds.values())
    least = {(kind.warmth, kind.least_feed_c) for kind in known}
    assert least == {
        (Warmth.WARM, 15.0),
        (Warmth.INTERMEDIATE, 13.0),
        (Warmth.COOL, 8.0),
    }
    most = {kind.most_feed_c for kind in known}
    assert most == {32.0, 27.0}
    assert {k.most_feed_c for k in known if k.warmth is Warmth.COOL} == {27.0}
    by_length = {k.resume_root_mm for k in known if k.resume is Resume.ROOT_LENGTH}
    assert by_length == {80.0}
    idle = {k.key: k.idle_interval_days for k in known if k.idle_interval_days}
    assert idle == {"phalaenopsis": 14}
