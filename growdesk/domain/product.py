"""A fertilizer as a recipe takes it: its analysis, and what is known of its salts."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.domain.salt_table import salt_forms_percent

if TYPE_CHECKING:
    from growdesk.domain.analysis import Analysis


class Product(Struct, frozen=True):
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

    def nitrogen_forms_percent(self) -> dict[str, float]:
        """Give its nitrate, ammonium and urea, % by weight, as far as they are known.

        A single salt whose label tells none has them in the ratio of its ions.
        """
        told = self.analysis.nitrogen_forms_percent()
        if told or self.formula is None:
            return told
        pure = salt_forms_percent(self.formula)
        whole = math.fsum(pure.values())
        percent_n = self.analysis.n_percent
        return {form: percent_n * part / whole for form, part in pure.items()}
