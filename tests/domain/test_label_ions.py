"""The ions that a label proves, at its ends."""

from __future__ import annotations

import pytest

from growdesk.domain.analysis import parse_analysis
from growdesk.domain.ions import IONS
from growdesk.domain.label_ions import label_ions


def test_potassium_sulphate_is_told_by_its_label() -> None:
    """K2SO4 of 50 % K2O and 18.4 % S: 41.5 % K, 10.6 mmol of it in a gram."""
    for ions in label_ions(parse_analysis("0-0-50 S 18.4")).ends:
        assert ions["K"] == pytest.approx(0.4151 / 39.098, rel=1e-3)
        assert ions["SO4"] == pytest.approx(0.184 / 32.06, rel=0.02)


def test_traces_are_sulphates_beside_the_sulphate_there_is() -> None:
    ends = label_ions(parse_analysis("0-0-50 S 18.4 Fe 1")).ends
    plain = [ions["SO4"] for ions in ends if "Fe" not in ions]
    traced = [ions["SO4"] for ions in ends if "Fe" in ions]
    iron = 0.01 / 55.845
    assert traced == pytest.approx([each + iron for each in plain], rel=1e-5)


@pytest.mark.parametrize("label", ["0-52-34", "0-50-36", "20-20-20", "15-5-15 Ca 5"])
def test_charges_are_even_at_every_end(label: str) -> None:
    for ions in label_ions(parse_analysis(label)).ends:
        assert sum(n * IONS[ion][0] for ion, n in ions.items()) == pytest.approx(
            0, abs=1e-6
        )
        assert all(moles >= 0 for moles in ions.values())


def test_a_little_potassium_more_turns_acid_phosphate_and_needs_no_sulphate() -> None:
    ends = label_ions(parse_analysis("0-50-36")).ends
    turned = [ions for ions in ends if "HPO4" in ions]
    assert turned
    assert all(not ions.get("SO4") for ions in turned)


N_G_PER_MOL = 14.007


@pytest.mark.parametrize(
    ("label", "salt_n_percent", "told"),
    [
        # Nitrate and ammonium are told, so the rest is urea and does not conduct.
        ("20-20-20 nitrate-N 6 ammonium-N 4", 10, False),
        # Urea is told, so the rest is nitrate or ammonium.
        ("20-20-20 urea-N 10", 10, False),
        ("20-20-20 urea-N 4 nitrate-N 6", 16, False),
        ("20-20-20 nitrate-N 6 ammonium-N 4 urea-N 10", 10, True),
    ],
)
def test_nitrogen_that_conducts_is_what_is_not_urea(
    label: str, salt_n_percent: float, *, told: bool
) -> None:
    found = label_ions(parse_analysis(label))
    assert found.forms_told is told
    for ions in found.ends:
        moles = ions.get("NO3", 0.0) + ions.get("NH4", 0.0)
        assert moles * N_G_PER_MOL * 100 == pytest.approx(salt_n_percent, rel=1e-3)


def test_a_form_that_is_told_is_kept() -> None:
    for ions in label_ions(parse_analysis("20-20-20 urea-N 4 nitrate-N 6")).ends:
        assert ions["NO3"] * N_G_PER_MOL == pytest.approx(0.06, rel=1e-3)
        assert ions["NH4"] * N_G_PER_MOL == pytest.approx(0.10, rel=1e-3)
    for ions in label_ions(parse_analysis("20-20-20 urea-N 4 ammonium-N 6")).ends:
        assert ions["NH4"] * N_G_PER_MOL == pytest.approx(0.06, rel=1e-3)
        assert ions["NO3"] * N_G_PER_MOL == pytest.approx(0.10, rel=1e-3)


@pytest.mark.parametrize(("ammonium", "told"), [(4.86, True), (4.84, False)])
def test_forms_that_lack_what_rounding_takes_are_all_there_is(
    ammonium: float, *, told: bool
) -> None:
    label = f"10-5-10 nitrate-N 5 ammonium-N {ammonium}"
    assert label_ions(parse_analysis(label)).forms_told is told
