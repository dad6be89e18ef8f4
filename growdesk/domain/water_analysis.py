"""What is known of a water before anything is mixed into it.

Alkalinity and hardness as mg/L CaCO3, ions as mg/L of the ion. ``None`` is not known,
which is not the same as none. How a plant is watered is not asked here.
"""

from __future__ import annotations

from dataclasses import dataclass

from growdesk.domain.chemistry import mass_fraction

PURE_KINDS = frozenset({"rain", "ro"})
"""Waters taken to hold nothing where nothing is known of them."""


@dataclass(frozen=True, slots=True)
class WaterAnalysis:
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
