"""How long the signs hold that keep a plant from feed: bare roots, leaves, trouble.

The same reckoning as ``growdesk.domain.fading``. Roots grow longer at the kind's rate:
the length that is wanting is passed in thirds, so that a root measured short is not
thought long within days, and is as likely there as not when the rate says it is.
All figures here are from memory, no source.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec.structs import replace

from growdesk.domain import seasons, signs
from growdesk.domain.facts import (
    Health,
    Leaves,
    NewGrowths,
    NewLeaf,
    Pot,
    RootTips,
)
from growdesk.domain.fading import Fade, Season, season_of, showing, still_days
from growdesk.domain.kinds import Resume
from growdesk.domain.rules import leafless_rest

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from growdesk.domain.case import Case
    from growdesk.domain.facts import Look
    from growdesk.domain.rules.leafless_rest import GrowingSeason

ROOT_RATE_MM_PER_WEEK = 15.0
LEAST_DAYS = 3.0
THIRD_SHARE = 0.4386  # of the whole time: (1 - 2 ** (-1 / THIRD_SHARE)) ** 3 is a half
LEAF_UNFOLDS_DAYS = 21.0
FIRM_DAYS = 84.0
FIRM_LATE_DAYS = 21.0
GOING_DAYS = {Leaves.YELLOWING: 14.0, Leaves.DROPPING: 10.0}
ROT_DAYS = 14.0
ROOTLESS_DAYS = 42.0
SHRIVELLED_DAYS = 21.0
POT_DAYS = {Pot.WET: 4.0, Pot.MOIST: 3.0, Pot.NEARLY_DRY: 2.0}


def of_hold(case: Case) -> Iterator[Fade]:
    """Give what may have ended, or begun, a time without feed."""
    if case.look is None:
        return
    if leafless_rest.rests_bare(case):
        if leafless_rest.check(case) is not None:
            yield from _roots(case, case.look)
        else:
            yield from _leaves(case, case.look)
    yield from _trouble(case, case.look)
    if case.look.pot in POT_DAYS:
        dry = showing(pot=Pot.DRY)
        yield Fade("pot", case.look.on, (POT_DAYS[case.look.pot],), dry)


def _roots(case: Case, look: Look) -> Iterator[Fade]:
    season = leafless_rest.growing_season(case)
    target_mm = _target_mm(case)
    rate = case.kind.root_rate_mm_per_week or ROOT_RATE_MM_PER_WEEK
    values = {"resume_mm": target_mm, "rate_mm": rate, "root_mm": season.root_mm}
    long = showing(longest_new_root_mm=target_mm, root_tips=RootTips.RUNNING)
    whole_days = target_mm / rate * 7
    key, steps = _roots_steps(case, season, whole_days)
    measured = season.measured
    seen = look.on if measured is None else measured.on
    yield Fade(key, seen, steps, long, values=values)
    if case.signs.growth and not season.leaf_out:
        out = showing(leaves=Leaves.FIRM, new_leaf=NewLeaf.EXTENDING)
        yield Fade("leaf-unfolds", look.on, (LEAF_UNFOLDS_DAYS,), out)


def _roots_steps(
    case: Case, season: GrowingSeason, whole_days: float
) -> tuple[str, tuple[float, ...]]:
    if season.root_mm:
        left = 1 - season.root_mm / _target_mm(case)
        return "roots-short", _in_thirds(whole_days * left)
    if season.awake:
        return "roots-not-measured", (max(whole_days / 2, LEAST_DAYS),)
    waking = season_of(case) is Season.WAKING
    key = "roots-bare-waking" if waking else "roots-bare"
    return key, (still_days(case), *_in_thirds(whole_days))


def _in_thirds(days: float) -> tuple[float, ...]:
    return (max(days, LEAST_DAYS) * THIRD_SHARE,) * 3


def _target_mm(case: Case) -> float:
    if case.kind.resume is Resume.ROOT_LENGTH:
        return leafless_rest.resume_mm(case)
    return case.house.rooted_mm


def _leaves(case: Case, look: Look) -> Iterator[Fade]:
    if look.leaves is Leaves.FIRM and _late_half(case):
        late = season_of(case) is not Season.OPEN
        days = FIRM_LATE_DAYS if late else FIRM_DAYS
        yield Fade("leaves-firm", look.on, (days,), showing(leaves=Leaves.YELLOWING))
    elif look.leaves in GOING_DAYS:
        days = GOING_DAYS[look.leaves]
        yield Fade(f"leaves-{look.leaves.value}", look.on, (days,), _bare)


def _late_half(case: Case) -> bool:
    latitude = case.house.latitude
    start, end = seasons.midsummer(latitude), seasons.spring_equinox(latitude)
    return case.near_equator or seasons.within(case.on, start, end)


def _trouble(case: Case, look: Look) -> Iterator[Fade]:
    rot = case.trouble(Health.ROT)
    if rot is not None:
        yield Fade("rot", rot.on, (ROT_DAYS,), _without(case, Health.ROT))
    rootless = case.trouble(Health.NO_ROOTS)
    if rootless is not None:
        alive = _without(case, Health.NO_ROOTS)
        yield Fade(
            "no-roots",
            rootless.on,
            (ROOTLESS_DAYS,),
            lambda seen: replace(alive(seen), root_tips=RootTips.RUNNING),
        )
    if signs.badly_shrivelled(look):
        yield Fade("shrivelled", look.on, (SHRIVELLED_DAYS,), signs.plump)


def _without(case: Case, trouble: Health) -> Callable[[Look], Look]:
    return showing(health=case.health_without(trouble))


def _bare(look: Look) -> Look:
    """Give the plant as it goes to rest: no leaf, nothing on the move."""
    counts = look.new_growths or NewGrowths()
    return replace(
        look,
        leaves=Leaves.LEAFLESS,
        new_leaf=None,
        new_growths=replace(counts, emerging=0, extending=0, maturing=0),
        root_tips=RootTips.NONE,
        longest_new_root_mm=None,
    )
