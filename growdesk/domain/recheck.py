"""What a look at the bench would decide for a plant whose look is out of date.

The judging itself is asked, on the last look made fresh with nothing moving, with a
root tip, with a new growth, with both, and with long roots where the kind waits for
them. Words and jugs are chosen elsewhere.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct
from msgspec.structs import replace

from growdesk.domain import freshened
from growdesk.domain.case import Case
from growdesk.domain.facts import NewGrowths, NewLeaf, RootTips
from growdesk.domain.judging import judge
from growdesk.domain.kinds import Habit, Resume
from growdesk.domain.rules import leafless_rest

if TYPE_CHECKING:
    from datetime import date

    from growdesk.domain.explain import Judgement
    from growdesk.domain.facts import House, Look, Plant
    from growdesk.domain.kinds import Kind


class Recheck(Struct, frozen=True):
    """The four judgements; ``by_leaf`` where the kind shows a leaf, not a growth.

    ``rooted`` is the judgement with new roots of ``rooted_mm``, for kinds that wait for
    a length of root.
    """

    nothing: Judgement
    tip: Judgement
    growth: Judgement
    both: Judgement
    by_leaf: bool
    rooted: Judgement | None = None
    rooted_mm: float = 0.0


def recheck(plant: Plant, kind: Kind, house: House, on: date) -> Recheck:
    """Give what each sight at the bench would decide today."""
    by_leaf = kind.habit is Habit.MONOPODIAL
    case = Case(plant, kind, house, on)
    nothing = _still(case)
    tip = replace(nothing, root_tips=RootTips.STARTING)
    growth = _grown(nothing, by_leaf=by_leaf, started=True)
    both = replace(
        _grown(nothing, by_leaf=by_leaf, started=False), root_tips=RootTips.RUNNING
    )
    waits = kind.resume is Resume.ROOT_LENGTH
    rooted_mm = leafless_rest.resume_mm(case) if waits else 0.0
    rooted = replace(both, longest_new_root_mm=rooted_mm)

    def seen(look: Look) -> Judgement:
        return judge(replace(plant, looks=(*plant.looks, look)), kind, house, on)

    return Recheck(
        nothing=seen(nothing),
        tip=seen(tip),
        growth=seen(growth),
        both=seen(both),
        by_leaf=by_leaf,
        rooted=seen(rooted) if waits else None,
        rooted_mm=rooted_mm,
    )


def _still(case: Case) -> Look:
    """Give the last look as if taken today with nothing moving."""
    look = freshened.fresh_look(case)
    counts = look.new_growths or NewGrowths()
    return replace(
        look,
        new_growths=replace(counts, emerging=0, extending=0, maturing=0),
        root_tips=RootTips.NONE,
        new_leaf=None if look.new_leaf is None else NewLeaf.NONE,
        longest_new_root_mm=None,
        lead_length_mm=None,
    )


def _grown(look: Look, *, by_leaf: bool, started: bool) -> Look:
    """Give the look with a new growth or leaf, just started or well on its way."""
    if by_leaf:
        leaf = NewLeaf.STARTING if started else NewLeaf.EXTENDING
        return replace(look, new_leaf=leaf)
    counts = look.new_growths or NewGrowths()
    grown = replace(counts, emerging=1) if started else replace(counts, extending=1)
    return replace(look, new_growths=grown)
