"""What is on hand, what a week takes, until when it lasts: worked out by hand."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from growdesk.domain import shortage
from growdesk.domain import stocktaking_words as words
from growdesk.domain.analysis import parse_analysis
from growdesk.domain.product import Product
from growdesk.domain.shortage import JugNeed, Short, StandIn
from growdesk.domain.stocktaking import (
    YEAR_DAYS,
    Basis,
    Entry,
    OnHand,
    Rate,
    Taken,
    What,
    days_left,
    on_hand,
    rate,
    unit_price,
)

ON = date(2026, 5, 20)
COUNTED, ADDED = What.COUNTED, What.ADDED


def day(ago: int) -> date:
    return ON - timedelta(days=ago)


def weekly(amount: float, first: int, last: int) -> list[Taken]:
    """Give a round every seventh day, from so many days ago to so many days ago."""
    return [Taken(day(ago), amount) for ago in range(first, last - 1, -7)]


def there(entries: list[Entry], taken: list[Taken], on: date = ON) -> float:
    found = on_hand(entries, taken, on)
    assert found is not None
    return found.amount


def test_what_is_on_hand_is_the_last_count_and_all_since() -> None:
    entries = [
        Entry(day(60), COUNTED, 900),
        Entry(day(20), COUNTED, 420),
        Entry(day(9), ADDED, 1000, price=12.5),
    ]
    taken = [Taken(day(30), 50), Taken(day(14), 14.5), Taken(day(7), 15.5)]
    # 420 + 1000 - 14.5 - 15.5; what went before the count is in the count
    assert there(entries, taken) == pytest.approx(1390)
    assert there(entries, taken, day(25)) == pytest.approx(850)
    assert there(entries, taken, day(60)) == pytest.approx(900)
    assert on_hand(entries, taken, day(61)) is None
    assert on_hand([], taken, ON) is None


def test_a_count_is_before_or_after_the_round_of_its_day() -> None:
    taken = [Taken(ON, 14)]
    assert there([Entry(ON, COUNTED, 420, after_round=True)], taken) == 420
    assert there([Entry(ON, COUNTED, 420, after_round=False)], taken) == 406


def test_a_bottle_of_the_same_day_is_in_a_count_that_could_not_have_filled_it() -> None:
    taken = [Taken(ON, 12.5, for_bottle=True), Taken(ON, 1)]
    counted = Entry(ON, COUNTED, 12.5, after_round=False)
    assert there([counted], taken) == -1
    left_over = Entry(ON, COUNTED, 12.4, after_round=False)
    assert there([left_over], taken) == pytest.approx(11.4)
    assert there([Entry(day(1), COUNTED, 12.4)], taken) == pytest.approx(-1.1)


def test_what_came_in_on_the_day_of_a_count_counts_if_written_after_it() -> None:
    count, bought = Entry(ON, COUNTED, 100), Entry(ON, ADDED, 500)
    assert there([count, bought], []) == 600
    assert there([bought, count], []) == 100


def test_never_counted_it_goes_by_all_that_came_in() -> None:
    entries = [Entry(day(30), ADDED, 500), Entry(day(3), ADDED, 250)]
    found = on_hand(entries, [Taken(day(40), 9), Taken(day(10), 20)], ON)
    assert found is not None
    assert found.amount == 730
    assert found.since == entries[0]


def test_more_used_than_counted_is_said_and_never_shown_below_nothing() -> None:
    found = on_hand([Entry(day(8), COUNTED, 10)], [Taken(day(1), 12)], ON)
    assert found is not None
    assert (found.amount, found.there, found.is_overdrawn) == (-2, 0, True)
    emptied = on_hand([Entry(day(8), COUNTED, 0.3)], weekly(0.1, 7, 0), ON)
    assert emptied is not None
    rounded = OnHand(-5e-17, Entry(day(8), COUNTED, 0.3))
    assert not rounded.is_overdrawn


@given(
    st.lists(
        st.tuples(
            st.integers(0, 40),
            st.sampled_from(What),
            st.floats(0, 1000),
            st.booleans(),
        ),
        max_size=6,
    ),
    st.lists(st.tuples(st.integers(0, 40), st.floats(0, 100)), max_size=8),
    st.integers(0, 40),
)
def test_a_newer_count_forgets_all_before_it(
    entries: list[tuple[int, What, float, bool]],
    taken: list[tuple[int, float]],
    counted: int,
) -> None:
    known = [
        Entry(day(ago), what, amount, is_after)
        for ago, what, amount, is_after in entries
    ]
    went = [Taken(day(ago), amount) for ago, amount in taken]
    count = Entry(day(counted), COUNTED, 77.0)
    before = [entry for entry in known if entry.on <= count.on]
    found = on_hand([*before, count], went, count.on)
    assert found is not None
    assert found.since == count
    assert found.amount == 77.0
    later = on_hand([*before, count], went, ON)
    assert later is not None
    since = sum(amount for ago, amount in taken if ago < counted)
    assert later.amount == pytest.approx(77.0 - since)


def test_the_rate_goes_by_the_same_weeks_last_year() -> None:
    # a year ago 21 g a week in these four weeks, 7 g a week in the last eight
    last_year = weekly(21.0, YEAR_DAYS, YEAR_DAYS - 21)
    taken = [*weekly(5.0, YEAR_DAYS + 70, YEAR_DAYS + 7), *last_year]
    taken += weekly(7.0, 56, 7)
    used = rate(taken, ON, 99.0)
    assert used.basis is Basis.LAST_YEAR
    assert used.per_week == pytest.approx(21.0)
    # 84 g went in the four weeks, then nothing until the last eight: 56 g more
    assert days_left(83.9, used) == 21
    assert days_left(84.0, used) == YEAR_DAYS - 56
    assert days_left(139.9, used) == YEAR_DAYS - 7
    # the year after goes the same way again
    assert days_left(140.0, used) == YEAR_DAYS
    assert days_left(280.0, used) is None


def test_without_a_year_it_goes_by_eight_weeks_then_by_the_plan() -> None:
    used = rate(weekly(14.0, 56, 7), ON, 99.0)
    assert used.basis is Basis.RECENT
    assert used.per_week == pytest.approx(14.0)
    assert rate(weekly(14.0, 49, 7), ON, 9.0) == Rate(9.0, Basis.PLAN)
    assert rate([], ON, None) == Rate(0.0, Basis.PLAN)
    # today's round may be half ticked: it is no part of the rate
    ticked = [*weekly(14.0, 56, 7), Taken(ON, 3.0)]
    assert rate(ticked, ON, 99.0).per_week == pytest.approx(14.0)
    # used a year ago and never since: nothing of that year is told as a rate
    assert rate([Taken(day(500), 9.0)], ON, 8.0) == Rate(8.0, Basis.PLAN)


@pytest.mark.parametrize("rounds", range(1, 40))
def test_so_many_rounds_last_so_many_rounds(rounds: int) -> None:
    """Whatever a tenth adds up to in floating point."""
    by_day = tuple(0.1 if day % 7 == 0 else 0.0 for day in range(YEAR_DAYS))
    there = round(0.1 * rounds, 1)
    assert days_left(there, Rate(0.1, Basis.LAST_YEAR, by_day)) == 7 * rounds
    assert days_left(there, Rate(0.1, Basis.PLAN)) == 7 * rounds


def test_days_left_at_an_even_rate() -> None:
    # 420 g at 14 g a week are 30 weeks
    used = Rate(14.0, Basis.RECENT)
    assert days_left(420, used) == 210
    assert days_left(1.9, used) == 0
    assert days_left(0, used) == days_left(-3, used) == 0
    assert days_left(14.0 * 104, used) == 728
    assert days_left(14.0 * 105, used) is None
    assert days_left(420, Rate(0.0, Basis.PLAN)) is None


@given(st.floats(0, 5000), st.floats(0, 5000), st.lists(st.floats(0, 50), min_size=2))
def test_more_on_hand_never_lasts_shorter(
    less: float, more: float, weeks: list[float]
) -> None:
    taken = [Taken(day(YEAR_DAYS - 7 * n), each) for n, each in enumerate(weeks[:50])]
    used = rate(taken, ON, 10.0)
    found = [days_left(amount, used) for amount in sorted((less, more))]
    if found[0] is None:
        assert found[1] is None
    elif found[1] is not None:
        assert found[0] <= found[1]


def test_what_a_unit_costs() -> None:
    assert unit_price(12.5, 1000) == pytest.approx(0.0125)
    assert unit_price(None, 1000) is None
    assert unit_price(3.0, None) is None
    assert unit_price(0.0, 500) == 0.0


JUGS = [JugNeed("A", 4.0, 8.0), JugNeed("B", 3.0, 0.0), JugNeed("C", 6.0, 6.0)]


@pytest.mark.parametrize(
    ("on_shelf", "whole", "part"),
    [
        (14.0, ("A", "C"), None),
        (9.0, ("A",), ("C", 1.0)),
        (8.0, ("A",), None),
        (2.0, (), ("A", 1.0)),
        (0.0, (), None),
        (-4.0, (), None),
    ],
)
def test_what_the_rest_still_makes(
    on_shelf: float, whole: tuple[str, ...], part: tuple[str, float] | None
) -> None:
    assert shortage.reaches(JUGS, on_shelf) == (whole, part)


@given(
    st.lists(st.tuples(st.floats(0.1, 20), st.floats(0, 50)), max_size=6),
    st.floats(-5, 200),
)
def test_no_more_is_promised_than_is_there(
    jugs: list[tuple[float, float]], on_shelf: float
) -> None:
    needs = [JugNeed(chr(65 + n), *each) for n, each in enumerate(jugs)]
    whole, part = shortage.reaches(needs, on_shelf)
    amounts = {need.letter: need.amount for need in needs}
    litres = {need.letter: need.volume_l for need in needs}
    taken = sum(amounts[letter] for letter in whole)
    if part is not None:
        assert 0 < part[1] < litres[part[0]]
        taken += amounts[part[0]] * part[1] / litres[part[0]]
    # each whole jug may lack what nobody could measure
    slight = 0.005 * sum(amounts.values())
    assert taken <= max(on_shelf, 0.0) + slight + 1e-9
    served = [need.letter for need in needs if need.amount > 0]
    assert list(whole) == served[: len(whole)]
    if not shortage.is_short(sum(amounts.values()), on_shelf):
        assert taken == pytest.approx(sum(amounts.values()), rel=0.02)


def test_short_is_only_what_can_be_measured() -> None:
    assert shortage.is_short(14.0, 9.0)
    assert shortage.is_short(14.0, -2.0)
    assert not shortage.is_short(14.0, 14.0)
    assert not shortage.is_short(14.0, 13.94)
    assert not shortage.is_short(0.0, 0.0)


def tin(name: str, analysis: str, density: float | None = None) -> Product:
    return Product(name, parse_analysis(analysis, density), key=1)


GREEN = tin("Green tin", "20-20-20")


def test_a_tin_much_like_it_that_reaches_can_stand_in() -> None:
    others = [
        (tin("Salt", "13-0-46"), 5000.0),
        (tin("Epsom salt", "Mg 9.8"), 5000.0),
        (tin("Old tin", "20-20-20"), 3.0),
        (tin("Blue tin", "18-18-18"), 40.0),
        (tin("Bloom tin", "10-30-20"), 400.0),
    ]
    # 14 g at 20 % N hold 2.8 g N; at 18 % that is 15.6 g
    found = shortage.stand_in(GREEN, 14.0, others)
    assert found is not None
    assert (found.name, found.unit, found.there) == ("Blue tin", "g", 40.0)
    assert found.needed == pytest.approx(2.8 / 0.18)
    assert shortage.stand_in(GREEN, 14.0, others[:3]) is None
    liquid = tin("Bottle", "7-7-7", 1.25)
    bottle = shortage.stand_in(GREEN, 14.0, [(liquid, 500.0)])
    assert bottle is not None
    assert (bottle.name, bottle.unit, bottle.there) == ("Bottle", "mL", 500.0)
    assert bottle.needed == pytest.approx(2.8 / 0.07 / 1.25)
    assert shortage.stand_in(tin("PK", "0-52-34"), 14.0, others) is None


def test_likeness_is_of_the_elements_not_of_how_much_there_is() -> None:
    calcium = tin("Calcium nitrate", "15.5-0-0 Ca 19")
    assert shortage.alike(tin("PK", "0-52-34"), calcium) == 0
    assert shortage.alike(GREEN, tin("Weak", "5-5-5")) == pytest.approx(1.0)
    assert shortage.alike(GREEN, tin("Salt", "13-0-46")) < shortage.ALIKE
    assert shortage.alike(GREEN, tin("Iron", "0-0-0 + 6 Fe")) == 0.0


def test_words_of_a_shortage() -> None:
    other = StandIn("Blue tin", "g", 15.6, 40.0)
    short = Short(
        "Green tin", "g", 14.0, 9.0, whole=("A",), part=("C", 1.0), stand_in=other
    )
    assert words.short_text(short) == (
        "Green tin runs short: the round needs 14 g, 9 g is on hand. "
        "That makes jug A and 1 L of jug C. "
        "Blue tin could take its place: about 16 g, and 40 g is on hand."
    )
    empty = Short("Rain", "L", 12.5, 0.0)
    assert words.short_text(empty) == "Rain is used up: the round needs 12.5 L."
    rest = Short(
        "Bottle", "mL", 30.0, 29.6, True, whole=("A", "B", "C"), part=("D", 0.98)
    )
    assert words.short_text(rest) == (
        "Bottle runs short: the rest of the round needs 30 mL, 29.6 mL is on hand. "
        "That makes jugs A, B and C and 980 mL of jug D."
    )


def test_words_of_a_shortage_that_the_record_cannot_explain() -> None:
    told = words.short_text(Short("Salt", "g", 3.0, 0.0, is_overdrawn=True))
    assert told == (
        "Salt is used up by the record, and more was used than was counted; count it "
        "again. The round needs 3 g."
    )


def test_words_of_what_is_on_hand() -> None:
    counted = OnHand(420, Entry(ON, COUNTED, 420))
    assert words.began(counted, "g", ON) == "Counted today: 420 g, after the round."
    before = OnHand(1, Entry(day(8), COUNTED, 5.5, after_round=False))
    assert words.began(before, "mL", ON) == (
        "Counted on 12 May: 5.5 mL, before the round."
    )
    came = OnHand(1500, Entry(day(2), ADDED, 1500, after_round=False))
    assert words.began(came, "g", ON) == "Never counted; 1.5 kg came in on 18 May."
    assert words.began(None, "g", ON) == words.NEVER_COUNTED


def test_words_of_a_rate_and_an_end() -> None:
    assert words.rate_text(Rate(14.2, Basis.LAST_YEAR), "g") == (
        "14 g a week, as in these weeks last year."
    )
    assert words.rate_text(Rate(0.0, Basis.PLAN), "g") == words.NOT_USED
    assert words.lasts_text(12, ON, 1.0) == (
        "Lasts until about 1 June, 12 days from now."
    )
    assert words.lasts_text(210, ON, 1.0) == (
        "Lasts until about 16 December 2026, 210 days from now."
    )
    assert words.lasts_text(None, ON, 1.0) == "Lasts more than two years."
    assert words.lasts_text(0, ON, 1.0) == "Does not last beyond today."
    assert words.lasts_text(0, ON, 0.0) == "Nothing is left."


def test_words_of_what_is_on_hand_and_what_that_goes_by() -> None:
    counted = OnHand(420, Entry(day(1), COUNTED, 1000))
    assert words.hand_text(counted, "g", ON) == (
        "420 g on hand. Counted on 19 May: 1 kg, after the round."
    )
    over = OnHand(-2, Entry(ON, COUNTED, 10, after_round=False))
    assert words.hand_text(over, "mL", ON) == (
        "Counted today: 10 mL, before the round. More was used than was counted; count "
        "it again."
    )
    assert words.hand_text(None, "g", ON) == "Not counted yet."
    assert words.spoon_text("1/4 teaspoon", 1.34) == (
        "A level 1/4 teaspoon holds 1.3 g of it."
    )


@pytest.mark.parametrize("after_round", [True, False])
@pytest.mark.parametrize(("ago", "when"), [(0, "today"), (2, "on 18 May")])
def test_what_came_in_is_told_without_the_round(
    ago: int, when: str, *, after_round: bool
) -> None:
    came = OnHand(500, Entry(day(ago), ADDED, 500, after_round))
    assert words.began(came, "g", ON) == f"Never counted; 500 g came in {when}."


@pytest.mark.parametrize(
    ("basis", "told"),
    [
        (Basis.RECENT, "4.5 L a week, as in the last eight weeks."),
        (Basis.PLAN, "4.5 L a week, as planned now."),
    ],
)
def test_a_rate_says_what_it_goes_by(basis: Basis, told: str) -> None:
    assert words.rate_text(Rate(4.5, basis), "L") == told


def test_a_good_that_no_week_takes_is_not_used() -> None:
    assert words.rate_text(Rate(0.0, Basis.RECENT), "g") == "Not used now."
    assert words.rate_text(Rate(0.01, Basis.RECENT), "g").startswith("0.01 g a week")


@pytest.mark.parametrize(
    ("amount", "unit", "told"),
    [
        (0.994, "g", "0.99 g"),
        (1.04, "g", "1 g"),
        (9.94, "g", "9.9 g"),
        (10.4, "g", "10 g"),
        (999, "g", "999 g"),
        (1000, "g", "1 kg"),
        (1256, "g", "1.26 kg"),
        (1256, "mL", "1256 mL"),
        (0.25, "mL", "0.25 mL"),
        (0.25, "L", "250 mL"),
        (9.94, "L", "9.94 L"),
        (10.04, "L", "10 L"),
        (19.4, "L", "19.4 L"),
        (20.4, "L", "20 L"),
    ],
)
def test_amounts_are_told_as_finely_as_they_are_counted(
    amount: float, unit: str, told: str
) -> None:
    assert words.amount_text(amount, unit) == told


def test_two_amounts_that_differ_are_not_told_alike() -> None:
    assert words.told_apart(1204, 1201, "g") == ("1204 g", "1201 g")
    assert words.told_apart(30, 29.6, "mL") == ("30 mL", "29.6 mL")
    assert words.told_apart(30, 29.996, "mL") == ("30 mL", "29.996 mL")
    assert words.told_apart(5, 5, "g") == ("5 g", "5 g")


def short_of(*, there: float = 0.0, is_rest: bool = False, over: bool = False) -> Short:
    return Short("Tin", "g", 14.0, there, is_rest, over)


@pytest.mark.parametrize(
    ("short", "told"),
    [
        (
            short_of(there=9),
            "Tin runs short: the round needs 14 g, 9 g is on hand.",
        ),
        (short_of(), "Tin is used up: the round needs 14 g."),
        (
            short_of(is_rest=True),
            "Tin is used up: the rest of the round needs 14 g.",
        ),
        (
            short_of(is_rest=True, over=True),
            (
                "Tin is used up by the record, and more was used than was counted; "
                "count it again. The rest of the round needs 14 g."
            ),
        ),
    ],
)
def test_what_runs_short_is_said_of_the_round_or_its_rest(
    short: Short, told: str
) -> None:
    assert words.short_text(short) == told


@pytest.mark.parametrize(
    ("whole", "part", "told"),
    [
        (("A", "B"), None, "That makes jugs A and B."),
        (("A",), None, "That makes jug A."),
        ((), ("C", 0.5), "That makes 500 mL of jug C."),
    ],
)
def test_words_of_what_the_rest_makes(
    whole: tuple[str, ...], part: tuple[str, float] | None, told: str
) -> None:
    short = Short("Tin", "g", 14.0, 9.0, whole=whole, part=part)
    assert words.short_text(short).endswith(f"is on hand. {told}")


@pytest.mark.parametrize(
    ("counted", "left", "over"),
    [
        (1000, -0.0005, False),
        (1000, -0.002, True),
        (0.3, -5e-7, False),
        (0.3, -2e-6, True),
        (10, 0.0, False),
    ],
)
def test_what_rounding_leaves_is_no_overdraft(
    counted: float, left: float, *, over: bool
) -> None:
    assert OnHand(left, Entry(day(1), COUNTED, counted)).is_overdrawn is over


@pytest.mark.parametrize("element", ["N", "P", "K", "Ca", "Mg"])
def test_each_main_nutrient_makes_a_tin_unlike(element: str) -> None:
    one, other = tin("One", "Ca 5 Mg 5 N 5 P 5 K 5"), tin("Other", f"{element} 5")
    assert shortage.alike(one, other) == pytest.approx(5**-0.5)


def test_a_shortage_begins_at_half_a_per_cent() -> None:
    assert not shortage.is_short(1000.0, 995.0)
    assert shortage.is_short(1000.0, 994.9)


def test_a_weak_feed_can_stand_in_for_a_small_dose() -> None:
    weak = tin("Weak", "0.1-0.1-0.1")
    # 4 mg at 20 % N hold 0.8 mg N, which are 0.8 g of the weak one
    found = shortage.stand_in(GREEN, 0.004, [(weak, 5.0)])
    assert found is not None
    assert found.needed == pytest.approx(0.8)


def test_of_two_tins_that_reach_the_one_most_alike_stands_in() -> None:
    near, same = tin("Near", "20-18-20"), tin("Same", "10-10-10")
    for others in ([(near, 90.0), (same, 90.0)], [(same, 90.0), (near, 90.0)]):
        found = shortage.stand_in(GREEN, 14.0, others)
        assert found is not None
        assert found.name == "Same"


def test_two_years_are_the_longest_that_is_told() -> None:
    used = Rate(7.0, Basis.PLAN)
    assert days_left(2 * YEAR_DAYS, used) == 728
    assert days_left(2 * YEAR_DAYS + 0.1, used) is None


def test_eight_weeks_of_rounds_are_enough_and_a_year_is_364_days() -> None:
    assert rate([Taken(day(55), 8.0)], ON, 3.0).basis is Basis.PLAN
    assert rate([Taken(day(56), 8.0)], ON, 3.0) == Rate(1.0, Basis.RECENT)
    assert rate([Taken(day(57), 8.0)], ON, 3.0).basis is Basis.PLAN
    taken = [Taken(day(YEAR_DAYS), 8.0), Taken(day(20), 8.0)]
    assert rate(taken, ON, 3.0).basis is Basis.LAST_YEAR
    assert rate(taken, ON, 3.0).per_week == 2.0
    later = [Taken(day(YEAR_DAYS - 1), 8.0), Taken(day(20), 8.0)]
    assert rate(later, ON, 3.0) == Rate(1.0, Basis.RECENT)


def test_last_years_weeks_of_the_season_are_four() -> None:
    for ago, per_week in ((YEAR_DAYS - 27, 4.0), (YEAR_DAYS - 28, 2.0)):
        taken = [Taken(day(YEAR_DAYS), 8.0), Taken(day(ago), 8.0)]
        assert rate(taken, ON, 3.0).per_week == per_week


def test_a_bottle_of_the_day_may_be_filled_from_what_came_in() -> None:
    entries = [Entry(ON, COUNTED, 5, after_round=False), Entry(ON, ADDED, 10)]
    assert there(entries, [Taken(ON, 12, for_bottle=True)]) == 3
    assert there(entries, [Taken(ON, 15, for_bottle=True)]) == 0
    assert there(entries, [Taken(ON, 16, for_bottle=True)]) == 15


def test_half_a_gram_last_year_is_a_rate_too() -> None:
    used = rate([Taken(day(YEAR_DAYS), 0.5)], ON, 9.0)
    assert (used.basis, used.per_week) == (Basis.LAST_YEAR, 0.125)
