"""The ions that stand for a water when its conductivity is reckoned with a feed's.

An analysis seldom tells all of them. What is told is kept; hardness without its ions is
taken as calcium and magnesium, 3 to 1 by charge, as in most tap waters (from memory);
the charge that is missing is made even with what is not told, bicarbonate and calcium
first. Where the water's EC is known the ions are made to come to it. These ions serve
the EC alone: no nutrient is counted from them.
"""

from __future__ import annotations

from enum import StrEnum
from functools import lru_cache
from typing import TYPE_CHECKING, Final

from msgspec import Struct

from growdesk.domain.chemistry import molar_mass_g_per_mol
from growdesk.domain.conductivity import conductivity_ms_per_cm
from growdesk.domain.ions import IONS

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from growdesk.domain.water_analysis import WaterAnalysis

MG_CACO3_PER_MEQ: Final = molar_mass_g_per_mol("CaCO3") / 2
_CALCIUM_SHARE: Final = 0.75
_NEAR: Final = 1e-6


class WaterKnown(StrEnum):
    """From what a water's ions are taken."""

    IONS = "ions"
    EC = "ec"
    NOTHING_IN_IT = "nothing-in-it"
    UNKNOWN = "unknown"


class WaterIons(Struct, frozen=True):
    """Ions in mol/L with even charges, and from what they are known."""

    mol_per_l: tuple[tuple[str, float], ...] = ()
    known: WaterKnown = WaterKnown.UNKNOWN


@lru_cache(maxsize=64)
def water_ions(water: WaterAnalysis) -> WaterIons:
    """Give the ions that stand for a water; none where nothing is known of it."""
    told = told_meq(water)
    ec = water.ec_ms_per_cm
    if any(meq > 0 for meq in told.values()):
        _make_even(told, water)
        if ec is not None:
            told = _come_to(ec, told, water)
        return WaterIons(_moles(told), WaterKnown.IONS)
    if ec is not None and ec > 0:
        return WaterIons(_moles(_come_to(ec, {}, water)), WaterKnown.EC)
    if water.is_pure or ec is not None:
        return WaterIons(known=WaterKnown.NOTHING_IN_IT)
    return WaterIons()


def standing_for(ec_ms_per_cm: float, ions: Mapping[str, float]) -> dict[str, float]:
    """Give as much of these ions, in mol/L, as makes this EC at 25 °C alone."""
    if ec_ms_per_cm <= 0:
        return {}
    scale = _reach(
        ec_ms_per_cm,
        lambda scale: conductivity_ms_per_cm(
            {ion: scale * moles for ion, moles in ions.items()}
        ),
    )
    return {ion: scale * moles for ion, moles in ions.items()}


def told_meq(water: WaterAnalysis) -> dict[str, float]:
    """Give the milliequivalents in a litre by ion, those of hardness shared out."""
    found = {
        ion: mmol * abs(IONS[ion][0]) for ion, mmol in water.ions_mmol_per_l().items()
    }
    hardness = water.hardness_mg_per_l
    if hardness is not None and not water.is_pure:
        meq = hardness / MG_CACO3_PER_MEQ
        if "Ca" not in found and "Mg" not in found:
            found["Ca"] = _CALCIUM_SHARE * meq
        if "Ca" not in found:
            found["Ca"] = max(meq - found["Mg"], 0.0)
        if "Mg" not in found:
            found["Mg"] = max(meq - found["Ca"], 0.0)
    return found


def _make_even(told: dict[str, float], water: WaterAnalysis) -> None:
    """Add what evens the charges, of the ion that is most likely not told."""
    cation, anion = _partners(told, water)
    over = sum(
        meq if IONS[ion][0] > 0 else -meq for ion, meq in told.items() if meq > 0
    )
    partner = anion if over > 0 else cation
    told[partner] = told.get(partner, 0.0) + abs(over)


def _partners(told: Mapping[str, float], water: WaterAnalysis) -> tuple[str, str]:
    """Give the cation and the anion that what is not told is taken to be."""
    if water.is_pure:
        return "Na", "Cl"
    cation = next((ion for ion in ("Ca", "Na", "K") if ion not in told), "Na")
    anion = next((ion for ion in ("HCO3", "Cl", "SO4") if ion not in told), "Cl")
    return cation, anion


def _come_to(
    ec_ms_per_cm: float, told: dict[str, float], water: WaterAnalysis
) -> dict[str, float]:
    """Give the ions thinned, or joined by what is not told, so that the EC is right."""
    if ec_ms_per_cm <= 0:
        return {}
    if _conductivity(told) > ec_ms_per_cm:
        share = _reach(
            ec_ms_per_cm,
            lambda share: _conductivity({ion: share * n for ion, n in told.items()}),
        )
        return {ion: share * meq for ion, meq in told.items()}
    partners = _partners(told, water)

    def joined(meq: float) -> dict[str, float]:
        return {
            ion: told.get(ion, 0.0) + (meq if ion in partners else 0.0)
            for ion in {**told, **dict.fromkeys(partners, 0.0)}
        }

    return joined(_reach(ec_ms_per_cm, lambda meq: _conductivity(joined(meq))))


def _reach(wanted: float, ec_of: Callable[[float], float]) -> float:
    """Give the amount whose EC is the wanted one; more of it always conducts more."""
    low, at_low, amount = 0.0, ec_of(0.0), 1.0
    for _ in range(30):
        found = ec_of(amount)
        if abs(found - wanted) <= _NEAR * wanted or found == at_low:
            break
        step = (wanted - found) * (amount - low) / (found - at_low)
        low, at_low, amount = amount, found, max(amount + step, amount / 100)
    return amount


def _conductivity(meq: Mapping[str, float]) -> float:
    return conductivity_ms_per_cm(dict(_moles(meq)))


def _moles(meq_per_l: Mapping[str, float]) -> tuple[tuple[str, float], ...]:
    return tuple(
        (ion, meq / abs(IONS[ion][0]) / 1000)
        for ion, meq in meq_per_l.items()
        if meq > 0
    )
