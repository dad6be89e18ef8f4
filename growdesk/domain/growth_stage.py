"""Name the one stage a plant stood in at a look, as growers put photos in order.

Flowers come before growths: a plant in flower is looked up by its flowers. Common
practice, no source.
"""

from __future__ import annotations

from bisect import bisect_right
from enum import StrEnum
from typing import TYPE_CHECKING

from growdesk.domain.facts import Flowering, Leaves, NewLeaf, RootTips

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence
    from datetime import date

    from growdesk.domain.facts import Look

SEASON_DAYS = 91
"""How long a look tells a photo's stage: a quarter of a year. Common practice."""


class Stage(StrEnum):
    """The stages of a plant's year, in their order."""

    EMERGING = "emerging"
    EXTENDING = "extending"
    MATURING = "maturing"
    MATURED = "matured"
    IN_SPIKE = "in spike"
    IN_BUD = "in bud"
    IN_FLOWER = "in flower"
    RESTING = "resting"


_BY_FLOWER = (
    (Flowering.OPEN, Stage.IN_FLOWER),
    (Flowering.FADING, Stage.IN_FLOWER),
    (Flowering.BUDS, Stage.IN_BUD),
    (Flowering.SPIKE, Stage.IN_SPIKE),
)
_GROWING = (Stage.EMERGING, Stage.EXTENDING, Stage.MATURING)
_BY_LEAF = {
    NewLeaf.STARTING: Stage.EMERGING,
    NewLeaf.EXTENDING: Stage.EXTENDING,
    NewLeaf.FULL: Stage.MATURED,
}


def stage_of(look: Look) -> Stage | None:
    """Give the stage a look shows; none where it does not tell.

    Of several growths the stage most of them are in counts, of two alike the younger.
    """
    flowers = look.flowering or frozenset()
    for seen, stage in _BY_FLOWER:
        if seen in flowers:
            return stage
    if look.leaves is Leaves.LEAFLESS:
        return _growing(look) or Stage.RESTING
    return _growing(look) or _standing(look)


def stages(looks: Sequence[Look]) -> Callable[[date], Stage | None]:
    """Give what tells the stage on a day: by the last look before, of its season."""
    first = {look.on: look for look in reversed(looks)}
    days = sorted(first)

    def on(day: date) -> Stage | None:
        at = bisect_right(days, day)
        if not at or (day - days[at - 1]).days > SEASON_DAYS:
            return None
        return stage_of(first[days[at - 1]])

    return on


def _growing(look: Look) -> Stage | None:
    counts = look.new_growths
    if counts is not None:
        found = {stage: getattr(counts, stage.value) or 0 for stage in _GROWING}
        most = max(found.values())
        if most:
            return next(stage for stage in _GROWING if found[stage] == most)
    stage = _BY_LEAF.get(look.new_leaf) if look.new_leaf is not None else None
    return None if stage is Stage.MATURED else stage


def _standing(look: Look) -> Stage | None:
    """Give what a plant does whose growths and leaves are all finished."""
    counts = look.new_growths
    matured = counts is not None and (counts.matured or 0) > 0
    if matured or look.new_leaf is NewLeaf.FULL:
        return Stage.MATURED
    none_grows = counts is not None or look.new_leaf is NewLeaf.NONE
    still = look.root_tips is RootTips.NONE
    return Stage.RESTING if none_grows and still else None
