"""What a finished feed really holds, once its doses were measured with real tools."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec.structs import replace

from growdesk.domain.recipe import made

if TYPE_CHECKING:
    from collections.abc import Sequence

    from growdesk.domain.measuring import Measured
    from growdesk.domain.recipe import Mixture


def as_measured(
    mixture: Mixture, doses: Sequence[Measured], volume_l: float
) -> Mixture:
    """Give the mixture that these doses make in this volume of finished feed.

    What each dose gives takes the place of what was reckoned; the misfit moves with it.
    """
    if volume_l <= 0:
        return mixture
    g_per_l = tuple((dose.product, dose.given_g / volume_l) for dose in doses)
    real = made(mixture.recipe, mixture.water, g_per_l)
    moved = {
        element: off
        + real.elements_mg_per_l.get(element, 0.0)
        - mixture.elements_mg_per_l.get(element, 0.0)
        for element, off in mixture.misfit_mg_per_l.items()
    }
    return replace(
        mixture,
        strength_ppm_n=real.strength_ppm_n,
        g_per_l=real.g_per_l,
        elements_mg_per_l=real.elements_mg_per_l,
        nitrogen_forms_mg_per_l=real.nitrogen_forms_mg_per_l,
        misfit_mg_per_l=moved,
    )
