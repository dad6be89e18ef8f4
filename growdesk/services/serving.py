"""From judged plants to batches: who is fed, how strong, and by which recipe.

Exists apart from ``planning`` so that facts from a file are planned without a store.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.batches import plan_batches
from growdesk.domain.facts import Verdict
from growdesk.domain.recipe_uses import recipe_for
from growdesk.domain.servings import Band, Serving

if TYPE_CHECKING:
    from collections.abc import Iterable

    from growdesk.domain.batches import BatchPlan
    from growdesk.domain.explain import Judgement
    from growdesk.domain.facts import House, Plant
    from growdesk.services.shelf import Shelf

    Judged = tuple[Plant, Judgement]

_WEAKEST_PPM_N = 1.0


def plan_of(
    judged: Iterable[Judged],
    house: House,
    shelf: Shelf | None = None,
    jugs: int | None = None,
) -> BatchPlan:
    """Give the batches for the plants that are fed, by their exact litres.

    Without a shelf all have the same; ``jugs`` are the house's, if no other number is
    given.
    """
    servings = [
        Serving(
            tag=plant.tag,
            strength_ppm_n=judgement.strength.ppm_n,
            ceiling_ppm_n=judgement.strength.ceiling_ppm_n,
            volume_l=judgement.volume_l,
            recipe=None
            if shelf is None
            else recipe_key(plant, judgement, house, shelf),
        )
        for plant, judgement in judged
        if judgement.verdict is Verdict.FEED
        and judgement.strength is not None
        and _can_be_mixed(judgement)
    ]
    band = Band(low=-house.band_low, high=min(house.band_high, 1.0))
    return plan_batches(servings, band, house.jugs if jugs is None else jugs)


def recipe_key(
    plant: Plant, judgement: Judgement, house: House, shelf: Shelf
) -> int | None:
    """Give the number of a plant's recipe on its day; None for the tin in use."""
    found = recipe_for(plant, judgement.on, shelf.uses, shelf.recipe, house.latitude)
    return None if found is None else found.key


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
