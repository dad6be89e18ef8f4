"""From judged plants to batches: who is fed, how strong, and by which recipe.

Exists apart from ``planning`` so that facts from a file are planned without a store.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.batches import plan_batches
from growdesk.domain.facts import Verdict
from growdesk.domain.servings import Band, Serving

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from growdesk.domain.batches import BatchPlan
    from growdesk.domain.explain import Judgement
    from growdesk.domain.facts import House, Plant

    Judged = tuple[Plant, Judgement]
    RecipeOf = Callable[[Plant], int | None]

_WEAKEST_PPM_N = 1.0


def plan_of(
    judged: Iterable[Judged],
    house: House,
    recipe_of: RecipeOf | None = None,
    jugs: int | None = None,
) -> BatchPlan:
    """Give the batches for the plants that are fed, by their exact litres.

    Without ``recipe_of`` all have what is in use; ``jugs`` are the house's, if no
    other number is given.
    """
    servings = [
        Serving(
            tag=plant.tag,
            strength_ppm_n=judgement.strength.ppm_n,
            ceiling_ppm_n=judgement.strength.ceiling_ppm_n,
            volume_l=judgement.volume_l,
            recipe=None if recipe_of is None else recipe_of(plant),
        )
        for plant, judgement in judged
        if judgement.verdict is Verdict.FEED
        and judgement.strength is not None
        and _can_be_mixed(judgement)
    ]
    band = Band(low=-house.band_low, high=min(house.band_high, 1.0))
    return plan_batches(servings, band, house.jugs if jugs is None else jugs)


def too_weak(judged: Iterable[Judged]) -> tuple[str, ...]:
    """Name the plants that are fed so little that no jug has it."""
    return tuple(
        plant.tag
        for plant, judgement in judged
        if judgement.verdict is Verdict.FEED and not _can_be_mixed(judgement)
    )


def _can_be_mixed(judgement: Judgement) -> bool:
    """Say whether a strength is one that a jug can have."""
    strength = judgement.strength
    if strength is None:
        return False
    return min(strength.ppm_n, strength.ceiling_ppm_n) >= _WEAKEST_PPM_N
