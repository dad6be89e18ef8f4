"""The ions that stand for a water."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from growdesk.domain.conductivity import conductivity_ms_per_cm
from growdesk.domain.ions import IONS
from growdesk.domain.water_analysis import WaterAnalysis
from growdesk.domain.water_ions import WaterKnown, standing_for, water_ions


def ions(water: WaterAnalysis) -> dict[str, float]:
    return {ion: 1000 * moles for ion, moles in water_ions(water).mol_per_l}


def ec(water: WaterAnalysis) -> float:
    return conductivity_ms_per_cm(dict(water_ions(water).mol_per_l))


def test_an_ec_alone_is_calcium_bicarbonate() -> None:
    tap = WaterAnalysis(ec_ms_per_cm=0.5)
    assert set(ions(tap)) == {"Ca", "HCO3"}
    assert ec(tap) == pytest.approx(0.5, rel=1e-4)
    assert water_ions(tap).known is WaterKnown.EC


def test_a_little_salt_in_pure_water_is_common_salt() -> None:
    rain = WaterAnalysis("rain", ec_ms_per_cm=0.03)
    assert set(ions(rain)) == {"Na", "Cl"}
    assert ec(rain) == pytest.approx(0.03, rel=1e-4)


def test_what_is_told_is_kept_and_evened() -> None:
    water = WaterAnalysis(ca_mg_per_l=80.156, alkalinity_mg_per_l=150.12)
    found = ions(water)
    assert found["Ca"] == pytest.approx(2.0, rel=1e-3)
    assert found["HCO3"] == pytest.approx(3.0, rel=1e-3)
    assert found["Cl"] == pytest.approx(1.0, rel=0.01)


@pytest.mark.parametrize(
    ("told", "partner"),
    [
        (WaterAnalysis(ca_mg_per_l=80), "HCO3"),
        (WaterAnalysis(alkalinity_mg_per_l=150), "Ca"),
        (WaterAnalysis(hardness_mg_per_l=100, alkalinity_mg_per_l=150), "Na"),
        (WaterAnalysis(so4_mg_per_l=48), "Ca"),
    ],
)
def test_the_partner_is_what_is_not_told(told: WaterAnalysis, partner: str) -> None:
    assert partner in ions(told)


def test_hardness_is_shared_by_calcium_and_magnesium() -> None:
    found = ions(WaterAnalysis(hardness_mg_per_l=200.16))
    assert 2 * found["Ca"] == pytest.approx(3.0, rel=1e-3)
    assert 2 * found["Mg"] == pytest.approx(1.0, rel=1e-3)
    left = ions(WaterAnalysis(hardness_mg_per_l=200.16, ca_mg_per_l=40.078))
    assert left["Ca"] == pytest.approx(1.0, rel=1e-3)
    assert left["Mg"] == pytest.approx(1.0, rel=1e-3)


@pytest.mark.parametrize("read", [0.2, 0.55, 0.9])
def test_the_ec_read_goes_before_the_ions_told(read: float) -> None:
    """Less than the ions make thins them; more is joined by what is not told."""
    told = WaterAnalysis(
        ca_mg_per_l=60, mg_mg_per_l=10, alkalinity_mg_per_l=150, ec_ms_per_cm=read
    )
    assert ec(told) == pytest.approx(read, rel=1e-3)
    if read == 0.9:
        assert ions(told)["Ca"] == pytest.approx(60 / 40.078, rel=1e-3)
        assert ions(told)["Cl"] > 0.7


@pytest.mark.parametrize(
    ("water", "known"),
    [
        (WaterAnalysis(), WaterKnown.UNKNOWN),
        (WaterAnalysis("well"), WaterKnown.UNKNOWN),
        (WaterAnalysis("RO"), WaterKnown.NOTHING_IN_IT),
        (WaterAnalysis("rain"), WaterKnown.NOTHING_IN_IT),
        (WaterAnalysis(ec_ms_per_cm=0.0), WaterKnown.NOTHING_IN_IT),
    ],
)
def test_waters_without_ions(water: WaterAnalysis, known: WaterKnown) -> None:
    assert water_ions(water).known is known
    assert water_ions(water).mol_per_l == ()


_AMOUNT = st.none() | st.floats(0, 400)


@given(
    st.builds(
        WaterAnalysis,
        kind=st.sampled_from(("tap", "ro", "blend")),
        ec_ms_per_cm=st.none() | st.floats(0, 3),
        alkalinity_mg_per_l=_AMOUNT,
        hardness_mg_per_l=_AMOUNT,
        ca_mg_per_l=_AMOUNT,
        mg_mg_per_l=_AMOUNT,
        k_mg_per_l=_AMOUNT,
        na_mg_per_l=_AMOUNT,
        cl_mg_per_l=_AMOUNT,
        so4_mg_per_l=_AMOUNT,
        no3_mg_per_l=_AMOUNT,
    )
)
def test_any_water_has_even_charges_and_its_ec(water: WaterAnalysis) -> None:
    found = water_ions(water)
    charges = [moles * IONS[ion][0] for ion, moles in found.mol_per_l]
    assert sum(charges) == pytest.approx(0, abs=1e-9 + 1e-9 * sum(map(abs, charges)))
    if water.ec_ms_per_cm is not None and found.mol_per_l:
        assert ec(water) == pytest.approx(water.ec_ms_per_cm, rel=2e-3, abs=2e-3)


def test_ions_that_stand_for_an_ec() -> None:
    assert standing_for(0, {"K": 1, "NO3": 1}) == {}
    found = standing_for(1.2, {"K": 0.01, "NO3": 0.01})
    assert conductivity_ms_per_cm(found) == pytest.approx(1.2, rel=1e-4)
    assert found["K"] == found["NO3"]


@pytest.mark.parametrize(
    ("told", "most"),
    # 100 mg/L CaCO3 are 0.9991 mmol/L: 40.04 mg/L of calcium or 24.28 of magnesium.
    [
        ({}, {}),
        ({"hardness_mg_per_l": 100.0}, {"Ca": 40.04, "Mg": 24.28}),
        ({"hardness_mg_per_l": 100.0, "ca_mg_per_l": 20.02}, {"Mg": 12.14}),
        ({"hardness_mg_per_l": 100.0, "mg_mg_per_l": 12.14}, {"Ca": 20.02}),
        ({"hardness_mg_per_l": 100.0, "ca_mg_per_l": 50.0}, {}),
        ({"hardness_mg_per_l": 100.0, "ca_mg_per_l": 20.0, "mg_mg_per_l": 2.0}, {}),
    ],
)
def test_what_a_hardness_leaves_of_calcium_and_magnesium(
    told: dict[str, Any], most: dict[str, float]
) -> None:
    water = WaterAnalysis("tap", **told)
    assert water.most_of_hardness_mg_per_l() == pytest.approx(most, rel=1e-3)


def test_the_elements_a_water_brings() -> None:
    water = WaterAnalysis(
        "tap", "", so4_mg_per_l=96.06, no3_mg_per_l=62.0, k_mg_per_l=3
    )
    assert water.elements_mg_per_l() == pytest.approx(
        {"N": 14.0, "K": 3, "S": 32.06}, rel=1e-3
    )
