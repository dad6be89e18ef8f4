"""What is known of a water before anything is mixed into it.

Alkalinity and hardness as mg/L CaCO3, ions as mg/L of the ion. ``None`` is not known,
which is not the same as none. How a plant is watered is not asked here.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from msgspec import Struct

from growdesk.domain.chemistry import mass_fraction, molar_mass_g_per_mol
from growdesk.domain.speech import Phrases

if TYPE_CHECKING:
    from collections.abc import Mapping

PURE_KINDS = frozenset({"rain", "ro"})
"""Waters taken to hold nothing where nothing is known of them."""

BLEND = "blend"
"""The kind of a water that is made of two others."""

KINDS: Final = Phrases(
    {"tap": "tap", "rain": "rain", "ro": "RO", BLEND: "blend"}, "kind of water"
)
"""The usual kinds of water as they are named."""

ION_FIELDS: Final[Mapping[str, str]] = {
    "Ca": "ca_mg_per_l",
    "Mg": "mg_mg_per_l",
    "K": "k_mg_per_l",
    "Na": "na_mg_per_l",
    "Cl": "cl_mg_per_l",
    "SO4": "so4_mg_per_l",
    "NO3": "no3_mg_per_l",
}
"""Each ion that an analysis may tell, and its field."""

CONSERVED: Final = ("alkalinity_mg_per_l", "hardness_mg_per_l", *ION_FIELDS.values())
"""What a blend holds exactly by its shares."""

_MG_CACO3_PER_MMOL: Final = molar_mass_g_per_mol("CaCO3")


class WaterAnalysis(Struct, frozen=True):
    """One water; EC in mS/cm at 25 °C."""

    kind: str = "tap"
    name: str = ""
    ec_ms_per_cm: float | None = None
    alkalinity_mg_per_l: float | None = None
    hardness_mg_per_l: float | None = None
    ca_mg_per_l: float | None = None
    mg_mg_per_l: float | None = None
    k_mg_per_l: float | None = None
    na_mg_per_l: float | None = None
    cl_mg_per_l: float | None = None
    so4_mg_per_l: float | None = None
    no3_mg_per_l: float | None = None
    key: int | None = None

    @property
    def is_pure(self) -> bool:
        """Tell whether it is a water that holds next to nothing of its own."""
        return self.kind.casefold() in PURE_KINDS

    @property
    def called(self) -> str:
        """Give what it is called: its name, else its kind."""
        return self.name or KINDS.get(self.kind.casefold(), self.kind)

    def amount(self, field: str) -> float | None:
        """Give one of ``CONSERVED`` or its EC; a pure water unknown holds nothing."""
        known: float | None = getattr(self, field)
        return 0.0 if known is None and self.is_pure else known

    def ions_mmol_per_l(self) -> dict[str, float]:
        """Give what is known of its ions; alkalinity is counted as HCO3."""
        found = {
            ion: amount / molar_mass_g_per_mol(ion)
            for ion, field in ION_FIELDS.items()
            if (amount := self.amount(field)) is not None
        }
        alkalinity = self.amount("alkalinity_mg_per_l")
        if alkalinity is not None:
            found["HCO3"] = 2 * alkalinity / _MG_CACO3_PER_MMOL
        return found

    def hardness_of_ions_mg_per_l(self) -> float | None:
        """Give the hardness that its calcium and magnesium make, as CaCO3."""
        ions = self.ions_mmol_per_l()
        if "Ca" not in ions or "Mg" not in ions:
            return None
        return (ions["Ca"] + ions["Mg"]) * _MG_CACO3_PER_MMOL

    def best_hardness_mg_per_l(self) -> float | None:
        """Give the hardness told, else what its calcium and magnesium make."""
        if self.hardness_mg_per_l is not None:
            return self.hardness_mg_per_l
        return self.hardness_of_ions_mg_per_l()

    def most_of_hardness_mg_per_l(self) -> dict[str, float]:
        """Give the most calcium and magnesium there can be of what is not told.

        Of a hardness of which one of the two is told, the other is what is left.
        """
        if not self.hardness_mg_per_l:
            return {}
        ions = self.ions_mmol_per_l()
        told = ions.get("Ca", 0.0) + ions.get("Mg", 0.0)
        left = max(self.hardness_mg_per_l / _MG_CACO3_PER_MMOL - told, 0.0)
        return {
            metal: left * molar_mass_g_per_mol(metal)
            for metal in ("Ca", "Mg")
            if metal not in ions and left > 0
        }

    def elements_mg_per_l(self) -> dict[str, float]:
        """Give what is known of the elements it brings, without guesses."""
        sulphate, nitrate = self.so4_mg_per_l, self.no3_mg_per_l
        known = {
            "N": None if nitrate is None else nitrate * mass_fraction("NO3", "N"),
            "K": self.k_mg_per_l,
            "Ca": self.ca_mg_per_l,
            "Mg": self.mg_mg_per_l,
            "S": None if sulphate is None else sulphate * mass_fraction("SO4", "S"),
            "Na": self.na_mg_per_l,
            "Cl": self.cl_mg_per_l,
        }
        return {element: amount for element, amount in known.items() if amount}
