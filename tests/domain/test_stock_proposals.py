"""Bottles proposed for small doses: round, clear, well read and well weighed in."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from growdesk.domain import stock_words
from growdesk.domain.keeping_apart import Rule, findings
from growdesk.domain.measuring import Tool, ToolKind
from growdesk.domain.stock_proposals import proposed_stock
from growdesk.domain.water_analysis import WaterAnalysis
from tests.domain.stock_builders import label, room, salt

SCALE = Tool(ToolKind.SCALE, "kitchen scale", 1.0, 2000.0)
FINE_SCALE = Tool(ToolKind.SCALE, "fine scale", 0.1, 200.0)
SYRINGE = Tool(ToolKind.SYRINGE, "syringe 10 mL", 0.2, 10.0)
LARGE_SYRINGE = Tool(ToolKind.SYRINGE, "syringe 60 mL", 1.0, 60.0)
CYLINDER = Tool(ToolKind.CYLINDER, "cylinder 250 mL", 2.0, 250.0)
EPSOM = salt("MgSO4.7H2O", "Epsom salt", key=3)


def test_a_dose_too_small_for_the_scale_becomes_a_round_stock() -> None:
    made = proposed_stock(EPSOM, 0.12, [SCALE, SYRINGE], room())
    assert made is not None
    assert (made.g_per_l, made.volume_l) == (50.0, 0.5)
    assert made.weighed.given_g == 25
    assert made.dose.given_ml == pytest.approx(2.4)
    assert made.dose.tool == SYRINGE


@given(
    dose_g=st.floats(0.02, 5),
    step_ml=st.sampled_from([0.1, 0.2, 0.5, 1.0]),
    step_g=st.sampled_from([0.01, 0.1, 1.0]),
)
def test_a_proposed_stock_is_read_and_weighed_within_the_limit(
    dose_g: float, step_ml: float, step_g: float
) -> None:
    syringe = Tool(ToolKind.SYRINGE, "s", step_ml, 50 * step_ml)
    scale = Tool(ToolKind.SCALE, "k", step_g, 1000)
    made = proposed_stock(EPSOM, dose_g, [syringe, scale], room())
    if made is None:
        return
    assert made.dose.half_step_share <= 0.05 + 1e-9
    assert made.weighed.half_step_share <= 0.05 + 1e-9
    assert made.dose.given_ml <= 1000 * made.volume_l


def test_it_stays_within_what_dissolves_in_the_room() -> None:
    sulphate = salt("K2SO4")
    made = proposed_stock(sulphate, 2.0, [FINE_SCALE, LARGE_SYRINGE], room(10))
    assert made is not None
    assert made.g_per_l == 50.0
    alike = proposed_stock(salt("KNO3"), 2.0, [FINE_SCALE, LARGE_SYRINGE], room(10))
    assert alike is not None
    assert alike.g_per_l == 100.0


def test_of_a_label_alone_no_more_than_common_practice_is_proposed() -> None:
    feed = label("Bloom feed", "20-20-20")
    made = proposed_stock(feed, 3.0, [FINE_SCALE, LARGE_SYRINGE], room())
    assert made is not None
    assert made.g_per_l == 100.0


def test_a_calcium_feed_is_proposed_no_stronger_than_nothing_speaks_against() -> None:
    feed = label("All in one", "13-3-15 + 6 Ca + 2 Mg")
    made = proposed_stock(feed, 3.0, [FINE_SCALE, LARGE_SYRINGE], room())
    assert made is not None
    assert made.g_per_l == 50.0
    ro = WaterAnalysis("ro")
    told = [findings(((feed, g_per_l),), ro, room()) for g_per_l in (50.0, 100.0)]
    assert [Rule.OWN_LABEL in {each.rule for each in found} for found in told] == [
        False,
        True,
    ]


def test_no_bottle_is_proposed_that_the_scale_cannot_weigh_in() -> None:
    coarse = Tool(ToolKind.SCALE, "bathroom scale", 10.0, 2000.0)
    assert proposed_stock(EPSOM, 0.12, [SYRINGE], room()) is not None
    assert proposed_stock(EPSOM, 0.12, [coarse, SYRINGE], room()) is None


def test_no_round_stock_where_none_can_be_read_or_nothing_is_dosed() -> None:
    tiny = proposed_stock(EPSOM, 0.0001, [SCALE, CYLINDER], room())
    assert tiny is None
    assert proposed_stock(EPSOM, 0.0, [SCALE], room()) is None


def test_without_any_tool_a_measure_with_millilitres_is_thought_of() -> None:
    made = proposed_stock(EPSOM, 1.0, [], room())
    assert made is not None
    assert made.g_per_l == 100.0
    assert made.dose.given_ml == pytest.approx(10.0)


@pytest.mark.parametrize(
    ("dose_g", "g_per_l", "given_ml"),
    # Ten steps of 1 mL at least: the strongest that gives them.
    [
        (2.0, 200, 10),
        (1.0, 100, 10),
        (0.5, 50, 10),
        (0.25, 25, 10),
        (0.2, 20, 10),
        (0.1, 10, 10),
        (0.05, 5, 10),
        (0.02, 2, 10),
        (0.01, 1, 10),
        (0.005, 0.5, 10),
        (0.99, 50, 20),
    ],
)
def test_strengths_are_easy_to_reckon_with(
    dose_g: float, g_per_l: float, given_ml: float
) -> None:
    scale = Tool(ToolKind.SCALE, "jewel scale", 0.01, 200.0)
    made = proposed_stock(EPSOM, dose_g, [scale, LARGE_SYRINGE], room())
    assert made is not None
    assert (made.g_per_l, made.dose.given_ml) == (g_per_l, given_ml)
    assert made.dose.tool == LARGE_SYRINGE


def test_where_ten_steps_cannot_be_had_the_best_read_is_proposed() -> None:
    """0.003 g of 0.5 g/L are 6 mL, weak enough to be read to 8 %."""
    scale = Tool(ToolKind.SCALE, "jewel scale", 0.01, 200.0)
    made = proposed_stock(EPSOM, 0.003, [scale, LARGE_SYRINGE], room(), off_limit=0.1)
    assert made is not None
    assert (made.g_per_l, made.dose.given_ml) == (0.5, 6)
    assert proposed_stock(EPSOM, 0.003, [scale, LARGE_SYRINGE], room()) is None


def test_a_bottle_is_as_small_as_holds_the_dose() -> None:
    for dose_g, volume_l in ((100.0, 0.5), (101.0, 1.0), (201.0, 2.0)):
        made = proposed_stock(EPSOM, dose_g, [], room())
        assert made is not None
        assert (made.g_per_l, made.volume_l) == (200, volume_l)
    assert proposed_stock(EPSOM, 401.0, [], room()) is None


def test_without_a_scale_no_less_than_a_gram_is_thought_to_be_weighed() -> None:
    made = proposed_stock(EPSOM, 0.02, [], room())
    assert made is not None
    assert (made.g_per_l, made.volume_l, made.weighed.mass_g) == (2, 0.5, 1.0)
    assert made.dose.half_step_share == pytest.approx(0.05)
    # 1 g/L would be 0.5 g in the small bottle: the next one is taken
    weaker = proposed_stock(EPSOM, 0.01, [], room())
    assert weaker is not None
    assert (weaker.g_per_l, weaker.volume_l) == (1, 1.0)
    assert weaker.dose.tool is None


def test_a_proposed_bottle_in_words() -> None:
    made = proposed_stock(EPSOM, 0.12, [SCALE, SYRINGE], room())
    assert made is not None
    assert stock_words.proposed_text(made) == (
        "Make a bottle of Epsom salt once: 25 g in 500 mL, 50 g/L. Of it this dose is "
        "2.4 mL."
    )
