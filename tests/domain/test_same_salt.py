"""Tins said to be a salt: what labels print of it, and what is another product."""

from __future__ import annotations

import pytest

from growdesk.domain.analysis import parse_analysis
from growdesk.domain.errors import InputError
from growdesk.domain.expected_ec import expected_ec
from growdesk.domain.product import Product
from growdesk.domain.recipe import made, single
from growdesk.domain.salt_table import analysis_of
from growdesk.domain.salts import SALTS
from growdesk.domain.same_salt import check_salt, share_of_salt
from growdesk.domain.water_analysis import WaterAnalysis

GREENHOUSE = "5Ca(NO3)2.NH4NO3.10H2O"


@pytest.mark.parametrize("formula", SALTS)
def test_each_salt_is_itself(formula: str) -> None:
    check_salt(analysis_of(formula), formula)
    assert share_of_salt(analysis_of(formula), formula) == pytest.approx(1)


@pytest.mark.parametrize(
    ("label", "formula"),
    # As such tins are labelled, from memory.
    [
        ("13-0-46", "KNO3"),
        ("13-0-44", "KNO3"),
        ("15.5-0-0 + 19 Ca", GREENHOUSE),
        ("15.5-0-0 + 26.5 CaO", GREENHOUSE),
        ("12-0-0 + 17 Ca", "Ca(NO3)2.4H2O"),
        ("12-61-0", "NH4H2PO4"),
        ("18-46-0", "(NH4)2HPO4"),
        ("21-0-0", "(NH4)2SO4"),
        ("0-0-50 + 18 S", "K2SO4"),
        ("0-0-0 + 16 MgO", "MgSO4.7H2O"),
        ("46-0-0", "CO(NH2)2"),
        ("0-0-0 + 20 Fe", "FeSO4.7H2O"),
    ],
)
def test_labels_of_a_salt_round_it(label: str, formula: str) -> None:
    check_salt(parse_analysis(label), formula)


@pytest.mark.parametrize(
    ("label", "formula"),
    [
        ("20-20-20", "KNO3"),
        # Calcium nitrate of the greenhouse is not the salt of the laboratory.
        ("15.5-0-0 + 19 Ca", "Ca(NO3)2.4H2O"),
        ("11.9-0-0 + 17 Ca", GREENHOUSE),
        # A bottle of it dissolved.
        ("8.7-0-0 + 12 Ca", "Ca(NO3)2.4H2O"),
        ("13-0-46 + 3 Mg", "KNO3"),
    ],
)
def test_what_is_another_product_is_no_salt(label: str, formula: str) -> None:
    with pytest.raises(InputError, match="which is not what the analysis says"):
        check_salt(parse_analysis(label), formula, "formula")


def test_a_technical_grade_conducts_as_the_salt_in_it() -> None:
    def ec(label: str, grams: float) -> float:
        tin = Product("Tin", parse_analysis(label), "(NH4)2HPO4")
        found = expected_ec(made(single(tin), WaterAnalysis("ro"), ((tin, grams),)))
        assert found is not None
        return found.ec_ms_per_cm or 0.0

    pure = "21.2-53.7-0"
    assert ec("18-46-0", 1.0) == pytest.approx(ec(pure, 46 / 53.74), rel=1e-3)
    assert ec("21-53-0", 1.0) == ec(pure, 1.0)


def test_what_is_no_salt_is_told_with_what_the_salt_holds() -> None:
    with pytest.raises(InputError) as refused:
        check_salt(parse_analysis("20-20-20"), "KNO3")
    assert refused.value.line() == (
        "formula: 'KNO3' holds 13.85-0-46.58 + 13.85 nitrate-N, which is not what the "
        "analysis says. Take the salt's analysis, or choose no salt."
    )


def fits(label: str, formula: str) -> bool:
    try:
        check_salt(parse_analysis(label), formula)
    except InputError:
        return False
    return True


@pytest.mark.parametrize(
    ("label", "is_it"),
    # Pure it holds 13.85 % N and 46.58 % K2O: from four fifths to 6 % over, and 1 % of
    # others.
    [
        ("13.8-0-37.2", False),
        ("13.8-0-37.3", True),
        ("13.8-0-49.3", True),
        ("13.8-0-49.5", False),
        ("11-0-46.6", False),
        ("13.8-0-46.6 + 1 Mg", True),
        ("13.8-0-46.6 + 1.1 Mg", False),
        ("13.8-0-44 + 3 S + 3 Cl + 3 Na", True),
    ],
)
def test_how_far_a_label_may_be_from_its_salt(label: str, *, is_it: bool) -> None:
    assert fits(label, "KNO3") is is_it


def test_a_tin_is_never_more_than_its_salt() -> None:
    assert share_of_salt(parse_analysis("14-0-49"), "KNO3") == 1.0
    assert share_of_salt(parse_analysis("42-0-0"), "CO(NH2)2") == pytest.approx(
        0.9004, abs=1e-4
    )
    # of two nutrients the one that is told best
    assert share_of_salt(parse_analysis("13-0-46"), "KNO3") == pytest.approx(
        46 / 46.58, abs=1e-3
    )
