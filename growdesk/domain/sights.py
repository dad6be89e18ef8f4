"""What a grower could see or do next, as alterations of a plant's facts.

Only what is possible for the plant is offered: no root tips on a plant marked without
roots unless as "once it has roots", never water where the kind must stay dry, and no
flush while the judging puts it off.
"""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING, Any

from msgspec import Struct
from msgspec.structs import replace

from growdesk.domain import freshened, rain, signs
from growdesk.domain.facts import (
    Care,
    CareKind,
    Flowering,
    Health,
    Leaves,
    NewGrowths,
    NewLeaf,
    RootTips,
    Verdict,
)
from growdesk.domain.kinds import Habit, Rest, Resume
from growdesk.domain.quantity_words import length_text, temperature_text
from growdesk.domain.rules import in_leaf_late, leafless_rest, potting
from growdesk.domain.salt_course import RAIN_EC
from growdesk.domain.speech import Phrases

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from datetime import date

    from growdesk.domain.case import Case
    from growdesk.domain.explain import Finding
    from growdesk.domain.facts import Look, Plant

    Sees = Callable[[Look], Look]
    Does = Callable[[Plant, date], Plant]

WARMER_C = 0.1
BARE = "bare"

CLAUSES = Phrases(
    {
        "same-look": "a look today shows what the last one did",
        "root-tips": "root tips are seen running",
        "roots-alive": "live roots are seen again with running tips",
        "new-growth": "a new growth is seen extending",
        "lead-longer": "its lead is seen to have grown longer",
        "rooted-shoot": "a new shoot is seen with root tips of its own",
        "growth-matures": "a new growth is seen maturing",
        "new-leaf": "a new leaf is seen extending",
        "roots-long": "its longest new root measures {shown}",
        BARE: "a look finds it bare and nothing on the move",
        "spike": "a spike is seen on the way",
        "rot-gone": "a look finds it clean of rot",
        "plump": "a look finds it plump again",
        "flushed": "it has been flushed",
        "flushed-soft": "it has been flushed with rain or RO water",
        "warmer": "its place averages more than {shown}",
        "cooler": "its place averages {shown} or less",
        "nothing-moves": "a look finds {shown}",
        "roots-still": "a look at its roots finds no tip on the move",
    }
)

CONTAINS = {
    "rooted-shoot": ("new-growth", "root-tips"),
    "growth-matures": ("new-growth", "rooted-shoot"),
    "roots-long": ("root-tips",),
    "roots-alive": ("root-tips",),
}


class Alteration(Struct, frozen=True):
    """Something seen at a new look, or something done: of the two, one is given."""

    key: str
    sees: Sees | None = None
    does: Does | None = None
    shown: str = ""

    @property
    def contains(self) -> tuple[str, ...]:
        """Give the keys of smaller sights that this one is made of or goes beyond."""
        return CONTAINS.get(self.key, ())

    def clause(self) -> str:
        """Give the alteration as the condition of a sentence."""
        return CLAUSES[self.key].format(shown=self.shown)


def hopeful(case: Case, now: Finding) -> Iterator[Alteration]:
    """Give what might bring a plant to feed, the likeliest first.

    ``now`` is what decides today: a flush is offered where it is what is to be done.
    """
    yield from _mended(case, now)
    old = case.look is not None and not freshened.looked_at(case)
    if old and case.kind.rest is not Rest.LEAFLESS:
        yield _seen("same-look")
    if case.trouble(Health.NO_ROOTS) is not None:
        yield _without(case, Health.NO_ROOTS, "roots-alive", RootTips.RUNNING)
        yield from _leafless(case)
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
        yield Alteration("rooted-shoot", _rooted_shoot)
        yield _growths("growth-matures", maturing=1)


def _leafless(case: Case) -> Iterator[Alteration]:
    if not leafless_rest.rests_bare(case):
        return
    old = not freshened.looked_at(case)
    going = case.look is not None and case.look.leaves in in_leaf_late.LEAVES_GOING
    if old or going:
        yield Alteration(BARE, _bare)
    if not old and leafless_rest.check(case) is None:
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


def _mended(case: Case, now: Finding) -> Iterator[Alteration]:
    look = case.look
    if case.trouble(Health.ROT) is not None:
        yield _without(case, Health.ROT, "rot-gone")
    if look is not None and signs.badly_shrivelled(look):
        yield Alteration("plump", signs.plump)
    if now.rule == potting.SALTS and not _flushed_today(case):
        yield FLUSHED if now.verdict is Verdict.FLUSH else FLUSHED_SOFT
    mean_c = case.mean_c(case.house.cold_window_days)
    if mean_c is not None and mean_c <= case.kind.least_feed_c:
        yield averaging("warmer", case.kind.least_feed_c, above_c=WARMER_C)
    if mean_c is not None and mean_c > case.kind.most_feed_c:
        yield averaging("cooler", case.kind.most_feed_c)


def _flushed_today(case: Case) -> bool:
    return any(
        rain.washes(care, case.house) and care.on == case.on for care in case.plant.care
    )


def _seen(key: str, shown: str = "", **seen: Any) -> Alteration:
    """Make a look that differs from the last one in some signs."""
    return Alteration(key, lambda look: replace(look, **seen), shown=shown)


def _growths(key: str, **stages: int) -> Alteration:
    return Alteration(key, lambda look: _with_growths(look, **stages))


def _with_growths(look: Look, **stages: int) -> Look:
    """Give the look with growths; none of them is a lead that stands still."""
    counts: Any = look.new_growths or NewGrowths()
    return replace(look, new_growths=replace(counts, **stages), lead_length_mm=None)


def _rooted_shoot(look: Look) -> Look:
    return replace(_with_growths(look, extending=1), root_tips=RootTips.RUNNING)


def _bare(look: Look) -> Look:
    counts = look.new_growths or NewGrowths()
    return replace(
        look,
        leaves=Leaves.LEAFLESS,
        new_leaf=None if look.new_leaf is None else NewLeaf.NONE,
        new_growths=replace(counts, emerging=0, extending=0, maturing=0),
        root_tips=RootTips.NONE,
        longest_new_root_mm=None,
    )


def _without(
    case: Case, trouble: Health, key: str, tips: RootTips | None = None
) -> Alteration:
    def sees(look: Look) -> Look:
        had = look.health
        found = freshened.health(case, look.on) if had is None else had
        roots = look.root_tips if tips is None else tips
        return replace(look, health=found - {trouble}, root_tips=roots)

    return Alteration(key, sees)


def _flushed(plant: Plant, on: date, ec_ms_per_cm: float | None = None) -> Plant:
    """Give the plant flushed on the day before, after any look at it."""
    before = on - timedelta(days=1)
    looks = tuple(replace(k, on=before) if k.on == on else k for k in plant.looks)
    flush = Care(before, CareKind.FLUSH, ec_ms_per_cm=ec_ms_per_cm)
    return replace(plant, looks=looks, care=(*plant.care, flush))


def averaging(key: str, mean_c: float, above_c: float = 0.0) -> Alteration:
    """Make the plant's place as warm as a limit, or above it."""

    def does(plant: Plant, on: date) -> Plant:  # noqa: ARG001 -- any day
        place = replace(plant.place, readings=(), mean_temperature_c=mean_c + above_c)
        return replace(plant, place=place)

    return Alteration(key, does=does, shown=temperature_text(mean_c))


FLUSHED = Alteration("flushed", does=_flushed)
FLUSHED_SOFT = Alteration(
    "flushed-soft", does=lambda plant, on: _flushed(plant, on, RAIN_EC)
)
