"""The demo's looks: what each would have found, its note, its pictures, the blooms."""

from __future__ import annotations

from datetime import date, timedelta
from itertools import pairwise
from typing import TYPE_CHECKING

from msgspec.structs import replace

from growdesk.domain.facts import (
    Flowering,
    Health,
    Leaves,
    Look,
    NewGrowths,
    NewLeaf,
    RootTips,
)
from growdesk.services.demo_values import DemoBloom, DemoLook

if TYPE_CHECKING:
    from growdesk.services.demo_course import Course, Data


def looks_of(plant: Data, course: Course, on: date) -> tuple[DemoLook, ...]:
    """Give all looks of a plant, oldest first, with its pictures hung on them."""
    looks = [_look(look, course, on) for look in reversed(plant["looks"])]
    if looks and "signs" in plant:
        last = looks[-1]
        looks[-1] = replace(last, look=replace(last.look, **plant["signs"]))
    for picture in plant.get("pictures", []):
        until = on - timedelta(days=picture["days_ago"])
        _hang(looks, picture["file"], picture["shows"], until)
    return tuple(looks)


def _look(look: Data, course: Course, on: date) -> DemoLook:
    day = on - timedelta(days=look["days_ago"])
    phase, gone = course.at(day)
    seen: Data = {
        "health": [],
        "lead_length_mm": _length(phase.get("lead_mm"), gone),
        "longest_new_root_mm": _length(phase.get("root_mm"), gone),
    }
    seen |= phase | look.get("signs", {})
    return DemoLook(_signs(day, seen), _note(look, phase))


def _length(ends_mm: list[float] | None, gone: float) -> float | None:
    if ends_mm is None:
        return None
    start_mm, end_mm = ends_mm
    return float(round(start_mm + (end_mm - start_mm) * gone))


def _note(look: Data, phase: Data) -> str:
    if "note" in look:
        return str(look["note"])
    pick = look["note_pick"]
    return "" if pick is None else str(phase["notes"][pick % len(phase["notes"])])


def _signs(day: date, seen: Data) -> Look:
    counts = seen.get("new_growths")
    leaf = seen.get("new_leaf")
    return Look(
        on=day,
        new_growths=None if counts is None else NewGrowths(**counts),
        root_tips=RootTips(seen["root_tips"]),
        longest_new_root_mm=seen["longest_new_root_mm"],
        lead_length_mm=seen["lead_length_mm"],
        new_leaf=None if leaf is None else NewLeaf(leaf),
        flowering=frozenset(Flowering(stage) for stage in seen["flowering"]),
        leaves=Leaves(seen["leaves"]),
        health=frozenset(Health(trouble) for trouble in seen["health"]),
        runoff_ec_ms_per_cm=seen.get("runoff_ec_ms_per_cm"),
        keikis=seen.get("keikis"),
        keiki_root_mm=seen.get("keiki_root_mm"),
        pods=seen.get("pods"),
        spike_mm=seen.get("spike_mm"),
    )


def _hang(looks: list[DemoLook], file: str, shows: str, until: date) -> None:
    """Hang a picture on the newest look up to a day that shows its sign."""
    for place in range(len(looks) - 1, -1, -1):
        entry = looks[place]
        if entry.look.on <= until and shows in _words(entry.look):
            pictures = (*entry.pictures, file)
            looks[place] = DemoLook(entry.look, entry.note, pictures)
            return


def _words(look: Look) -> set[str]:
    """Give all that a look shows as words."""
    words = {str(stage) for stage in (look.flowering or ())}
    words |= {str(trouble) for trouble in (look.health or ())}
    words.add(str(look.root_tips))
    counts = look.new_growths or NewGrowths()
    stages = ("emerging", "extending", "maturing", "matured")
    return words | {stage for stage in stages if getattr(counts, stage)}


def blooms_of(looks: list[Look]) -> tuple[DemoBloom, ...]:
    """Give the flowerings that looks, oldest first, show from a first open flower."""
    blooms: list[DemoBloom] = []
    spike: date | None = None
    opened: date | None = None
    for look, after in pairwise([*looks, Look(on=date.max)]):
        stages = look.flowering or frozenset()
        if opened is None and stages & {Flowering.SPIKE, Flowering.BUDS}:
            spike = spike or look.on
        if Flowering.OPEN in stages:
            opened = opened or look.on
        ends = Flowering.OPEN not in (after.flowering or frozenset())
        if opened is not None and ends:
            faded = None if after.on == date.max else after.on
            blooms.append(DemoBloom(spike, opened, faded))
            spike, opened = None, None
    return tuple(blooms)
