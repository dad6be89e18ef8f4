"""What jugs and clear water take from the shelf: for a round, and for each plant of it.

A plant's share of a jug is its share of what is poured from it, so that the spare is
taken with it. A blend takes of its two waters.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

from growdesk.domain.facts import CareKind
from growdesk.domain.stocktaking import Good, Sort
from growdesk.services.jugs import fill

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    from growdesk.domain.facts import House
    from growdesk.domain.measuring import Measured
    from growdesk.domain.recipe import Recipe
    from growdesk.services.shelf import Shelf
    from growdesk.services.values import Jug, MixPlan

Uses = dict[Good, float]
Row = dict[str, Any]


def of_jug(jug: Jug, shelf: Shelf) -> Uses:
    """Give what a whole jug takes, its spare included."""
    litres = jug.volume_l + jug.spare_l
    water = jug.water_id or water_of_recipe(jug.recipe_id, shelf)
    doses = added(_times(_of_doses(doses), times) for times, doses in weighed(jug))
    return added([doses, of_water(litres, water, shelf)])


def weighed(jug: Jug) -> Iterator[tuple[float, Sequence[Measured]]]:
    """Give the doses of a jug as they are measured, with how many times each set is.

    Mixes of one jug may differ: one is weighed, a smaller one comes from a bottle. A
    jug of a ladder that goes first has its share of the doses that this begins with.
    """
    if jug.of_ladder is not None:
        yield jug.of_ladder.share, jug.of_ladder.doses
        return
    if not jug.fills:
        yield 1, jug.doses
    for each in jug.fills:
        yield each.how_many, each.doses


def of_plant(jug: Jug, volume_l: float, shelf: Shelf) -> Uses:
    """Give a plant's part of what a jug takes, its part of the spare included."""
    if jug.volume_l <= 0:
        return {}
    return _times(of_jug(jug, shelf), volume_l / jug.volume_l)


def of_planned(care: Row, tag: str, mix: MixPlan, shelf: Shelf) -> Uses:
    """Give what planned care takes: of its plant's jug, else of its clear water."""
    litres = care["volume_l"] or 0.0
    if care["what"] is not CareKind.FEED:
        water_id = dict(mix.poured_from).get(tag, shelf.water_id)
        return of_water(litres, water_id, shelf)
    jug = next((jug for jug in mix.jugs if tag in jug.tags), None)
    return {} if jug is None else of_plant(jug, litres, shelf)


def of_given(
    cares: Sequence[Row], recipes: Sequence[Recipe | None], house: House, shelf: Shelf
) -> list[Uses]:
    """Give what care beside the plan takes, each by its plant's recipe, with no spare.

    All of it was given alike; what one recipe makes is measured in one go. Of a feed
    whose strength was not recorded only the water is known.
    """
    found: list[Uses] = [{} for _ in cares]
    keys = [None if recipe is None else recipe.key for recipe in recipes]
    for key in dict.fromkeys(keys):
        places = [place for place, each in enumerate(keys) if each == key]
        litres = [cares[place]["volume_l"] or 0.0 for place in places]
        total_l = math.fsum(litres)
        if total_l <= 0:
            continue
        strength = cares[0]["strength_ppm_n"]
        whole = (
            of_feed(strength, total_l, house, shelf, key)
            if strength
            else of_water(total_l, shelf.water_id, shelf)
        )
        for place, each in zip(places, litres, strict=True):
            found[place] = _times(whole, each / total_l)
    return found


def of_feed(
    ppm_n: float,
    volume_l: float,
    house: House,
    shelf: Shelf,
    recipe: int | None = None,
) -> Uses:
    """Give what litres of feed take that stand in no jug of the plan."""
    filled = fill(round(ppm_n), volume_l, house, shelf, recipe)
    water = of_water(volume_l, water_of_recipe(recipe, shelf), shelf)
    return added([_of_doses(filled.doses), water])


def of_clear(mix: MixPlan) -> Uses:
    """Give what the clear water and the flushes of a round take."""
    return {
        Good(Sort.WATER, need.key): need.clear_l + need.flush_l
        for need in mix.waters
        if need.clear_l + need.flush_l > 0
    }


def of_round(mix: MixPlan, shelf: Shelf) -> Uses:
    """Give what a whole round takes."""
    return added([*(of_jug(jug, shelf) for jug in mix.jugs), of_clear(mix)])


def of_water(volume_l: float, water_id: int | None, shelf: Shelf) -> Uses:
    """Give the litres of each water that a volume takes; a blend's go by its share."""
    if water_id is None or volume_l <= 0:
        return {}
    view = shelf.water_view(water_id)
    blend = None if view is None else view.draft
    if (
        blend is None
        or blend.first_id is None
        or blend.second_id is None
        or blend.first_share is None
    ):
        return {Good(Sort.WATER, water_id): volume_l}
    first_l = volume_l * blend.first_share
    parts = ((blend.first_id, first_l), (blend.second_id, volume_l - first_l))
    return {Good(Sort.WATER, key): litres for key, litres in parts if litres > 0}


def added(uses: Iterable[Mapping[Good, float]]) -> Uses:
    """Add up what several takings take."""
    total: Uses = {}
    for each in uses:
        for good, amount in each.items():
            total[good] = total.get(good, 0.0) + amount
    return total


def rows(care_ids: Sequence[int], uses: Sequence[Uses]) -> list[dict[str, Any]]:
    """Give the rows that keep what each piece of care took."""
    return [
        {
            "care_id": care_id,
            "tin_id": good.key if good.sort is Sort.TIN else None,
            "stock_id": good.key if good.sort is Sort.STOCK else None,
            "water_id": good.key if good.sort is Sort.WATER else None,
            "amount": amount,
        }
        for care_id, taken in zip(care_ids, uses, strict=True)
        for good, amount in taken.items()
        if amount > 0
    ]


def water_of_recipe(recipe_id: int | None, shelf: Shelf) -> int | None:
    """Give the water that a recipe is mixed with: its own, else the one in use."""
    recipe = shelf.recipe_by(recipe_id)
    own = None if recipe is None else shelf.water_view(recipe.water_key)
    return shelf.water_id if own is None else own.water_id


def _times(uses: Uses, times: float) -> Uses:
    return {good: amount * times for good, amount in uses.items()}


def _of_doses(doses: Iterable[Measured]) -> Uses:
    return added(_of_dose(dose) for dose in doses)


def _of_dose(dose: Measured) -> Uses:
    """Give what a dose takes as it is measured: g, of a liquid or a bottle mL."""
    if dose.bottle_key is not None:
        return {Good(Sort.STOCK, dose.bottle_key): dose.amount}
    if dose.product.key is None:
        return {}
    volume_ml = dose.product.volume_ml(dose.given_g)
    amount = dose.given_g if volume_ml is None else volume_ml
    return {Good(Sort.TIN, dose.product.key): amount}
