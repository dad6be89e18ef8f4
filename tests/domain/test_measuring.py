"""What the grower's own tools make of a dose, and how far it may be off."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from growdesk.domain.analysis import parse_analysis
from growdesk.domain.as_measured import as_measured
from growdesk.domain.measuring import (
    MOST_LOADS,
    Measured,
    Tool,
    ToolKind,
    Trouble,
    bottle_name,
    fitting_step,
    measured,
)
from growdesk.domain.product import Product
from growdesk.domain.recipe import Part, Recipe, made, mixture, single
from growdesk.domain.vessels import Vessel, VesselKind
from growdesk.domain.water_analysis import WaterAnalysis
from growdesk.domain.water_measures import volume_step_ml, water_measure

DRY = Product("Bloom feed", parse_analysis("20-20-20"), key=7)
OTHER = Product("Nitrate feed", parse_analysis("15-5-15"), key=8)
LIQUID = Product("Green liquid", parse_analysis("7-3-6", 1.2), key=9)
RAIN = WaterAnalysis(kind="rain")

POCKET = Tool(ToolKind.SCALE, "pocket scale", 0.1, 500, key=1)
FINE = Tool(ToolKind.SCALE, "fine scale", 0.01, 20, key=2)
KITCHEN = Tool(ToolKind.SCALE, "kitchen scale", 1, 5000, key=3)
TEASPOON = Tool(ToolKind.SPOON, "teaspoon", 0.5, None, ((7, 4.1), (9, 6.0)), key=4)
SYRINGE = Tool(ToolKind.SYRINGE, "10 mL syringe", 0.5, 10, key=5)
CYLINDER = Tool(ToolKind.CYLINDER, "100 mL cylinder", 1, 100, key=6)


def of(mass_g: float, *tools: Tool, product: Product = DRY, **kw: bool) -> Measured:
    return measured(product, mass_g, tools, **kw)


def test_a_scale_weighs_to_its_step() -> None:
    got = of(3.42, POCKET)
    assert (got.amount, got.unit, got.tool, got.loads) == (3.4, "g", POCKET, 1)
    assert got.given_g == pytest.approx(3.4)
    assert got.half_step_share == pytest.approx(0.05 / 3.42)
    assert got.worst_g == pytest.approx(0.02 + 0.05)
    assert got.trouble is None


def test_half_a_step_goes_up() -> None:
    assert of(3.45, POCKET).amount == 3.5
    assert of(0.05, POCKET).amount == 0.1


def test_a_level_spoon_counts_only_where_it_was_weighed_for_the_product() -> None:
    got = of(10.0, TEASPOON)
    assert (got.amount, got.unit, got.loads) == (2.5, "level spoons", 1)
    assert got.given_g == pytest.approx(10.25)
    assert got.half_step_share == pytest.approx(0.25 * 4.1 / 10)
    unweighed = of(10.0, TEASPOON, product=OTHER)
    assert (unweighed.tool, unweighed.trouble) == (None, Trouble.NO_TOOL)
    assert (unweighed.amount, unweighed.given_g) == (10.0, 10.0)


def test_a_product_that_stands_on_no_shelf_has_no_weighed_spoon() -> None:
    nobody = Product("Loose", parse_analysis("20-20-20"))
    spoon = Tool(ToolKind.SPOON, "teaspoon", 1, None, ((7, 4.1),))
    assert measured(nobody, 10, [spoon]).trouble is Trouble.NO_TOOL


def test_a_liquid_is_drawn_in_several_draws_above_what_the_syringe_holds() -> None:
    got = of(34.5 * 1.2, SYRINGE, product=LIQUID)
    assert (got.amount, got.unit, got.loads) == (34.5, "mL", 4)
    assert got.half_step_share == pytest.approx(4 * 0.25 / 34.5)
    assert got.given_g == pytest.approx(34.5 * 1.2)


def test_a_liquid_goes_by_cylinder_spoon_or_scale_too() -> None:
    assert of(60, CYLINDER, product=LIQUID).amount == 50
    assert of(60, TEASPOON, product=LIQUID).amount == 10
    weighed = of(60.04, POCKET, product=LIQUID)
    assert (weighed.amount, weighed.unit) == (60.0, "g")


def test_a_dry_product_never_goes_by_volume() -> None:
    got = of(5, SYRINGE, CYLINDER)
    assert (got.tool, got.trouble, got.given_g) == (None, Trouble.NO_TOOL, 5)
    assert of(5, SYRINGE, CYLINDER, KITCHEN).tool == KITCHEN


def test_without_any_tool_the_dose_is_told_as_reckoned() -> None:
    dry, liquid = of(3.4219), of(12, product=LIQUID)
    assert (dry.tool, dry.amount, dry.unit, dry.trouble) == (None, 3.4219, "g", None)
    assert liquid.unit == "mL"
    assert liquid.amount == pytest.approx(10)
    assert dry.given_g == 3.4219
    assert not dry.too_small


def test_the_tool_with_the_least_error_is_taken() -> None:
    assert of(0.8, POCKET, FINE, KITCHEN).tool == FINE
    assert of(3.0, KITCHEN, POCKET).tool == POCKET


def test_where_errors_are_alike_fewer_loads_go_first() -> None:
    assert of(120, FINE, KITCHEN).tool == KITCHEN
    assert of(45, FINE, KITCHEN).tool == FINE, "half a gram is more than 1 % of 45 g"


def test_where_all_is_alike_the_simpler_tool_goes_first() -> None:
    spoon = Tool(ToolKind.SPOON, "measure", 1, None, ((7, 0.1),))
    assert of(50, spoon, POCKET).tool == POCKET
    even = Tool(ToolKind.CYLINDER, "cylinder", 0.5, 10)
    assert of(6, even, SYRINGE, product=LIQUID).tool == SYRINGE


def test_a_tool_too_small_by_far_gives_way_to_one_with_fewer_loads() -> None:
    tiny = Tool(ToolKind.SYRINGE, "1 mL syringe", 0.01, 1)
    got = of(60, tiny, CYLINDER, product=LIQUID)
    assert got.tool == CYLINDER
    alone = of(60, tiny, product=LIQUID)
    assert (alone.loads, alone.trouble) == (50, Trouble.MANY)


@pytest.mark.parametrize(
    ("ml", "trouble"), [(100, None), (100.5, Trouble.MANY), (101, Trouble.MANY)]
)
def test_ten_loads_are_enough(ml: float, trouble: Trouble | None) -> None:
    fine = Tool(ToolKind.SYRINGE, "10 mL syringe", 0.1, 10)
    got = of(ml * 1.2, fine, product=LIQUID)
    assert (got.loads, got.trouble) == (math.ceil(ml / 10), trouble)


def test_many_loads_are_better_than_a_tool_that_gives_nothing() -> None:
    tiny = Tool(ToolKind.SYRINGE, "tiny syringe", 0.01, 0.1)
    bucket = Tool(ToolKind.CYLINDER, "bucket", 50, 1000)
    got = of(3 * 1.2, bucket, tiny, product=LIQUID)
    assert (got.tool, got.loads, got.trouble) == (tiny, 30, Trouble.MANY)


def test_a_tool_without_a_step_measures_nothing() -> None:
    assert of(3.4, Tool(ToolKind.SCALE, "odd scale", 0.0)).trouble is Trouble.NO_TOOL


def test_what_was_wanted_is_told_in_the_same_unit() -> None:
    assert of(3.4).wanted_amount == 3.4
    assert of(3.42, POCKET).wanted_amount == 3.42
    assert of(10.0, TEASPOON).wanted_amount == pytest.approx(10 / 4.1)
    assert of(12, product=LIQUID).wanted_amount == pytest.approx(10)
    assert of(12, TEASPOON, product=LIQUID).wanted_amount == pytest.approx(2)


def test_what_rounds_to_nothing_is_said() -> None:
    got = of(0.04, POCKET)
    assert (got.amount, got.given_g, got.trouble) == (0, 0, Trouble.NOTHING)
    assert got.too_small
    assert of(0.04, POCKET, FINE).amount == 0.04


@pytest.mark.parametrize(
    ("mass_g", "limit", "small"),
    [(1.0, 0.05, False), (0.99, 0.05, True), (0.5, 0.10, False), (0.49, 0.10, True)],
)
def test_half_a_step_above_the_houses_share_is_too_coarse(
    mass_g: float, limit: float, small: bool
) -> None:
    got = measured(DRY, mass_g, [POCKET], off_limit=limit)
    assert got.too_small is small
    assert got.trouble is (Trouble.COARSE if small else None)


def test_a_jug_at_a_ceiling_is_never_rounded_up() -> None:
    assert of(3.48, POCKET).amount == 3.5
    assert of(3.48, POCKET, never_over=True).amount == 3.4
    assert of(0.3, POCKET, never_over=True).amount == 0.3, "dust is no step"
    assert of(0.09, POCKET, never_over=True).trouble is Trouble.NOTHING


def test_a_capacity_between_two_steps_holds_whole_steps_only() -> None:
    odd = Tool(ToolKind.CYLINDER, "beaker", 2, 25)
    assert odd.holds == 24
    assert of(25 * 1.2, odd, product=LIQUID).loads == 2
    useless = Tool(ToolKind.CYLINDER, "thimble", 5, 2)
    assert of(12, useless, product=LIQUID).trouble is Trouble.NO_TOOL


def test_no_dose_has_no_trouble() -> None:
    got = of(0, POCKET)
    assert (got.amount, got.trouble, got.tool) == (0, None, None)


@pytest.mark.parametrize(
    ("amount", "step"),
    [(10, 1.0), (9.99, 0.1), (1, 0.1), (0.5, 0.01), (0.01, 0.001), (0.0099, None)],
)
def test_the_step_that_would_do(amount: float, step: float | None) -> None:
    assert fitting_step(amount) == step


STEPS = st.sampled_from([0.01, 0.1, 0.2, 0.5, 1.0, 2.0])
GRAMS = st.floats(0.001, 900)


@st.composite
def tools(draw: st.DrawFn) -> Tool:
    kind = draw(st.sampled_from(list(ToolKind)))
    step = draw(STEPS)
    most = draw(st.none() | st.integers(1, 500).map(lambda n: n * step))
    weighed = draw(st.floats(0.1, 20))
    return Tool(kind, kind.value, step, most, ((7, weighed), (9, weighed)))


@given(
    st.sampled_from([DRY, LIQUID]),
    GRAMS,
    st.lists(tools(), min_size=1, max_size=4),
    st.booleans(),
)
def test_what_is_given_is_whole_steps_and_no_further_off_than_they_allow(
    product: Product, mass_g: float, at_hand: list[Tool], never_over: bool
) -> None:
    got = measured(product, mass_g, at_hand, never_over=never_over)
    if got.tool is None:
        assert got.trouble is Trouble.NO_TOOL
        return
    step_g = got.tool.step * got.g_per_unit
    steps = got.amount / got.tool.step
    assert steps == pytest.approx(round(steps), abs=1e-6)
    assert got.given_g == pytest.approx(got.amount * got.g_per_unit)
    off = got.given_g - mass_g
    dust = 1e-6 * (mass_g + step_g)
    if never_over:
        assert -step_g - dust <= off <= dust
    else:
        assert abs(off) <= step_g / 2 * got.loads + dust
    assert got.amount <= got.loads * got.tool.holds + 1e-6
    assert got.half_step_share * mass_g == pytest.approx(got.loads * step_g / 2)
    assert (got.amount == 0) is (got.trouble is Trouble.NOTHING)


@given(st.sampled_from([DRY, LIQUID]), GRAMS, GRAMS, tools(), st.booleans())
def test_more_wanted_is_never_less_given(
    product: Product, one: float, two: float, tool: Tool, never_over: bool
) -> None:
    less, more = (
        measured(product, mass_g, [tool], never_over=never_over)
        for mass_g in sorted((one, two))
    )
    assert less.given_g <= more.given_g + 1e-9


@given(GRAMS, st.lists(tools(), min_size=1, max_size=4))
def test_no_other_tool_of_few_loads_would_be_plainly_better(
    mass_g: float, at_hand: list[Tool]
) -> None:
    best = measured(LIQUID, mass_g, at_hand)
    for tool in at_hand:
        alone = measured(LIQUID, mass_g, [tool])
        if alone.amount > 0 and alone.loads <= MOST_LOADS:
            assert best.worst_g <= max(alone.worst_g, 0.01 * mass_g) * (1 + 1e-6)


# -- the finished feed ----------------------------------------------------------------


def test_the_finished_feed_is_what_the_doses_give() -> None:
    wanted = mixture(single(DRY), 120, RAIN)
    doses = [measured(DRY, grams * 5, [KITCHEN]) for _, grams in wanted.g_per_l]
    real = as_measured(wanted, doses, 5)
    assert doses[0].mass_g == pytest.approx(3.0)
    assert real.strength_ppm_n == pytest.approx(120)
    small = [measured(DRY, grams * 2, [KITCHEN]) for _, grams in wanted.g_per_l]
    real = as_measured(wanted, small, 2)
    assert small[0].given_g == 1, "1.2 g on a scale of 1 g"
    assert real.strength_ppm_n == pytest.approx(100)
    assert real.g_per_l == ((DRY, 0.5),)
    assert real.elements_mg_per_l["P"] == pytest.approx(100 * 0.4364, rel=1e-3)
    assert real.recipe == wanted.recipe


def test_the_water_stays_in_the_finished_feed() -> None:
    tap = WaterAnalysis(kind="tap", no3_mg_per_l=44.3)
    wanted = mixture(single(DRY), 110, tap)
    own = wanted.from_water_mg_per_l["N"]
    assert own == pytest.approx(10, abs=0.1)
    none = [measured(DRY, 0.0004, [POCKET])]
    assert as_measured(wanted, none, 1).strength_ppm_n == pytest.approx(own)


def test_the_misfit_moves_with_what_was_measured() -> None:
    recipe = Recipe("Two", (Part(DRY, 1), Part(OTHER, 1)))
    wanted = made(recipe, RAIN, ((DRY, 0.5), (OTHER, 0.4)), {"N": 0.0, "K": -3.0})
    doses = [measured(DRY, 0.5, [KITCHEN]), measured(OTHER, 0.4, [POCKET])]
    real = as_measured(wanted, doses, 1)
    gained = real.elements_mg_per_l["N"] - wanted.elements_mg_per_l["N"]
    assert gained == pytest.approx(100)
    assert real.misfit_mg_per_l["N"] == pytest.approx(100)
    potash = real.elements_mg_per_l["K"] - wanted.elements_mg_per_l["K"]
    assert real.misfit_mg_per_l["K"] == pytest.approx(-3 + potash)


def test_no_volume_changes_nothing() -> None:
    wanted = mixture(single(DRY), 120, RAIN)
    assert as_measured(wanted, [], 0) is wanted


@given(st.floats(20, 400), st.floats(0.3, 20))
def test_a_fine_scale_gives_what_was_wanted(strength: float, volume_l: float) -> None:
    wanted = mixture(single(DRY), strength, RAIN)
    scale = Tool(ToolKind.SCALE, "fine scale", 0.001)
    doses = [measured(p, grams * volume_l, [scale]) for p, grams in wanted.g_per_l]
    real = as_measured(wanted, doses, volume_l)
    assert math.isclose(
        real.strength_ppm_n, strength, abs_tol=200 * 0.0005 / volume_l + 1e-6
    )


# -- a spoon as it is printed ---------------------------------------------------------

GALLON_L = 3.785411784
US_OUNCE_G = 28.349523125


@pytest.mark.parametrize(
    ("spoons", "ppm_n", "printed"),
    [
        (0.5, 105, "Atlanta Orchid Society, member article on the J. Szyren talk"),
        (1.0, 210, "Atlanta Orchid Society, member article on the J. Szyren talk"),
    ],
)
def test_a_printed_teaspoon_of_13_3_15_in_a_gallon(
    spoons: float, ppm_n: float, printed: str
) -> None:
    """It is true of a spoon of 6.1 g; 6 g, as printed elsewhere, gives 206."""
    feed = Product("Pure water feed", parse_analysis("13-3-15"), key=1)
    for grams, gives in ((6.115, ppm_n), (6.0, ppm_n * 206 / 210)):
        spoon = Tool(ToolKind.SPOON, "teaspoon", 0.5, None, ((1, grams),))
        dose = measured(feed, spoons * grams, [spoon])
        assert dose.amount == spoons, printed
        wanted = mixture(single(feed), gives, RAIN)
        real = as_measured(wanted, [dose], GALLON_L)
        assert real.strength_ppm_n == pytest.approx(gives, rel=2e-3), printed


def test_printed_teaspoons_are_apart_by_half() -> None:
    """1 oz is about 3 tablespoons of dry feed (Connecticut Rose Society), and a
    teaspoon about 0.2 oz (B. Argo, International Phalaenopsis Alliance).
    """
    rose, argo = US_OUNCE_G / 9, 0.2 * US_OUNCE_G
    spoons = [
        Tool(ToolKind.SPOON, "teaspoon", 1, None, ((7, grams),))
        for grams in (rose, argo)
    ]
    counted = [measured(DRY, 28.35, [spoon]).amount for spoon in spoons]
    assert counted == [9, 5], "an ounce is nine spoons by one and five by the other"


# -- volumes --------------------------------------------------------------------------

JUG = Vessel(VesselKind.JUG, "jug", 2.0, step_ml=100)
CAN = Vessel(VesselKind.CAN, "can", 8.0, step_ml=500)
PLAIN = Vessel(VesselKind.CAN, "old can", 10.0)


@pytest.mark.parametrize(
    ("volume_l", "name", "step_ml", "fills"),
    [
        (0.05, "100 mL cylinder", 1, 1),
        (1.5, "jug", 100, 1),
        (2.0, "jug", 100, 1),
        (2.1, "can", 500, 1),
        (9.0, "can", 500, 2),
    ],
)
def test_water_is_measured_in_the_fewest_fills(
    volume_l: float, name: str, step_ml: float, fills: int
) -> None:
    got = water_measure(volume_l, [CAN, PLAIN, JUG], [CYLINDER, POCKET])
    assert got is not None
    assert (got.name, got.step_ml, got.fills) == (name, step_ml, fills)
    assert volume_step_ml(volume_l, [CAN, PLAIN, JUG], [CYLINDER]) == step_ml


def test_water_without_anything_graduated() -> None:
    assert water_measure(3, [PLAIN], [POCKET]) is None
    assert volume_step_ml(3, [PLAIN]) == 10
    assert water_measure(0, [JUG], []) is None
    assert water_measure(30, [], [SYRINGE]) is None, "3000 draws are no measure"
    assert water_measure(0.3, [CAN], []) is None, "less than its least mark"
    assert volume_step_ml(0.5, [CAN]) == 500, "just its least mark"
    assert volume_step_ml(0.1, [], [SYRINGE]) == 0.5, "ten draws"
    assert volume_step_ml(0.11, [], [SYRINGE]) == 10, "eleven are no measure"


def test_a_small_jug_with_a_scale_measures_water() -> None:
    small = Vessel(VesselKind.JUG, "small jug", 0.5, step_ml=20)
    got = water_measure(0.4, [small], [])
    assert got is not None
    assert (got.name, got.step_ml, got.fills) == ("small jug", 20, 1)


def test_a_useless_tool_does_not_hide_the_next() -> None:
    broken = Tool(ToolKind.SCALE, "odd scale", 0.0)
    assert of(3.42, broken, POCKET).tool == POCKET


def test_where_no_tool_suits_the_dose_is_told_as_reckoned() -> None:
    got = measured(LIQUID, 12.0, [Tool(ToolKind.SPOON, "scoop", 1)], off_limit=0.1)
    assert (got.product, got.unit, got.g_per_unit) == (LIQUID, "mL", 1.2)
    assert got.amount == pytest.approx(10)
    assert (got.trouble, got.off_limit) == (Trouble.NO_TOOL, 0.1)


@pytest.mark.parametrize(
    ("name", "told"),
    [
        ("Epsom salt", "Epsom salt stock"),
        ("Epsom Stock A", "Epsom Stock A"),
        ("Brown bottle", "Brown bottle"),
    ],
)
def test_a_bottle_is_called_stock_once(name: str, told: str) -> None:
    assert bottle_name(name) == told
