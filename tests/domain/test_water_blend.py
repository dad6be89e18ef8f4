"""Blends: exact for what is conserved, honest about EC, plain about the unreachable."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from growdesk.domain.errors import InputError
from growdesk.domain.water_analysis import CONSERVED, WaterAnalysis
from growdesk.domain.water_blend import Aim, blend, is_whole, of_share, pour, reach
from growdesk.domain.water_words import blend_lines, litres_text

TAP = WaterAnalysis(
    "tap",
    "",
    0.58,
    alkalinity_mg_per_l=204,
    hardness_mg_per_l=259,
    ca_mg_per_l=84,
    mg_mg_per_l=12,
    k_mg_per_l=3,
    na_mg_per_l=18,
    cl_mg_per_l=32,
    so4_mg_per_l=45,
    no3_mg_per_l=12,
)
RAIN = WaterAnalysis("rain", "", 0.02)


def test_an_alkalinity_is_reached_exactly() -> None:
    made = blend(TAP, RAIN, Aim.ALKALINITY, 60)
    assert made.reached
    assert made.first_share == pytest.approx(60 / 204)
    assert made.water.alkalinity_mg_per_l == pytest.approx(60)
    assert made.water.ca_mg_per_l == pytest.approx(84 * 60 / 204)
    assert made.water.kind == "blend"
    assert not made.water.is_pure


@given(st.floats(0.0, 1.0), st.floats(0.0, 400.0), st.floats(0.0, 400.0))
def test_what_is_conserved_lies_on_the_line(
    share: float, one: float, other: float
) -> None:
    first = replace(TAP, alkalinity_mg_per_l=one, na_mg_per_l=other)
    second = replace(TAP, alkalinity_mg_per_l=other, na_mg_per_l=one)
    held = of_share(first, second, share).water
    assert held.alkalinity_mg_per_l == pytest.approx(share * one + (1 - share) * other)
    total = (held.alkalinity_mg_per_l or 0) + (held.na_mg_per_l or 0)
    assert total == pytest.approx(one + other)
    thinned = of_share(TAP, WaterAnalysis("ro"), share).water
    for field in CONSERVED:
        assert getattr(thinned, field) == pytest.approx(share * getattr(TAP, field))


def test_a_blend_of_known_ions_conducts_as_the_reference_library_says() -> None:
    library = pytest.importorskip("phreeqpython")
    engine = library.PhreeqPython()

    def reference(share: float) -> float:
        ions = {ion: mmol * share for ion, mmol in TAP.ions_mmol_per_l().items()}
        solution = engine.add_solution(
            {
                "units": "mmol/L",
                "temp": 25,
                "pH": 7.5,
                "Ca": ions["Ca"],
                "Mg": ions["Mg"],
                "Na": ions["Na"],
                "K": ions["K"],
                "Cl": ions["Cl"],
                "S(6)": ions["SO4"],
                "N(5)": ions["NO3"],
                "Alkalinity": ions["HCO3"],
            }
        )
        return float(solution.sc) / 1000

    whole = reference(1.0)
    for share in (0.75, 0.5, 0.25):
        made = of_share(TAP, replace(RAIN, ec_ms_per_cm=0.0), share)
        told = (made.water.ec_ms_per_cm or 0.0) / 0.58
        line = share
        wanted = reference(share) / whole
        assert told == pytest.approx(wanted, rel=0.02)
        assert abs(told - wanted) < abs(line - wanted)
        assert not made.ec_is_straight


def test_an_ec_is_reached_with_and_without_ions() -> None:
    made = blend(TAP, RAIN, Aim.EC, 0.3)
    assert made.water.ec_ms_per_cm == pytest.approx(0.3, abs=1e-6)
    assert made.first_share < 0.5  # a straight line would take half
    straight = blend(WaterAnalysis("tap", "", 0.58), RAIN, Aim.EC, 0.3)
    assert straight.first_share == pytest.approx(0.5)
    assert straight.ec_is_straight
    turned = blend(RAIN, TAP, Aim.EC, 0.3)
    assert turned.first_share == pytest.approx(1 - made.first_share)


@pytest.mark.parametrize(
    ("aim", "wanted", "share", "words"),
    [
        (Aim.ALKALINITY, 300, 1.0, "300 mg/L cannot be had from these two"),
        (Aim.EC, 0.01, 0.0, "All rain water comes nearest"),
    ],
)
def test_out_of_reach_gives_the_nearest_and_says_so(
    aim: Aim, wanted: float, share: float, words: str
) -> None:
    made = blend(TAP, RAIN, aim, wanted)
    assert not made.reached
    assert made.first_share == share
    assert words in next(blend_lines(made, 6))


def test_reach_is_the_ends_in_order() -> None:
    assert reach(TAP, RAIN, Aim.ALKALINITY) == (0.0, 204)
    assert reach(RAIN, TAP, Aim.EC) == (0.02, 0.58)
    assert reach(RAIN, TAP, Aim.SHARE) == (0.0, 1.0)


def test_what_is_not_known_is_asked_for_by_name() -> None:
    unknown = WaterAnalysis("tap", "kitchen", 0.5)
    with pytest.raises(
        InputError, match="the alkalinity of kitchen is not known"
    ) as refused:
        blend(unknown, RAIN, Aim.ALKALINITY, 50)
    assert refused.value.field == "aim"
    held = of_share(unknown, RAIN, 0.5).water
    assert held.alkalinity_mg_per_l is None
    assert held.ec_ms_per_cm == pytest.approx(0.26)


@pytest.mark.parametrize("share", [-0.1, 1.2, math.nan])
def test_a_share_is_between_none_and_all(share: float) -> None:
    with pytest.raises(InputError, match="no share of a blend"):
        blend(TAP, RAIN, Aim.SHARE, share)


@pytest.mark.parametrize(
    ("volume_l", "share", "first_l", "second_l"),
    [
        (6, 0.6833, 4.1, 1.9),
        (6, 0.0, 0.0, 6),
        (6, 1.0, 6, 0.0),
        (6, 0.001, 0.1, 5.9),
        (0.9, 0.4, 0.35, 0.55),
        (1.9, 0.67, 1.25, 0.65),
        (0.3, 0.4, 0.12, 0.18),
        (0.1, 0.333, 0.03, 0.07),
        (6.27, 0.5, 3.1, 3.17),
    ],
)
def test_litres_are_what_a_scale_shows(
    volume_l: float, share: float, first_l: float, second_l: float
) -> None:
    poured = pour(volume_l, share)
    assert (poured.first_l, poured.second_l) == pytest.approx((first_l, second_l))


@given(st.floats(0.05, 60.0), st.floats(0.0, 1.0))
def test_the_litres_add_up_and_stay_near(volume_l: float, share: float) -> None:
    poured = pour(volume_l, share)
    assert poured.first_l + poured.second_l == pytest.approx(volume_l, abs=0.001)
    assert min(poured.first_l, poured.second_l) >= -1e-9
    step = 0.1 if volume_l >= 5 else 0.05 if volume_l >= 0.5 else 0.01
    assert abs(poured.first_l - volume_l * share) <= 2 * step


def test_words_of_a_blend() -> None:
    made = blend(RAIN, TAP, Aim.ALKALINITY, 65)
    assert (
        litres_text(made, 6) == "For 6 L: 4.1 L of rain water and 1.9 L of tap water."
    )
    lines = tuple(blend_lines(made, 6))
    assert lines[1].startswith("It then holds EC 0.21 mS/cm, alkalinity 65 mg/L CaCO3")
    assert len(lines) == 2  # the ions are known, so nothing is said of a straight line
    assert litres_text(of_share(RAIN, TAP, 1.0), 6) == "For 6 L: all of it rain water."


def test_two_waters_of_a_kind_are_told_apart_by_name() -> None:
    hard, soft = replace(TAP, name="town"), WaterAnalysis("tap", "well", 0.1, 20)
    said = litres_text(blend(hard, soft, Aim.ALKALINITY, 66), 4)
    assert said == "For 4 L: 1 L of tap water (town) and 3 L of tap water (well)."


def test_an_analysis_is_whole_where_its_charges_balance() -> None:
    assert is_whole(TAP.ions_mmol_per_l())
    assert is_whole(RAIN.ions_mmol_per_l())
    assert not is_whole(replace(TAP, na_mg_per_l=None).ions_mmol_per_l())
    assert not is_whole(replace(TAP, ca_mg_per_l=30).ions_mmol_per_l())


def test_all_of_one_water_is_that_water_whatever_is_known_of_the_other() -> None:
    unknown = WaterAnalysis("tap", "kitchen")
    for made in (of_share(TAP, unknown, 1.0), of_share(unknown, TAP, 0.0)):
        assert made.water.alkalinity_mg_per_l == 204
        assert made.water.ec_ms_per_cm == 0.58


def test_an_aim_within_reach_is_said_to_be_reached() -> None:
    for aim, wanted in ((Aim.EC, 0.3), (Aim.ALKALINITY, 65), (Aim.SHARE, 0.4)):
        assert blend(TAP, RAIN, aim, wanted).reached
    alike = blend(TAP, replace(TAP, name="other"), Aim.ALKALINITY, 204)
    assert (alike.first_share, alike.reached) == (0.5, True)


def test_what_is_poured_is_the_share_that_a_jug_shows() -> None:
    assert pour(6, 0.6833).first_share == pytest.approx(4.1 / 6)
    assert pour(0.3, 0.4).first_share == pytest.approx(0.4)


def test_words_of_a_blend_out_of_reach_and_of_a_straight_line() -> None:
    assert next(blend_lines(blend(TAP, RAIN, Aim.ALKALINITY, 300), 6)) == (
        "300 mg/L cannot be had from these two: they hold 0 to 204. All tap water "
        "comes nearest."
    )
    assert next(blend_lines(blend(TAP, RAIN, Aim.EC, 0.01), 6)) == (
        "0.01 mS/cm cannot be had from these two: they read 0.02 to 0.58. All rain "
        "water comes nearest."
    )
    straight = blend(WaterAnalysis("tap", "", 0.58), RAIN, Aim.EC, 0.3)
    assert tuple(blend_lines(straight, 6)) == (
        "For 6 L: 3 L of tap water and 3 L of rain water.",
        "It then holds EC 0.3 mS/cm.",
        (
            "The EC is a straight line between the two; the meter will read up to a "
            "tenth more. Give the ions of both for a better figure."
        ),
    )
