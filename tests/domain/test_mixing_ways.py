"""Which way of mixing is closer, reckoned by hand from steps of scales and jugs."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from growdesk.domain import mix_words
from growdesk.domain.analysis import parse_analysis
from growdesk.domain.batches import Batch
from growdesk.domain.ladder import ladder
from growdesk.domain.measuring import Measured, Tool, ToolKind, measured
from growdesk.domain.mixing_ways import (
    Dosed,
    Loss,
    Scales,
    Ways,
    compared,
    dosed_alone,
    down_the_ladder,
    same_feed,
)
from growdesk.domain.product import Product
from growdesk.domain.recipe import Part, Recipe, Wanted, mixture
from growdesk.domain.vessels import Vessel, VesselKind
from growdesk.domain.water_analysis import WaterAnalysis

TIN = Product("Green tin", parse_analysis("20-20-20"), key=1)
EPSOM = Product("Epsom salt", parse_analysis("0-0-0 + 9.8 Mg + 13 S"), key=2)
CALCIUM = Product("Calcium nitrate", parse_analysis("15.5-0-0 + 19 Ca"), key=3)
POTASH = Product("Potassium nitrate", parse_analysis("13.8-0-46.5"), key=4)
SCALE = Tool(ToolKind.SCALE, "Kitchen scale", 0.1)
JUG = Vessel(VesselKind.JUG, "Jug", 5.0, step_ml=50)
RAIN = WaterAnalysis("rain")


def dose(mass_g: float, product: Product = TIN, tool: Tool = SCALE) -> Measured:
    return measured(product, mass_g, [tool])


def batch(letter: str, ppm: int, volume_l: float) -> Batch:
    return Batch(letter, ppm, volume_l, ("A1",))


def test_a_small_dose_is_off_by_half_a_step_and_the_jug_by_half_of_its() -> None:
    """0.05 of 0.3 g is a sixth; 25 mL of a litre are 2.5 %."""
    loss = dosed_alone(Dosed("C", 1.0, (dose(0.3),)), Scales([JUG]))
    assert loss.share == pytest.approx(1 / 6 + 0.025)
    assert (loss.letter, loss.dose) == ("C", dose(0.3))


def test_rounding_counts_beside_the_half_step() -> None:
    loss = dosed_alone(Dosed("C", 1.0, (dose(0.32),)), Scales())
    assert loss.share == pytest.approx((0.02 + 0.05) / 0.32 + 0.005)


def test_what_rounds_to_nothing_is_off_by_all_of_itself() -> None:
    loss = dosed_alone(Dosed("C", 1.0, (dose(0.03),)), Scales())
    assert loss.share == pytest.approx(1.0 + 0.005)


def test_doses_count_by_the_nitrogen_they_bring() -> None:
    both = (dose(0.1, EPSOM), dose(2.0))
    loss = dosed_alone(Dosed("A", 1.0, both), Scales())
    assert loss.share == pytest.approx(0.025 + 0.005)
    assert loss.dose == both[1]


def test_misread_volumes_add_up_down_the_ladder() -> None:
    """A third of 1.5 L is kept: 2.25 g and 0.5 L, read on a jug of 50 mL."""
    steps = ladder([batch("A", 300, 1.0), batch("B", 100, 1.5)])
    assert (steps[0].told_mix_l, steps[1].told_kept_l) == (1.5, 0.5)
    fresh = {"A": Dosed("A", 1.5, (dose(2.25),))}
    first, second = down_the_ladder(steps, 0.0, fresh, Scales([JUG]))
    begun = (0.05 + 0.05) / 2.25 + 25 / 1500
    assert first.share == pytest.approx(begun)
    assert second.share == pytest.approx(begun + 25 / 500 + 25 / 1500)


def test_a_rung_that_is_kept_short_is_off_by_that_too() -> None:
    steps = ladder([batch("A", 150, 0.7), batch("B", 110, 1.533)])
    fresh = {"A": Dosed("A", steps[0].told_mix_l, (dose(1.4),))}
    _, second = down_the_ladder(steps, 0.0, fresh, Scales())
    short = 1 - 150 * 1.12 / 1.54 / 110
    read = 0.05 / 1.4 + 5 / 1820 + 5 / 1120 + 5 / 1540
    assert second.share == pytest.approx(read + short)


CYLINDER = Tool(ToolKind.CYLINDER, "Glass cylinder", 2.0, most=250.0)


def test_what_is_kept_is_measured_with_what_is_worth_its_fills() -> None:
    """Twice 1 mL of a cylinder is less than 25 mL of a jug; eleven fills are no way."""
    scales = Scales([JUG], [CYLINDER])
    fine = scales.finest(0.3)
    assert fine is not None
    assert (fine.name, fine.fills) == ("Glass cylinder", 2)
    assert scales.off_kept(0.3) == pytest.approx(2 / 300)
    assert scales.off(0.3) == pytest.approx(25 / 300)
    assert scales.finest(2.6) is None
    assert scales.off_kept(2.6) == scales.off(2.6)
    assert Scales([JUG]).finest(0.3) is None
    assert Scales().finest(0.3) is None
    assert scales.finest(0.0) is None
    assert scales.off_kept(0.0) == 0.0


def test_the_step_of_a_fine_measure() -> None:
    assert Scales([JUG], [CYLINDER]).fine_ml == 2
    assert Scales([JUG], [SCALE]).fine_ml is None
    assert Scales([JUG], [replace(CYLINDER, step=0.5)]).fine_ml == 1
    assert Scales([replace(JUG, step_ml=10)]).fine_ml is None
    assert Scales().fine_ml is None


def test_diluting_is_closer_for_little_and_weighing_for_much() -> None:
    def ways(litres: float) -> Ways | None:
        batches = [batch("A", 200, litres), batch("B", 40, litres)]
        steps = ladder(batches)
        alone = [
            Dosed(b.letter, litres, (dose(b.strength_ppm_n * litres / 200),))
            for b in batches
        ]
        fresh = {"A": Dosed("A", 1.2 * litres, (dose(1.2 * litres),))}
        return compared(alone, [(steps, 0.0)], fresh, Scales([JUG]))

    little, much = ways(1.5), ways(50.0)
    assert little is not None
    assert much is not None
    assert little.ladder_first
    assert mix_words.which_way(little) == (
        "Mix once and dilute: the 0.3 g of Green tin for jug B is read to 0.1 g, so "
        "that diluting is closer: at worst 14 % off instead of 18 %."
    )
    assert not much.ladder_first
    assert mix_words.which_way(much).startswith("Dose each jug on its own: at worst")


def test_nothing_is_said_where_no_tool_is_known() -> None:
    steps = ladder([batch("A", 200, 1), batch("B", 40, 1)])
    bare = measured(TIN, 1.0)
    alone = [Dosed("A", 1, (bare,)), Dosed("B", 1, (dose(0.2),))]
    fresh = {"A": Dosed("A", 1.2, (dose(1.2),))}
    assert compared(alone, [(steps, 0.0)], fresh, Scales()) is None
    assert compared([Dosed("A", 1, ())], [(steps, 0.0)], fresh, Scales()) is None
    known = [Dosed("A", 1, (dose(1.0),)), Dosed("B", 1, (dose(0.2),))]
    assert compared(known, [], fresh, Scales()) is None
    assert compared(known, [(steps, 0.0)], fresh, Scales()) is not None


def test_a_way_must_be_clearly_closer() -> None:
    alone = Loss("B", 0.05, dose(1.0))
    assert not Ways(alone, Loss("B", 0.046)).ladder_first
    assert Ways(alone, Loss("B", 0.044)).ladder_first


def test_a_spoon_is_not_said_to_be_read_to_a_step() -> None:
    spoon = Tool(ToolKind.SPOON, "Teaspoon", 0.5, g_per_level=((1, 4.0),))
    ways = Ways(Loss("B", 0.4, dose(2.0, tool=spoon)), Loss("B", 0.1))
    assert mix_words.which_way(ways) == (
        "Mix once and dilute: the ½ level teaspoon of Green tin for jug B may be 40 % "
        "off, diluted no jug is more than 10 % off."
    )


# Dilution is not always the same feed

FIXED = Recipe("Two", (Part(TIN, 9.0), Part(EPSOM, 1.0)), key=1)
SOLVED = Recipe(
    "Solved",
    (Part(CALCIUM), Part(POTASH), Part(EPSOM)),
    wanted=Wanted(n=100, k=80, ca=80, mg=20),
    key=2,
)
HARD = WaterAnalysis("tap", "Kitchen tap", ca_mg_per_l=60, mg_mg_per_l=8)
NITRATE = WaterAnalysis("tap", "Well", no3_mg_per_l=44.27)


@pytest.mark.parametrize("water", [RAIN, HARD, NITRATE])
def test_fixed_shares_are_diluted_with_any_water(water: WaterAnalysis) -> None:
    assert same_feed(mixture(FIXED, 150, water), mixture(FIXED, 60, water))


def test_a_solved_recipe_is_diluted_with_pure_water_only() -> None:
    assert same_feed(mixture(SOLVED, 150, RAIN), mixture(SOLVED, 60, RAIN))
    assert not same_feed(mixture(SOLVED, 150, HARD), mixture(SOLVED, 60, HARD))


def test_water_as_strong_as_the_jug_dilutes_nothing() -> None:
    assert not same_feed(mixture(FIXED, 9.9, NITRATE), mixture(FIXED, 9.9, NITRATE))


def test_a_thinned_jug_is_the_jug_dosed_alone() -> None:
    """A step of the ladder holds, element by element, what its own dose would give."""
    for water in (RAIN, HARD, NITRATE):
        strong, weak = mixture(FIXED, 150, water), mixture(FIXED, 60, water)
        own = strong.from_water_mg_per_l
        steps = ladder([batch("A", 150, 1.0), batch("B", 60, 1.0)], own.get("N", 0.0))
        kept, mix = steps[1].kept_l, steps[1].mix_l
        for element, mg_per_l in strong.elements_mg_per_l.items():
            thinned = (mg_per_l * kept + own.get(element, 0.0) * (mix - kept)) / mix
            wanted = weak.elements_mg_per_l[element]
            assert thinned == pytest.approx(wanted, rel=0.003)
