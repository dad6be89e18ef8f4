"""What several signs at once may become, and what a first look may show."""

from __future__ import annotations

import pytest

from growdesk.domain.case import Case
from growdesk.domain.facts import (
    Flowering,
    Leaves,
    Look,
    NewGrowths,
    NewLeaf,
    Plant,
    RootTips,
)
from growdesk.domain.fading_pairs import (
    BOTH_START,
    BOTH_STOP,
    bare_bench,
    first_sights,
    together,
)
from tests.domain.builders import HOUSE, day, kind_of, look, moving, plant, still

SEEN, ON = "05-06", day("2026-05-20")
NONE_MOVING = NewGrowths(0, 0, 0)


def case_of(one: Plant) -> Case:
    return Case(one, kind_of(one), HOUSE, ON)


def become(kind: str, shown: Look) -> dict[str, Look]:
    case = case_of(plant(kind, shown))
    return {both.key: both.becomes(shown) for both in together(case)}


def chances(kind: str, shown: Look) -> dict[str, float]:
    case = case_of(plant(kind, shown))
    return {both.key: both.chance for both in together(case)}


def test_all_that_moves_may_come_to_rest() -> None:
    shown = moving(SEEN, Flowering.BUDS, Flowering.SPENT, new_leaf=NewLeaf.EXTENDING)
    assert become("cattleya", shown)[BOTH_STOP] == look(
        SEEN,
        Flowering.OPEN,
        Flowering.SPENT,
        new_growths=NewGrowths(0, 0, 0, 2),
        root_tips=RootTips.NONE,
        new_leaf=NewLeaf.FULL,
    )


def test_at_rest_no_flower_and_no_leaf_is_made_up() -> None:
    assert become("cattleya", moving(SEEN))[BOTH_STOP] == look(
        SEEN, new_growths=NewGrowths(0, 0, 0, 2), root_tips=RootTips.NONE
    )


def test_one_thing_on_the_move_is_no_pair() -> None:
    alone = still(SEEN, root_tips=RootTips.RUNNING)
    assert BOTH_STOP not in become("cattleya", alone)


def test_a_growth_and_tips_may_both_begin() -> None:
    shown = still(SEEN, lead_length_mm=40.0)
    assert become("cattleya", shown) == {
        BOTH_START: look(
            SEEN, new_growths=NewGrowths(0, 1, 0, 2), root_tips=RootTips.RUNNING
        )
    }
    leaf = look(SEEN, new_leaf=NewLeaf.NONE, root_tips=RootTips.NONE)
    assert become("vanda", leaf) == {
        BOTH_START: look(SEEN, new_leaf=NewLeaf.EXTENDING, root_tips=RootTips.RUNNING)
    }


def test_what_already_moves_does_not_begin() -> None:
    assert BOTH_START not in become("cattleya", moving(SEEN))
    tips = still(SEEN, root_tips=RootTips.STARTING)
    assert become("cattleya", tips) == {}


def test_chances_of_a_pair_are_those_of_all_its_stages() -> None:
    """A cattleya's growth takes 26 weeks: half of a stage is what it holds."""
    case = case_of(plant("cattleya"))
    weeks = case.kind.growth_weeks
    extending, maturing = weeks * 7 * 0.5 / 2, weeks * 7 * 0.25 / 2
    gone = [1 - 2 ** (-14 / days) for days in (extending, maturing, 28.0)]
    found = chances("cattleya", moving(SEEN))[BOTH_STOP]
    assert found == pytest.approx(gone[0] * gone[1] * gone[2])
    starting = moving(SEEN, root_tips=RootTips.STARTING)
    first = 1 - 2 ** (-14 / 10.0)
    assert chances("cattleya", starting)[BOTH_STOP] == pytest.approx(found * first)
    begun = chances("cattleya", still(SEEN))[BOTH_START]
    assert begun == pytest.approx((1 - 2 ** (-14 / 28.0)) ** 2)


def test_a_first_look_may_find_nothing_or_one_thing_or_both() -> None:
    case = case_of(plant("cattleya"))
    nothing = Look(ON, new_growths=NONE_MOVING, root_tips=RootTips.NONE)
    assert bare_bench(case) == nothing
    grown = NewGrowths(0, 1, 0)
    assert list(first_sights(case)) == [
        Look(ON, new_growths=NONE_MOVING, root_tips=RootTips.STARTING),
        Look(ON, new_growths=grown, root_tips=RootTips.NONE),
        Look(ON, new_growths=grown, root_tips=RootTips.RUNNING),
    ]


def test_a_first_look_at_a_monopodial_is_at_its_leaf() -> None:
    case = case_of(plant("vanda"))
    still_leaf, moving_leaf = NewLeaf.NONE, NewLeaf.EXTENDING
    assert bare_bench(case).new_leaf is still_leaf
    shown = [(each.new_leaf, each.root_tips) for each in first_sights(case)]
    assert shown == [
        (still_leaf, RootTips.STARTING),
        (moving_leaf, RootTips.NONE),
        (moving_leaf, RootTips.RUNNING),
    ]


@pytest.mark.parametrize(("kind", "root_mm"), [("catasetum", 80.0), ("pleione", 25.0)])
def test_a_first_look_may_find_a_leafless_kind_in_leaf_and_rooted(
    kind: str, root_mm: float
) -> None:
    assert list(first_sights(case_of(plant(kind)))) == [
        Look(
            ON,
            new_growths=NewGrowths(0, 1, 0),
            root_tips=RootTips.RUNNING,
            longest_new_root_mm=root_mm,
            leaves=Leaves.FIRM,
        )
    ]
