"""What falls out of a bottle, against published tables and PHREEQC, and the way out.

Ids name the rows of the project's list of published values.
"""

from __future__ import annotations

from itertools import combinations, product
from math import inf, log10
from typing import TYPE_CHECKING

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from msgspec.structs import replace
from phreeqpython import PhreeqPython

from growdesk.domain import stock_words
from growdesk.domain.bottles import Add, WayOut, mixing_order, way_out
from growdesk.domain.keeping_apart import (
    FEED_MARGIN,
    Apart,
    Rule,
    Severity,
    Where,
    findings,
    refused,
)
from growdesk.domain.precipitates import far_below, indices
from growdesk.domain.stock_ions import ions_of_all
from growdesk.domain.stock_templates import APART
from growdesk.domain.water_analysis import WaterAnalysis
from tests.domain.stock_builders import SALTS, label, room, salt

if TYPE_CHECKING:
    from growdesk.domain.product import Product
    from growdesk.domain.stock_ions import Parts

RO = WaterAnalysis(kind="ro")
HARD = WaterAnalysis(kind="tap", alkalinity_mg_per_l=200.0, ca_mg_per_l=80.0)
CALCIUM = salt("Ca(NO3)2.4H2O", "Calcium nitrate")
EPSOM = salt("MgSO4.7H2O", "Epsom salt")
MKP = salt("KH2PO4", "Potassium phosphate")
MAP = salt("NH4H2PO4", "Ammonium phosphate")
DAP = salt("(NH4)2HPO4", "Diammonium phosphate")
NITRATE = salt("KNO3", "Potassium nitrate")
SULPHATE = salt("K2SO4", "Potassium sulphate")
AMMONIUM = salt("(NH4)2SO4", "Ammonium sulphate")
CHLORIDE = salt("KCl", "Potassium chloride")


def rules(parts: Parts, where: Where = Where.STOCK) -> set[Rule]:
    return {each.rule for each in refused(parts, RO, room(), where)}


def only(parts: Parts, rule: Rule, where: Where = Where.STOCK) -> Apart:
    (found,) = (
        each for each in findings(parts, RO, room(), where) if each.rule is rule
    )
    return found


@pytest.mark.parametrize("sulphate", [EPSOM, SULPHATE, AMMONIUM])
def test_m01_calcium_nitrate_with_any_sulphate(sulphate: Product) -> None:
    """O. Rottenberg, Haifa Group, Interaction among fertilizers, as all M rows here."""
    assert rules(((CALCIUM, 100.0), (sulphate, 50.0))) == {Rule.CALCIUM_SULPHATE}
    assert rules(((CALCIUM, 1.0), (sulphate, 0.5)), Where.FEED) == set()


@pytest.mark.parametrize("phosphate", [MAP, MKP, DAP])
def test_m02_calcium_nitrate_with_any_phosphate(phosphate: Product) -> None:
    assert rules(((CALCIUM, 100.0), (phosphate, 20.0))) == {Rule.CALCIUM_PHOSPHATE}


@pytest.mark.parametrize("phosphate", [MAP, DAP])
def test_m03_magnesium_with_ammonium_phosphates(phosphate: Product) -> None:
    assert rules(((EPSOM, 50.0), (phosphate, 20.0))) == {Rule.MAGNESIUM_PHOSPHATE}
    assert not findings(((EPSOM, 0.3), (phosphate, 0.1)), RO, room(), Where.FEED)


def test_m03_an_acid_potassium_phosphate_stands_beside_magnesium() -> None:
    """The usual second bottle: its table names ammonium phosphates only."""
    assert rules(((EPSOM, 50.0), (MKP, 27.0), (SULPHATE, 30.0))) == set()


def test_m04_phosphate_with_iron() -> None:
    iron = salt("FeSO4.7H2O", "Iron sulphate")
    found = only(((iron, 3.0), (MKP, 20.0)), Rule.IRON_PHOSPHATE)
    assert found.severity is Severity.REFUSE
    told = label("Trace mix", "0-0-0 + 6 Fe")
    found = only(((told, 3.0), (MKP, 20.0)), Rule.IRON_PHOSPHATE)
    assert (found.severity, found.meet) == (Severity.WARN, ("Potassium phosphate",))
    for name in ("Iron EDTA", "Fe-DTPA 11", "EDDHA iron", "Chelated iron"):
        parts = ((label(name, "0-0-0 + 6 Fe"), 3.0), (MKP, 20.0))
        assert Rule.IRON_PHOSPHATE not in {
            each.rule for each in findings(parts, RO, room())
        }


@pytest.mark.parametrize("potassium", [CHLORIDE, NITRATE])
def test_m05_ammonium_sulphate_with_potassium_salts(potassium: Product) -> None:
    parts = ((AMMONIUM, 200.0), (potassium, 150.0))
    found = only(parts, Rule.CRYSTALS)
    assert found.severity is Severity.REFUSE
    assert found.values["salt"] == "potassium sulphate"
    assert rules(((AMMONIUM, 30.0), (potassium, 25.0))) == set()


def test_m06_calcium_into_hard_alkaline_water_leaves_chalk() -> None:
    """From 60 mg/L Ca with 150 mg/L hydrogen carbonate on."""
    parts = ((CALCIUM, 0.5), (NITRATE, 0.1))
    (found,) = findings(parts, HARD, room(), Where.FEED)
    assert (found.rule, found.severity) == (Rule.SCALE, Severity.WARN)
    assert found.bring == ("Calcium nitrate",)
    soft = WaterAnalysis(kind="tap", alkalinity_mg_per_l=120.0, ca_mg_per_l=80.0)
    assert findings(parts, soft, room(), Where.FEED) == ()
    assert findings(((NITRATE, 0.5),), HARD, room(), Where.FEED) == ()


@pytest.mark.parametrize("times", [0.2, 0.5, 0.9, 1.3, 2.0, 3.0])
def test_gypsum_as_phreeqc_has_it(times: float) -> None:
    """Calcium nitrate beside Epsom salt in PHREEQC (phreeqc.dat), mmol/L."""
    calcium, magnesium = 15.0 * times, 20.0 * times
    phreeqc = PhreeqPython(database="phreeqc.dat").add_solution(
        {
            "units": "mmol/kgw",
            "Ca": calcium,
            "N(5)": 2 * calcium,
            "Mg": magnesium,
            "S(6)": magnesium,
        }
    )
    ions = {"Ca": calcium, "NO3": 2 * calcium, "Mg": magnesium, "SO4": magnesium}
    ours = indices({ion: mmol / 1000 for ion, mmol in ions.items()})
    assert ours.gypsum == pytest.approx(phreeqc.si("Gypsum"), abs=0.08)


def test_gypsum_falls_out_where_its_handbook_solubility_says() -> None:
    """M15: 0.26 g in 100 g of water at 20 °C is 15.1 mmol/L."""
    assert indices({"Ca": 0.0151, "SO4": 0.0151}).gypsum == pytest.approx(0, abs=0.02)


def test_two_products_of_which_only_the_labels_are_known() -> None:
    calcium, bloom = label("Cal-Mag", "15-0-0 + 18 Ca"), label("Bloom", "3-35-30 + 2 S")
    found = refused(((calcium, 100.0), (bloom, 80.0)), RO, room())
    assert {each.rule for each in found} == {
        Rule.CALCIUM_SULPHATE,
        Rule.CALCIUM_PHOSPHATE,
    }
    assert rules(((calcium, 0.5), (bloom, 0.4)), Where.FEED) == set()


def test_what_one_label_answers_for_is_told_and_not_refused() -> None:
    all_in_one = label("All in one", "13-3-15 + 8 Ca + 2 Mg")
    found = findings(((all_in_one, 100.0),), RO, room())
    assert [each.rule for each in found] == [Rule.OWN_LABEL, Rule.UNKNOWN]
    assert rules(((all_in_one, 100.0), (NITRATE, 20.0))) == set()
    assert findings(((all_in_one, 0.8),), RO, room(), Where.FEED) == ()


@pytest.mark.parametrize(
    ("analysis", "metals"),
    [
        ("13-3-15 + 8 Ca + 2 Mg", "calcium"),
        ("12-12-12 + 2 Mg nitrate-N 4 ammonium-N 8", "magnesium"),
        ("12-12-12 + 4 Ca + 2 Mg ammonium-N 8", "calcium and magnesium"),
    ],
)
def test_one_labels_metals_are_named_in_one_sentence(
    analysis: str, metals: str
) -> None:
    found = findings(((label("All in one", analysis), 150.0),), RO, room())
    own = [
        stock_words.apart_text(each) for each in found if each.rule is Rule.OWN_LABEL
    ]
    told = (
        f"All in one holds {metals} beside phosphate or sulphate by itself: its label "
        "says how strong a stock may be, and a bottle that turns milky is not used."
    )
    assert own == [told]


def test_a_salt_that_comes_out_of_two_others_names_both() -> None:
    parts = ((AMMONIUM, 150.0), (NITRATE, 120.0), (CALCIUM, 0.0))
    found = only(parts, Rule.CRYSTALS)
    assert set(found.bring) == {AMMONIUM.name, NITRATE.name}


def test_a_stock_over_its_solubility_names_what_a_litre_holds() -> None:
    found = only(((SULPHATE, 100.0),), Rule.OVER)
    assert found.values["most"] == pytest.approx(79.0, abs=0.5)
    assert rules(((SULPHATE, 75.0),)) == set()


@pytest.mark.parametrize(("grams", "over"), [(1.9, False), (2.4, True), (5.0, True)])
def test_gypsum_by_itself_keeps_the_margin_of_its_solubility(
    *, grams: float, over: bool
) -> None:
    """2.0 g of CaSO4 in a litre is 2.5 g of gypsum; four fifths of it stay."""
    gypsum = salt("CaSO4.2H2O", "Gypsum")
    found = refused(((gypsum, grams),), RO, room())
    assert [each.rule for each in found] == [Rule.OVER] * over
    assert way_out(((gypsum, grams),), RO, room(), 1.0).bottles == ()


def test_hard_water_and_phosphate_cloud_a_feed_by_their_acidity() -> None:
    parts = ((CALCIUM, 0.8), (MKP, 0.3))
    assert findings(parts, RO, room(), Where.FEED) == ()
    hard = WaterAnalysis(kind="tap", alkalinity_mg_per_l=300.0, ca_mg_per_l=120.0)
    found = {each.rule: each for each in findings(parts, hard, room(), Where.FEED)}
    clouded = found[Rule.CALCIUM_PHOSPHATE]
    assert clouded.severity is Severity.WARN
    assert clouded.values["ph"] == pytest.approx(7.1, abs=0.3)


def test_a_water_known_by_its_hardness_clouds_a_feed_too() -> None:
    """A test strip tells hardness and alkalinity, and no calcium by itself."""
    told = WaterAnalysis(
        kind="tap", alkalinity_mg_per_l=280.0, ca_mg_per_l=90.1, mg_mg_per_l=18.2
    )
    strip = WaterAnalysis(
        kind="tap", alkalinity_mg_per_l=280.0, hardness_mg_per_l=300.0
    )
    feed = ((salt("(NH4)2HPO4"), 0.3), (CALCIUM, 0.1))
    for water in (told, strip):
        found = {each.rule for each in findings(feed, water, room(), Where.FEED)}
        assert found == {Rule.CALCIUM_PHOSPHATE, Rule.SCALE}
    soft = replace(strip, hardness_mg_per_l=20.0, alkalinity_mg_per_l=20.0)
    assert Rule.SCALE not in {f.rule for f in findings(feed, soft, room(), Where.FEED)}


amounts = st.just(0.0) | st.floats(-5.5, -2).map(lambda power: 10**power)


@settings(deadline=None, max_examples=150)
@given(
    ions=st.fixed_dictionaries(
        dict.fromkeys(("Ca", "Mg", "NH4", "SO4", "H2PO4", "HCO3"), amounts)
    )
)
def test_a_glance_never_overlooks_what_falls_out(ions: dict[str, float]) -> None:
    assume(far_below(ions))
    charge = 2 * ions["Ca"] + 2 * ions["Mg"] + ions["NH4"]
    charge -= 2 * ions["SO4"] + ions["H2PO4"] + ions["HCO3"]
    balance = {"NO3": charge} if charge > 0 else {"K": -charge}
    found = indices(ions | balance)
    assert found.gypsum <= 0.01
    assert max(found.brushite, found.newberyite, found.struvite) <= FEED_MARGIN


def test_a_usual_feed_is_settled_at_a_glance() -> None:
    parts = ((CALCIUM, 0.5), (EPSOM, 0.3), (MKP, 0.1), (NITRATE, 0.2))
    assert far_below(ions_of_all(parts, SALTS))


def test_acid_phosphate_alone_has_some_hydrogen_phosphate_of_its_own() -> None:
    ions = {"Ca": 0.02, "NO3": 0.04, "K": 0.02, "H2PO4": 0.02}
    assert not far_below(ions)
    assert far_below({**ions, "H2PO4": 1e-6, "Ca": 0.002})


def test_a_thin_solution_by_hand() -> None:
    """1e-6 mol/L each: activities are amounts, HPO4 its share at the pH, pK 7.207."""
    ions = {"Ca": 1e-6, "Mg": 1e-6, "NH4": 1e-6, "HPO4": 1e-6, "NO3": 3e-6}
    found = indices(ions)
    share = 1 / (1 + 10 ** (7.207 - found.ph))
    assert found.brushite == pytest.approx(-12 + log10(share) + 6.59, abs=0.02)
    assert found.newberyite == pytest.approx(-12 + log10(share) + 5.80, abs=0.02)
    bare = log10(share) + found.ph - 12.346
    ammonium = 1 / (1 + 10 ** (found.ph - 9.25))
    assert found.struvite == pytest.approx(
        -18 + bare + log10(ammonium) + 13.26, abs=0.03
    )
    assert found.gypsum == -inf


@pytest.mark.parametrize("factor", [0.99, 1.01])
@pytest.mark.parametrize(
    ("ions", "limit"),
    # What a glance lets pass is the product of the solubility, not more.
    [
        ({"Ca": 0.01, "SO4": 1e-6}, 10**-4.58 / 1e-8),
        ({"Ca": 0.01, "HPO4": 1e-6}, 10**-6.59 / 1e-8),
        ({"Mg": 0.01, "HPO4": 1e-6}, 10**-5.80 / 1e-8),
        ({"Mg": 0.001, "NH4": 0.5, "HPO4": 1e-6}, 10 ** (3.9 - 13.26) / 5e-10),
    ],
)
def test_a_glance_from_both_sides(
    ions: dict[str, float], limit: float, factor: float
) -> None:
    ion = "SO4" if "SO4" in ions else "HPO4"
    strong = {**ions, ion: ions[ion] * limit * factor}
    assert far_below(strong) is (factor < 1)


def test_what_is_put_in_at_nought_grams_is_not_there() -> None:
    none = ((CALCIUM, 90.0), (EPSOM, 0.0), (MKP, 0.0))
    assert findings(none, RO, room()) == ()
    way = way_out(((CALCIUM, 90.0), (EPSOM, 50.0), (MKP, 0.0)), RO, room(), 1.0)
    assert named(way.bottles) == [{"Calcium nitrate"}, {"Epsom salt"}]


# -- the way out --------------------------------------------------------------------


def named(bottles: tuple[tuple[Product, ...], ...]) -> list[set[str]]:
    return [{each.name for each in bottle} for bottle in bottles]


def test_the_usual_feed_goes_into_two_bottles() -> None:
    parts = ((CALCIUM, 90.0), (NITRATE, 40.0), (EPSOM, 50.0), (MKP, 27.0))
    way = way_out(parts, RO, room(), 1.0)
    assert named(way.bottles) == [
        {"Calcium nitrate", "Potassium nitrate"},
        {"Epsom salt", "Potassium phosphate"},
    ]


def test_calcium_magnesium_and_ammonium_phosphate_need_three() -> None:
    way = way_out(((CALCIUM, 90.0), (EPSOM, 50.0), (MAP, 20.0)), RO, room(), 1.0)
    assert named(way.bottles) == [
        {"Calcium nitrate"},
        {"Epsom salt"},
        {"Ammonium phosphate"},
    ]


def test_too_strong_a_salt_takes_more_water_and_no_second_bottle() -> None:
    way = way_out(((SULPHATE, 100.0),), RO, room(), 0.5)
    assert way.bottles == ()
    assert way.litres == pytest.approx(0.5 * 100 / 79.05, rel=0.005)


def test_a_stock_that_stays_clear_needs_no_way_out() -> None:
    way = way_out(((NITRATE, 40.0), (EPSOM, 50.0)), RO, room(), 1.0)
    assert (way.bottles, way.litres) == ((), None)


def test_more_water_is_offered_where_it_is_within_reason() -> None:
    assert way_out(((CALCIUM, 100.0), (EPSOM, 50.0)), RO, room(), 1.0).litres
    strong = ((CALCIUM, 900.0), (EPSOM, 400.0))
    assert way_out(strong, RO, room(), 1.0).litres is None


SHELF = (CALCIUM, NITRATE, EPSOM, MKP, MAP, SULPHATE, AMMONIUM)


@settings(deadline=None, max_examples=40)
@given(
    st.lists(
        st.tuples(st.sampled_from(SHELF), st.floats(5, 60)),
        min_size=2,
        max_size=5,
        unique_by=lambda part: part[0].name,
    )
)
def test_bottles_are_clear_hold_all_and_are_the_fewest(
    drawn: list[tuple[Product, float]],
) -> None:
    parts = tuple(drawn)
    grams = dict(parts)
    way = way_out(parts, RO, room(), 1.0)
    if not way.bottles:
        return
    held = [each.name for bottle in way.bottles for each in bottle]
    assert sorted(held) == sorted(each.name for each in grams)
    for bottle in way.bottles:
        assert not refused(tuple((each, grams[each]) for each in bottle), RO, room())
    apart = {
        (one, other)
        for one, other in combinations(range(len(parts)), 2)
        if refused((parts[one], parts[other]), RO, room())
    }
    fewer = len(way.bottles) - 1
    assert not any(
        all(colours[one] != colours[other] for one, other in apart)
        for colours in product(range(fewer), repeat=len(parts))
    )


def test_calcium_is_dissolved_last() -> None:
    steps = mixing_order([CALCIUM, NITRATE, EPSOM, MKP])
    assert [step.add for step in steps] == [
        Add.WATER,
        Add.FIRST,
        Add.STIR_IN,
        Add.STIR_IN,
        Add.CALCIUM_LAST,
        Add.FILL_UP,
    ]
    names = [step.product.name for step in steps if step.product is not None]
    assert names == [
        "Epsom salt",
        "Potassium phosphate",
        "Potassium nitrate",
        "Calcium nitrate",
    ]
    (step,) = (each for each in mixing_order([CALCIUM]) if each.product)
    assert step.add is Add.FIRST


# -- words --------------------------------------------------------------------------


def test_reasons_and_ways_out_in_words() -> None:
    parts = ((CALCIUM, 90.0), (EPSOM, 50.0), (MKP, 27.0))
    said = [stock_words.apart_text(each) for each in refused(parts, RO, room())]
    assert said == [
        (
            "The calcium of Calcium nitrate and the sulphate of Epsom salt fall out as "
            "gypsum in one bottle."
        ),
        (
            "The calcium of Calcium nitrate and the phosphate of Potassium phosphate "
            "fall out in one bottle."
        ),
    ]
    way = stock_words.way_out_texts(way_out(parts, RO, room(), 1.0))
    assert way[0] == (
        "Make two bottles: Calcium nitrate in bottle A; Epsom salt and Potassium "
        "phosphate in bottle B."
    )
    assert way[1].startswith("Or take more water: from ")


def test_every_finding_has_its_sentence_without_a_brace_left() -> None:
    strong = WaterAnalysis(kind="tap", alkalinity_mg_per_l=300.0, ca_mg_per_l=120.0)
    iron, trace = salt("FeSO4.7H2O", "Iron"), label("Trace", "0-0-0 + 6 Fe")
    all_in_one = label("All in one", "13-3-15 + 8 Ca + 2 Mg")
    mixes: tuple[Parts, ...] = (
        ((CALCIUM, 90.0), (EPSOM, 50.0), (DAP, 30.0), (iron, 2.0), (trace, 2.0)),
        ((AMMONIUM, 200.0), (CHLORIDE, 150.0), (all_in_one, 50.0)),
        ((AMMONIUM, 80.0), (CHLORIDE, 70.0)),
        ((SULPHATE, 120.0),),
        ((CALCIUM, 5.0), (SULPHATE, 5.0), (MKP, 1.0), (EPSOM, 5.0), (DAP, 2.0)),
    )
    seen = set()
    for parts in mixes:
        for where in Where:
            for each in findings(parts, strong, room(), where):
                said = stock_words.apart_text(each)
                assert "{" not in said
                assert said[0].isupper()
                assert said.endswith(".")
                seen.add(f"{each.rule.value}-{each.severity.value}")
    assert seen | {"crystals-refuse-alone"} == set(APART)


def test_one_salt_that_lacks_its_water_beside_another_is_told_of_alone() -> None:
    """400 g of Epsom salt stay dissolved in a litre, not beside all that nitrate."""
    parts = ((CALCIUM, 900.0), (EPSOM, 400.0))
    assert rules(((EPSOM, 400.0),)) == set()
    assert stock_words.apart_text(refused(parts, RO, room())[1]) == (
        "Epsom salt brings the ions of more magnesium sulphate than stays dissolved "
        "beside the rest at 15 °C: it crystallizes."
    )


def told(parts: Parts, rule: Rule, where: Where = Where.STOCK) -> str:
    return stock_words.apart_text(only(parts, rule, where))


def test_what_falls_out_is_one_whole_sentence() -> None:
    trace, iron = label("Trace", "0-0-0 + 6 Fe"), salt("FeSO4.7H2O", "Iron")
    assert told(((SULPHATE, 100.0),), Rule.OVER) == (
        "Potassium sulphate at 100 g/L is too strong: kept at 15 °C, a litre holds "
        "78 g with 80 % of its solubility used."
    )
    assert told(((salt("CaSO4.2H2O", "Gypsum"), 2.4),), Rule.OVER) == (
        "Gypsum at 2.4 g/L is too strong: kept at 15 °C, a litre holds 1.9 g with 80 % "
        "of its solubility used."
    )
    assert told(((AMMONIUM, 200.0), (CHLORIDE, 150.0)), Rule.CRYSTALS) == (
        "Together Ammonium sulphate and Potassium chloride bring the ions of more "
        "potassium sulphate than stays dissolved at 15 °C: it crystallizes."
    )
    assert told(((EPSOM, 50.0), (MAP, 20.0)), Rule.MAGNESIUM_PHOSPHATE) == (
        "The magnesium of Epsom salt and the phosphate of Ammonium phosphate fall out "
        "as concentrates in one bottle."
    )
    assert told(((trace, 3.0), (MKP, 20.0)), Rule.IRON_PHOSPHATE) == (
        "The iron of Trace falls out with the phosphate of Potassium phosphate, unless "
        "its label says that it is chelated (EDTA, DTPA, EDDHA): read it first."
    )
    assert told(((iron, 3.0), (MKP, 20.0)), Rule.IRON_PHOSPHATE) == (
        "The iron of Iron is not chelated and falls out with the phosphate of "
        "Potassium phosphate."
    )
    assert told(((trace, 3.0),), Rule.UNKNOWN) == (
        "How much of Trace dissolves is not known here: go by its label, and make no "
        "more than is clear the next day."
    )


def test_what_may_cloud_a_feed_is_one_whole_sentence() -> None:
    strong = WaterAnalysis(kind="tap", alkalinity_mg_per_l=300.0, ca_mg_per_l=120.0)
    feed = ((CALCIUM, 5.0), (SULPHATE, 5.0), (MKP, 1.0), (EPSOM, 5.0), (DAP, 2.0))
    assert [
        stock_words.apart_text(each)
        for each in findings(feed, strong, room(), Where.FEED)
    ] == [
        (
            "Even at feed strength the calcium of Calcium nitrate and the sulphate of "
            "Potassium sulphate and Epsom salt fall out as gypsum."
        ),
        (
            "At pH 6.9 the calcium of Calcium nitrate and the phosphate of Potassium "
            "phosphate and Diammonium phosphate can cloud the feed: mix it with rain "
            "or RO water, and use it the same day."
        ),
        (
            "At pH 6.9 the magnesium of Epsom salt and the phosphate of Potassium "
            "phosphate and Diammonium phosphate can cloud the feed: mix it with rain "
            "or RO water, and use it the same day."
        ),
        (
            "The water is hard and alkaline (366 mg/L hydrogen carbonate, 969 mg/L "
            "calcium with Calcium nitrate): chalk may settle. Rain or RO water stays "
            "clear."
        ),
    ]


def test_ways_out_in_words() -> None:
    def said(parts: Parts) -> tuple[str, ...]:
        return stock_words.way_out_texts(way_out(parts, RO, room(), 1.0))

    assert said(((SULPHATE, 100.0),)) == (
        "Take more water: from 1.3 L on it stays clear.",
    )
    assert said(((CALCIUM, 900.0), (EPSOM, 400.0))) == (
        "Make two bottles: Calcium nitrate in bottle A; Epsom salt in bottle B.",
    )
    assert said(((AMMONIUM, 200.0), (CHLORIDE, 150.0))) == (
        (
            "Make two bottles: Ammonium sulphate in bottle A; Potassium chloride in "
            "bottle B."
        ),
        "Or take more water: from 2.2 L on all of it stays clear.",
    )
    assert stock_words.way_out_texts(WayOut()) == (
        "Leave one of them out; no bottle holds them together.",
    )


@pytest.mark.parametrize(
    ("alkalinity", "calcium", "settles"),
    # 0.1 g of calcium nitrate brings 17 mg; 150 mg/L HCO3 are 123 of alkalinity.
    [(130, 42, False), (130, 44, True), (122, 60, False), (124, 60, True)],
)
def test_chalk_begins_at_60_mg_of_calcium_with_150_of_hydrogen_carbonate(
    alkalinity: float, calcium: float, *, settles: bool
) -> None:
    water = WaterAnalysis(
        kind="tap", alkalinity_mg_per_l=alkalinity, ca_mg_per_l=calcium
    )
    found = findings(((CALCIUM, 0.1),), water, room(), Where.FEED)
    assert [each.rule for each in found] == [Rule.SCALE] * settles


def test_ratios_in_words() -> None:
    part_in, added, apart = stock_words.both_texts(15)
    assert part_in == (
        "1 part in 15: 66.7 mL of stock in a litre of feed, filled up with 933 mL of "
        "water; 6.67 %."
    )
    assert added.startswith("1 part added to 15: 62.5 mL of stock")
    assert added.endswith("6.25 %.")
    assert apart == "1:15 is said of both; here they are 6.7 % apart in strength."


def test_mixing_order_in_words() -> None:
    said = stock_words.order_text(mixing_order([CALCIUM, EPSOM]))
    assert said == (
        "Fill in most of the water. Stir in Epsom salt until it is clear. Last, when "
        "all is clear, stir in Calcium nitrate: it holds calcium."
    )
    assert stock_words.order_text(mixing_order([CALCIUM])) == ""


def test_a_trace_of_phosphate_leaves_iron_alone() -> None:
    trace = label("Trace", "0-0-0 + 6 Fe")
    for grams, apart in ((2.7, False), (2.75, True)):  # 0.02 mol/L from 2.72 g on
        found = {f.rule for f in findings(((trace, 3.0), (MKP, grams)), RO, room())}
        assert (Rule.IRON_PHOSPHATE in found) is apart
