"""What a grower could see or do next, as alterations of a plant's facts.

Only what is possible for the plant is offered: no root tips on a plant marked without
roots unless as "once it has roots", and never water where the kind must stay dry.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import timedelta
from typing import TYPE_CHECKING, Any

from growdesk.domain import signs
from growdesk.domain.case import REPOTTING
from growdesk.domain.facts import (
    Care,
    CareKind,
    Flowering,
    Health,
    Look,
    NewGrowths,
    NewLeaf,
    RootTips,
)
from growdesk.domain.kinds import Habit, Rest, Resume
from growdesk.domain.rules import growth, leafless_rest, potting
from growdesk.domain.wording import length_text, number_text

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping
    from datetime import date

    from growdesk.domain.case import Case
    from growdesk.domain.facts import Plant

WARMER_C = 0.1
NEAR_C = 4.0

CLAUSES = {
    "same-look": "a look today shows what the last one did",
    "root-tips": "root tips are seen running",
    "roots-alive": "live roots are seen again with running tips",
    "new-growth": "a new growth is seen extending",
    "lead-longer": "its lead is seen to have grown longer",
    "rooted-shoot": "a new shoot is seen with root tips of its own",
    "growth-matures": "a new growth is seen maturing",
    "new-leaf": "a new leaf is seen extending",
    "roots-long": "its longest new root measures {length}",
    "spike": "a spike is seen on the way",
    "rot-gone": "a look finds it clean of rot",
    "plump": "a look finds it plump again",
    "flushed": "it has been flushed",
    "warmer": "its place averages more than {temperature}",
    "cooler": "its place averages {temperature} or less",
    "still-growth": "a look finds no new growth and no root tips",
    "still-leaf": "a look finds no new leaf and no root tips",
    "still-growth-spike": "a look finds no new growth, no root tips and no spike",
    "still-leaf-spike": "a look finds no new leaf, no root tips and no spike",
    "spike-gone": "a look finds no spike and no buds on the way",
}


CONTAINS = {
    "rooted-shoot": ("new-growth", "root-tips"),
    "growth-matures": ("new-growth", "rooted-shoot"),
    "roots-long": ("root-tips",),
}


@dataclass(frozen=True, slots=True)
class Alteration:
    """Something seen or done: its key, and what it makes of a plant on a day."""

    key: str
    apply: Callable[[Plant, date], Plant]
    shown: str = ""

    @property
    def contains(self) -> tuple[str, ...]:
        """Give the keys of smaller sights that this one is made of or goes beyond."""
        return CONTAINS.get(self.key, ())

    def clause(self) -> str:
        """Give the alteration as the condition of a sentence."""
        return CLAUSES[self.key].format(length=self.shown, temperature=self.shown)


def hopeful(case: Case) -> Iterator[Alteration]:
    """Give what might bring a plant to feed, the likeliest first."""
    yield from _mended(case)
    if case.look is not None and not looked_at(case):
        yield _seen("same-look")
    if case.trouble(Health.NO_ROOTS) is not None:
        health = case.health_without(Health.NO_ROOTS)
        yield _seen("roots-alive", health=health, root_tips=RootTips.RUNNING)
    else:
        yield from _leafless(case)
        yield _seen("root-tips", root_tips=RootTips.RUNNING)
    yield from _growth(case)
    if case.spike_draws_feed:
        yield _seen("spike", flowering=frozenset({Flowering.SPIKE}))


def _growth(case: Case) -> Iterator[Alteration]:
    if case.kind.habit is Habit.MONOPODIAL:
        yield _seen("new-leaf", new_leaf=NewLeaf.EXTENDING)
    elif case.signs.stalled:
        yield _growths("lead-longer", extending=1, stalled=0)
    else:
        yield _growths("new-growth", extending=1)
    if case.kind.rest is Rest.NO_NITROGEN:
        yield _rooted_shoot()
        yield _growths("growth-matures", maturing=1)


def harmful(case: Case) -> Iterator[Alteration]:
    """Give what would take a plant off feed."""
    still: dict[str, Any] = {
        "new_growths": NewGrowths(0, 0, 0),
        "root_tips": RootTips.NONE,
        "new_leaf": NewLeaf.NONE,
    }
    if case.spike_grows:
        still["flowering"] = frozenset({Flowering.NONE})
    yield _seen(_still_key(case), **still)
    mean_c = case.mean_c(case.house.cold_window_days)
    if mean_c is not None and mean_c <= case.kind.least_feed_c + NEAR_C:
        yield _at("cooler", case.kind.least_feed_c)


def _still_key(case: Case) -> str:
    if growth.decided_by_spike(case):
        return "spike-gone"
    habit = "leaf" if case.kind.habit is Habit.MONOPODIAL else "growth"
    return f"still-{habit}-spike" if case.spike_grows else f"still-{habit}"


def looked_at(case: Case) -> bool:
    """Tell whether the last look is within the house's limit."""
    age = case.look_age_days
    return age is not None and age <= case.house.look_limit_days


def _leafless(case: Case) -> Iterator[Alteration]:
    held = case.look is None or leafless_rest.check(case) is not None
    if case.kind.rest is not Rest.LEAFLESS or not held:
        return
    by_length = case.kind.resume is Resume.ROOT_LENGTH
    mm = leafless_rest.resume_mm(case) if by_length else case.house.rooted_mm
    yield _seen(
        "roots-long",
        length_text(mm),
        longest_new_root_mm=mm,
        root_tips=RootTips.RUNNING,
    )
    if not by_length:
        yield _seen("new-leaf", new_leaf=NewLeaf.EXTENDING)


def _mended(case: Case) -> Iterator[Alteration]:
    look = case.look
    if case.trouble(Health.ROT) is not None:
        yield _seen("rot-gone", health=case.health_without(Health.ROT))
    if look is not None and signs.badly_shrivelled(look):
        yield Alteration("plump", lambda plant, on: looked(plant, on, signs.plump))
    flushed = any(
        care.what is CareKind.FLUSH and care.on == case.on for care in case.plant.care
    )
    if not flushed and any(True for _ in potting.flush_due(case)):
        yield Alteration("flushed", _flushed)
    mean_c = case.mean_c(case.house.cold_window_days)
    if mean_c is not None and mean_c <= case.kind.least_feed_c:
        yield _at("warmer", case.kind.least_feed_c, above_c=WARMER_C)
    if mean_c is not None and mean_c > case.kind.most_feed_c:
        yield _at("cooler", case.kind.most_feed_c)


def _seen(key: str, shown: str = "", **seen: Any) -> Alteration:
    """Make a look of the day that differs from the last one in some signs."""

    def apply(plant: Plant, on: date) -> Plant:
        return looked(plant, on, lambda look: replace(look, **seen))

    return Alteration(key, apply, shown)


def _growths(key: str, **stages: int) -> Alteration:
    def more(look: Look) -> Look:
        return _with_growths(look, stages)

    return Alteration(key, lambda plant, on: looked(plant, on, more))


def _rooted_shoot() -> Alteration:
    def more(look: Look) -> Look:
        grown = _with_growths(look, {"extending": 1})
        return replace(grown, root_tips=RootTips.RUNNING)

    return Alteration("rooted-shoot", lambda plant, on: looked(plant, on, more))


def _with_growths(look: Look, stages: Mapping[str, Any]) -> Look:
    counts = look.new_growths or NewGrowths()
    return replace(look, new_growths=replace(counts, **stages))


def looked(plant: Plant, on: date, alter: Callable[[Look], Look]) -> Plant:
    """Give the plant looked at on the day, as last time but for what is altered."""
    known = [look for look in plant.looks if look.on <= on]
    last = max(reversed(known), key=lambda look: look.on, default=Look(on))
    fresh = replace(last, on=on, lead_length_mm=None, runoff_ec_ms_per_cm=None)
    if _repotted_since(plant, last.on, on):
        fresh = replace(fresh, root_tips=None)  # tips of before a repot say nothing now
    return replace(plant, looks=(*plant.looks, alter(fresh)))


def _repotted_since(plant: Plant, since: date, on: date) -> bool:
    days = [care.on for care in plant.care if care.what in REPOTTING]
    if plant.repotted_on is not None:
        days.append(plant.repotted_on)
    return any(since <= day <= on for day in days)


def _flushed(plant: Plant, on: date) -> Plant:
    flush = Care(on - timedelta(days=1), CareKind.FLUSH)
    return replace(plant, care=(*plant.care, flush))


def _at(key: str, mean_c: float, above_c: float = 0.0) -> Alteration:
    def apply(plant: Plant, on: date) -> Plant:  # noqa: ARG001 -- any day
        place = replace(plant.place, readings=(), mean_temperature_c=mean_c + above_c)
        return replace(plant, place=place)

    return Alteration(key, apply, f"{number_text(mean_c)} °C")
