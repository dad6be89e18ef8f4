"""Signs: seen, looked for and absent, or not known."""

from __future__ import annotations

import pytest

from growdesk.domain import signs
from growdesk.domain.facts import Flowering, Leaves, Look, NewGrowths, NewLeaf, RootTips
from tests.domain.builders import EMERGING, EXTENDING, HOUSE, NOTHING, look, still


def seen(*looks: Look) -> signs.Signs:
    return signs.seen_in(looks, HOUSE.stall_days)


def test_nothing_is_known_without_a_look() -> None:
    assert seen() == signs.Signs()
    assert seen().growth is None
    assert not seen().moving


def test_an_empty_look_knows_nothing() -> None:
    got = seen(look("05-05"))
    answers = (got.growth, got.new_growth, got.tips_moving, got.leaf_moving)
    assert answers == (None, None, None, None)
    assert got.spike_coming is None
    assert got.in_bloom is None


@pytest.mark.parametrize(
    ("growths", "growth"),
    [
        (NewGrowths(0, 0, 0, 0), False),
        (NewGrowths(0, 0, 0), False),
        (NewGrowths(0, 0, None), None),
        (NewGrowths(None, 1, None), True),
        (NewGrowths(0, 0, 2), True),
        (NewGrowths(0, 0, 0, 4), False),
        (None, None),
    ],
)
def test_growth_is_absent_only_where_each_stage_was_looked_for(
    growths: NewGrowths | None, growth: bool | None
) -> None:
    assert seen(look("05-05", new_growths=growths)).growth is growth


@pytest.mark.parametrize(
    ("tips", "moves"),
    [
        (RootTips.NONE, False),
        (RootTips.STARTING, True),
        (RootTips.RUNNING, True),
        (RootTips.HIDDEN, None),
        (None, None),
    ],
)
def test_hidden_root_tips_are_not_known(
    tips: RootTips | None, moves: bool | None
) -> None:
    assert seen(look("05-05", root_tips=tips)).tips_moving is moves


@pytest.mark.parametrize(
    ("leaf", "moves"),
    [
        (NewLeaf.NONE, False),
        (NewLeaf.STARTING, True),
        (NewLeaf.EXTENDING, True),
        (NewLeaf.FULL, False),
        (None, None),
    ],
)
def test_a_new_leaf_moves_while_it_starts_or_extends(
    leaf: NewLeaf | None, moves: bool | None
) -> None:
    assert seen(look("05-05", new_leaf=leaf)).leaf_moving is moves


@pytest.mark.parametrize(
    ("stages", "coming", "bloom"),
    [
        ((Flowering.NONE,), False, False),
        ((Flowering.SHEATH,), False, False),
        ((Flowering.SPIKE,), True, False),
        ((Flowering.BUDS,), True, True),
        ((Flowering.OPEN,), False, True),
        ((Flowering.FADING,), False, True),
        ((Flowering.SPENT,), False, False),
        ((Flowering.BUDS, Flowering.OPEN), True, True),
    ],
)
def test_stages_of_flowering(
    stages: tuple[Flowering, ...], coming: bool, bloom: bool
) -> None:
    got = seen(look("05-05", *stages))
    assert (got.spike_coming, got.in_bloom) == (coming, bloom)


@pytest.mark.parametrize(
    ("shown", "out"),
    [
        ({"leaves": Leaves.FIRM}, True),
        ({"leaves": Leaves.YELLOWING}, True),
        ({"leaves": Leaves.SHRIVELLED}, True),
        ({"leaves": Leaves.LEAFLESS}, False),
        ({"leaves": Leaves.LEAFLESS, "new_leaf": NewLeaf.EXTENDING}, True),
        ({"leaves": Leaves.LEAFLESS, "new_leaf": NewLeaf.STARTING}, False),
        ({"new_leaf": NewLeaf.FULL}, True),
        ({}, False),
    ],
)
def test_leaf_out(shown: dict[str, object], out: bool) -> None:
    assert signs.leaf_out(look("05-05", **shown)) is out


def test_leaves_not_recorded_are_neither_out_nor_gone() -> None:
    empty = look("05-05")
    assert not signs.leaf_out(empty)
    assert not signs.leafless(empty)


def _lead(on: str, mm: float | None, growths: NewGrowths = EXTENDING) -> Look:
    return still(on, new_growths=growths, lead_length_mm=mm)


@pytest.mark.parametrize(
    ("looks", "stalled"),
    [
        ((_lead("05-01", 50), _lead("05-22", 50)), True),
        ((_lead("05-01", 50), _lead("05-21", 50)), False),
        ((_lead("05-01", 50), _lead("05-22", 51)), True),
        ((_lead("05-01", 50), _lead("05-22", 51.5)), False),
        ((_lead("05-01", 50), _lead("05-11", 51), _lead("05-22", 51.5)), False),
        ((_lead("05-01", 50), _lead("05-10", None), _lead("05-22", 50)), True),
        ((_lead("05-01", 50), _lead("05-10", 20), _lead("05-22", 50)), False),
        ((_lead("05-22", 50),), False),
        ((_lead("05-01", None), _lead("05-22", None)), False),
    ],
)
def test_equal_lengths_21_days_apart_are_stalled(
    looks: tuple[Look, ...], stalled: bool
) -> None:
    got = signs.seen_in(looks, HOUSE.stall_days)
    assert got.stalled is stalled
    assert got.extending is not stalled


def test_a_stall_is_no_word_on_a_second_lead() -> None:
    two = NewGrowths(1, 1, 0, 2)
    got = seen(_lead("05-01", 50, two), _lead("05-22", 50, two))
    assert got.new_growth is True


def test_a_stall_leaves_a_maturing_growth_alone() -> None:
    both = NewGrowths(0, 0, 1, 2)
    got = seen(_lead("05-01", 50, both), _lead("05-22", 50, both))
    assert got.maturing is True


@pytest.mark.parametrize(
    ("shown", "grows"),
    [
        ({}, False),
        ({"new_growths": NOTHING, "root_tips": RootTips.NONE}, False),
        ({"new_growths": EMERGING}, True),
        ({"new_growths": EXTENDING}, True),
        ({"new_growths": NewGrowths(0, 0, 1)}, True),
        ({"new_growths": NewGrowths(1, 1, 0)}, True),
        ({"new_growths": NewGrowths(0, 1, 1)}, True),
        ({"new_growths": NewGrowths(matured=2, stalled=1)}, False),
        ({"root_tips": RootTips.STARTING}, True),
        ({"root_tips": RootTips.RUNNING}, True),
        ({"root_tips": RootTips.HIDDEN}, False),
        ({"longest_new_root_mm": 3.0}, True),
        ({"longest_new_root_mm": 0.0}, False),
        ({"new_leaf": NewLeaf.STARTING}, True),
    ],
)
def test_anything_new_wakes_a_bare_plant(shown: dict[str, object], grows: bool) -> None:
    assert signs.shows_growth(look("05-05", **shown)) is grows


@pytest.mark.parametrize(
    ("shown", "rests"),
    [
        ({"leaves": Leaves.LEAFLESS, "new_growths": NewGrowths(0, 0, 0)}, True),
        ({"leaves": Leaves.LEAFLESS, "new_growths": NewGrowths(0, 0, 0, 2, 1)}, True),
        ({"leaves": Leaves.LEAFLESS, "new_growths": EMERGING}, False),
        ({"leaves": Leaves.LEAFLESS, "new_growths": NewGrowths(0, 0)}, False),
        ({"leaves": Leaves.LEAFLESS, "new_growths": NewGrowths(maturing=0)}, False),
        ({"leaves": Leaves.LEAFLESS}, False),
        ({"leaves": Leaves.FIRM, "new_growths": NOTHING}, False),
        (
            {
                "leaves": Leaves.LEAFLESS,
                "new_growths": NOTHING,
                "root_tips": RootTips.STARTING,
            },
            False,
        ),
    ],
)
def test_a_rest_is_shown_by_a_bare_plant_with_no_growth(
    shown: dict[str, object], rests: bool
) -> None:
    assert signs.shows_rest(look("05-05", **shown)) is rests


@pytest.mark.parametrize(
    ("counts", "answers"),
    [
        (NewGrowths(1, 0, 0, 0), (True, False, False, False)),
        (NewGrowths(0, 1, 0, 0), (False, True, False, False)),
        (NewGrowths(0, 0, 1, 0), (False, False, True, False)),
        (NewGrowths(0, 0, 0, 1), (False, False, False, True)),
        (NewGrowths(2, None, 3, None), (True, None, True, None)),
        (None, (None, None, None, None)),
    ],
)
def test_each_stage_is_told_for_itself(
    counts: NewGrowths | None, answers: tuple[bool | None, ...]
) -> None:
    got = seen(look("05-05", new_growths=counts))
    assert (got.emerging, got.extending, got.maturing, got.matured) == answers
