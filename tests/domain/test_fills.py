"""Batches split into mixes that fit, against trying every reading of every jug."""

from __future__ import annotations

import math
from itertools import combinations_with_replacement

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from growdesk.domain.fills import (
    Fill,
    carrying_can,
    fills,
    fills_at_once,
    mixing_vessels,
)
from growdesk.domain.vessels import Vessel, VesselKind


def jug(volume_l: float, step_ml: float | None = None, name: str = "jug") -> Vessel:
    return Vessel(VesselKind.JUG, name, volume_l, step_ml=step_ml)


def can(volume_l: float, step_ml: float | None = None) -> Vessel:
    return Vessel(VesselKind.CAN, "can", volume_l, step_ml=step_ml)


def volumes(found: tuple[Fill, ...]) -> list[float]:
    return [fill.volume_l for fill in found]


def rank(
    levels: tuple[float, ...], needed_ml: float, can_ml: float
) -> tuple[float, ...]:
    walks = sum(max(1, math.ceil(level / can_ml - 1e-9)) for level in levels)
    return (
        len(levels),
        walks,
        sum(levels) - needed_ml,
        max(levels) - min(levels),
    )


def best_by_trying(
    needed_ml: int, step_ml: int, most_ml: int, can_ml: float
) -> tuple[float, ...]:
    """Try every set of readings of one jug, from one mix up."""
    levels = range(step_ml, most_ml + 1, step_ml)
    for count in range(1, 20):
        found = [
            rank(chosen, needed_ml, can_ml)
            for chosen in combinations_with_replacement(levels, count)
            if needed_ml <= sum(chosen) < needed_ml + step_ml
        ]
        if found:
            return min(found)
    raise AssertionError


@settings(deadline=None, max_examples=150)
@given(
    st.integers(1, 400),
    st.sampled_from([50, 100, 250, 500]),
    st.integers(2, 12),
    st.one_of(st.none(), st.floats(1 / 6, 1.2)),
)
def test_one_jug_with_a_scale_is_split_as_well_as_by_trying(
    tens_ml: int, step_ml: int, steps: int, can_share: float | None
) -> None:
    needed_ml, most_ml = 10 * tens_ml, step_ml * steps
    vessels = [jug(most_ml / 1000, step_ml)]
    can_ml = math.inf
    if can_share is not None:
        can_ml = max(step_ml, 10 * math.ceil(can_share * most_ml / 10))
        vessels.append(can(can_ml / 1000))
    if math.ceil(needed_ml / most_ml) > 4:
        needed_ml = 4 * most_ml
    found = fills(needed_ml / 1000, vessels)
    levels = tuple(round(1000 * fill.volume_l, 6) for fill in found)
    expected = best_by_trying(needed_ml, step_ml, most_ml, can_ml)
    assert rank(levels, needed_ml, can_ml) == pytest.approx(expected)
    assert sum(fill.cans for fill in found) == expected[1]
    assert all(fill.is_read for fill in found)
    assert list(levels) == sorted(levels, reverse=True)


_VESSELS = st.lists(
    st.builds(
        Vessel,
        st.sampled_from(list(VesselKind)),
        st.just("vessel"),
        st.sampled_from([0.35, 0.5, 1.0, 2.0, 3.3, 5.0, 10.0]),
        st.integers(1, 3),
        st.sampled_from([None, 10.0, 50.0, 100.0, 250.0, 1000.0]),
    ),
    max_size=5,
)


@settings(deadline=None, max_examples=150)
@given(st.integers(1, 3000), _VESSELS)
def test_enough_is_mixed_and_nothing_runs_over(
    tens_ml: int, vessels: list[Vessel]
) -> None:
    needed_l = tens_ml / 100
    found = fills(needed_l, vessels)
    mixed_in = mixing_vessels(vessels)
    assert bool(found) == bool(mixed_in)
    if not found:
        return
    total_l = math.fsum(fill.volume_l for fill in found)
    assert total_l >= needed_l - 1e-9
    steps = [fill.vessel.step_ml or 0.0 for fill in found]
    assert total_l - needed_l < max(*steps, 1e-6, 1e-6) / 1000 + 1e-9
    for fill in found:
        assert fill.vessel in mixed_in
        assert 0 < fill.volume_l <= fill.vessel.volume_l + 1e-9
        step = fill.vessel.step_ml
        if step is not None and step <= fill.vessel.volume_l * 1000:
            assert fill.volume_l * 1000 / step == pytest.approx(
                round(fill.volume_l * 1000 / step)
            )
    largest = max(_holds_l(vessel) for vessel in mixed_in)
    assert len(found) == math.ceil(needed_l / largest - 1e-9)


def _holds_l(vessel: Vessel) -> float:
    """Give what a vessel holds at most of what it shows."""
    step = vessel.step_ml
    if step is None or step > vessel.volume_l * 1000:
        return vessel.volume_l
    return math.floor(vessel.volume_l * 1000 / step + 1e-9) * step / 1000


def test_full_jugs_and_a_rest_where_a_jug_has_no_scale() -> None:
    found = fills(10.2, [jug(4)])
    assert volumes(found) == [4, 4, 2.2]
    assert [fill.is_read for fill in found] == [True, True, False]


def test_the_rest_goes_into_a_jug_that_shows_it() -> None:
    small = jug(2, 100, "small jug")
    found = fills(5.73, [jug(4, name="bucket"), small])
    assert volumes(found) == [4, 1.8]
    assert [fill.vessel.name for fill in found] == ["bucket", "small jug"]


def test_mixes_as_equal_as_the_scale_shows() -> None:
    assert volumes(fills(10.2, [jug(4, 200)])) == [3.4, 3.4, 3.4]
    assert volumes(fills(10.2, [jug(4, 500)])) == [3.5, 3.5, 3.5]
    assert volumes(fills(9.0, [jug(4, 1000)])) == [3, 3, 3]
    assert volumes(fills(9.1, [jug(4, 1000)])) == [4, 3, 3]


def test_of_jugs_that_hold_it_the_one_that_wastes_least() -> None:
    coarse, fine = jug(5, 500, "large"), jug(1, 50, "small")
    (fill,) = fills(0.62, [coarse, fine])
    assert (fill.volume_l, fill.vessel.name) == (0.65, "small")
    (fill,) = fills(1.2, [coarse, fine])
    assert (fill.volume_l, fill.vessel.name) == (1.5, "large")


def test_mixes_save_walks_with_a_can() -> None:
    """Equal mixes of 5 L would be four walks with a can of 4 L; 6 and 4 L are three."""
    found = fills(10, [jug(6, 500), can(4)])
    assert volumes(found) == [6, 4]
    assert [fill.cans for fill in found] == [2, 1]


def test_cans_are_mixed_in_where_there_is_no_jug() -> None:
    found = fills(7, [can(5, 500), Vessel(VesselKind.MUG, "mug", 0.35)])
    assert volumes(found) == [3.5, 3.5]
    assert [fill.cans for fill in found] == [1, 1]


def test_without_a_vessel_there_is_nothing_to_split_by() -> None:
    assert fills(7, []) == ()
    assert fills(7, [Vessel(VesselKind.BOTTLE, "bottle", 1)]) == ()
    assert fills(0, [jug(4)]) == ()


def test_a_hundred_mixes_and_a_can_like_a_cup_are_made_equal() -> None:
    assert volumes(fills(499, [jug(5, 100), can(4)])) == [5.0] * 90 + [4.9] * 10
    (first, second) = fills(9, [jug(5, 100), can(0.25)])
    assert (first.volume_l, second.volume_l) == (4.5, 4.5)
    assert (first.cans, second.cans) == (18, 18)


def names(found: tuple[tuple[Fill, ...], ...]) -> list[list[str]]:
    return [[fill.vessel.name for fill in fills] for fills in found]


def test_each_batch_has_a_jug_of_its_own_the_largest_choosing_first() -> None:
    vessels = [jug(5, 100, "large"), jug(2, 50, "small")]
    assert names(fills_at_once([0.6, 1.75], vessels)) == [["large"], ["small"]]
    assert names(fills_at_once([0.6, 4.0], vessels)) == [["small"], ["large"]]


def test_two_alike_are_two_jugs() -> None:
    pair = Vessel(VesselKind.JUG, "pair", 2.0, 2, 50)
    found = fills_at_once([1.0, 1.5, 0.5], [pair, jug(5, 100, "large")])
    assert names(found) == [["pair"], ["pair"], ["large"]]


def test_a_jug_is_used_again_where_another_would_take_more_mixes() -> None:
    vessels = [jug(5, 100, "large"), jug(1, 50, "small")]
    assert names(fills_at_once([4.0, 3.0, 0.5], vessels)) == [
        ["large"],
        ["large"],
        ["small"],
    ]


def test_a_jug_is_used_again_rather_than_one_that_cannot_show_it() -> None:
    vessels = [jug(2, 50, "scaled"), jug(5, name="bucket")]
    assert names(fills_at_once([1.0, 0.5], vessels)) == [["scaled"], ["scaled"]]


def test_no_can_is_mixed_in_while_there_are_jugs() -> None:
    found = fills_at_once([1.0, 0.5], [jug(2, 50), can(5, 50)])
    assert names(found) == [["jug"], ["jug"]]


def test_a_rest_that_a_scale_shows_is_read_as_it_is() -> None:
    found = fills(2.5, [jug(2, name="bare"), jug(1, 50, "small")])
    assert [(each.vessel.name, each.volume_l) for each in found] == [
        ("bare", 2.0),
        ("small", 0.5),
    ]


def test_a_can_carries_only_what_is_mixed_in_a_jug() -> None:
    large = can(5)
    assert carrying_can([jug(10), can(2), large]) == large
    assert carrying_can([can(2), large]) is None
    assert carrying_can([jug(10)]) is None


@settings(deadline=None, max_examples=80)
@given(st.lists(st.integers(1, 1500), max_size=5), _VESSELS)
def test_batches_together_take_no_more_mixes_than_alone(
    tens_ml: list[int], vessels: list[Vessel]
) -> None:
    volumes_l = [tens / 100 for tens in tens_ml]
    together = fills_at_once(volumes_l, vessels)
    for volume_l, found in zip(volumes_l, together, strict=True):
        alone = fills(volume_l, vessels)
        assert len(found) == len(alone)
        assert {f.vessel for f in found} <= set(mixing_vessels(vessels))
        assert sum(not f.is_read for f in found) <= sum(not f.is_read for f in alone)


def test_a_fine_scale_and_a_can_that_just_holds_it() -> None:
    cylinder = jug(0.1, 1.0, "cylinder")
    assert fills(0.033, [cylinder]) == (Fill(0.033, cylinder),)
    (only,) = fills(2.5, [jug(4.0, 100), can(2.5)])
    assert (only.volume_l, only.cans) == (2.5, 1)
    (more,) = fills(2.6, [jug(4.0, 100), can(2.5)])
    assert (more.volume_l, more.cans) == (2.6, 2)


def test_a_jug_whose_scale_has_one_mark_is_filled_to_it() -> None:
    one_mark = jug(1.0, 1000)
    assert fills(0.7, [one_mark]) == (Fill(1.0, one_mark),)
    beyond = jug(1.0, 1001)
    assert fills(0.7, [beyond]) == (Fill(0.7, beyond, is_read=False),)
