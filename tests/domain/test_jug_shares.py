"""Jugs shared out among recipes, against trying every jug of every recipe."""

from __future__ import annotations

import math
from itertools import combinations, pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from growdesk.domain.batches import BatchPlan, plan_batches
from growdesk.domain.jug_shares import shared_out
from growdesk.domain.servings import Band, Serving

_TOP = 9
_RECIPES = (None, 1, 2)


def fed(
    tag: str, ppm: float, recipe: int | None, *, ceiling: float = 400, litres: float = 1
) -> Serving:
    return Serving(tag, ppm, ceiling, litres, recipe)


def least_by_trying(plants: list[Serving], jugs: int) -> float:
    """Give the least deviation over all sets of jugs, each a recipe and a strength."""
    recipes = {plant.recipe for plant in plants}
    every = [(recipe, ppm) for recipe in recipes for ppm in range(1, _TOP + 1)]
    return min(
        _cost(plants, chosen)
        for count in range(1, jugs + 1)
        for chosen in combinations(every, count)
    )


def _cost(plants: list[Serving], chosen: tuple[tuple[int | None, int], ...]) -> float:
    total = 0.0
    for plant in plants:
        parts = [
            abs(ppm / plant.strength_ppm_n - 1) * (plant.volume_l or 0)
            for recipe, ppm in chosen
            if recipe == plant.recipe and ppm <= plant.ceiling_ppm_n + 1e-9
        ]
        if not parts:
            return math.inf
        total += min(parts)
    return total


def served_cost(plan: BatchPlan, plants: list[Serving]) -> float:
    jugs = {tag: batch for batch in plan.batches for tag in batch.tags}
    return math.fsum(
        abs(jugs[plant.tag].strength_ppm_n / plant.strength_ppm_n - 1)
        * (plant.volume_l or 0)
        for plant in plants
    )


@st.composite
def mixed_collections(draw: st.DrawFn) -> list[Serving]:
    """Draw plants of three recipes, whose bands always hold a whole number."""
    plants = []
    for index in range(draw(st.integers(1, 7))):
        wish = draw(st.sampled_from([4, 5, 6, 6.5, 7, 8]))
        plants.append(
            Serving(
                f"P{index}",
                wish,
                draw(st.sampled_from([wish, wish + 0.5, 400.0])),
                draw(st.sampled_from([0.1, 0.25, 1.0, 3.0, None])),
                draw(st.sampled_from(_RECIPES)),
            )
        )
    return plants


@settings(deadline=None, max_examples=60)
@given(mixed_collections(), st.integers(1, 3))
def test_as_good_as_trying_every_jug_of_every_recipe(
    plants: list[Serving], jugs: int
) -> None:
    plan = plan_batches(plants, jugs=jugs)
    recipes = {plant.recipe for plant in plants}
    by_tag = {plant.tag: plant for plant in plants}
    assert plan.recipes == len(recipes)
    assert len(plan.batches) <= max(jugs, len(recipes))
    for batch in plan.batches:
        members = [by_tag[tag] for tag in batch.tags]
        assert {plant.recipe for plant in members} == {batch.recipe}
        assert batch.ceiling_ppm_n == min(plant.ceiling_ppm_n for plant in members)
        assert batch.strength_ppm_n <= batch.ceiling_ppm_n + 1e-9
    if jugs < len(recipes):
        assert len(plan.batches) == len(recipes)
    elif plan.fewest > jugs:
        least = least_by_trying(plants, jugs)
        assert served_cost(plan, plants) == pytest.approx(least, abs=1e-9)
    else:
        assert plan.outside_band == ()
        assert len(plan.batches) <= plan.fewest


@settings(deadline=None, max_examples=60)
@given(mixed_collections())
def test_all_recipes_need_as_many_as_each_alone(plants: list[Serving]) -> None:
    alone = [
        plan_batches([plant for plant in plants if plant.recipe == recipe])
        for recipe in _RECIPES
    ]
    together = plan_batches(plants)
    assert together.fewest == sum(plan.fewest for plan in alone)
    assert served_cost(together, plants) == pytest.approx(
        sum(served_cost(plan, plants_of(plan, plants)) for plan in alone)
    )


def plants_of(plan: BatchPlan, plants: list[Serving]) -> list[Serving]:
    tags = {tag for batch in plan.batches for tag in batch.tags}
    return [plant for plant in plants if plant.tag in tags]


@settings(deadline=None, max_examples=40)
@given(mixed_collections())
def test_one_jug_more_never_deviates_more(plants: list[Serving]) -> None:
    fewest = plan_batches(plants).fewest
    costs = [
        served_cost(plan_batches(plants, jugs=jugs), plants)
        for jugs in range(1, fewest)
    ]
    assert all(later <= earlier + 1e-9 for earlier, later in pairwise(costs))


def test_the_jug_goes_to_the_recipe_that_gains_most_by_it() -> None:
    plants = [
        fed("A1", 200, None, litres=5),
        fed("A2", 40, None, litres=5),
        fed("B1", 100, 7),
        fed("B2", 60, 7),
    ]
    plan = plan_batches(plants, Band(-0.1, 0.1), jugs=3)
    assert [(b.recipe, b.strength_ppm_n, b.tags) for b in plan.batches] == [
        (None, 200, ("A1",)),
        (None, 40, ("A2",)),
        (7, 60, ("B1", "B2")),
    ]
    assert [batch.letter for batch in plan.batches] == ["A", "B", "C"]
    assert plan.outside_band == ("B1",)
    assert (plan.fewest, plan.recipes) == (4, 2)


def test_the_same_strength_of_two_recipes_is_two_jugs() -> None:
    plan = plan_batches([fed("A1", 100, 3), fed("A2", 100, None)])
    assert [(b.letter, b.recipe, b.tags) for b in plan.batches] == [
        ("A", None, ("A2",)),
        ("B", 3, ("A1",)),
    ]


def test_the_recipe_with_the_strongest_jug_comes_first_and_stays_together() -> None:
    plan = plan_batches(
        [fed("A1", 50, None), fed("B1", 300, 2), fed("B2", 40, 2), fed("A2", 200, None)]
    )
    assert [(b.recipe, b.strength_ppm_n) for b in plan.batches] == [
        (2, 300),
        (2, 40),
        (None, 200),
        (None, 50),
    ]


def test_each_recipe_gets_a_jug_even_with_fewer_jugs_than_recipes() -> None:
    plan = plan_batches([fed(f"A{n}", 100, n) for n in range(3)], jugs=1)
    assert len(plan.batches) == plan.recipes == 3
    assert plan.outside_band == ()


def test_of_choices_as_good_the_fewer_jugs_are_taken() -> None:
    one, two = ((1.0, 1.0), (5,)), ((1.0, 1.0), (4, 6))
    assert shared_out([[one, two]], 2) == ((5,),)
    assert shared_out([], 2) == ()
