"""What a sentence claims, brought about as a grower would: by a look, care or warmth.

Nothing here asks the code under test. A look is the last one written down anew, with
what the sentence says of it; what cannot be seen any more is left out.
"""

from __future__ import annotations

import re
from datetime import date, timedelta
from typing import TYPE_CHECKING, Any

from msgspec.structs import replace

from growdesk.domain import day_words
from growdesk.domain.facts import (
    Bulbs,
    Care,
    CareKind,
    Flowering,
    Health,
    Leaves,
    Look,
    NewGrowths,
    NewLeaf,
    RootTips,
)
from growdesk.domain.kinds import Kind, Rest

if TYPE_CHECKING:
    from collections.abc import Callable

    from growdesk.domain.facts import House, Plant

MONTHS = {name: number for number, name in enumerate(day_words.MONTHS, start=1)}
DAY = r"(\d{1,2}) ([A-Z][a-z]+)(?: (\d{4}))?"
REPOTS = (CareKind.REPOT, CareKind.DIVIDE)
SPLIT = re.compile(
    r"(?:, | and )(?=root tips|live roots|it has|a |its (?:lead|longest|place))"
)
NONE_OF = {
    "no new growth": "growth",
    "no new leaf": "leaf",
    "no root tips": "tips",
    "no spike": "spike",
    "no buds on the way": "spike",
}


def day_named(sentence: str, on: date) -> date | None:
    """Give the day from which a sentence speaks."""
    match = re.match(rf"From {DAY} on", sentence)
    if match is None:
        return None
    month = MONTHS[match[2]]
    years = [int(match[3])] if match[3] else [on.year, on.year + 1]
    days = (date(year, month, int(match[1])) for year in years)
    return next(found for found in days if found > on)


def clauses_of(sentence: str) -> list[str]:
    """Give the conditions of a sentence, one by one."""
    match = re.search(r"[Ii]f (.+?), it would ", sentence)
    if match is None:
        return []
    return SPLIT.split(match[1])


def brought_about(
    one: Plant, kind: Kind, house: House, on: date, sentence: str, when: date
) -> Plant:
    """Give the plant on a day after what the sentence asks for was seen and done."""
    clauses = clauses_of(sentence)
    later = when != on
    if later:
        one = replace(one, place=_as_warm_as_now(one, house, on))
    if any(clause.startswith("it has been flushed") for clause in clauses):
        one = _flushed(one, when)
    for clause in clauses:
        one = _averaging(one, kind, clause)
    said = [
        c for c in clauses if not c.startswith(("its place", "it has been flushed"))
    ]
    if not said and not later:
        return one
    look = _looked_again(one, kind, house, on, when)
    for clause in said:
        look = _seen(look, clause, one, when)
    return replace(one, looks=(*one.looks, look))


def _as_warm_as_now(one: Plant, house: House, on: date) -> Any:
    means = [
        reading.day_mean_c
        for reading in one.place.readings
        if 0 <= (on - reading.on).days <= house.cold_window_days
        and reading.day_mean_c is not None
    ]
    mean_c = sum(means) / len(means) if means else one.place.mean_temperature_c
    return replace(one.place, readings=(), mean_temperature_c=mean_c)


def _flushed(one: Plant, when: date) -> Plant:
    """Flush it the evening before, after it was looked at."""
    evening = when - timedelta(days=1)
    looks = tuple(replace(k, on=min(k.on, evening)) for k in one.looks if k.on <= when)
    return replace(
        one,
        looks=(*looks, *(k for k in one.looks if k.on > when)),
        care=(*one.care, Care(evening, CareKind.FLUSH)),
    )


def _averaging(one: Plant, kind: Kind, clause: str) -> Plant:
    match = re.fullmatch(
        r"its place averages (more than )?([\d.]+) °C( or less)?", clause
    )
    if match is None:
        return one
    limit = min(
        (kind.least_feed_c, kind.most_feed_c), key=lambda c: abs(c - float(match[2]))
    )
    mean_c = limit + 0.1 if match[1] else limit
    place = replace(one.place, readings=(), mean_temperature_c=mean_c)
    return replace(one, place=place)


def _washed(one: Plant, since: date, when: date, *whats: CareKind) -> bool:
    own = one.repotted_on
    if own is not None and since <= own <= when:
        return True
    return any(
        care.what in whats
        and since <= care.on <= when
        and (care.on < when or care.what in REPOTS)
        for care in one.care
    )


def _health(one: Plant, when: date, until: date) -> frozenset[Health] | None:
    seen = [k for k in one.looks if k.on <= until and k.health is not None]
    if not seen:
        return None
    last = max(seen, key=lambda k: k.on)
    found = last.health or frozenset()
    healed = _washed(one, last.on, when, CareKind.FLUSH, *REPOTS)
    return found - {Health.SALT_BURN} if healed else found


def _looked_again(one: Plant, kind: Kind, house: House, on: date, when: date) -> Look:
    """Write the last look down anew: what is measured is measured another time."""
    past = sorted((k for k in one.looks if k.on <= on), key=lambda k: k.on)
    if not past:
        return Look(when)
    last = past[-1]
    tips = last.root_tips
    if _washed(one, last.on, when, *REPOTS):
        tips = None
    again = replace(
        last,
        on=when,
        root_tips=tips,
        runoff_ec_ms_per_cm=None,
        lead_length_mm=_length_of_a_standing_lead(past, house),
    )
    if last.health is not None:
        again = replace(again, health=_health(one, when, on))
    old = (on - last.on).days > house.look_limit_days
    if old and kind.rest is Rest.LEAFLESS:
        again = replace(again, leaves=None, new_leaf=None, longest_new_root_mm=None)
    return again


def _length_of_a_standing_lead(past: list[Look], house: House) -> float | None:
    newest = past[-1].lead_length_mm
    if newest is None:
        return None
    for look in reversed(past[:-1]):
        if look.lead_length_mm not in (None, newest):
            return None
        stood = (past[-1].on - look.on).days >= house.stall_days
        if look.lead_length_mm == newest and stood:
            return newest
    return None


def _grown(look: Look, **stages: int) -> Look:
    counts: Any = look.new_growths or NewGrowths()
    return replace(look, new_growths=replace(counts, **stages), lead_length_mm=None)


def _rooted(look: Look) -> Look:
    return replace(_grown(look, extending=1), root_tips=RootTips.RUNNING)


def _bare(look: Look) -> Look:
    still = _vanished(look, {"growth", "tips", "leaf"})
    return replace(still, leaves=Leaves.LEAFLESS, longest_new_root_mm=None)


def _plump(look: Look) -> Look:
    firm = look.leaves is Leaves.SHRIVELLED
    return replace(look, bulbs=Bulbs.FIRM, leaves=Leaves.FIRM if firm else look.leaves)


SEEN: dict[str, Callable[[Look], Look]] = {
    "a look today shows what the last one did": lambda look: look,
    "root tips are seen running": lambda look: replace(
        look, root_tips=RootTips.RUNNING
    ),
    "a new growth is seen extending": lambda look: _grown(look, extending=1),
    "its lead is seen to have grown longer": lambda look: _grown(
        look, extending=1, stalled=0
    ),
    "a new shoot is seen with root tips of its own": _rooted,
    "a new growth is seen maturing": lambda look: _grown(look, maturing=1),
    "a new leaf is seen extending": lambda look: replace(
        look, new_leaf=NewLeaf.EXTENDING
    ),
    "a spike is seen on the way": lambda look: replace(
        look, flowering=frozenset({Flowering.SPIKE})
    ),
    "a look at its roots finds no tip on the move": lambda look: replace(
        look, root_tips=RootTips.NONE
    ),
    "a look finds it bare and nothing on the move": _bare,
    "a look finds it plump again": _plump,
}
HEALED = {
    "a look finds it clean of rot": Health.ROT,
    "live roots are seen again with running tips": Health.NO_ROOTS,
}


def _seen(look: Look, clause: str, one: Plant, when: date) -> Look:
    """Write down what a clause says."""
    if clause in SEEN:
        return SEEN[clause](look)
    if clause in HEALED:
        return _healed(look, HEALED[clause], one, when)
    root = re.fullmatch(r"its longest new root measures ([\d.]+) (mm|cm)", clause)
    if root is not None:
        mm = float(root[1]) * (10 if root[2] == "cm" else 1)
        return replace(look, longest_new_root_mm=mm, root_tips=RootTips.RUNNING)
    assert clause.startswith("a look finds no "), clause
    named = re.split(r", | and ", clause.removeprefix("a look finds "))
    return _vanished(look, {NONE_OF[each] for each in named})


def _healed(look: Look, trouble: Health, one: Plant, when: date) -> Look:
    known = look.health if look.health is not None else _health(one, when, when)
    rooted = trouble is Health.NO_ROOTS
    tips = RootTips.RUNNING if rooted else look.root_tips
    return replace(look, health=(known or frozenset()) - {trouble}, root_tips=tips)


def _vanished(look: Look, gone: set[str]) -> Look:
    if "growth" in gone:
        look = _counted_out(look)
    if "tips" in gone:
        look = replace(look, root_tips=RootTips.NONE)
    if "leaf" in gone:
        look = replace(look, new_leaf=look.new_leaf and NewLeaf.NONE)
    if "spike" in gone:
        left = (look.flowering or frozenset()) - {Flowering.SPIKE, Flowering.BUDS}
        look = replace(look, flowering=left or frozenset({Flowering.NONE}))
    return look


def _counted_out(look: Look) -> Look:
    counts = look.new_growths or NewGrowths()
    none = replace(counts, emerging=0, extending=0, maturing=0)
    return replace(look, new_growths=none)
