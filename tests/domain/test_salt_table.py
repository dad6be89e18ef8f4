"""The shipped salts: composition by atomic mass, what labels say, and what is typed."""

from __future__ import annotations

import math

import pytest

from growdesk import assets
from growdesk.domain.analysis import parse_analysis
from growdesk.domain.errors import InputError
from growdesk.domain.recipe_misses import TRIED
from growdesk.domain.salt_table import (
    Salt,
    analysis_of,
    analysis_text_of,
    parse_salt_table,
    salt_forms_percent,
)
from growdesk.domain.salts import SALTS
from growdesk.services.salts import salt_named, salt_table

TABLE = salt_table()
FORMULAS = [salt.formula for salt in TABLE]
TRACES = {"FeSO4.7H2O", "MnSO4.H2O", "ZnSO4.7H2O", "CuSO4.5H2O"} | {
    "H3BO3",
    "Na2MoO4.2H2O",
}


@pytest.mark.parametrize("formula", FORMULAS)
def test_what_is_typed_of_a_salt_keeps_its_composition(formula: str) -> None:
    """Within a part in a thousand, through the text and back."""
    typed = parse_analysis(analysis_text_of(formula))
    held = analysis_of(formula).elements_percent()
    assert held
    assert typed.elements_percent() == pytest.approx(held, rel=1e-3)
    forms = analysis_of(formula).nitrogen_forms_percent()
    assert typed.nitrogen_forms_percent() == pytest.approx(forms, rel=1e-3)


@pytest.mark.parametrize("salt", TABLE, ids=FORMULAS)
def test_labels_say_what_the_atoms_do_and_never_much_more(salt: Salt) -> None:
    """Labels (from memory) guarantee a little less than a pure salt holds."""
    held = analysis_of(salt.formula).elements_percent()
    for element, percent in parse_analysis(salt.label).elements_percent().items():
        assert 0.90 <= percent / held[element] <= 1.03, element


@pytest.mark.parametrize(
    ("formula", "published"),
    [
        # Molar masses and mass fractions of pure compounds as handbooks print them.
        ("KNO3", {"N": 13.85, "K": 38.67}),
        ("MgSO4.7H2O", {"Mg": 9.86, "S": 13.01}),
        ("KH2PO4", {"P": 22.76, "K": 28.73}),
        ("Ca(NO3)2.4H2O", {"N": 11.86, "Ca": 16.97}),
        ("CO(NH2)2", {"N": 46.65}),
        ("KCl", {"K": 52.45, "Cl": 47.55}),
    ],
)
def test_composition_against_handbooks(
    formula: str, published: dict[str, float]
) -> None:
    held = analysis_of(formula).elements_percent()
    assert held == pytest.approx(published, abs=0.01)


def test_greenhouse_calcium_nitrate_is_the_double_salt() -> None:
    """15.5-0-0 with 14.4 nitrate, 1.1 ammonium and 19 Ca as labels print it."""
    held = analysis_of("5Ca(NO3)2.NH4NO3.10H2O")
    assert held.n_percent == pytest.approx(15.5, rel=0.01)
    assert held.elements_percent()["Ca"] == pytest.approx(19, rel=0.03)
    nitrate, ammonium = held.nitrate_n_percent, held.ammonium_n_percent
    assert nitrate is not None
    assert ammonium is not None
    assert nitrate == pytest.approx(11 * ammonium)
    assert nitrate + ammonium == pytest.approx(held.n_percent)


@pytest.mark.parametrize("formula", [f for f in FORMULAS if "N" in f.replace("Na", "")])
def test_all_nitrogen_of_a_salt_has_its_form(formula: str) -> None:
    told = math.fsum(salt_forms_percent(formula).values())
    assert told == pytest.approx(analysis_of(formula).n_percent)


def test_ions_are_known_of_all_but_traces() -> None:
    assert set(FORMULAS) - set(SALTS) <= TRACES
    assert set(TRIED) <= set(FORMULAS)
    for formula, name in TRIED.items():
        salt = salt_named(formula)
        assert salt is not None
        assert any(name in called for called in salt.names), formula


def test_names_are_not_shared() -> None:
    names = [name for salt in TABLE for name in salt.names]
    assert len(names) == len(set(names))
    assert salt_named("H2O") is None


def test_a_chloride_is_no_more_than_the_whole() -> None:
    assert parse_analysis("0-0-63.18 + 47.55 Cl").k2o_percent == 63.18
    with pytest.raises(InputError, match="more than the whole"):
        parse_analysis("0-0-63.18 + 58 Cl")
    with pytest.raises(InputError, match="more than the whole"):
        parse_analysis("40-40-40")


@pytest.mark.parametrize(
    ("row", "says"),
    [
        ("KNO3,,13-0-46,use,", "names"),
        ("KNO3,a,13-0-46,none", "row 2"),
        ("H2O,water,0-0-0,use,", "holds nothing that feeds"),
        ("Xy2,a,13-0-46,use,", "names Xy"),
        ("KNO3,a,13-0-46,use,\nKNO3,b,13-0-46,use,", "given twice"),
    ],
)
def test_a_bad_row_is_named(row: str, says: str) -> None:
    head = assets.read_text("salts.csv").splitlines()[0]
    with pytest.raises(InputError) as refused:
        parse_salt_table(f"{head}\n{row}\n")
    assert says in refused.value.line()


def test_a_salt_has_several_names_the_usual_first() -> None:
    (nitrate,) = (salt for salt in TABLE if salt.formula == "KNO3")
    assert nitrate.name == "potassium nitrate"
    assert "saltpetre" in nitrate.names
