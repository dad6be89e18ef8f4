"""A fertilizer as a recipe takes it: its analysis, and what is known of its salts."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from growdesk.domain.chemistry import mass_fraction

if TYPE_CHECKING:
    from growdesk.domain.analysis import Analysis


@dataclass(frozen=True, slots=True)
class Product:
    """One tin or bottle.

    ``formula`` names a single salt of ``salts.SALTS``, so that its ions are known.
    ``ec_per_100_ppm_n_ms_per_cm`` is what its label prints. ``key`` is the tin's number
    in a collection.
    """

    name: str
    analysis: Analysis
    formula: str | None = None
    ec_per_100_ppm_n_ms_per_cm: float | None = None
    key: int | None = None

    @property
    def is_liquid(self) -> bool:
        """Tell whether it is measured in millilitres."""
        return self.analysis.density_g_per_ml is not None

    def volume_ml(self, mass_g: float) -> float | None:
        """Give the millilitres of a mass; None for a dry product."""
        density = self.analysis.density_g_per_ml
        return None if density is None else mass_g / density

    def mg_per_g(self) -> dict[str, float]:
        """Give the milligrams of each element in a gram of product."""
        percent = self.analysis.elements_percent()
        return {element: 10 * amount for element, amount in percent.items()}


def salt_percent(formula: str, elements: tuple[str, ...]) -> dict[str, float]:
    """Give the per cent by weight of some elements in a pure salt."""
    found = {element: 100 * mass_fraction(formula, element) for element in elements}
    return {element: percent for element, percent in found.items() if percent > 0}
