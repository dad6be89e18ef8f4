"""How long each sign of a look holds, and what it is likely to have become since.

A sign *holds* for some days of its kind: after that time it is as likely to have moved
on as not, so the chance that it still stands after ``a`` days is 2^(-a/holds). A stage
that a plant goes through is seen at an unknown moment of it, so half of the stage is
left on average: it holds for half of its length. What asks for two stages to pass has
the chances of both.

Lengths of growth, spike and flower come from the kind. Root tips are said to hold four
weeks in the warm half of the year and two in the cool half; all other figures are
from memory, no source.
"""

from __future__ import annotations

from enum import StrEnum
from math import prod
from typing import TYPE_CHECKING, Any

from msgspec import Struct, field
from msgspec.structs import replace

from growdesk.domain import seasons
from growdesk.domain.facts import Flowering, NewGrowths, NewLeaf, RootTips
from growdesk.domain.kinds import Habit, Rest

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping
    from datetime import date

    from growdesk.domain.case import Case
    from growdesk.domain.facts import Look
    from growdesk.domain.kinds import Kind

TIPS_WARM_DAYS = 28.0
TIPS_COOL_DAYS = 14.0
TIPS_STARTING_DAYS = 10.0
STILL_DAYS = 28.0
STILL_RESTING_DAYS = 56.0
STILL_WAKING_DAYS = 14.0
AWAKE_WITHIN_DAYS = 42
STALLED_DAYS = 28.0
UNSEEN_SPIKE_DAYS = 90.0
BUDS_AT_WAKING_DAYS = 28.0
SHARES = {"emerging": 0.25, "extending": 0.5, "maturing": 0.25}
LEAF_SHARES = {NewLeaf.STARTING: 0.25, NewLeaf.EXTENDING: 0.75}
SPIKE_SHARES = {Flowering.SHEATH: 1.0, Flowering.SPIKE: 2 / 3, Flowering.BUDS: 1 / 3}
FLOWER_SHARES = {Flowering.OPEN: 0.8, Flowering.FADING: 0.2}
RUNNING_SHARE = 0.75  # of root tips that start, those that come to run


class Season(StrEnum):
    """Where a kind stands in its own year."""

    RESTING = "resting"
    WAKING = "waking"
    OPEN = "open"


class Fade(Struct, frozen=True):
    """A sign and one thing it may have become since it was seen.

    ``steps_days`` are how long the sign holds and, where more must pass, each stage
    after it; ``share`` is how often it goes this way. ``values`` are for the sentence.
    """

    key: str
    seen: date
    steps_days: tuple[float, ...]
    becomes: Callable[[Look], Look]
    share: float = 1.0
    values: Mapping[str, object] = field(default_factory=dict)

    @property
    def holds_days(self) -> float:
        """Give the days after which the sign is as likely gone as not."""
        return self.steps_days[0]

    def chance(self, on: date) -> float:
        """Give the chance, 0 to 1, that it has come to this by a day."""
        age = max((on - self.seen).days, 0)
        return self.share * prod(gone(age, days) for days in self.steps_days)


def gone(age_days: int, holds_days: float) -> float:
    """Give the chance that a sign which holds so long no longer stands."""
    left: float = 2.0 ** (-age_days / holds_days)
    return 1.0 - left


def season_of(case: Case) -> Season:
    """Tell whether a kind rests, wakes or neither: months turn with the hemisphere.

    It wakes in the last third of its rest months and the six weeks after them.
    """
    months = case.kind.rest_months
    if not months or case.near_equator:
        return Season.OPEN
    latitude, on = case.house.latitude, case.on
    first, last = seasons.first_month(months), seasons.last_month(months)
    start = (seasons.turned((first, 1), latitude)[0], 1)
    end = seasons.last_of_month(seasons.turned((last, 1), latitude)[0])
    ends_on = seasons.next_date(on, end)
    starts_on = seasons.last_date(ends_on, start)
    if starts_on <= on:
        left, whole = (ends_on - on).days, (ends_on - starts_on).days
        return Season.WAKING if 3 * left <= whole else Season.RESTING
    ended_on = seasons.last_date(on, end)
    is_waking = (on - ended_on).days <= AWAKE_WITHIN_DAYS
    return Season.WAKING if is_waking else Season.OPEN


def still_days(case: Case) -> float:
    """Give how long it holds that nothing moves: less where the kind is to wake."""
    season = season_of(case)
    return {
        Season.RESTING: STILL_RESTING_DAYS,
        Season.WAKING: STILL_WAKING_DAYS,
        Season.OPEN: STILL_DAYS,
    }[season]


def tips_days(case: Case) -> float:
    """Give how long running root tips hold, by the half of the year."""
    latitude = case.house.latitude
    if case.plant.place.controlled or case.near_equator:
        return TIPS_WARM_DAYS
    spring, autumn = seasons.spring_equinox(latitude), seasons.spring_equinox(-latitude)
    is_warm = seasons.within(case.on, spring, autumn)
    return TIPS_WARM_DAYS if is_warm else TIPS_COOL_DAYS


def growth_days(kind: Kind, stage: str) -> float:
    """Give how long a new growth's stage holds."""
    return kind.growth_weeks * 7 * SHARES[stage] / 2


def leaf_days(kind: Kind, stage: NewLeaf) -> float:
    """Give how long a new leaf's stage holds."""
    return kind.growth_weeks * 7 * LEAF_SHARES[stage] / 2


def flowering_days(kind: Kind, stage: Flowering) -> float:
    """Give how long a stage of flowering holds."""
    if stage in SPIKE_SHARES:
        return kind.spike_weeks * 7 * SPIKE_SHARES[stage] / 2
    return kind.flower_weeks * 7 * FLOWER_SHARES[stage] / 2


def of_growth(case: Case) -> Iterator[Fade]:
    """Give what new growths and the new leaf may have become."""
    look = case.look
    if look is None:
        return
    if case.kind.habit is not Habit.MONOPODIAL:
        yield from _new_growths(case, look)
    if case.kind.habit is Habit.MONOPODIAL or look.new_leaf is not None:
        yield from _new_leaf(case, look)


def of_tips(case: Case) -> Iterator[Fade]:
    """Give what the root tips may have become; hidden ones stay hidden."""
    look = case.look
    if look is None or look.root_tips is RootTips.HIDDEN:
        return
    repotted = case.repotted_on
    if repotted is not None and repotted >= look.on:
        starts = showing(root_tips=RootTips.STARTING)
        yield Fade("tips-since-repot", repotted, (STILL_DAYS,), starts)
    elif look.root_tips is RootTips.RUNNING:
        closed = showing(root_tips=RootTips.NONE)
        yield Fade("tips-running", look.on, (tips_days(case),), closed)
    elif look.root_tips is RootTips.STARTING:
        run, closed = (
            showing(root_tips=RootTips.RUNNING),
            showing(root_tips=RootTips.NONE),
        )
        steps = (TIPS_STARTING_DAYS,)
        yield Fade("tips-starting", look.on, steps, run, RUNNING_SHARE)
        yield Fade("tips-closed", look.on, steps, closed, 1 - RUNNING_SHARE)
    else:
        key = "tips-not-recorded" if look.root_tips is None else "tips-none"
        starts = showing(root_tips=RootTips.STARTING)
        yield _still(case, key, look, starts)


def of_flowering(case: Case) -> Iterator[Fade]:
    """Give what spike, buds and flowers may have become."""
    look = case.look
    if look is None or look.flowering is None:
        return
    for stage, then in _FLOWERING:
        if stage in look.flowering:
            days = flowering_days(case.kind, stage)
            becomes = _flowers(stage, then)
            yield Fade(f"flowering-{stage.value}", look.on, (days,), becomes)
    if Flowering.NONE in look.flowering:
        yield _first_flowers(case, look)


_FLOWERING = (
    (Flowering.SHEATH, Flowering.SPIKE),
    (Flowering.SPIKE, Flowering.BUDS),
    (Flowering.BUDS, Flowering.OPEN),
    (Flowering.OPEN, Flowering.FADING),
    (Flowering.FADING, Flowering.SPENT),
)


def _first_flowers(case: Case, look: Look) -> Fade:
    """Give a spike, or the buds that break straight from a soft cane."""
    if case.kind.rest is not Rest.NO_NITROGEN:
        becomes = _flowers(Flowering.NONE, Flowering.SPIKE)
        return Fade("flowering-none", look.on, (UNSEEN_SPIKE_DAYS,), becomes)
    season = season_of(case)
    waking = season is Season.WAKING
    days = BUDS_AT_WAKING_DAYS if waking else UNSEEN_SPIKE_DAYS
    becomes = _flowers(Flowering.NONE, Flowering.BUDS)
    return Fade("flowering-none-buds", look.on, (days,), becomes)


def _new_growths(case: Case, look: Look) -> Iterator[Fade]:
    signs = case.signs
    if look.new_growths is None:
        yield _still(case, "growth-not-recorded", look, _grown(emerging=1))
        return
    counts = look.new_growths
    if signs.emerging:
        moved = _grown(emerging=0, extending=_sum(counts.emerging, counts.extending))
        yield _stage(case, look, "emerging", moved)
    if signs.extending:
        moved = _grown(extending=0, maturing=_sum(counts.extending, counts.maturing))
        yield _stage(case, look, "extending", moved)
    if signs.maturing:
        moved = _grown(maturing=0, matured=_sum(counts.maturing, counts.matured))
        yield _stage(case, look, "maturing", moved)
    if signs.growth:
        return
    if signs.stalled:
        goes_on = _grown(extending=1, stalled=0)
        yield Fade("growth-stalled", look.on, (STALLED_DAYS,), goes_on)
    else:
        yield _still(case, "growth-none", look, _grown(emerging=1))


def _stage(case: Case, look: Look, stage: str, moved: Callable[[Look], Look]) -> Fade:
    return Fade(f"growth-{stage}", look.on, (growth_days(case.kind, stage),), moved)


def _new_leaf(case: Case, look: Look) -> Iterator[Fade]:
    leaf = look.new_leaf
    if leaf is NewLeaf.STARTING or leaf is NewLeaf.EXTENDING:
        grown = NewLeaf.EXTENDING if leaf is NewLeaf.STARTING else NewLeaf.FULL
        days = leaf_days(case.kind, leaf)
        yield Fade(f"leaf-{leaf.value}", look.on, (days,), showing(new_leaf=grown))
    elif case.kind.habit is Habit.MONOPODIAL:
        key = "leaf-not-recorded" if leaf is None else "leaf-none"
        yield _still(case, key, look, showing(new_leaf=NewLeaf.STARTING))


def _still(case: Case, key: str, look: Look, becomes: Callable[[Look], Look]) -> Fade:
    season = season_of(case)
    waking = f"{key}-waking" if season is Season.WAKING else key
    return Fade(waking, look.on, (still_days(case),), becomes)


def showing(**signs: Any) -> Callable[[Look], Look]:
    """Give what turns a look into one that shows some signs otherwise."""
    return lambda look: replace(look, **signs)


def _grown(**stages: int) -> Callable[[Look], Look]:
    def becomes(look: Look) -> Look:
        counts = look.new_growths or NewGrowths()
        return replace(look, new_growths=replace(counts, **stages), lead_length_mm=None)

    return becomes


def _flowers(stage: Flowering, then: Flowering) -> Callable[[Look], Look]:
    def becomes(look: Look) -> Look:
        return replace(
            look, flowering=((look.flowering or frozenset()) - {stage}) | {then}
        )

    return becomes


def _sum(*counts: int | None) -> int:
    return sum(count or 0 for count in counts)
