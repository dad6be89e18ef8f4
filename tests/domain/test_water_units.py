"""Alkalinity, hardness and ions as people type them, against published figures.

Published: C. Currey, Greenhouse Management (1 meq/L is 50 mg/L CaCO3); P. Thomas,
University of Georgia (1 to 5 meq/L as CaCO3 and as HCO3; its first HCO3 cell prints 60
for 61.0 and is not used); FAO Irrigation and Drainage Paper 29, Table 1, as a table in
Scientific Reports (2025) prints it in mg/L; FAO small-scale aquaponics glossary
(50 mg/L CaCO3 is 2.8 dH); VIVAQUA, Brussels (1 French degree); a worked derivation of
the German degree; a note on hardness (1 gpg, 1 Clark degree; another page's 7.19 mg/L
for the English degree is wrong). All read in excerpts.
"""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from growdesk.domain.errors import InputError
from growdesk.domain.water_units import (
    parse_alkalinity_mg_per_l,
    parse_hardness_mg_per_l,
    parse_ion_mg_per_l,
)


@pytest.mark.parametrize(
    ("typed", "mg_per_l", "off"),
    [
        ("1 meq/L", 50, 0.001),
        ("2 meq/L", 100, 0.001),
        ("5 meq/L", 250, 0.001),
        ("122 mg/L HCO3", 100, 0.002),
        ("183 mg/L HCO3", 150, 0.002),
        ("244 mg/L HCO3", 200, 0.002),
        ("305 mg/L HCO3", 250, 0.002),
        ("91.5 mg/L HCO3", 1.5 * 50.043, 0.001),
        ("518.5 mg/L HCO3", 8.5 * 50.043, 0.001),
        ("2.805 °dH", 50, 0.002),
        ("21.76 mg/L HCO3", 17.848, 0.0005),
        ("1 °KH", 17.848, 0.0005),
    ],
)
def test_alkalinity_as_published(typed: str, mg_per_l: float, off: float) -> None:
    assert parse_alkalinity_mg_per_l(typed) == pytest.approx(mg_per_l, rel=off)


@pytest.mark.parametrize(
    ("typed", "mg_per_l", "off"),
    [
        ("1 °fH", 10, 1e-9),
        ("0.1 mmol/L", 10, 0.001),
        ("0.2 meq/L", 10, 0.001),
        ("0.2 mmol(+)/L", 10, 0.001),
        ("0.2 mmolc/L", 10, 0.001),
        ("0.56 °dH", 10, 0.001),
        ("1 °dH", 17.848, 0.0005),
        ("10 mg/L CaO", 17.848, 0.0005),
        ("28 mg/L CaO", 50, 0.002),
        ("1 gpg", 17.1, 0.002),
        ("1 ºdH", 17.848, 0.0005),
        ("1 German degree", 17.848, 0.0005),
        ("1 Clark", 14.28, 0.002),
    ],
)
def test_hardness_as_published(typed: str, mg_per_l: float, off: float) -> None:
    assert parse_hardness_mg_per_l(typed) == pytest.approx(mg_per_l, rel=off)


def test_the_english_degree_is_a_grain_in_an_imperial_gallon() -> None:
    grain_mg, imperial_gallon_l, us_gallon_l = 64.79891, 4.54609, 3.785411784
    for typed in ("1 °e", "1 °Clark", "1 grain/imp gal"):
        assert parse_hardness_mg_per_l(typed) == pytest.approx(
            grain_mg / imperial_gallon_l
        )
    for typed in ("1 gpg", "1 grain per gallon", "1 grains/US gal"):
        assert parse_hardness_mg_per_l(typed) == pytest.approx(grain_mg / us_gallon_l)


@pytest.mark.parametrize("typed", ["<5", "< 0.5 mg/L", "≤ 2 mg/L"])
def test_what_a_laboratory_did_not_find_is_no_amount(typed: str) -> None:
    with pytest.raises(InputError, match="is the least that was looked for") as refused:
        parse_ion_mg_per_l(typed, "NO3", "no3_mg_per_l")
    assert refused.value.field == "no3_mg_per_l"
    assert "Write 0 where so little does not matter" in refused.value.line()


@pytest.mark.parametrize("ion_at", [("Ca", 4.0), ("Mg", 2.43)])
def test_a_french_degree_is_so_much_calcium_or_magnesium(
    ion_at: tuple[str, float],
) -> None:
    ion, published = ion_at
    assert parse_ion_mg_per_l("0.1 mmol/L", ion) == pytest.approx(published, rel=0.003)
    assert parse_ion_mg_per_l("10 mg/L as CaCO3", ion) == pytest.approx(
        published, rel=0.003
    )


@pytest.mark.parametrize(
    ("typed", "ion", "mg_per_l"),
    [
        ("7.15 mg/L", "Ca", 7.15),
        ("12", "Na", 12.0),
        ("1,5 ppm", "Na", 1.5),
        ("0", "Cl", 0.0),
        ("4 meq/L", "Cl", 4 * 35.45),
        ("1 meq/L", "Ca", 40.078 / 2),
        ("1 mmol/L Na", "Na", 22.99),
        ("50", "NO3", 50.0),
        ("10 mg/L NO3-N", "NO3", 44.2664),
        ("11.3 mg/L N", "NO3", 50.02),
        ("10 mg/L SO4-S", "SO4", 29.96),
    ],
)
def test_ions(typed: str, ion: str, mg_per_l: float) -> None:
    assert parse_ion_mg_per_l(typed, ion) == pytest.approx(mg_per_l, rel=0.0005)


@pytest.mark.parametrize(
    "typed",
    [
        "120 mg/L CaCO3",
        "120 mg CaCO3/L",
        "120 mg/L (as CaCO3)",
        "120 ppm",
        "120mg/l",
        "120 mg per litre",
        "120 mg / L as CaCO3",
        "120 mg/L.",
    ],
)
def test_mg_per_litre_means_as_caco3(typed: str) -> None:
    assert parse_alkalinity_mg_per_l(typed) == pytest.approx(120)
    assert parse_hardness_mg_per_l(typed) == pytest.approx(120)


def test_a_mmol_counts_once_for_acid_and_twice_for_calcium() -> None:
    assert parse_alkalinity_mg_per_l("1 mmol/L") == pytest.approx(50.043)
    assert parse_alkalinity_mg_per_l("1 mmol/L CaCO3") == pytest.approx(100.086)
    assert parse_hardness_mg_per_l("1 mmol/L") == pytest.approx(100.086)


@pytest.mark.parametrize(
    ("typed", "problem", "hint"),
    [
        ("7", "has no unit", "°dH"),
        ("", "is empty", "meq/L"),
        ("hard", "is not an amount in water", "mg/L"),
        ("7 °GH", "general hardness", "under hardness"),
        ("7 furlongs", "is not an amount in a litre", "mg/L"),
        ("7 g", "is not an amount in a litre", "mg/L"),
        ("40 mg/L Ca", "is of Ca", "mg/L CaCO3"),
        ("9000 mg/L", "is more than 2000", "unit"),
        ("-3 mg/L", "is less than nothing", "unit"),
    ],
)
def test_alkalinity_that_cannot_be_meant(typed: str, problem: str, hint: str) -> None:
    with pytest.raises(InputError) as refused:
        parse_alkalinity_mg_per_l(typed)
    assert refused.value.field == "alkalinity"
    assert problem in refused.value.problem
    assert hint in refused.value.hint


@pytest.mark.parametrize(
    ("typed", "problem"),
    [
        ("7 °KH", "is an alkalinity"),
        ("120 mg/L HCO3", "is an alkalinity"),
        ("80 mg/L Ca", "is of Ca alone"),
    ],
)
def test_hardness_that_is_something_else(typed: str, problem: str) -> None:
    with pytest.raises(InputError, match=problem):
        parse_hardness_mg_per_l(typed)


@pytest.mark.parametrize(
    ("typed", "ion", "problem"),
    [
        ("7 °dH", "Ca", "is a hardness"),
        ("20 mg/L Na", "Cl", "is of Na, not of Cl"),
        ("20 mg/L NO3-N", "SO4", "is of NO3-N, not of SO4"),
        ("1.500", "Na", "could mean 1500 or 1.5"),
        ("6000", "Na", "is more than 5000"),
        ("5 L", "Na", "is not an amount in a litre"),
    ],
)
def test_an_ion_that_cannot_be_meant(typed: str, ion: str, problem: str) -> None:
    with pytest.raises(InputError, match=problem):
        parse_ion_mg_per_l(typed, ion, "field")


@given(
    st.from_regex(
        r"\A[-0-9.,/ ]{0,6} ?"
        r"(mg|ppm|meq|mmol|°|d|f|K|H|gpg|/|L|CaCO3| |N|as|\(|\)|S){0,5}\Z"
    )
    | st.text(max_size=20)
)
def test_whatever_is_typed_gives_an_amount_or_a_plain_refusal(text: str) -> None:
    for parse, most in (
        (parse_alkalinity_mg_per_l, 2000),
        (parse_hardness_mg_per_l, 3000),
        (lambda typed: parse_ion_mg_per_l(typed, "NO3"), 1000),
        (lambda typed: parse_ion_mg_per_l(typed, "Ca"), 1000),
    ):
        try:
            found = parse(text)
        except InputError:
            continue
        assert 0 <= found <= most
