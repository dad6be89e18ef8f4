"""What water to have ready over a week, rounded up and held against the barrel."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from growdesk.domain.water_ready import (
    WaterNeed,
    WaterStand,
    over_days,
    rounded_up_l,
    together,
)
from growdesk.domain.water_words import have_ready, ready_text, shares_text, spoken

WED, SAT = date(2026, 3, 11), date(2026, 3, 14)
RAIN = WaterNeed(1, "", "rain", jugs_l=10.0, clear_l=4.0, flush_l=1.0, spare_l=0.3)
TAP = WaterNeed(2, "", "tap", clear_l=2.0, spare_l=0.1)


def test_needs_of_one_water_add_up() -> None:
    assert together([RAIN, TAP, RAIN]) == (RAIN + RAIN, TAP)
    assert (RAIN + RAIN).volume_l == pytest.approx(30.6)
    assert together([WaterNeed(3, "", "ro")]) == ()


def test_a_barrel_that_does_not_reach_says_what_to_do() -> None:
    (week,) = over_days(
        [(WED, (RAIN,)), (SAT, (RAIN,))],
        {1: WaterStand(24.0, 120.0)},
        {1: "tap water"},
    )
    assert week.volume_l == 31.0
    assert week.short_l == 7.0
    assert ready_text(week) == (
        "31 L of rain water for Wednesday and Saturday; 24 L in the barrel: fill it, "
        "or take 7 L of tap water."
    )


@pytest.mark.parametrize(
    ("stand", "instead", "words"),
    [
        (
            WaterStand(31.0),
            "tap",
            "31 L of rain water for Wednesday and Saturday; 31 L",
        ),
        (WaterStand(24.0), None, "24 L in the barrel: fill it first."),
        (WaterStand(81.24), None, "; 81 L in the barrel."),
        (WaterStand(9.97), None, "; 9.9 L in the barrel: fill it first."),
        (WaterStand(0.0), None, "0 mL in the barrel: fill it first."),
        (WaterStand(None, 20.0), "tap", "more than the 20 L its barrel holds"),
        (WaterStand(None, 120.0), "tap", "for Wednesday and Saturday."),
    ],
)
def test_each_way_a_water_may_stand(
    stand: WaterStand, instead: str | None, words: str
) -> None:
    (week,) = over_days(
        [(WED, (RAIN,)), (SAT, (RAIN,))],
        {1: stand},
        {1: instead} if instead else {},
    )
    assert words in ready_text(week)


def test_an_ro_can_is_not_filled_but_made() -> None:
    need = WaterNeed(4, "", "RO", jugs_l=2.0)
    (week,) = over_days([(WED, (need,))], {4: WaterStand(1.2)}, {4: "tap water"})
    assert ready_text(week) == (
        "2 L of RO water for Wednesday; 1.2 L in the can: make more, or take 800 mL of "
        "tap water."
    )


def test_what_was_poured_already_is_no_longer_needed() -> None:
    half = replace(RAIN, taken_l=10.3)
    (week,) = over_days([(WED, (half,))], {1: WaterStand(5.0)}, {})
    assert week.volume_l == 5.0
    assert week.short_l == 0.0
    done = replace(RAIN, taken_l=99.0)
    assert over_days([(WED, (done,))], {}, {}) == ()
    (later,) = over_days([(WED, (done,)), (SAT, (RAIN,))], {}, {})
    assert later.days == (SAT,)


def test_the_shares_of_a_need_in_words() -> None:
    assert shares_text(RAIN) == (
        "It is 10 L in the jugs, 4 L for clear water, 1 L for flushing and 300 mL to "
        "spare."
    )
    assert shares_text(WaterNeed(1, "", "rain", jugs_l=3.0)) == ""


def test_what_to_have_ready_of_one_water() -> None:
    assert have_ready(TAP) == (
        "Have 2.1 L of tap water ready. It is 2 L for clear water and 100 mL to spare."
    )


def test_how_a_water_is_spoken_of() -> None:
    assert spoken("", "RO") == "RO water"
    assert spoken("soft", "blend") == "soft"
    assert spoken("barrel", "rain") == "rain water (barrel)"
    assert spoken("", "well") == "well"


@given(st.floats(0.001, 300.0))
def test_rounding_goes_up_and_not_far(volume_l: float) -> None:
    ready = rounded_up_l(volume_l)
    assert ready >= volume_l - 1e-6
    assert ready - volume_l <= (0.5 if volume_l >= 10 else 0.1)


def test_what_goes_into_a_blend_adds_up() -> None:
    one = WaterNeed(1, "RO", "ro", clear_l=2.0, blended="Half and half", blended_l=1.0)
    both = one + replace(one, clear_l=3.0, blended="", blended_l=2.0)
    assert (both.clear_l, both.blended, both.blended_l) == (5.0, "Half and half", 3.0)
    assert both.into_blend_l == pytest.approx(3.0)
