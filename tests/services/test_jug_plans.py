"""A round's jugs by recipe, in mixes that fit, under the ceilings, with its ladder."""

from __future__ import annotations

import math
from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from growdesk.domain.analysis import parse_analysis
from growdesk.domain.explain import Judgement, Strength
from growdesk.domain.facts import House, Plant, Verdict, Water
from growdesk.domain.measuring import Tool, ToolKind
from growdesk.domain.product import Product
from growdesk.domain.recipe import Part, Recipe, Wanted
from growdesk.domain.recipe_uses import RecipeUse
from growdesk.domain.stocktaking import Good, Sort
from growdesk.domain.vessels import Vessel, VesselKind
from growdesk.services import drawing_down
from growdesk.services.planning import mix_plan
from growdesk.services.sheet_jugs import jug_for, with_week_letters
from growdesk.services.shelf import Shelf, house_with_water
from growdesk.services.values import Jug, MixPlan, TinDraft, WaterDraft, WaterView

ON = date(2026, 5, 20)
HOUSE = House()
GREEN = TinDraft("Green tin", "20-20-20")
TIN = Product("Green tin", parse_analysis("20-20-20"), key=1)
CALCIUM = Product("Calcium nitrate", parse_analysis("15.5-0-0 + 19 Ca"), key=2)
POTASH = Product("Potassium nitrate", parse_analysis("13.8-0-46.5"), key=3)
SOLVED = Recipe(
    "Calcium feed",
    (Part(CALCIUM), Part(POTASH)),
    wanted=Wanted(n=100, k=80, ca=80),
    key=7,
)
SCALE = Tool(ToolKind.SCALE, "Kitchen scale", 1.0)
FINE = Tool(ToolKind.SCALE, "Pocket scale", 0.01)
JUG = Vessel(VesselKind.JUG, "White jug", 4.0, step_ml=100)
HARD = WaterDraft("tap", 0.6, name="Kitchen tap", ca_mg_per_l=90, mg_mg_per_l=12)
RAIN = Shelf(GREEN, WaterDraft("rain"), tin_id=1)


def fed(
    tag: str, ppm_n: float, round_l: float = 1.0, *, ceiling: float = 400.0
) -> tuple[Plant, Judgement]:
    plant = Plant(tag, volume_l=round_l)
    judgement = Judgement(
        tag,
        "",
        ON,
        Verdict.FEED,
        Water.THROUGH,
        "rule",
        Strength(ppm_n, ceiling, ()),
        round_l,
        reasons=(),
    )
    return plant, judgement


def plan(
    *pairs: tuple[Plant, Judgement], shelf: Shelf = RAIN, house: House = HOUSE
) -> MixPlan:
    return mix_plan(pairs, house, shelf)


def two_recipes(*tags: str) -> Shelf:
    """Give a shelf whose named plants are fed by the solved recipe."""
    uses = tuple(RecipeUse(SOLVED, tag=tag, key=n) for n, tag in enumerate(tags))
    return replace(RAIN, recipes=(SOLVED,), uses=uses)


def ec_of(water: WaterDraft) -> tuple[float, float]:
    """Give what a jug reads of a recipe with a water of its own."""
    recipe = Recipe("Green", (Part(TIN),), key=8, water_key=2)
    shelf = Shelf(
        GREEN,
        WaterDraft("tap", 0.02, name="Soft tap"),
        tin_id=1,
        water_id=1,
        waters=(WaterView(2, water),),
        recipes=(recipe,),
        uses=(RecipeUse(recipe, tag="A1", key=1),),
    )
    (jug,) = plan(
        fed("A1", 100), shelf=shelf, house=house_with_water(HOUSE, shelf)
    ).jugs
    assert jug.ec_low_ms_per_cm is not None
    assert jug.ec_high_ms_per_cm is not None
    assert bool(jug.notes) == (water.ec_ms_per_cm is None and not water.ca_mg_per_l)
    return jug.ec_low_ms_per_cm, jug.ec_high_ms_per_cm


def test_the_ec_of_the_water_in_use_is_not_given_to_another() -> None:
    told = ec_of(HARD)
    by_ions = ec_of(replace(HARD, ec_ms_per_cm=None))
    assert by_ions == pytest.approx(told, abs=0.15)
    assert ec_of(WaterDraft("tap")) == ec_of(WaterDraft("RO", 0.0))


# Recipes


def test_plants_of_different_recipes_never_share_a_jug() -> None:
    mix = plan(fed("A1", 100), fed("B1", 100), shelf=two_recipes("B1"))
    assert [(j.letter, j.tags, j.recipe, j.recipe_id) for j in mix.jugs] == [
        ("A", ("A1",), "Green tin", None),
        ("B", ("B1",), "Calcium feed", 7),
    ]
    first, second = mix.jugs
    assert [dose.product.name for dose in first.doses] == ["Green tin"]
    assert {dose.product for dose in second.doses} == {CALCIUM, POTASH}
    assert second.doses[-1].product == CALCIUM


def test_the_ladder_stays_within_a_recipe() -> None:
    pairs = [fed("A1", 200), fed("A2", 50), fed("B1", 210), fed("B2", 60)]
    house = replace(HOUSE, jugs=4)
    mix = plan(*pairs, shelf=two_recipes("B1", "B2"), house=house)
    recipes = [jug.recipe for jug in mix.jugs]
    assert recipes == ["Calcium feed", "Calcium feed", "Green tin", "Green tin"]
    fresh = [step for step in mix.ladder if step.startswith("Mix ")]
    poured = [step for step in mix.ladder if step.startswith("Pour ")]
    assert len(fresh) == len(poured) == 2
    assert "in jug A" in fresh[0]
    assert "for jug B" in fresh[0]
    assert " of Potassium nitrate and " in fresh[0]
    assert fresh[0].endswith(" of Calcium nitrate.")
    assert "in jug C" in fresh[1]
    assert "for jug D" in fresh[1]


def test_more_recipes_than_jugs_is_said() -> None:
    pairs = [fed("A1", 100), fed("B1", 100)]
    mix = plan(*pairs, shelf=two_recipes("B1"), house=replace(HOUSE, jugs=1))
    assert len(mix.jugs) == 2
    (told,) = mix.remarks
    assert told == (
        "Two recipes need a jug each, and your house rules have 1 jug: rinse one and "
        "use it again."
    )
    assert plan(*pairs, shelf=two_recipes("B1")).remarks == ()


def test_one_jug_more_counts_the_recipes() -> None:
    pairs = [fed("A1", 200), fed("A2", 40), fed("B1", 100)]
    mix = plan(*pairs, shelf=two_recipes("B1"), house=replace(HOUSE, jugs=1))
    assert mix.outside_band
    assert mix.one_more is not None
    assert mix.one_more.strengths_ppm_n == (200, 40, 100)
    assert mix.one_more.outside_band == ()


def test_a_recipe_has_its_own_water() -> None:
    waters = (WaterView(1, WaterDraft("rain")), WaterView(2, HARD))
    recipe = replace(SOLVED, water_key=2)
    shelf = replace(
        RAIN,
        waters=waters,
        water_id=1,
        recipes=(recipe,),
        uses=(RecipeUse(recipe, tag="B1"),),
    )
    first, second = plan(fed("A1", 100), fed("B1", 100), shelf=shelf).jugs
    assert (first.water_id, second.water_id) == (1, 2)
    assert second.water == "Kitchen tap"
    assert dict(second.elements_mg_per_l)["Mg"] == pytest.approx(12)


def test_a_recipe_that_lacks_a_tin_is_named_on_its_jug() -> None:
    recipe = replace(SOLVED, lacking=("Epsom salt",))
    shelf = replace(RAIN, recipes=(recipe,), uses=(RecipeUse(recipe, tag="B1"),))
    mix = plan(fed("B1", 100), fed("B2", 60), shelf=shelf)
    jug = mix.jugs[0]
    assert (jug.recipe, jug.recipe_id, jug.doses) == ("Calcium feed", 7, ())
    assert jug.warnings[0].startswith("Calcium feed cannot make this jug. ")
    assert mix.jugs[1].doses


# Dilution


def test_a_solved_recipe_is_diluted_with_rain_and_not_with_hard_water() -> None:
    pairs = [fed("B1", 200), fed("B2", 60)]
    shelf = replace(two_recipes("B1", "B2"), tools=(FINE,))
    soft = plan(*pairs, shelf=shelf)
    assert len(soft.ladder) == 2
    assert soft.ladder[1].startswith("Pour ")
    hard = plan(*pairs, shelf=replace(shelf, water=HARD))
    assert hard.ladder == ()
    assert not hard.ladder_first
    assert hard.ladder_why == (
        "Dose the jugs of Calcium feed each on its own: Kitchen tap brings nutrients "
        "of its own, so that its shares change with the strength and a thinned jug is "
        "another feed."
    )


def test_a_ladder_that_no_jug_holds_is_not_offered() -> None:
    pairs = [fed("A1", 200, 3.0), fed("A2", 100, 3.0)]
    assert len(plan(*pairs).ladder) == 2
    mix = plan(*pairs, shelf=replace(RAIN, vessels=(JUG,)))
    assert mix.ladder == ()
    assert mix.ladder_why == (
        "Dose the jugs of Green tin each on its own: to dilute, jug A would begin with "
        "4.8 L, more than the white jug holds."
    )


def test_one_recipe_is_diluted_beside_another_that_is_not() -> None:
    pairs = [fed("A1", 200), fed("A2", 50), fed("B1", 210), fed("B2", 60)]
    shelf = replace(two_recipes("B1", "B2"), tools=(FINE,), water=HARD)
    mix = plan(*pairs, shelf=shelf, house=replace(HOUSE, jugs=4))
    starts = [step.partition(" ")[0] for step in mix.ladder]
    assert starts == ["Mix", "Mix", "Mix", "Pour"]
    assert mix.ladder_why.count("Dose the jugs of Calcium feed each on its own: ") == 1
    assert mix.ladder_why.startswith("Dose each jug on its own: at worst that is ")


def test_the_closer_way_goes_first() -> None:
    """On a scale of 1 g a jug of 0.3 g is nothing; of 300 L everything is close."""
    pairs = [fed("A1", 200, 5.0), fed("A2", 40, 1.0)]
    shelf = replace(RAIN, tools=(SCALE,))
    mix = plan(*pairs, shelf=shelf)
    assert mix.ladder_first
    assert mix.ladder_why.startswith(
        "Mix once and dilute: the 0.21 g of Green tin for jug B is read to 1 g, so "
        "that diluting is closer: "
    )
    fine = plan(*pairs, shelf=replace(RAIN, tools=(FINE,)))
    assert not fine.ladder_first
    assert fine.ladder_why.startswith("Dose each jug on its own: at worst that is ")
    assert plan(*pairs).ladder_why == ""


def test_a_ladder_that_goes_first_is_drawn_as_it_is_measured() -> None:
    """Alone jug B would be 0 g; of jug A it has its part of what A begins with."""
    pairs = [fed("A1", 200, 5.0), fed("A2", 40, 1.0)]
    shelf = replace(RAIN, tools=(SCALE,))
    mix = plan(*pairs, shelf=shelf)
    assert mix.ladder_first
    assert "That takes 5 g of Green tin." in mix.ladder[0]
    first, second = (drawing_down.of_jug(jug, shelf) for jug in mix.jugs)
    tin = Good(Sort.TIN, 1)
    assert mix.jugs[1].doses[0].amount == 0
    # 200 ppm in 5.25 L beside 40 ppm in 1.05 L: 25 parts to 1 of the 5 g
    assert first[tin] == pytest.approx(5 * 25 / 26)
    assert second[tin] == pytest.approx(5 * 1 / 26)
    assert drawing_down.of_round(mix, shelf)[tin] == pytest.approx(5)
    alone = plan(*pairs, shelf=replace(RAIN, tools=(FINE,)))
    assert [jug.of_ladder for jug in alone.jugs] == [None, None]


def test_a_ladder_says_what_its_jugs_really_come_to() -> None:
    pairs = [fed("A1", 200, 5.0), fed("A2", 40, 1.0)]
    mix = plan(*pairs, shelf=replace(RAIN, tools=(SCALE,)))
    first, second = mix.ladder
    # 5.46 L at 200 ppm N would take 5.46 g of 20 % N; 5 g give 5000 * 0.2 / 5.46
    assert (
        "That takes 5 g of Green tin. Jug A then gives 183 of 200 ppm N (−8 %)."
        in first
    )
    assert "The kitchen scale may be off by 9 % of 5.46 g of Green tin." in first
    assert "Make a stock solution" in first
    assert second.endswith("Jug B then gives 37 of 40 ppm N (−8 %).")
    assert [(j.letter, round(j.gives_ppm_n)) for j in mix.ladder_jugs] == [
        ("A", 183),
        ("B", 37),
    ]
    strong, weak = (jug.ec for jug in mix.ladder_jugs)
    assert strong is not None
    assert weak is not None
    assert weak.high_ms_per_cm / strong.high_ms_per_cm == pytest.approx(0.2, abs=0.03)
    alone = plan(*pairs, shelf=replace(RAIN, tools=(FINE,)))
    assert alone.ladder_jugs == ()
    assert not any("then gives" in step for step in alone.ladder)


def test_a_ladder_says_what_measures_what_is_kept() -> None:
    cylinder = Tool(ToolKind.CYLINDER, "Glass cylinder", 2.0, most=250.0)
    pairs = [fed("A1", 200, 3.0), fed("A2", 60, 0.5)]
    coarse = replace(JUG, volume_l=5.0)
    shelf = replace(RAIN, tools=(FINE, cylinder), vessels=(coarse,))
    first, second = plan(*pairs, shelf=shelf).ladder
    assert first.endswith("of Green tin. Measure the 180 mL with the glass cylinder.")
    assert "Measure" not in second
    bare = plan(*pairs, shelf=replace(shelf, tools=(FINE,))).ladder
    assert not any("Measure" in step for step in bare)


# Mixes that fit


def test_a_large_batch_is_several_mixes_each_with_its_dose() -> None:
    bucket = replace(JUG, name="Bucket", step_ml=None)
    shelf = replace(RAIN, vessels=(bucket,), tools=(FINE,))
    (jug,) = plan(fed("A1", 200, 9.7), shelf=shelf).jugs
    assert [(f.how_many, f.volume_l, f.vessel) for f in jug.fills] == [
        (2, 4.0, "Bucket"),
        (1, 2.19, "Bucket"),
    ]
    assert [fill.doses[0].given_g for fill in jug.fills] == [4.0, 2.19]
    assert jug.doses[0].amount == pytest.approx(10.19)
    assert jug.mixing[0] == (
        "Mix it in parts, each with its own dose: two mixes of 4 L and one of 2.19 L."
    )
    assert jug.over_l == 0.0


def test_what_a_jug_cannot_show_is_mixed_and_named() -> None:
    coarse = replace(JUG, step_ml=500)
    (jug,) = plan(fed("A1", 200, 3.0), shelf=replace(RAIN, vessels=(coarse,))).jugs
    assert (jug.volume_l, jug.spare_l, jug.over_l) == (3.0, 0.5, 0.35)
    assert jug.doses[0].mass_g == pytest.approx(3.5)
    assert jug.mixing[-1].startswith("500 mL stays over, spare included")
    (fine,) = plan(fed("A1", 200, 3.0), shelf=replace(RAIN, vessels=(JUG,))).jugs
    assert (fine.spare_l, fine.over_l) == (0.2, 0.05)


def test_without_vessels_a_jug_is_mixed_at_once() -> None:
    (jug,) = plan(fed("A1", 200, 30.0)).jugs
    assert (jug.fills, jug.over_l, jug.spare_l) == ((), 0.0, 1.5)
    assert len(jug.mixing) == 1


def test_doses_of_several_tools_are_added_up_in_grams() -> None:
    """Of 4 g the scale is closer, of 1.25 g one level spoon."""
    spoon = Tool(ToolKind.SPOON, "Teaspoon", 1.0, g_per_level=((1, 1.25),))
    bucket = replace(JUG, step_ml=None)
    shelf = replace(RAIN, vessels=(bucket,), tools=(SCALE, spoon))
    (jug,) = plan(fed("A1", 200, 5.0), shelf=shelf).jugs
    assert [fill.doses[0].unit for fill in jug.fills] == ["g", "level spoons"]
    (dose,) = jug.doses
    assert (dose.unit, dose.amount, dose.given_g) == ("g", 5.25, 5.25)


def test_fewer_jugs_on_the_shelf_than_strengths_is_said() -> None:
    pairs = [fed("A1", 200), fed("A2", 100), fed("A3", 40)]
    two = replace(RAIN, vessels=(replace(JUG, how_many=2),))
    (told,) = plan(*pairs, shelf=two).remarks
    assert told == (
        "This round takes three jugs, and two stand on your shelf: rinse one and use "
        "it again."
    )
    three = replace(RAIN, vessels=(replace(JUG, how_many=3),))
    assert plan(*pairs, shelf=three).remarks == ()
    assert plan(*pairs).remarks == ()


def test_jugs_that_stand_ready_together_are_mixed_in_jugs_of_their_own() -> None:
    small = Vessel(VesselKind.JUG, "Small jug", 2.0, step_ml=50)
    shelf = replace(RAIN, vessels=(JUG, small))
    pairs = [fed("A1", 200, 1.0), fed("A2", 50, 0.5)]
    assert [jug.fills[0].vessel for jug in plan(*pairs, shelf=shelf).jugs] == [
        "Small jug",
        "White jug",
    ]


# Ceilings


def test_a_dose_is_rounded_down_where_up_would_pass_a_ceiling() -> None:
    shelf = replace(RAIN, tools=(SCALE,))
    (free,) = plan(fed("A1", 160, 2.0), shelf=shelf).jugs
    assert free.doses[0].amount == 2.0
    assert free.gives_ppm_n == pytest.approx(2000 * 0.2 / 2.1)
    (held,) = plan(fed("A1", 160, 2.0, ceiling=160), shelf=shelf).jugs
    assert held.doses[0].amount == 1.0
    assert held.gives_ppm_n == pytest.approx(1000 * 0.2 / 2.1)


def test_a_ladder_is_dosed_under_the_ceilings_of_all_that_it_feeds() -> None:
    """For 1.57 L at 200 ppm N 2 g would be 255, and 127 in the jug of 100."""
    shelf = replace(RAIN, tools=(SCALE,))
    free = plan(fed("A1", 200), fed("A2", 100), shelf=shelf)
    assert "That takes 2 g of Green tin. Jug A then gives 255 of 200" in free.ladder[0]
    held = plan(fed("A1", 200), fed("A2", 100, ceiling=110), shelf=shelf)
    assert held.jugs[0].doses[0].amount == 1.0
    assert "That takes 1 g of Green tin. Jug A then gives 127 of 200" in held.ladder[0]


_ROUNDS = st.lists(
    st.tuples(
        st.integers(3, 40).map(lambda tens: 10.0 * tens),
        st.sampled_from([0.0, 5.0, 200.0]),
        st.sampled_from([0.2, 0.5, 1.5, 4.0]),
        st.booleans(),
    ),
    min_size=1,
    max_size=8,
)


@settings(deadline=None, max_examples=60)
@given(
    _ROUNDS,
    st.sampled_from([0.01, 0.1, 1.0]),
    st.sampled_from(
        [(), (JUG,), (replace(JUG, step_ml=None), replace(JUG, volume_l=1.0))]
    ),
    st.integers(1, 4),
)
def test_no_plant_gets_more_than_its_ceiling_whatever_is_rounded(
    rows: list[tuple[float, float, float, bool]],
    step_g: float,
    vessels: tuple[Vessel, ...],
    jugs: int,
) -> None:
    pairs = [
        fed(f"P{n}", ppm, litres, ceiling=ppm + room)
        for n, (ppm, room, litres, _) in enumerate(rows)
    ]
    of_recipe = [f"P{n}" for n, row in enumerate(rows) if row[3]]
    shelf = replace(
        two_recipes(*of_recipe), tools=(replace(SCALE, step=step_g),), vessels=vessels
    )
    mix = plan(*pairs, shelf=shelf, house=replace(HOUSE, jugs=jugs))
    ceilings = {plant.tag: found.strength for plant, found in pairs}
    for jug in mix.jugs:
        strengths = [ceilings[tag] for tag in jug.tags]
        least = min(each.ceiling_ppm_n for each in strengths if each is not None)
        assert jug.gives_ppm_n is not None
        assert jug.gives_ppm_n <= least + 1e-6
        for each in jug.fills:
            assert each.gives_ppm_n is not None
            assert each.gives_ppm_n <= least + 1e-6
        mixed_l = jug.volume_l + jug.spare_l
        if jug.fills:
            total = math.fsum(f.how_many * f.volume_l for f in jug.fills)
            assert total == pytest.approx(mixed_l)
        nitrogen = math.fsum(
            dose.given_g * dose.product.mg_per_g()["N"] for dose in jug.doses
        )
        assert jug.gives_ppm_n == pytest.approx(nitrogen / mixed_l)


def test_water_stronger_than_a_jug_makes_none_and_says_so() -> None:
    """Of 88.6 mg/L nitrate 20 are nitrogen."""
    well = WaterDraft("tap", 0.5, name="Well", no3_mg_per_l=88.6)
    pairs = [fed("A1", 100), fed("A2", 15, ceiling=15)]
    strong, weak = plan(*pairs, shelf=replace(RAIN, water=well)).jugs
    assert strong.gives_ppm_n == pytest.approx(100)
    assert (weak.doses, weak.gives_ppm_n) == ((), None)
    (told,) = weak.warnings
    assert told == (
        "Green tin cannot make this jug. “Well” brings 20 ppm N by itself, more "
        "than the 15 of this jug. Blend it with rain or RO water."
    )


def test_a_jug_that_cannot_be_made_is_no_step_of_the_ladder() -> None:
    """Of 100 and 60 ppm N in water of 20 the feed brings 80 and 40: half is kept."""
    well = WaterDraft("tap", 0.5, name="Well", no3_mg_per_l=88.537)
    pairs = [fed("A1", 100), fed("A2", 60), fed("A3", 15)]
    first, second = plan(*pairs, shelf=replace(RAIN, water=well)).ladder
    assert first.startswith("Mix 1.57 L at 100 ppm N in jug A, use 1.05 L of it, and ")
    assert second.startswith("Pour the 520 mL kept into jug B, add 530 mL of water ")


# The week


def test_a_letter_is_one_strength_of_one_recipe() -> None:
    shelf = two_recipes("B1")
    monday = plan(fed("A1", 100), shelf=shelf)
    thursday = plan(fed("B1", 100), fed("A1", 100), fed("A2", 50), shelf=shelf)
    first, second = with_week_letters([monday, thursday])
    assert [jug.letter for jug in first.jugs] == ["A"]
    by_letter = {jug.letter: (jug.recipe, jug.strength_ppm_n) for jug in second.jugs}
    assert by_letter == {
        "A": ("Green tin", 100),
        "B": ("Green tin", 50),
        "C": ("Calcium feed", 100),
    }


def test_why_the_ladder_goes_first_has_the_weeks_letters() -> None:
    pairs = [fed("A1", 200, 5.0), fed("A2", 40, 1.0)]
    shelf = replace(RAIN, tools=(SCALE,))
    _, second = with_week_letters([plan(fed("A3", 100)), plan(*pairs, shelf=shelf)])
    assert "for jug C is read to 1 g" in second.ladder_why


def test_a_plant_decided_anew_takes_a_jug_of_its_own_recipe() -> None:
    mix = plan(fed("A1", 100), fed("B1", 80), shelf=two_recipes("B1"))
    wish = Strength(100.0, 400.0, ())

    def suiting(recipe_id: int | None) -> Jug | None:
        return jug_for(wish, mix.jugs, HOUSE, recipe_id)

    own, other = suiting(None), suiting(7)
    assert own is not None
    assert other is not None
    assert (own.recipe, own.strength_ppm_n) == ("Green tin", 100)
    assert (other.recipe, other.strength_ppm_n) == ("Calcium feed", 80)
    assert suiting(8) is None
