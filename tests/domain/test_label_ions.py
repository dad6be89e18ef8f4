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
