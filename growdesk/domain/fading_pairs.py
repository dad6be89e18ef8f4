"""What two signs together may have become, and what a first look may show.

Asked where no sign alone alters the verdict: all that moves has come to rest, or a
growth and root tips have both begun.
"""

from __future__ import annotations

from math import prod
from typing import TYPE_CHECKING

from msgspec import Struct
from msgspec.structs import replace

from growdesk.domain import fading
from growdesk.domain.facts import Flowering, Leaves, Look, NewGrowths, NewLeaf, RootTips
from growdesk.domain.kinds import Habit, Rest
from growdesk.domain.rules import leafless_rest

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from growdesk.domain.case import Case
    from growdesk.domain.fading import Fade

BOTH_STOP = "all-come-to-rest"
BOTH_START = "both-begin"
STAGES = ("emerging", "extending", "maturing")
LEAVES = (NewLeaf.STARTING, NewLeaf.EXTENDING)


class Together(Struct, frozen=True):
    """Several signs at once: how likely, and what they make of a look."""

    key: str
    chance: float
    becomes: Callable[[Look], Look]


def together(case: Case) -> Iterator[Together]:
    """Give what several signs at once may have become."""
    moving = list(_moving_steps(case))
    if len(moving) > 1:
        steps = [days for one in moving for days in one]
        yield Together(BOTH_STOP, _passed(case, steps), _at_rest)
    begun = [fade for fade in _beginnings(case) if fade is not None]
    if len(begun) > 1:
        chance = prod(fade.chance(case.on) for fade in begun)
        yield Together(BOTH_START, chance, lambda look: _both_begun(case, look))


def _both_begun(case: Case, look: Look) -> Look:
    grown = extending(case, look)
    return replace(grown, root_tips=RootTips.RUNNING, lead_length_mm=None)


def _passed(case: Case, steps: list[float]) -> float:
    age = case.look_age_days or 0
    return prod(fading.gone(age, days) for days in steps)


def _moving_steps(case: Case) -> Iterator[list[float]]:
    """Give, for each thing on the move, the stages it has to pass to come to rest."""
    signs, kind = case.signs, case.kind
    shown = [stage for stage in STAGES if getattr(signs, stage)]
    if shown:
        left = STAGES[STAGES.index(shown[0]) :]
        yield [fading.growth_days(kind, stage) for stage in left]
    if signs.tips_moving:
        starting = signs.tips is RootTips.STARTING
        first = [fading.TIPS_STARTING_DAYS] if starting else []
        yield [*first, fading.tips_days(case)]
    if signs.leaf_moving and signs.leaf is not None:
        left_leaf = LEAVES[LEAVES.index(signs.leaf) :]
        yield [fading.leaf_days(kind, leaf) for leaf in left_leaf]
    if case.spike_grows and case.look is not None:
        spike = Flowering.SPIKE in (case.look.flowering or ())
        to_pass = (Flowering.SPIKE, Flowering.BUDS) if spike else (Flowering.BUDS,)
        yield [fading.flowering_days(kind, stage) for stage in to_pass]


def _at_rest(look: Look) -> Look:
    counts = look.new_growths or NewGrowths()
    flowering = look.flowering
    if flowering:
        on_the_way = flowering & {Flowering.SPIKE, Flowering.BUDS}
        flowering = (flowering - on_the_way) | (
            {Flowering.OPEN} if on_the_way else set()
        )
    return replace(
        look,
        new_growths=replace(counts, emerging=0, extending=0, maturing=0),
        root_tips=RootTips.NONE,
        new_leaf=None if look.new_leaf is None else NewLeaf.FULL,
        flowering=flowering,
    )


def _beginnings(case: Case) -> tuple[Fade | None, Fade | None]:
    """Give how a growth that does not extend, and tips that do not move, may begin."""
    growth = None
    if not case.signs.extending and not case.signs.leaf_moving:
        growth = next(iter(fading.of_growth(case)), None)
    tips = None if case.signs.tips_moving else next(iter(fading.of_tips(case)), None)
    return growth, tips


def extending(case: Case, look: Look) -> Look:
    """Give the look with a new growth, or a new leaf, well on its way."""
    if case.kind.habit is Habit.MONOPODIAL:
        return replace(look, new_leaf=NewLeaf.EXTENDING)
    counts = look.new_growths or NewGrowths()
    return replace(look, new_growths=replace(counts, extending=1))


def bare_bench(case: Case) -> Look:
    """Give a first look that finds nothing on the move."""
    by_leaf = case.kind.habit is Habit.MONOPODIAL
    return Look(
        on=case.on,
        new_growths=NewGrowths(0, 0, 0),
        root_tips=RootTips.NONE,
        new_leaf=NewLeaf.NONE if by_leaf else None,
    )


def first_sights(case: Case) -> Iterator[Look]:
    """Give what a first look may show, each as likely as not."""
    base = bare_bench(case)
    if case.kind.rest is Rest.LEAFLESS:
        yield replace(
            base,
            leaves=Leaves.FIRM,
            root_tips=RootTips.RUNNING,
            longest_new_root_mm=leafless_rest.resume_mm(case) or case.house.rooted_mm,
            new_growths=NewGrowths(0, 1, 0),
        )
        return
    grown = extending(case, base)
    yield replace(base, root_tips=RootTips.STARTING)
    yield grown
    yield replace(grown, root_tips=RootTips.RUNNING)
