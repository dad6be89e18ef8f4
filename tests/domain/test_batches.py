"""Fewest batches and least deviation, against trying everything."""

from __future__ import annotations

import math
import random
import time
from functools import reduce
from itertools import combinations, pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from growdesk.domain import batches, jug_search
from growdesk.domain.batches import BatchPlan, letter, natural_key, plan_batches
from growdesk.domain.errors import InputError
from growdesk.domain.servings import Band, Serving


def serving(
    tag: str, ppm: float, ceiling: float = 400, litres: float | None = 0.5
) -> Serving:
    return Serving(tag, ppm, ceiling, litres)


def strength_of(plan: BatchPlan, tag: str) -> int:
    return next(b.strength_ppm_n for b in plan.batches if tag in b.tags)


def cost(plan: BatchPlan, plants: list[Serving]) -> float:
    """Give the litres times the relative deviation, summed, as served."""
    return math.fsum(
        (plant.volume_l or 0)
        * abs(strength_of(plan, plant.tag) / plant.strength_ppm_n - 1)
        for plant in plants
    )


# --- By trying everything --------------------------------------------------------


def accepts(plant: Serving, strength: int, *, in_band: bool) -> bool:
    if strength > plant.ceiling_ppm_n + 1e-9:
        return False
    if not in_band:
        return True
    wish = plant.strength_ppm_n
    return 0.75 * wish - 1e-9 <= strength <= 1.1 * wish + 1e-9


def best_cost(
    plants: list[Serving], chosen: tuple[int, ...], *, in_band: bool
) -> float:
    total = 0.0
    for plant in plants:
        parts = [
            abs(strength / plant.strength_ppm_n - 1) * (plant.volume_l or 0)
            for strength in chosen
            if accepts(plant, strength, in_band=in_band)
        ]
        if not parts:
            return math.inf
        total += min(parts)
    return total


def by_trying(
    plants: list[Serving], jugs: int | None, top: int
) -> tuple[int, float, bool]:
    """Give the number of strengths, the least cost, and whether all keep their band."""
    fewest, least = 0, math.inf
    while least == math.inf:
        fewest += 1
        least = min(
            best_cost(plants, chosen, in_band=True)
            for chosen in combinations(range(1, top + 1), fewest)
        )
    if jugs is None or jugs >= fewest:
        return fewest, least, True
    loose = min(
        best_cost(plants, chosen, in_band=False)
        for count in range(1, jugs + 1)
        for chosen in combinations(range(1, top + 1), count)
    )
    return fewest, loose, False


_TOP = 14


@st.composite
def small_collections(draw: st.DrawFn) -> list[Serving]:
    """Draw plants of 4 to 12 ppm, whose bands always hold a whole number."""
    size = draw(st.integers(1, 7))
    plants = []
    for index in range(size):
        wish = draw(st.sampled_from([4, 5, 6, 6.5, 7, 7.4, 8, 9, 10, 11.3, 12]))
        ceiling = draw(st.sampled_from([wish, wish + 0.5, 13.0, 400.0]))
        litres = draw(st.sampled_from([0.1, 0.25, 1.0, 3.0, None]))
        plants.append(Serving(f"P{index}", wish, ceiling, litres))
    return plants


@settings(deadline=None, max_examples=80)
@given(small_collections(), st.sampled_from([None, 1, 2]))
def test_as_good_as_trying_everything(plants: list[Serving], jugs: int | None) -> None:
    plan = plan_batches(plants, jugs=jugs)
    fewest, least, in_band = by_trying(plants, jugs, _TOP)
    assert plan.fewest == fewest
    assert len(plan.batches) <= (fewest if in_band else jugs or 0)
    assert cost(plan, plants) == pytest.approx(least, abs=1e-9)
    if in_band:
        assert plan.outside_band == ()


@pytest.mark.parametrize("seed", range(6))
def test_as_good_as_trying_pairs_at_real_strengths(seed: int) -> None:
    dice = random.Random(seed)  # noqa: S311 -- a fixed seed for a test
    plants = [
        serving(f"P{i}", wish, max(wish, dice.choice([90, 150, 400])), volume)
        for i in range(25)
        for wish, volume in [(dice.uniform(30, 200), dice.choice([0.2, 0.5, 2.0]))]
    ]
    plan = plan_batches(plants, jugs=2)
    assert plan.fewest > 2
    least = min(
        best_cost(plants, pair, in_band=False)
        for pair in combinations(range(20, 221), 2)
    )
    assert cost(plan, plants) == pytest.approx(least, abs=1e-9)


def by_trying_all(
    plants: list[Serving], count: int, whole: range, *, in_band: bool
) -> float:
    """Give the least cost of so many whole strengths, over every choice of them."""
    costs = np.array(
        [
            [
                abs(strength / plant.strength_ppm_n - 1) * (plant.volume_l or 0)
                if accepts(plant, strength, in_band=in_band)
                else np.inf
                for strength in whole
            ]
            for plant in plants
        ]
    )
    # one axis for each jug; who is poured from the dearer jug changes nothing
    served = [costs.reshape(len(costs), *_axis(jug, count)) for jug in range(count)]
    return float(reduce(np.minimum, served).sum(axis=0).min())


def _axis(jug: int, count: int) -> list[int]:
    return [-1 if jug == axis else 1 for axis in range(count)]


def spread(seed: int, size: int, recipes: int = 1) -> list[Serving]:
    """Give plants whose wishes lie so far apart that it takes three jugs and more."""
    dice = random.Random(seed)  # noqa: S311 -- a fixed seed for a test
    plants = []
    for number in range(size):
        wish = dice.uniform(5, 20)
        ceiling = max(wish, dice.choice([9.0, 14.0, 400.0]))
        litres = dice.choice([0.2, 0.5, 2.0])
        recipe = number % recipes or None
        plants.append(Serving(f"P{number}", wish, ceiling, litres, recipe=recipe))
    return plants


_WHOLE = range(3, 23)
"""From below the weakest wish's band to above the strongest one's."""


@pytest.mark.parametrize("seed", range(4))
@pytest.mark.parametrize("jugs", [3, 4])
def test_as_good_as_trying_threes_and_fours(seed: int, jugs: int) -> None:
    plants = spread(seed, 16)
    plan = plan_batches(plants, jugs=jugs)
    in_band = plan.fewest <= jugs
    count = plan.fewest if in_band else jugs
    least = by_trying_all(plants, count, _WHOLE, in_band=in_band)
    assert cost(plan, plants) == pytest.approx(least, abs=1e-9)
    assert in_band == (by_trying_all(plants, jugs, _WHOLE, in_band=True) < math.inf)


@pytest.mark.parametrize("seed", range(4))
@pytest.mark.parametrize("jugs", [3, 4])
def test_jugs_are_shared_among_recipes_as_well_as_can_be(seed: int, jugs: int) -> None:
    plants = spread(seed, 14, recipes=2)
    plan = plan_batches(plants, jugs=jugs)
    assert plan.fewest > jugs, "else there is nothing to share out"
    one, other = (
        [plant for plant in plants if plant.recipe is recipe] for recipe in (None, 1)
    )
    least = min(
        by_trying_all(one, first, _WHOLE, in_band=False)
        + by_trying_all(other, jugs - first, _WHOLE, in_band=False)
        for first in range(1, jugs)
    )
    assert cost(plan, plants) == pytest.approx(least, abs=1e-9)


@pytest.mark.parametrize("seed", range(4))
@pytest.mark.parametrize("band", [Band(), None])
def test_costs_of_pairs_are_sums_over_plants(seed: int, band: Band | None) -> None:
    dice = random.Random(seed)  # noqa: S311 -- a fixed seed for a test
    plants = [
        serving(f"P{i}", dice.uniform(1, 20), dice.uniform(1, 25), dice.uniform(0, 2))
        for i in range(8)
    ]
    groups = batches._groups(plants, band)
    candidates = list(range(1, 26))
    pairs = jug_search._pair_costs(groups, candidates)
    for low, high in combinations(candidates, 2):
        expected = 0.0
        for group in groups:
            if low <= group.pivot < high:
                costs = [g for g in (low, high) if group.accepts(g)]
                expected += min((group.cost(g)[0] for g in costs), default=math.inf)
        assert pairs[low][high][0] == pytest.approx(expected, abs=1e-9)


# --- Properties at any size ------------------------------------------------------

_WISHES = st.one_of(st.integers(3, 40).map(lambda n: n * 10.0), st.floats(0.3, 400))


@st.composite
def collections(draw: st.DrawFn) -> list[Serving]:
    rows = draw(
        st.lists(
            st.tuples(
                _WISHES,
                st.floats(1, 400),
                st.one_of(st.none(), st.floats(0, 5)),
                st.booleans(),
            ),
            max_size=25,
        )
    )
    return [
        Serving(f"T{i}", wish, ceiling if low else max(1.0, wish), litres)
        for i, (wish, ceiling, litres, low) in enumerate(rows)
    ]


@settings(deadline=None, max_examples=60)
@given(collections(), st.sampled_from([None, 1, 2, 3, 5]))
def test_everybody_once_and_never_above_a_ceiling(
    plants: list[Serving], jugs: int | None
) -> None:
    plan = plan_batches(plants, jugs=jugs)
    served = [tag for batch in plan.batches for tag in batch.tags]
    assert sorted(served) == sorted(plant.tag for plant in plants)
    assert len(plan.batches) <= (jugs or len(plants))
    strengths = [batch.strength_ppm_n for batch in plan.batches]
    assert strengths == sorted(set(strengths), reverse=True)
    band = Band()
    outside = []
    for plant in plants:
        given_ppm = strength_of(plan, plant.tag)
        assert 1 <= given_ppm <= plant.ceiling_ppm_n + 1e-9
        if not band.holds(plant, given_ppm):
            outside.append(plant.tag)
    assert sorted(plan.outside_band) == sorted(outside)
    litres = math.fsum(plant.volume_l or 0 for plant in plants)
    assert sum(b.volume_l for b in plan.batches) == pytest.approx(litres)


@settings(deadline=None, max_examples=40)
@given(collections(), st.randoms(use_true_random=False), st.sampled_from([None, 2]))
def test_the_order_of_plants_changes_nothing(
    plants: list[Serving], dice: random.Random, jugs: int | None
) -> None:
    shuffled = list(plants)
    dice.shuffle(shuffled)
    assert plan_batches(shuffled, jugs=jugs) == plan_batches(plants, jugs=jugs)


@settings(deadline=None, max_examples=40)
@given(collections())
def test_more_jugs_never_deviate_more(plants: list[Serving]) -> None:
    fewest = plan_batches(plants).fewest
    costs = [cost(plan_batches(plants, jugs=jugs), plants) for jugs in range(1, fewest)]
    assert all(later <= earlier + 1e-9 for earlier, later in pairwise(costs))


_HOUSE_STEPS = st.lists(
    st.tuples(st.integers(3, 40), st.sampled_from([0, 5, 20, 200])), max_size=25
)


@settings(deadline=None, max_examples=60)
@given(_HOUSE_STEPS, st.floats(0.01, 0.2))
def test_a_wider_band_never_needs_more(
    rows: list[tuple[int, int]], wider: float
) -> None:
    """True where strengths are whole and under their ceiling, as the chain gives."""
    plants = [
        serving(f"T{i}", 10 * tens, 10 * tens + room)
        for i, (tens, room) in enumerate(rows)
    ]
    narrow = plan_batches(plants, Band(-0.10, 0.05)).fewest
    assert plan_batches(plants, Band(-0.10 - wider, 0.05 + wider)).fewest <= narrow


# --- Cases with names ------------------------------------------------------------


def test_nobody_needs_no_jug() -> None:
    assert plan_batches([]) == BatchPlan(())


def test_one_plant_gets_its_own_strength() -> None:
    plan = plan_batches([serving("A1", 150)])
    assert [(b.letter, b.strength_ppm_n) for b in plan.batches] == [("A", 150)]


def test_near_strengths_share_a_jug() -> None:
    plan = plan_batches([serving("A1", 150), serving("A2", 130), serving("A3", 40)])
    assert [batch.tags for batch in plan.batches] == [("A1", "A2"), ("A3",)]
    assert plan.outside_band == ()


def test_the_litres_pull_the_strength() -> None:
    plan = plan_batches([serving("big", 150, litres=5), serving("small", 140)])
    assert [b.strength_ppm_n for b in plan.batches] == [150]
    plan = plan_batches([serving("big", 140, litres=5), serving("small", 150)])
    assert [b.strength_ppm_n for b in plan.batches] == [140]


def test_too_few_jugs_name_who_is_outside() -> None:
    plants = [serving("A1", 300, litres=4), serving("A2", 150), serving("A3", 50)]
    plan = plan_batches(plants, jugs=2)
    assert plan.fewest == 3
    assert [b.strength_ppm_n for b in plan.batches] == [300, 50]
    assert plan.outside_band == ("A2",)


def test_too_few_jugs_serve_from_the_nearest_even_outside_the_band() -> None:
    """112 is 12 % from 100 and outside, 80 is 20 % from it and inside."""
    plants = [
        serving("A1", 112, litres=50),
        serving("A2", 80, litres=50),
        serving("A3", 100, litres=0.1),
        serving("A4", 20, litres=0.1),
        serving("A5", 300, litres=0.1),
    ]
    plan = plan_batches(plants, jugs=2)
    assert [b.strength_ppm_n for b in plan.batches] == [112, 80]
    assert strength_of(plan, "A3") == 112
    assert plan.outside_band == ("A3", "A4", "A5")


def test_one_jug_honours_the_lowest_ceiling() -> None:
    plants = [serving("A1", 300, litres=50), serving("A2", 60, ceiling=60)]
    plan = plan_batches(plants, jugs=1)
    assert [b.strength_ppm_n for b in plan.batches] == [60]
    assert plan.outside_band == ("A1",)


def test_a_ceiling_inside_the_band_is_kept() -> None:
    plan = plan_batches([serving("A1", 100, ceiling=100), serving("A2", 120)])
    assert [b.strength_ppm_n for b in plan.batches] == [100]


def test_a_ceiling_that_is_not_whole() -> None:
    plan = plan_batches([serving("A1", 150, ceiling=149.9)])
    assert plan.batches[0].strength_ppm_n == 149


def test_a_wish_above_its_ceiling_is_served_at_the_ceiling() -> None:
    plan = plan_batches([serving("A1", 300, ceiling=100)])
    assert plan.batches[0].strength_ppm_n == 100
    assert plan.outside_band == ("A1",)


def test_below_its_ceiling_such_a_wish_has_the_same_band_as_any() -> None:
    plan = plan_batches([serving("A1", 300, ceiling=100), serving("B1", 80)])
    (batch,) = plan.batches
    assert 75 <= batch.strength_ppm_n <= 88


@pytest.mark.parametrize("wish", [0.2, 0.9, 1.5])
def test_a_band_without_a_whole_number(wish: float) -> None:
    """Between 1.125 and 1.65 there is no whole ppm; 1 is given and named."""
    plan = plan_batches([serving("A1", wish), serving("A2", 100)])
    assert strength_of(plan, "A1") == 1
    assert plan.outside_band == ("A1",)


def test_an_unknown_volume_is_served_and_named() -> None:
    plants = [serving("A1", 150, litres=2), serving("A2", 150, litres=None)]
    plan = plan_batches(plants)
    assert plan.batches[0].volume_l == 2
    assert plan.batches[0].tags == ("A1", "A2")
    assert plan.volume_unknown == ("A2",)


def test_unknown_volumes_still_get_a_near_jug() -> None:
    wishes = (100, 105, 105)
    plants = [serving(f"A{i}", ppm, litres=None) for i, ppm in enumerate(wishes)]
    assert plan_batches(plants).batches[0].strength_ppm_n == 105


def test_limits_of_the_band_are_inside() -> None:
    """1.1 x 110 is 121.00000000000001 for a computer; 121 is inside all the same."""
    for wish in range(10, 360, 10):
        low, high = math.ceil(0.75 * wish), wish + wish // 10
        for other in (low, high):
            plant = serving("A1", wish)
            assert Band().holds(plant, other)
            assert not Band().holds(plant, high + 1)
            assert not Band().holds(plant, low - 1)


def test_tags_stand_in_natural_order() -> None:
    tags = ["A10", "A2", "B1", "a1", "A2b", "10", "9", ""]
    ordered = plan_batches([serving(tag, 100) for tag in tags]).batches[0].tags
    assert ordered == ("", "9", "10", "a1", "A2", "A2b", "A10", "B1")
    assert natural_key("²") > natural_key("9")


def test_letters_go_on_after_z() -> None:
    assert [letter(i) for i in (0, 25, 26, 27, 51, 52, 701, 702)] == [
        "A", "Z", "AA", "AB", "AZ", "BA", "ZZ", "AAA",
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("ppm", "ceiling", "litres"),
    [
        (0, 400, 1),
        (-1, 400, 1),
        (float("nan"), 400, 1),
        (float("inf"), 400, 1),
        (1e9, 400, 1),
        (100, 0, 1),
        (100, 0.5, 1),
        (100, float("nan"), 1),
        (100, 400, -1),
        (100, 400, float("nan")),
        (100, 400, float("inf")),
    ],
)
def test_servings_refused(ppm: float, ceiling: float, litres: float) -> None:
    with pytest.raises(InputError) as refused:
        Serving("A7", ppm, ceiling, litres)
    assert "A7" in refused.value.line()
    assert refused.value.hint


@pytest.mark.parametrize(
    ("ppm", "ceiling", "litres"),
    [(10_000, 10_000, 10_000), (0.5, 1, 0), (100, 400, None)],
)
def test_servings_taken_up_to_their_limits(
    ppm: float, ceiling: float, litres: float | None
) -> None:
    assert Serving("A7", ppm, ceiling, litres).strength_ppm_n == ppm


@pytest.mark.parametrize(("low", "high"), [(-0.99, 1), (0, 0)])
def test_bands_taken_up_to_their_limits(low: float, high: float) -> None:
    assert Band(low, high).ends(Serving("A7", 100, 400, 1)) == pytest.approx(
        (100 * (1 + low), 100 * (1 + high))
    )


@pytest.mark.parametrize("jugs", [0, -1])
def test_jugs_refused(jugs: int) -> None:
    with pytest.raises(InputError, match="jugs"):
        plan_batches([serving("A1", 100)], jugs=jugs)


@pytest.mark.parametrize(
    ("low", "high"), [(-1, 0), (0.1, 0.2), (-0.2, -0.1), (0, 2), (float("nan"), 0)]
)
def test_bands_refused(low: float, high: float) -> None:
    with pytest.raises(InputError, match="band"):
        Band(low, high)


def test_ten_thousand_plants_are_planned_at_once() -> None:
    dice = random.Random(7)  # noqa: S311 -- a fixed seed for a test
    plants = [
        serving(f"A{i}", wish, max(wish, dice.choice([100, 200, 400])))
        for i in range(10_000)
        for wish in [dice.randrange(30, 400, 10)]
    ]
    started = time.process_time()
    plan_batches(plants, jugs=3)
    assert time.process_time() - started < 1.0


def test_at_one_strength_what_is_in_use_for_all_goes_first() -> None:
    plants = [Serving(f"A{i}", 100, 400, 0.5, key) for i, key in enumerate((12, 3))]
    plan = plan_batches([*plants, Serving("A9", 100, 400, 0.5)])
    assert [batch.recipe for batch in plan.batches] == [None, 3, 12]
    assert [batch.letter for batch in plan.batches] == ["A", "B", "C"]
