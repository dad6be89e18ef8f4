"""What a look shows of growth: seen, looked for and absent, or not known.

Three answers, not two: ``True`` seen, ``False`` looked for and absent, ``None`` hidden
or not recorded.
"""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

from msgspec import Struct
from msgspec.structs import replace

from growdesk.domain.facts import (
    Bulbs,
    Flowering,
    Leaves,
    NewGrowths,
    NewLeaf,
    RootTips,
)

if TYPE_CHECKING:
    from collections.abc import Sequence

    from growdesk.domain.facts import Look

TIPS_MOVING = (RootTips.STARTING, RootTips.RUNNING)
LEAF_MOVING = (NewLeaf.STARTING, NewLeaf.EXTENDING)
IN_BLOOM = frozenset({Flowering.BUDS, Flowering.OPEN, Flowering.FADING})
ON_THE_WAY = frozenset({Flowering.SPIKE, Flowering.BUDS})

_NOT_COUNTED = NewGrowths()

STILL_WITHIN_MM = 1.0
"""A ruler held to a growth is read no finer (from memory): less is no growth."""

ROUNDING_MM = 1e-6


class Signs(Struct, frozen=True):
    """The signs of one look. ``stalled`` says that a lead which stands was left out."""

    emerging: bool | None = None
    extending: bool | None = None
    maturing: bool | None = None
    matured: bool | None = None
    stalled: bool = False
    tips: RootTips | None = None
    leaf: NewLeaf | None = None
    spike_coming: bool | None = None
    in_bloom: bool | None = None

    @property
    def growth(self) -> bool | None:
        """Tell of new growths that emerge, extend or mature."""
        return any_of(self.emerging, self.extending, self.maturing)

    @property
    def new_growth(self) -> bool | None:
        """Tell of new growths that emerge or extend."""
        return any_of(self.emerging, self.extending)

    @property
    def tips_moving(self) -> bool | None:
        """Tell of root tips that start or run; hidden ones are not known."""
        if self.tips in TIPS_MOVING:
            return True
        return False if self.tips is RootTips.NONE else None

    @property
    def leaf_moving(self) -> bool | None:
        """Tell of a crown leaf that starts or extends."""
        return None if self.leaf is None else self.leaf in LEAF_MOVING

    @property
    def moving(self) -> bool:
        """Tell whether any new growth, new leaf or root tip was seen on the move."""
        return (
            True in (self.emerging, self.extending, self.maturing)
            or self.tips in TIPS_MOVING
            or self.leaf in LEAF_MOVING
        )


def any_of(*answers: bool | None) -> bool | None:
    """Give True if one is seen, False if all were looked for and absent, else None."""
    if True in answers:
        return True
    return None if None in answers else False


def seen_in(looks: Sequence[Look], stall_days: int) -> Signs:
    """Give the signs of the newest of some looks, which stand oldest first."""
    if not looks:
        return Signs()
    look = looks[-1]
    counts = look.new_growths or _NOT_COUNTED
    emerging, extending = _some(counts.emerging), _some(counts.extending)
    stalled = bool(counts.stalled)
    if look.lead_length_mm is not None and lead_stands_still(looks, stall_days):
        if (counts.emerging or 0) + (counts.extending or 0) <= 1:
            emerging = False if emerging else emerging
            extending = False if extending else extending
        stalled = True
    flowering = look.flowering
    return Signs(
        emerging=emerging,
        extending=extending,
        maturing=_some(counts.maturing),
        matured=_some(counts.matured),
        stalled=stalled,
        tips=look.root_tips,
        leaf=look.new_leaf,
        spike_coming=None if flowering is None else bool(flowering & ON_THE_WAY),
        in_bloom=None if flowering is None else bool(flowering & IN_BLOOM),
    )


def lead_stands_still(looks: Sequence[Look], stall_days: int) -> bool:
    """Tell whether the newest look's lead is as long as so many days ago or more.

    As long is within a millimetre. Any other length in between speaks of another lead,
    and nothing is claimed.
    """
    length = looks[-1].lead_length_mm
    if length is None:
        return False
    since = looks[-1].on - timedelta(days=stall_days)
    for look in reversed(looks[:-1]):
        if look.lead_length_mm is None:
            continue
        if abs(look.lead_length_mm - length) > STILL_WITHIN_MM + ROUNDING_MM:
            return False
        if look.on <= since:
            return True
    return False


def leaf_out(look: Look) -> bool:
    """Tell whether a look shows a leaf out."""
    with_leaves = look.leaves is not None and look.leaves is not Leaves.LEAFLESS
    return with_leaves or look.new_leaf in (NewLeaf.EXTENDING, NewLeaf.FULL)


def badly_shrivelled(look: Look) -> bool:
    """Tell whether a look found bulbs or leaves shrivelled; wrinkled ones are not."""
    return look.bulbs is Bulbs.SHRIVELLED or look.leaves is Leaves.SHRIVELLED


def plump(look: Look) -> Look:
    """Give a look as it is once the plant is plump again."""
    leaves = Leaves.FIRM if look.leaves is Leaves.SHRIVELLED else look.leaves
    return replace(look, bulbs=Bulbs.FIRM, leaves=leaves)


def leafless(look: Look) -> bool:
    """Tell whether a look shows the plant bare, no leaf unfolding either."""
    return look.leaves is Leaves.LEAFLESS and not leaf_out(look)


def shows_growth(look: Look) -> bool:
    """Tell whether a look shows anything new on the move, growth, leaf or root."""
    counts = look.new_growths
    return bool(counts is not None and counts.maturing) or shows_beginning(look)


def shows_beginning(look: Look) -> bool:
    """Tell whether a look shows more on the move than a growth that matures."""
    counts = look.new_growths
    growth = counts is not None and bool(
        (counts.emerging or 0) + (counts.extending or 0)
    )
    return (
        growth
        or look.root_tips in TIPS_MOVING
        or bool(look.longest_new_root_mm)
        or look.new_leaf in LEAF_MOVING
    )


def shows_rest(look: Look) -> bool:
    """Tell whether a look found a bare plant with no new growth at all."""
    counts = look.new_growths
    return (
        leafless(look)
        and not shows_growth(look)
        and counts is not None
        and (counts.emerging, counts.extending, counts.maturing) == (0, 0, 0)
    )


def _some(count: int | None) -> bool | None:
    return None if count is None else count > 0
