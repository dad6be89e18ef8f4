"""How much dissolves: against published tables, between their temperatures, never past.

Ids name the rows of the project's list of published values.
"""

from __future__ import annotations

import pytest

from growdesk.domain.crystals import crystals, unknown
from growdesk.domain.errors import InputError
from growdesk.domain.product import Product
from growdesk.domain.salt_table import analysis_of
from growdesk.domain.salts import SALTS as IONS_OF_SALTS
from growdesk.domain.solubility import (
    check_temperature,
    dissolved,
    most_g_per_l,
    saturated_g_per_l,
)
from growdesk.domain.stock_ions import ions_of, known_salts
from tests.domain.stock_builders import SALTS, label, room, salt

HANDBOOK_20_C = {
    "KNO3": 31.6,
    "KH2PO4": 22.6,
    "K2SO4": 11.1,
    "MgSO4": 33.7,
    "NH4H2PO4": 37.4,
    "CO(NH2)2": 108.0,
    "Ca(NO3)2": 129.0,
}
"""M15, CRC Handbook, from memory; 129 is of calcium nitrate without its water."""

NEAR_0_C = {
    "NH4NO3": 117.9,
    "(NH4)2SO4": 70.9,
    "Ca(NO3)2": 102.0,
    "(NH4)2HPO4": 42.9,
    "NH4H2PO4": 23.0,
    "KNO3": 12.9,
    "CaCl2": 59.9,
}
"""M07, Knott's Handbook for Vegetable Growers, 2nd ed., 1980 (per 100 mL of water)."""


@pytest.mark.parametrize(("formula", "printed"), HANDBOOK_20_C.items())
def test_m15_handbook_values_at_20_c(formula: str, printed: float) -> None:
    assert SALTS[formula].g_per_100_g(20) == pytest.approx(printed, rel=0.02)


@pytest.mark.parametrize(("formula", "printed"), NEAR_0_C.items())
def test_m07_cold_water(formula: str, printed: float) -> None:
    assert SALTS[formula].g_per_100_g(0) == pytest.approx(printed, rel=0.035)


@pytest.mark.parametrize(("celsius", "printed"), [(10, 18.0), (20, 23.0), (25, 25.0)])
def test_m08_potassium_dihydrogen_phosphate(celsius: float, printed: float) -> None:
    assert SALTS["KH2PO4"].g_per_100_g(celsius) == pytest.approx(printed, rel=0.02)


@pytest.mark.parametrize(
    ("celsius", "printed"), [(5, 8.0), (10, 9.0), (20, 11.1), (25, 12.0)]
)
def test_m09_potassium_sulphate(celsius: float, printed: float) -> None:
    assert SALTS["K2SO4"].g_per_100_g(celsius) == printed


@pytest.mark.parametrize(
    ("celsius_printed", "celsius_true", "g_per_l"),
    [(5, 0, 133), (10, 5, 170), (20, 10, 209), (25, 20, 316), (30, 25, 370)],
)
def test_m10_a_much_copied_row_is_shifted_by_a_column(
    celsius_printed: float, celsius_true: float, g_per_l: float
) -> None:
    known = SALTS["KNO3"].g_per_100_g
    assert known(celsius_true) == pytest.approx(g_per_l / 10, rel=0.03)
    assert known(celsius_printed) != pytest.approx(g_per_l / 10, rel=0.03)


def test_m10_its_worked_example_is_wrong() -> None:
    """300 g dissolve in a litre of water at 20 °C; filled up to a litre, not quite."""
    assert (SALTS["KNO3"].g_per_100_g(20) or 0) > 30
    assert saturated_g_per_l("KNO3", 20, SALTS) == pytest.approx(280, rel=0.01)


@pytest.mark.parametrize(
    ("formula", "g_per_l"), [("NH4H2PO4", 374), ("CO(NH2)2", 1060)]
)
def test_m11_per_litre_of_water_at_20_c(formula: str, g_per_l: float) -> None:
    assert SALTS[formula].g_per_100_g(20) == pytest.approx(g_per_l / 10, rel=0.02)


def test_m11_calcium_nitrate_as_sold() -> None:
    """1290 g in a litre at 20 °C."""
    made = saturated_g_per_l("Ca(NO3)2.4H2O", 20, SALTS)
    assert made == pytest.approx(1290, rel=0.03)


def test_m13_potassium_nitrate_at_10_c() -> None:
    assert SALTS["KNO3"].g_per_100_g(10) == pytest.approx(21, rel=0.01)


def test_m14_order_at_25_c() -> None:
    nitrate, phosphate, sulphate = (
        SALTS[formula].g_per_100_g(25) or 0 for formula in ("KNO3", "KH2PO4", "K2SO4")
    )
    assert nitrate > phosphate > sulphate


def test_m15_epsom_salt_and_gypsum_with_their_water() -> None:
    """71 and 0.26 g at 20 °C, the salt's own water counted as water."""
    epsom, gypsum = dict(dissolved("MgSO4.7H2O")), dict(dissolved("CaSO4.2H2O"))
    magnesium, calcium = SALTS["MgSO4"], SALTS["CaSO4"]
    assert (magnesium.g_per_100_g(20) or 0) / epsom["MgSO4"] == pytest.approx(
        71, rel=0.03
    )
    assert (calcium.g_per_100_g(20) or 0) / gypsum["CaSO4"] == pytest.approx(
        0.26, rel=0.02
    )


@pytest.mark.parametrize(
    ("formula", "g_per_l"), [("CO(NH2)2", 595), ("NaCl", 317), ("(NH4)2SO4", 535)]
)
def test_litres_of_saturated_solution_are_as_heavy_as_their_densities_say(
    formula: str, g_per_l: float
) -> None:
    """Mass per cent times density at 20 °C: 51.9 x 1.147, 26.4 x 1.199, 43 x 1.245.

    The densities are from memory.
    """
    assert saturated_g_per_l(formula, 20, SALTS) == pytest.approx(g_per_l, rel=0.02)


def test_between_temperatures_it_lies_on_a_line_and_outside_it_is_not_told() -> None:
    nitrate = SALTS["KNO3"]
    assert nitrate.g_per_100_g(15) == pytest.approx((20.9 + 31.6) / 2)
    assert nitrate.g_per_100_g(10) == 20.9
    assert nitrate.g_per_100_g(-0.1) is None
    assert nitrate.g_per_100_g(30.1) is None
    assert nitrate.least_g_per_100_g(35) == 45.8
    assert SALTS["K2HPO4"].g_per_100_g(15) is None


def test_solubility_rises_with_warmth_in_every_row() -> None:
    for each in SALTS.values():
        amounts = [amount for _, amount in each.at]
        assert amounts == sorted(amounts), each.formula
        assert len(each.at) >= 2, each.formula


def test_every_row_has_a_source_and_says_what_is_from_memory() -> None:
    for each in SALTS.values():
        assert len(each.source) > 15
        told = {f"{celsius:g}" for celsius, _ in each.at} | {"room_ml_per_g"}
        assert set(each.memory) <= told
        if each.source.startswith("As handbooks"):
            assert set(each.memory) == told
        else:
            assert {*each.memory, "room_ml_per_g"} < told


def test_every_row_has_the_ions_that_the_salts_give_to_water() -> None:
    for each in SALTS.values():
        if each.formula in IONS_OF_SALTS:
            assert dict(each.ions) == dict(IONS_OF_SALTS[each.formula])


def test_a_formula_is_its_salts_without_their_water() -> None:
    assert dissolved("KNO3") == (("KNO3", 1.0),)
    epsom = dict(dissolved("MgSO4.7H2O"))
    assert epsom == pytest.approx({"MgSO4": 0.4884}, abs=1e-4)
    double = dict(dissolved("5Ca(NO3)2.NH4NO3.10H2O"))
    assert double == pytest.approx({"Ca(NO3)2": 0.7592, "NH4NO3": 0.0741}, abs=1e-4)


def test_one_salt_alone_is_over_at_the_share_of_its_solubility() -> None:
    nitrate, here = salt("KNO3"), room(15)
    most = most_g_per_l("KNO3", here) or 0
    assert most == pytest.approx(193.7, abs=0.1)
    assert crystals(((nitrate, most * 0.999),), here) == ()
    (over,) = crystals(((nitrate, most * 1.001),), here)
    assert (over.salt.formula, over.put_in) == ("KNO3", True)
    assert over.filled == pytest.approx(0.8, rel=0.01)
    assert crystals(((nitrate, most * 1.2),), room(15, share=1.0)) == ()
    assert crystals(((nitrate, most * 1.15),), room(20)) == ()


def test_urea_has_no_ions_and_is_over_by_its_grams() -> None:
    most = most_g_per_l("CO(NH2)2", room()) or 0
    assert most == pytest.approx(486, rel=0.01)
    assert crystals(((salt("CO(NH2)2"), most * 0.999),), room()) == ()
    (over,) = crystals(((salt("CO(NH2)2"), most * 1.001),), room())
    assert over.salt.formula == "CO(NH2)2"


@pytest.mark.parametrize("potassium", ["KCl", "KNO3"])
def test_m05_potassium_sulphate_falls_out_of_two_salts_that_are_not_it(
    potassium: str,
) -> None:
    """O. Rottenberg, Haifa Group, Interaction among fertilizers: it crystallizes."""
    strong = ((salt("(NH4)2SO4"), 150.0), (salt(potassium), 120.0))
    found = {each.salt.formula: each for each in crystals(strong, room())}
    assert not found["K2SO4"].put_in
    weak = ((salt("(NH4)2SO4"), 30.0), (salt(potassium), 25.0))
    assert crystals(weak, room()) == ()


def test_the_fullest_of_what_was_put_in_comes_first() -> None:
    parts = ((salt("K2SO4"), 200.0), (salt("KNO3"), 900.0))
    over = [each for each in crystals(parts, room()) if each.put_in]
    assert len(over) == 2
    assert over[0].filled > over[1].filled


def test_a_salt_without_a_solubility_still_has_its_ions() -> None:
    formula = "K2HPO4"
    found = ions_of(Product(formula, analysis_of(formula), formula), 1.7418, SALTS)
    assert found == pytest.approx({"K": 0.02, "HPO4": 0.01}, rel=1e-3)


def test_an_ion_in_common_leaves_less_room() -> None:
    nitrate, calcium = salt("KNO3"), salt("Ca(NO3)2.4H2O")
    assert crystals(((nitrate, 170.0),), room()) == ()
    (over,) = crystals(((nitrate, 170.0), (calcium, 300.0)), room())
    assert over.salt.formula == "KNO3"


def test_more_than_goes_into_a_litre_is_over_whatever_it_is() -> None:
    found = crystals(((salt("Ca(NO3)2.4H2O"), 4500.0),), room())
    assert found[0].filled == float("inf")


def test_a_label_alone_does_not_tell_how_much_dissolves() -> None:
    feed, nitrate = label("Bloom feed", "20-20-20"), salt("KNO3")
    assert unknown(((feed, 50.0), (nitrate, 50.0)), room()) == ("Bloom feed",)
    assert unknown(((feed, 0.0), (nitrate, 50.0)), room()) == ()
    assert known_salts(feed, SALTS) == ()
    assert most_g_per_l("K2HPO4", room(15)) is None


def test_a_room_that_no_stock_stands_in_is_asked_back() -> None:
    assert check_temperature(0.5) == 0.5
    assert check_temperature(45) == 45
    for wrong in (-1, 0, 46):
        with pytest.raises(InputError, match="not a temperature at which"):
            check_temperature(wrong)


def test_a_room_asked_back_says_what_to_write() -> None:
    with pytest.raises(InputError) as refused:
        check_temperature(0)
    assert refused.value.line() == (
        "temperature_c: '0' is not a temperature at which a stock is kept. Write the "
        "coolest of the room in °C, above 0 and up to 45: a stock that freezes falls "
        "out."
    )


def test_a_salt_without_a_solubility_in_the_table_is_not_judged() -> None:
    formula = "K2HPO4"
    phosphate = Product(formula, analysis_of(formula), formula)
    assert unknown(((phosphate, 5.0),), room()) == (formula,)
    assert crystals(((phosphate, 5.0), (salt("KNO3"), 5.0)), room()) == ()
