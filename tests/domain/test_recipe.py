"""Recipes: what fixed shares make, what is solved for, what is missed and why."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from growdesk.domain.analysis import parse_analysis
from growdesk.domain.chemistry import molar_mass_g_per_mol
from growdesk.domain.errors import InputError
from growdesk.domain.product import Product
from growdesk.domain.recipe import Mixture, Part, Recipe, Wanted, mixture, single
from growdesk.domain.recipe_words import nitrogen_advice, reduced_share
from growdesk.domain.salt_table import analysis_of
from growdesk.domain.water_analysis import WaterAnalysis

RO = WaterAnalysis("ro")
GREEN = Product("Green tin", parse_analysis("20-20-20"))
CALCIUM = Product("Calcium nitrate", parse_analysis("15.5-0-0 Ca 19"))
EPSOM = Product("Epsom salt", parse_analysis("Mg 9.7"))


def salt(formula: str) -> Product:
    return Product(formula, analysis_of(formula), formula)


def solved(
    wanted: Wanted, strength: float, *products: Product, water: WaterAnalysis = RO
) -> Mixture:
    recipe = Recipe("Solved", tuple(Part(each) for each in products), wanted)
    return mixture(recipe, strength, water)


def grams(mixed: Mixture) -> dict[str, float]:
    return {product.name: g for product, g in mixed.g_per_l}


# -- published ----------------------------------------------------------------------


def test_calcium_nitrate_for_100_ppm_n_brings_122_6_ppm_ca() -> None:
    """N. Mattson, e-GRO Edible Alert 3(5), 2018 (Cornell): 15.5 % N and 19 % Ca."""
    mixed = mixture(single(CALCIUM), 100, RO)
    assert grams(mixed)["Calcium nitrate"] == pytest.approx(0.6452, abs=5e-5)
    assert mixed.elements_mg_per_l["Ca"] == pytest.approx(122.6, abs=0.05)


def test_epsom_salt_for_40_ppm_mg_beside_calcium_nitrate() -> None:
    """Ibid.: MgSO4 of 9.7 % Mg, 412 mg to the litre for 40 ppm Mg."""
    mixed = solved(Wanted(n=100, mg=40), 100, CALCIUM, EPSOM)
    assert grams(mixed)["Epsom salt"] == pytest.approx(0.412, abs=5e-4)
    assert grams(mixed)["Calcium nitrate"] == pytest.approx(0.6452, abs=5e-5)


def test_300_ppm_n_half_from_ammonium_and_half_from_calcium_nitrate() -> None:
    """Texas A&M, Greenhouse nutrition & fertility: 33 % and 15 % N, 100 US gallons.

    The page prints .33 x 75 as 29.75 and so 5 oz; with 24.75 it is 6.06 and 13.33 oz by
    its rule of 75, which is exactly 74.89.
    """
    ammonium = Product("Ammonium nitrate", parse_analysis("33-0-0"))
    calcium = Product("Calcium nitrate", parse_analysis("15-0-0"))
    recipe = Recipe("Half and half", (Part(ammonium, 15), Part(calcium, 33)))
    ounces = {
        name: g * 378.541 / 28.3495
        for name, g in grams(mixture(recipe, 300, RO)).items()
    }
    assert ounces["Ammonium nitrate"] == pytest.approx(6.06, rel=0.002)
    assert ounces["Calcium nitrate"] == pytest.approx(13.33, rel=0.002)


HOAGLAND_1 = {"N": 210, "P": 31, "K": 235, "Ca": 200, "Mg": 48.6, "S": 64}
HOAGLAND_2 = {"N": 210, "P": 31, "K": 235, "Ca": 160, "Mg": 48.6, "S": 64}


@pytest.mark.parametrize(
    ("published", "moles"),
    [
        (
            HOAGLAND_1,
            {"KH2PO4": 1, "KNO3": 5, "Ca(NO3)2.4H2O": 5, "MgSO4.7H2O": 2},
        ),
        (
            HOAGLAND_2,
            {"NH4H2PO4": 1, "KNO3": 6, "Ca(NO3)2.4H2O": 4, "MgSO4.7H2O": 2},
        ),
    ],
)
def test_hoagland_s_solutions_are_reached_from_their_salts(
    published: dict[str, float], moles: dict[str, int]
) -> None:
    """D. R. Hoagland & D. I. Arnon, Circular 347, 1950, solutions 1 and 2.

    The ppm are as encyclopedias print them; the mmol of each salt are from memory.
    """
    wanted = Wanted(*(published[e] for e in ("N", "P", "K", "Ca", "Mg")))
    mixed = solved(wanted, published["N"], *map(salt, moles))
    for formula, mmol in moles.items():
        expected = mmol * molar_mass_g_per_mol(formula) / 1000
        assert grams(mixed)[formula] == pytest.approx(expected, rel=0.006), formula
    for element, mg in published.items():
        assert mixed.elements_mg_per_l[element] == pytest.approx(mg, rel=0.006)
    assert mixed.notes == ()


# -- what the solver owes -----------------------------------------------------------


def test_nitrogen_is_met_exactly_whatever_else_is_missed() -> None:
    mixed = solved(Wanted(3, 0, 9, 0, 5), 120, GREEN, CALCIUM)
    assert mixed.strength_ppm_n == pytest.approx(120, abs=1e-9)
    assert mixed.misfit_mg_per_l["N"] == pytest.approx(0, abs=1e-9)
    assert max(map(abs, mixed.misfit_mg_per_l.values())) > 10


def test_water_s_own_is_counted_once() -> None:
    tap = WaterAnalysis("tap", ca_mg_per_l=30, no3_mg_per_l=20)
    products = (salt("KNO3"), salt("Ca(NO3)2.4H2O"), salt("NH4NO3"))
    pure = solved(Wanted(2, k=1, ca=1), 100, *products)
    hard = solved(Wanted(2, k=1, ca=1), 100, *products, water=tap)
    for mixed in (pure, hard):
        assert mixed.strength_ppm_n == pytest.approx(100)
        assert mixed.elements_mg_per_l["Ca"] == pytest.approx(50)
        assert mixed.elements_mg_per_l["K"] == pytest.approx(50)
    less = grams(pure)["Ca(NO3)2.4H2O"] - grams(hard)["Ca(NO3)2.4H2O"]
    assert less * 169.7 == pytest.approx(30, abs=0.05)  # a gram holds 169.7 mg Ca


def test_a_mix_with_pure_water_grows_with_its_strength() -> None:
    products = (GREEN, CALCIUM, EPSOM)
    weak = solved(Wanted(3, 1, 2, 2, 0.5), 40, *products)
    strong = solved(Wanted(3, 1, 2, 2, 0.5), 160, *products)
    for name, g in grams(weak).items():
        assert grams(strong)[name] == pytest.approx(4 * g)


def test_an_element_that_does_not_matter_moves_nothing() -> None:
    both = solved(Wanted(3, ca=1), 90, GREEN, CALCIUM)
    assert both.elements_mg_per_l["Ca"] == pytest.approx(30)
    assert set(both.misfit_mg_per_l) == {"N", "Ca"}
    none = solved(Wanted(3, k=0, ca=1), 90, GREEN, CALCIUM)
    assert none.elements_mg_per_l["K"] < both.elements_mg_per_l["K"]


def test_the_same_product_twice_makes_the_same_feed() -> None:
    once = solved(Wanted(3, 1, 2), 90, GREEN, CALCIUM)
    twice = solved(Wanted(3, 1, 2), 90, GREEN, CALCIUM, GREEN)
    for element, mg in once.elements_mg_per_l.items():
        assert twice.elements_mg_per_l[element] == pytest.approx(mg)
    assert all(g >= 0 for _, g in twice.g_per_l)


# -- what is said -------------------------------------------------------------------


def test_a_lacking_element_is_named_with_a_salt_that_brings_it() -> None:
    mixed = solved(Wanted(100, k=60, mg=20), 100, salt("KNO3"), salt("NH4NO3"))
    note, cure = mixed.notes
    assert note == (
        "Magnesium comes to 0 mg/L, 20 mg/L less than the 20 wanted. No product of the"
        " recipe brings any."
    )
    assert cure == "With Epsom salt as well, magnesium would come out as wanted."


def test_what_is_too_much_is_named_with_what_it_comes_with() -> None:
    mixed = solved(Wanted(3, p=0.2), 90, GREEN)
    note, cure = mixed.notes
    assert note == (
        "Phosphorus comes to 39 mg/L, 33 mg/L more than the 6.0 wanted. Most of it"
        " comes with Green tin."
    )
    assert cure.startswith("With ")
    assert cure.endswith("as well, phosphorus would come out as wanted.")
    mixed = solved(Wanted(3, p=0), 90, GREEN)
    assert mixed.notes[0].startswith("Phosphorus comes to 39 mg/L where none is wanted")


def test_what_one_salt_would_mend_is_said_once() -> None:
    mixed = solved(Wanted(3, 1, 2), 100, GREEN)
    phosphorus, potassium, *cures = mixed.notes
    assert phosphorus.startswith("Phosphorus comes to 44 mg/L")
    assert potassium.startswith("Potassium comes to 83 mg/L")
    (cure,) = cures
    assert cure.startswith("With calcium nitrate as well, phosphorus would be ")
    assert " mg/L off and potassium would be " in cure


def test_a_water_that_is_richer_than_wanted_is_named() -> None:
    tap = WaterAnalysis("tap", ca_mg_per_l=80)
    mixed = solved(Wanted(100, ca=50), 100, GREEN, CALCIUM, water=tap)
    note, left_out = mixed.notes
    assert note == (
        "Calcium comes to 80 mg/L, 30 mg/L more than the 50 wanted. The water alone"
        " brings 80 mg/L; mix with a purer water."
    )
    assert left_out == "Nothing is taken of Calcium nitrate."


def test_a_water_with_more_nitrate_than_wanted_gets_no_nitrogen() -> None:
    well = WaterAnalysis("tap", no3_mg_per_l=100)  # 22.6 mg/L N
    mixed = solved(Wanted(20, mg=10), 20, GREEN, EPSOM, water=well)
    assert grams(mixed)["Green tin"] == 0
    assert mixed.elements_mg_per_l["Mg"] == pytest.approx(10)
    assert mixed.strength_ppm_n == pytest.approx(22.59, abs=0.01)
    assert mixed.notes[0] == (
        "Nitrogen comes to 23 mg/L, 2.6 mg/L more than the 20 wanted. The water alone"
        " brings 23 mg/L; mix with a purer water."
    )


@pytest.mark.parametrize(
    ("ca", "mg", "said"),
    [
        # 200 mg/L CaCO3 is 80.1 mg/L Ca or 48.6 mg/L Mg; beside 60 mg/L Ca, 12.2 of Mg.
        (None, None, "calcium and magnesium are|up to 80 mg/L Ca or up to 49 mg/L Mg"),
        (60.0, None, "magnesium is|up to 12 mg/L Mg"),
        (60.0, 12.2, ""),
    ],
)
def test_a_water_known_by_its_hardness_alone_says_what_is_not_counted(
    ca: float | None, mg: float | None, said: str
) -> None:
    tap = WaterAnalysis(hardness_mg_per_l=200.0, ca_mg_per_l=ca, mg_mg_per_l=mg)
    recipe = Recipe(
        "Both", (Part(CALCIUM), Part(EPSOM), Part(GREEN)), Wanted(3, ca=2, mg=1)
    )
    metals, _, most = said.partition("|")
    told = (
        f"The water's {metals} not known, only its hardness of 200 mg/L, and not "
        f"counted here: it may bring {most}. Look in its analysis."
    )
    found = [n for n in mixture(recipe, 150, tap).notes if "hardness" in n]
    assert found == ([told] if said else [])
    nitrogen = mixture(replace(recipe, wanted=Wanted(3)), 150, tap)
    assert "hardness" not in " ".join(nitrogen.notes)


def test_small_misses_are_not_talked_about() -> None:
    products = (salt("KNO3"), salt("NH4NO3"))
    assert solved(Wanted(100, k=60, mg=0.4), 100, *products).notes == ()


@pytest.mark.parametrize("wanted", [None, Wanted(1, k=2)])
def test_a_recipe_without_nitrogen_is_refused(wanted: Wanted | None) -> None:
    recipe = Recipe("Bloom salt", (Part(salt("KH2PO4")),), wanted)
    with pytest.raises(InputError) as refused:
        mixture(recipe, 100, RO)
    assert "brings no nitrogen" in refused.value.problem
    assert "Add a product that holds nitrogen." in refused.value.line()


def test_a_recipe_whose_tins_are_gone_names_them_with_the_way_out() -> None:
    gone = ("Green tin", "Epsom salt", "Potash")
    with pytest.raises(InputError) as refused:
        mixture(Recipe("Growth", (Part(CALCIUM),), lacking=gone), 100, RO)
    told = refused.value.line()
    assert "Growth" in told
    assert "needs Green tin, Epsom salt and Potash, not on the shelf any more" in told
    assert "Undo" in told


# -- forms of nitrogen --------------------------------------------------------------


def test_forms_come_from_labels_from_ions_and_from_the_water() -> None:
    label = Product("Feed", parse_analysis("13-3-15 nitrate-N 12 ammonium-N 1"))
    tap = WaterAnalysis("tap", no3_mg_per_l=10)
    bare = Product("Calcium nitrate", CALCIUM.analysis, "5Ca(NO3)2.NH4NO3.10H2O")
    recipe = Recipe("Two", (Part(label, 1), Part(bare, 1)))
    mixed = mixture(recipe, 100, tap)
    forms = mixed.nitrogen_forms_mg_per_l
    assert sum(forms.values()) == pytest.approx(100)
    of_bare = 155 * grams(mixed)["Calcium nitrate"]
    of_label = 130 * grams(mixed)["Feed"]
    assert forms["ammonium"] == pytest.approx(of_label / 13 + of_bare / 12)


def test_much_ammonium_is_advised_against_and_never_refused() -> None:
    half = mixture(single(salt("NH4NO3")), 100, RO)
    assert nitrogen_advice(half.nitrogen_forms_mg_per_l, 100) is None
    urea = mixture(single(salt("CO(NH2)2")), 100, RO)
    assert reduced_share(urea.nitrogen_forms_mg_per_l, 100) == pytest.approx(1)
    said = nitrogen_advice(urea.nitrogen_forms_mg_per_l, 100)
    assert said is not None
    assert said.startswith("100 % of the nitrogen is ammonium and urea.")
    assert urea.notes == ()


def test_forms_not_told_are_not_guessed() -> None:
    mixed = mixture(single(GREEN), 100, RO)
    assert mixed.nitrogen_forms_mg_per_l == {}
    assert nitrogen_advice(mixed.nitrogen_forms_mg_per_l, 100) is None
    partly = Product("Part", parse_analysis("20-20-20 ammonium-N 12"))
    mixed = mixture(single(partly), 100, RO)
    assert nitrogen_advice(mixed.nitrogen_forms_mg_per_l, 100) is None
