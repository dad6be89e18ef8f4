"""One stage is named for a look: flowers first, then what grows, then what stands."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from growdesk.domain.facts import (
    Flowering,
    Leaves,
    Look,
    NewGrowths,
    NewLeaf,
    RootTips,
)
from growdesk.domain.growth_stage import SEASON_DAYS, Stage, stage_of, stages

DAY = date(2026, 5, 1)
BARE = NewGrowths(0, 0, 0, 0, 0)
DONE = NewGrowths(0, 0, 0, 2, 0)
CASES = {
    "flower before growth": (
        Look(DAY, NewGrowths(extending=1), flowering=frozenset({Flowering.OPEN})),
        Stage.IN_FLOWER,
    ),
    "fading": (Look(DAY, flowering=frozenset({Flowering.FADING})), Stage.IN_FLOWER),
    "open beats bud": (
        Look(DAY, flowering=frozenset({Flowering.BUDS, Flowering.OPEN})),
        Stage.IN_FLOWER,
    ),
    "bud beats spike": (
        Look(DAY, flowering=frozenset({Flowering.SPIKE, Flowering.BUDS})),
        Stage.IN_BUD,
    ),
    "spike": (Look(DAY, flowering=frozenset({Flowering.SPIKE})), Stage.IN_SPIKE),
    "a dry sheath is no spike": (
        Look(DAY, DONE, flowering=frozenset({Flowering.SHEATH})),
        Stage.MATURED,
    ),
    "most growths": (Look(DAY, NewGrowths(1, 0, 2, 4, 0)), Stage.MATURING),
    "the younger of two": (Look(DAY, NewGrowths(1, 1, 1, 0, 0)), Stage.EMERGING),
    "extending": (Look(DAY, NewGrowths(extending=1, matured=3)), Stage.EXTENDING),
    "matured": (Look(DAY, DONE, RootTips.NONE), Stage.MATURED),
    "stalled is no stage": (Look(DAY, NewGrowths(stalled=1)), None),
    "leafless": (Look(DAY, DONE, leaves=Leaves.LEAFLESS), Stage.RESTING),
    "leafless and sprouting": (
        Look(DAY, NewGrowths(emerging=1), leaves=Leaves.LEAFLESS),
        Stage.EMERGING,
    ),
    "nothing grows": (Look(DAY, BARE, RootTips.NONE), Stage.RESTING),
    "roots not looked at": (Look(DAY, BARE), None),
    "roots alone grow": (Look(DAY, BARE, RootTips.RUNNING), None),
    "leaf starts": (Look(DAY, new_leaf=NewLeaf.STARTING), Stage.EMERGING),
    "leaf extends": (Look(DAY, new_leaf=NewLeaf.EXTENDING), Stage.EXTENDING),
    "leaf is full": (Look(DAY, new_leaf=NewLeaf.FULL), Stage.MATURED),
    "no leaf, no tips": (
        Look(DAY, root_tips=RootTips.NONE, new_leaf=NewLeaf.NONE),
        Stage.RESTING,
    ),
    "nothing recorded": (Look(DAY), None),
    "no flowers seen": (Look(DAY, flowering=frozenset({Flowering.NONE})), None),
}


@pytest.mark.parametrize("case", CASES)
def test_the_stage_of_a_look(case: str) -> None:
    look, stage = CASES[case]
    assert stage_of(look) is stage


def test_the_last_look_at_or_before_the_day_tells_within_its_season() -> None:
    old = Look(DAY - timedelta(days=30), NewGrowths(emerging=1))
    own = Look(DAY, NewGrowths(extending=1))
    later = Look(DAY + timedelta(days=1), flowering=frozenset({Flowering.OPEN}))
    looks = [later, old, own]
    assert stages(looks)(DAY) is Stage.EXTENDING
    assert stages(looks)(DAY - timedelta(days=1)) is Stage.EMERGING
    assert stages(looks)(DAY - timedelta(days=31)) is None
    last = later.on + timedelta(days=SEASON_DAYS)
    assert stages(looks)(last) is Stage.IN_FLOWER
    assert stages(looks)(last + timedelta(days=1)) is None
    assert stages([])(DAY) is None
