"""The EC to expect of a finished feed, its water included.

From ions where the composition is known, from the label's own figure where it is
printed, otherwise an honest range; never a single figure that nobody knows.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from growdesk.domain.dose import ec_range_ms_per_cm

if TYPE_CHECKING:
    from growdesk.domain.recipe import Mixture

WATER_EC_UNKNOWN = (
    "The water's own EC is not known and not in this figure; give it with the water."
)


@dataclass(frozen=True, slots=True)
class ExpectedEc:
    """EC at 25 °C in mS/cm: the range a meter should read within, and from what.

    ``ec_ms_per_cm`` is the single figure where one is known. ``why`` is a sentence.
    """

    low_ms_per_cm: float
    high_ms_per_cm: float
    ec_ms_per_cm: float | None = None
    why: str = ""
    notes: tuple[str, ...] = ()


def expected_ec(mixture: Mixture) -> ExpectedEc | None:
    """Give the EC to expect; None where nothing can be said."""
    ends = [
        ec_range_ms_per_cm(product.analysis, product.mg_per_g().get("N", 0.0) * grams)
        for product, grams in mixture.g_per_l
        if grams > 0
    ]
    if not ends or any(end is None for end in ends):
        return None
    known = [end for end in ends if end is not None]
    water = mixture.water.ec_ms_per_cm
    if water is None and mixture.water.is_pure:
        water = 0.0
    own = water or 0.0
    return ExpectedEc(
        low_ms_per_cm=sum(low for low, _ in known) + own,
        high_ms_per_cm=sum(high for _, high in known) + own,
        notes=() if water is not None else (WATER_EC_UNKNOWN,),
    )
