"""How ions share out: the acidity of standard buffers, and what is free of them."""

from __future__ import annotations

import pytest

from growdesk.domain.speciation import settled


@pytest.mark.parametrize(
    ("acid", "base", "ph"), [(0.025, 0.025, 6.865), (0.008695, 0.03043, 7.413)]
)
def test_phosphate_buffers_have_the_ph_of_the_standards(
    acid: float, base: float, ph: float
) -> None:
    """KH2PO4 with Na2HPO4, mol/kg: primary standards at 25 °C (IUPAC 2002, R. P. Buck
    et al., Pure Appl. Chem. 74:2169; figures from memory)."""
    ions = {"K": acid, "H2PO4": acid, "Na": 2 * base, "HPO4": base}
    assert settled(ions).ph == pytest.approx(ph, abs=0.01)


def test_the_carbonate_buffer_is_near_its_standard() -> None:
    """NaHCO3 with Na2CO3, 0.025 mol/kg each: 10.012 (ibid., from memory)."""
    ions = {"Na": 0.075, "HCO3": 0.025, "CO3": 0.025}
    assert settled(ions).ph == pytest.approx(10.012, abs=0.2)


def test_hydroxide_counts_where_a_water_is_very_alkaline() -> None:
    """Carbonate takes up hydrogen by Kb 10^-3.67: 0.01 mol/L makes 1.36 mmol/L OH."""
    assert settled({"Na": 0.02, "CO3": 0.01}).ph == pytest.approx(11.1, abs=0.2)
