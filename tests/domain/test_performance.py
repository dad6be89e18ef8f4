"""Measured growth beats the calendar: rates, yardsticks and limits."""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from growdesk.domain import pace, performance, wording
from growdesk.domain.case import Case
from growdesk.domain.facts import House, Lamps, Look, NewGrowths, Place, Plant, RootTips
from growdesk.domain.performance import Part, Rate, Yardstick
from growdesk.services import kinds
from tests.domain.builders import (
    EXTENDING,
    HOUSE,
    MATURING,
    day,
    fed,
    judged,
    kind_of,
    look,
    of_rule,
    plant,
    said,
    sentences,
)

if TYPE_CHECKING:
    from growdesk.domain.explain import Step

KIND_RATE = kinds.table().kinds["cattleya"].lead_rate_mm_per_week
ROOT_RATE = kinds.table().kinds["vanda"].root_rate_mm_per_week
ON = "06-20"


def lead(on: str, mm: float, growths: NewGrowths = EXTENDING) -> Look:
    return look(on, new_growths=growths, root_tips=RootTips.NONE, lead_length_mm=mm)


def root(on: str, mm: float) -> Look:
    return look(on, root_tips=RootTips.RUNNING, longest_new_root_mm=mm)


def step(one: Plant, on: str = ON) -> Step | None:
    strength = judged(one, on).strength
    assert strength is not None
    found = [s for s in strength.steps if s.key.startswith("performance")]
    return found[0] if found else None


def factor(*looks: Look, on: str = ON, **more: Any) -> float | None:
    found = step(plant("cattleya", *looks, **more), on)
    return None if found is None else found.factor


def test_half_the_usual_rate_is_half() -> None:
    """Cattleya leads make 10 mm a week; 20 mm in four weeks is half of it."""
    assert KIND_RATE == 10
    assert factor(lead("05-21", 40), lead("06-18", 60)) == pytest.approx(0.5)


def test_it_takes_the_seasons_place() -> None:
    one = plant("cattleya", lead("05-21", 40), lead("06-18", 60))
    strength = judged(one, ON).strength
    assert strength is not None
    assert not [s for s in strength.steps if s.key.startswith("season")]
    assert strength.ppm_n == 80


@pytest.mark.parametrize(("grown", "expected"), [(2, 0.2), (8, 0.2), (160, 1.0)])
def test_it_is_clipped_between_a_fifth_and_one(grown: float, expected: float) -> None:
    assert factor(lead("05-21", 40), lead("06-18", 40 + grown)) == pytest.approx(
        expected
    )


def test_no_growth_between_two_lengths_is_a_fifth_not_the_season() -> None:
    """Under 21 days apart it is no stall yet, but the rate now is nought."""
    assert factor(lead("06-04", 60), lead("06-18", 60)) == pytest.approx(0.2)


@pytest.mark.parametrize(("first", "counts"), [("05-16", True), ("05-15", False)])
def test_lengths_count_inside_35_days(first: str, counts: bool) -> None:
    assert (factor(lead(first, 40), lead("06-18", 60)) is not None) is counts


def test_one_length_is_no_rate() -> None:
    assert factor(lead("06-18", 60)) is None


def test_it_is_silent_while_a_growth_matures() -> None:
    assert factor(lead("05-21", 40), lead("06-18", 60, MATURING)) is None


def test_lengths_of_leads_that_did_not_extend_are_no_rate() -> None:
    emerging = NewGrowths(1, 0, 0, 2)
    assert factor(lead("05-21", 40, emerging), lead("06-18", 60, emerging)) is None


def test_running_roots_are_a_yardstick_too() -> None:
    """Vanda roots make 20 mm a week; 40 mm in four weeks is half of it."""
    assert ROOT_RATE == 20
    found = step(plant("vanda", root("05-21", 20), root("06-18", 60)))
    assert found is not None
    assert found.factor == pytest.approx(0.5)


def test_without_a_yardstick_it_is_silent() -> None:
    assert step(plant("oncidium", lead("05-21", 40), lead("06-18", 60))) is None


def test_the_plants_own_best_of_an_earlier_season_comes_first() -> None:
    """Last June it made 20 mm a week; 10 now is half, though usual for its kind."""
    last_year = (lead("2025-06-01", 20), lead("2025-06-22", 80))
    now = (lead("05-21", 40), lead("06-18", 80))
    assert factor(*last_year, *now) == pytest.approx(0.5)
    assert factor(*now) == pytest.approx(1.0)


def test_this_seasons_best_is_no_yardstick() -> None:
    spring = (lead("04-01", 10), lead("04-22", 130))
    now = (lead("05-21", 40), lead("06-18", 80))
    assert factor(*spring, *now) == pytest.approx(1.0)


def test_without_lamps_it_raises_by_a_quarter_at_most() -> None:
    """Long soft shoots in gloom are no vigour."""
    looks = (lead("12-01", 40), lead("12-29", 100))
    dark = judged(plant("cattleya", lead("12-29", 100)), "12-30").strength
    assert dark is not None
    season = next(s.factor for s in dark.steps if s.key == "season-light")
    assert season is not None
    assert factor(*looks, on="12-30") == pytest.approx(season * 1.25)


def test_with_lamps_it_raises_freely() -> None:
    place = Place(lamps=Lamps(hours=8, ppfd=20))
    looks = (lead("12-01", 40), lead("12-29", 100))
    assert factor(*looks, on="12-30", place=place) == pytest.approx(1.0)


def test_it_lowers_freely_without_lamps() -> None:
    assert factor(lead("05-21", 40), lead("06-18", 50)) == pytest.approx(0.25)


def test_a_much_shorter_lead_is_another_lead() -> None:
    assert factor(lead("05-21", 200), lead("06-18", 30)) is None


def test_the_sentence_names_both_rates_with_their_unit() -> None:
    one = plant("cattleya", lead("05-21", 40), lead("06-18", 60))
    sentence = wording.strength_sentence(judged(one, ON))
    assert "5 mm a week" in sentence
    assert "10" in sentence
    assert "kind" in sentence


def test_later_looks_are_not_used() -> None:
    looks = (lead("05-21", 40), lead("06-18", 60), lead("06-25", 400))
    assert factor(*looks) == pytest.approx(0.5)


def test_both_rates_are_told_at_full_growth_too() -> None:
    one = plant("cattleya", lead("05-21", 40), lead("06-18", 100))
    assert wording.strength_sentence(judged(one, ON)) == (
        "It wants 150 ppm N: the house's full strength is 150 ppm N; its lead makes 15 "
        "mm a week against 10 mm usual for its kind, which leaves 100 %, 150 ppm N."
    )


# -- a lead that stands, and slips ----------------------------------------------------


def two_leads(on: str, mm: float) -> Look:
    return lead(on, mm, NewGrowths(0, 2, 0, 2))


def test_a_lead_that_stands_gives_no_rate_though_another_extends() -> None:
    stood = plant("cattleya", two_leads("05-21", 60), two_leads("06-18", 60.5))
    got = judged(stood, ON)
    assert got.verdict == "feed"
    assert got.strength_ppm_n == 150
    assert step(stood) is None
    grew = plant("cattleya", two_leads("05-21", 60), two_leads("06-18", 62))
    assert step(grew) is not None


def test_a_lead_read_shorter_has_not_grown_and_no_rate_is_below_nought() -> None:
    one = plant("cattleya", lead("06-04", 60), lead("06-18", 55))
    sentence = wording.strength_sentence(judged(one, ON))
    assert "its lead makes 0 mm a week against 10 mm" in sentence
    assert "-" not in sentence


@pytest.mark.parametrize(("grown", "slipped"), [(160, False), (160.1, True)])
def test_more_than_four_times_the_yardstick_is_a_slip(
    grown: float, slipped: bool
) -> None:
    """Four weeks at 10 mm a week make 40 mm, four times that 160."""
    one = plant("cattleya", lead("05-21", 40), lead("06-18", 40 + grown))
    got = judged(one, ON)
    assert (step(one) is None) is slipped
    assert bool(of_rule(got, performance.RULE)) is slipped


@pytest.mark.parametrize(("rate", "slipped"), [(39.0, False), (41.0, True)])
def test_a_poor_season_before_makes_no_slip_of_a_good_one(
    rate: float, slipped: bool
) -> None:
    """It made 1 mm a week last year; 10 mm are usual for its kind, four times 40."""
    poor = (lead("2025-06-01", 20), lead("2025-06-29", 24))
    now = (lead("05-21", 40), lead("06-18", 40 + 4 * rate))
    assert performance.yardstick(case(*poor, *now), Part.LEAD) == Yardstick(
        1.0, is_own=True
    )
    got = performance.measured(case(*poor, *now))
    assert (got is None) is slipped


def test_a_good_season_before_allows_more_than_its_kind() -> None:
    """Four times its own 20 mm a week are 80; 60 is six times its kind's."""
    good = (lead("2025-06-01", 20), lead("2025-06-22", 80))
    now = (lead("05-21", 40), lead("06-18", 280))
    assert performance.measured(case(*good, *now)) is not None


def test_a_slip_is_told_with_its_lengths_and_days() -> None:
    looks = (lead("05-25", 28), lead("06-06", 30), lead("06-18", 350))
    got = judged(plant("cattleya", *looks), ON)
    (reason,) = of_rule(got, performance.RULE)
    assert reason.role == "unknown"
    assert reason.values == {"before": 30, "after": 350, "days": 12}
    assert (
        "Its lead went from 30 mm to 350 mm in 12 days. That looks like a slip, so the "
        "measures are left out."
    ) in sentences(got)
    assert got.strength is not None
    assert "season-light" in [one.key for one in got.strength.steps]


def test_a_slip_of_the_roots_is_told_too() -> None:
    got = judged(plant("vanda", root("06-06", 30), root("06-18", 350)), ON)
    assert "Its longest new root went from 30 mm to 350 mm in 12 days." in said(got)


def test_a_slip_lets_no_roots_speak_for_the_lead() -> None:
    looks = (
        look(on, new_growths=EXTENDING, root_tips=RootTips.RUNNING, **mms)
        for on, mms in (
            ("06-06", {"lead_length_mm": 30, "longest_new_root_mm": 20}),
            ("06-18", {"lead_length_mm": 350, "longest_new_root_mm": 40}),
        )
    )
    assert factor(*looks) is None


def test_no_slip_is_told_where_the_measures_do_not_count() -> None:
    looks = (lead("06-06", 30), lead("06-18", 350))
    controlled = plant("cattleya", *looks, place=Place(controlled=True))
    assert not of_rule(judged(controlled, ON), performance.RULE)
    unfed = plant("cattleya", *looks, care=(fed("06-19"),))
    assert judged(unfed, ON).verdict == "clear-water"
    assert not of_rule(judged(unfed, ON), performance.RULE)
    assert not of_rule(judged(plant("oncidium", *looks), ON), performance.RULE)


def test_a_slip_of_an_earlier_season_is_no_yardstick() -> None:
    slip = (lead("2025-06-01", 30), lead("2025-06-13", 350))
    now = (lead("05-21", 40), lead("06-18", 60))
    assert performance.yardstick(case(*slip, *now), Part.LEAD) == Yardstick(
        10.0, is_own=False
    )


# -- one bad reading ------------------------------------------------------------------


def case(*looks: Look, kind: str = "cattleya", on: str = ON) -> Case:
    one = plant(kind, *looks)
    return Case(one, kind_of(one), HOUSE, day(on))


def told(*looks: Look, part: Part = Part.LEAD, on: str = ON) -> list[float]:
    found = performance.rates(case(*looks, on=on), part)
    return [rate.mm_per_week for rate in found]


def own_best(*looks: Look) -> float | None:
    best = performance.yardstick(case(*looks), Part.LEAD)
    return best.mm_per_week if best is not None and best.is_own else None


@given(
    st.integers(4, 9),
    st.floats(5, 200),
    st.floats(0, 5),
    st.data(),
)
def test_one_bad_length_of_four_or_more_moves_no_rate(
    count: int, first: float, per_day: float, data: st.DataObject
) -> None:
    """Only a newest one, short by a fifth, is told from nothing: another lead.

    A first one of four may be so long that the second is taken for the bad one.
    """
    days = sorted(
        data.draw(
            st.sets(st.integers(0, 34), min_size=count, max_size=count), label="days"
        )
    )
    lengths = [first + per_day * passed for passed in days]
    bad = data.draw(st.integers(0, count - 1), label="which is bad")
    read = data.draw(st.floats(0, 2000), label="read as")
    points = list(zip(days, lengths, strict=True))
    points[bad] = (days[bad], read)
    begun = day("05-16").toordinal()
    looks = [lead_on(begun + passed, mm) for passed, mm in points]
    found = performance.rates(case(*looks), Part.LEAD)
    newest = found[-1] if found and found[-1].on == looks[-1].on else None
    is_short = bad == count - 1 and read < points[-2][1] * pace.SAME_SHARE
    if is_short:
        assert newest is None
        return
    assert newest is not None
    second, third = points[1][1], points[2][1]
    hides_the_second = second < read * pace.SAME_SHARE and third >= read
    if not (count == 4 and bad == 0 and hides_the_second):
        assert newest.mm_per_week == pytest.approx(per_day * 7, abs=1e-6)


def lead_on(number: int, mm: float) -> Look:
    return lead(type(day(ON)).fromordinal(number).isoformat(), mm)


@pytest.mark.parametrize("bad", [0.5, 47.0, 63.0, 500.0])
def test_a_bad_length_in_the_middle_of_three_is_left_out(bad: float) -> None:
    looks = (lead("05-21", 40), lead("06-04", bad), lead("06-18", 60))
    assert told(*looks)[-1] == pytest.approx(5.0)
    assert factor(*looks) == pytest.approx(0.5)


def test_a_bad_length_in_the_middle_counts_for_nothing_however_the_days_lie() -> None:
    looks = (lead("05-21", 40), lead("05-28", 63), lead("06-18", 60))
    assert told(*looks)[-1] == pytest.approx(5.0)


def test_two_short_lengths_are_a_new_lead_whatever_follows() -> None:
    """From 6 to 75 mm in 27 days; the old lead of 70 mm is another one."""
    looks = (lead("05-15", 70), lead("05-22", 6), lead("06-05", 10), lead("06-18", 75))
    assert told(*looks)[-1] == pytest.approx(69 / 27 * 7)


def test_of_three_lengths_the_ends_are_believed() -> None:
    looks = (lead("05-21", 40), lead("06-04", 50), lead("06-18", 100))
    assert told(*looks)[-1] == pytest.approx(15.0)


def test_of_four_uneven_rates_the_middle_is_told() -> None:
    """By hand, mm a day: 40, 45, 52, 70 on days 0, 7, 14, 28 have these slopes.

    0: 5/7, 12/14, 30/28; 7: 5/7, 7/7, 25/21; 14: 12/14, 1, 18/14; 28: 30/28, 25/21,
    18/14. Their medians are 12/14, 1, 1 and 25/21; the middle one is 1 a day.
    """
    looks = (
        lead("05-21", 40),
        lead("05-28", 45),
        lead("06-04", 52),
        lead("06-18", 70),
    )
    assert told(*looks) == pytest.approx([5.0, 6.0, 7.0])


def test_two_leads_measured_by_turns_are_not_mixed() -> None:
    """Every 7 days 4 mm on one lead, while now and then the other was measured."""
    looks = [
        lead(on, mm)
        for on, mm in (("05-21", 10), ("05-28", 60), ("06-04", 15), ("06-11", 65))
    ]
    assert told(*looks, lead("06-18", 20))[-1] == pytest.approx(2.5)


def test_a_new_lead_that_outgrows_the_old_in_months_is_a_lead() -> None:
    old = (lead("2025-09-01", 60), lead("2025-09-15", 70))
    new = (lead("03-01", 6), lead("06-04", 75), lead("06-18", 85))
    assert told(*old, *new) == pytest.approx([5.0, 5.0])
    late = (lead("03-01", 6), lead("03-15", 76), lead("06-18", 7))
    assert told(*late) == pytest.approx([35.0]), "months later it is another lead"


@pytest.mark.parametrize(("last", "counts"), [("06-24", True), ("06-25", False)])
def test_a_slip_is_told_by_what_follows_in_35_days(last: str, counts: bool) -> None:
    looks = (lead("05-20", 40), lead("06-10", 9), lead(last, 65))
    found = told(*looks, on="06-30")[-1]
    assert found == pytest.approx(5.0 if counts else 56 / 15 * 7)


def test_a_length_read_lower_than_before_the_slip_is_of_the_new_lead() -> None:
    looks = (lead("05-21", 40), lead("05-28", 9), lead("06-11", 39))
    assert told(*looks) == pytest.approx([15.0])


def test_a_fifth_shorter_is_the_same_lead_still() -> None:
    assert told(lead("05-21", 50), lead("06-18", 40)) == [0.0]
    assert told(lead("05-21", 50), lead("06-18", 39.9)) == []


# -- rates through time, and the yardstick --------------------------------------------


def test_each_look_tells_the_rate_of_its_own_day() -> None:
    looks = (
        lead("03-01", 10),
        lead("03-15", 20),
        lead("05-21", 40),
        lead("06-04", 45),
        lead("06-18", 60),
    )
    assert performance.rates(case(*looks), Part.LEAD) == (
        Rate(day("03-15"), 5.0),
        Rate(day("06-04"), 2.5),
        Rate(day("06-18"), 5.0),
    )


def test_the_newest_rate_is_the_one_that_judging_uses() -> None:
    looks = (lead("05-21", 40), lead("06-04", 47), lead("06-18", 60))
    one = case(*looks, on="06-18")
    measured = performance.measured(one)
    assert measured is not None
    (*_, newest) = performance.rates(one, Part.LEAD)
    assert measured.rate_mm_per_week == newest.mm_per_week
    best = performance.yardstick(one, Part.LEAD)
    assert best == Yardstick(measured.best_mm_per_week, measured.own_best)


def test_two_looks_on_one_day_tell_one_rate() -> None:
    looks = (lead("05-21", 40), lead("06-18", 60), lead("06-18", 68))
    found = performance.rates(case(*looks), Part.LEAD)
    assert [rate.on for rate in found] == [day("06-18")]
    assert found[0].mm_per_week == pytest.approx(6.0)


def test_roots_are_told_by_themselves() -> None:
    looks = (root("05-21", 20), root("06-18", 60))
    assert told(*looks, part=Part.ROOTS) == pytest.approx([10.0])
    assert told(*looks, part=Part.LEAD) == []


def test_a_yardstick_is_the_kinds_until_a_season_is_on_record() -> None:
    now = (lead("05-21", 40), lead("06-18", 60))
    assert performance.yardstick(case(*now), Part.LEAD) == Yardstick(10.0, is_own=False)
    own = (lead("2025-06-01", 20), lead("2025-06-22", 80))
    assert own_best(*own, *now) == pytest.approx(20.0)
    assert performance.yardstick(case(*now, kind="oncidium"), Part.LEAD) is None


@pytest.mark.parametrize(
    ("mms", "best"),
    [
        ((20, 30, 40, 50, 60), 5.0),
        ((20, 30, 300, 50, 60), 5.0),
        ((20, 30, 2, 50, 60), 5.0),
        ((20, 300, 40, 50, 60), 5.0),
        ((20, 30, 60, 70, 72), 10.0),
        ((60, 60, 60, 60, 60), None),
    ],
)
def test_an_own_best_outlives_a_bad_length(
    mms: tuple[float, ...], best: float | None
) -> None:
    """By 14 days; windows hold three. 30 to 60 to 70 is 40 mm in four weeks."""
    begun = day("2025-04-01").toordinal()
    looks = [lead_on(begun + 14 * n, mm) for n, mm in enumerate(mms)]
    found = own_best(*looks)
    assert found == (None if best is None else pytest.approx(best))


@pytest.mark.parametrize("middle", [40, 60])
def test_an_own_best_is_of_whole_windows(middle: float) -> None:
    """Two lengths alone make 20 mm a week, first or last; all of the window 15."""
    looks = (
        lead("2025-06-01", 20),
        lead("2025-06-15", middle),
        lead("2025-06-29", 80),
    )
    assert own_best(*looks) == pytest.approx(15.0)


@pytest.mark.parametrize(("last", "best"), [("05-06", 10.0), ("05-07", None)])
def test_lengths_a_window_apart_are_of_one_window(
    last: str, best: float | None
) -> None:
    found = own_best(lead("2025-04-01", 20), lead(f"2025-{last}", 70))
    assert found == (None if best is None else pytest.approx(best))


def test_a_season_without_growth_is_no_yardstick() -> None:
    flat = (lead("2025-06-01", 60), lead("2025-06-22", 60))
    best = performance.yardstick(case(*flat), Part.LEAD)
    assert best == Yardstick(10.0, is_own=False)
    still = replace(kind_of(plant("cattleya")), lead_rate_mm_per_week=0.0)
    one = Case(plant("cattleya"), still, HOUSE, day(ON))
    assert performance.yardstick(one, Part.LEAD) is None


def test_a_season_counts_as_earlier_from_its_day_on() -> None:
    last = day(ON) - timedelta(days=HOUSE.earlier_season_days)
    looks = (lead_on(last.toordinal() - 14, 20), lead_on(last.toordinal(), 60))
    assert own_best(*looks) == pytest.approx(20.0)
    later = (looks[0], lead_on(last.toordinal() + 1, 60))
    assert own_best(*later) is None


def test_the_house_sets_the_weeks_that_a_rate_goes_by() -> None:
    looks = (lead("05-21", 40), lead("06-18", 60))
    one = plant("cattleya", *looks)
    short = House(performance_window_days=27)
    assert performance.rates(Case(one, kind_of(one), short, day(ON)), Part.LEAD) == ()
