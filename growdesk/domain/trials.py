"""Altered facts of one plant, each set of them judged once, the smaller sets first.

A date counts as one thing. A set is made larger only where it altered what decides:
what lifts the strongest rule that holds leads on to the next, so that few are judged.
"""

from __future__ import annotations

import dataclasses
from functools import cached_property
from typing import TYPE_CHECKING

from msgspec import Struct
from msgspec.structs import replace

from growdesk.domain import freshened, turning_days
from growdesk.domain.facts import Verdict
from growdesk.domain.judging import decider_of
from growdesk.domain.sights import BARE, CONTAINS, Alteration, hopeful

if TYPE_CHECKING:
    from collections.abc import Iterator
    from datetime import date

    from growdesk.domain.case import Case
    from growdesk.domain.explain import Finding
    from growdesk.domain.facts import Look, Plant, Water

Some = tuple[Alteration, ...]

ALONE = frozenset({"same-look", BARE})


class Found(Struct, frozen=True):
    """Things at once, from a day on if one is given, and what they would bring."""

    some: Some
    day: date | None
    verdict: Verdict
    water: Water

    @property
    def keys(self) -> frozenset[str]:
        """Give the keys of the sights and acts."""
        return frozenset(one.key for one in self.some)

    @property
    def implied(self) -> frozenset[str]:
        """Give the keys with all that they are made of or go beyond."""
        keys = set(self.keys)
        for one in self.some:
            keys.update(part for key in one.contains for part in _parts(key))
            if one.sees is not None:
                keys.add("same-look")
        return frozenset(keys)

    def within(self, other: Found) -> bool:
        """Tell whether another asks for all of this, and for more."""
        if self.day not in (None, other.day) or not self.keys <= other.implied:
            return False
        return (self.keys, self.day) != (other.keys, other.day)


class Trials:
    """The trials of one plant on one day."""

    def __init__(self, case: Case) -> None:
        """Take the plant as warm as now, with its looks and care of until now."""
        window = case.house.cold_window_days
        place = replace(
            case.plant.place, readings=(), mean_temperature_c=case.mean_c(window)
        )
        self.case = dataclasses.replace(
            case, plant=replace(case.plant, place=place, looks=case.looks)
        )
        self._bases: dict[tuple[tuple[str, ...], date], tuple[Plant, Look]] = {}
        self._findings: dict[object, Finding] = {}
        self._tiers: dict[int, list[Found]] = {}
        self._leads_on: dict[int, list[Found]] = {}

    @cached_property
    def now(self) -> Finding:
        """Give what decides today."""
        return self._decided(self.case.plant, self.case.on)

    @cached_property
    def hopeful(self) -> Some:
        """Give what might bring the plant to feed."""
        return tuple(hopeful(self.case, self.now))

    @cached_property
    def days(self) -> tuple[date, ...]:
        """Give the days for which something may be promised."""
        return turning_days.promised(self.case)

    def decided(self, some: Some = (), day: date | None = None) -> Finding:
        """Give what decides with some alterations, today or on a later day."""
        key = (frozenset(one.key for one in some), day)
        if key not in self._findings:
            on = day or self.case.on
            self._findings[key] = self._decided(self.altered(some, day), on)
        return self._findings[key]

    def altered(self, some: Some, day: date | None = None) -> Plant:
        """Give the plant with some alterations; one look holds all that is seen."""
        seen = [one.sees for one in some if one.sees is not None]
        plant, look = self._base(some, day or self.case.on)
        if not seen and day is None:
            return plant
        for sees in seen:
            look = sees(look)
        return replace(plant, looks=(*plant.looks, look))

    def tier(self, count: int) -> list[Found]:
        """Give each set of so many things, with what it would bring."""
        if count not in self._tiers:
            self._tiers[count] = list(self._made(count))
        return self._tiers[count]

    def _made(self, count: int) -> Iterator[Found]:
        start = Found((), None, self.now.verdict, self.now.water)
        if count > 1:
            self.tier(count - 1)
        smaller = self._leads_on[count - 1] if count > 1 else [start]
        leads_on = self._leads_on.setdefault(count, [])
        made: set[object] = set()
        for found in smaller:
            for some, day in self._larger(found):
                key = (frozenset(one.key for one in some), day)
                if key in made:
                    continue
                made.add(key)
                got = self.decided(some, day)
                one = Found(some, day, got.verdict, got.water)
                if one.verdict is not Verdict.FEED and self._moved(found, one):
                    leads_on.append(one)
                yield one

    def _larger(self, found: Found) -> Iterator[tuple[Some, date | None]]:
        for one in self.hopeful:
            if _goes_with(one, found.some):
                some = sorted((*found.some, one), key=self.hopeful.index)
                yield tuple(some), found.day
        if found.day is None and not ALONE & found.keys:
            for day in self.days:
                yield found.some, day

    def _moved(self, before: Found, after: Found) -> bool:
        """Tell whether the larger set alters what decides; a day may of itself not."""
        return not after.some or self._told(before) != self._told(after)

    def _told(self, found: Found) -> tuple[object, ...]:
        seen = any(one.sees is not None for one in found.some)
        old = not freshened.looked_at(self.case)
        if old and found.day is None and not seen:
            plant, look = self._base(found.some, self.case.on)
            plant = replace(plant, looks=(*plant.looks, look))
            key = ("fresh", found.keys)
            if key not in self._findings:
                self._findings[key] = self._decided(plant, self.case.on)
            got = self._findings[key]
        else:
            got = self.decided(found.some, found.day)
        return got.rule, got.reason.key, got.verdict, got.water

    def _base(self, some: Some, on: date) -> tuple[Plant, Look]:
        """Give the plant with what was done, and its last look made fresh after it."""
        acts = [one for one in some if one.does is not None]
        key = (tuple(sorted(one.key for one in acts)), on)
        if key not in self._bases:
            case = self.case
            plant = case.plant
            for act in acts:
                plant = act.does(plant, on) if act.does is not None else plant
            done = dataclasses.replace(case, plant=plant) if acts else case
            self._bases[key] = plant, freshened.fresh_look(done, on)
        return self._bases[key]

    def _decided(self, plant: Plant, on: date) -> Finding:
        case = self.case
        return decider_of(plant, case.kind, case.house, on, kind_known=case.kind_known)


def smallest(founds: list[Found]) -> list[Found]:
    """Leave out what asks for more than another does."""
    return [found for found in founds if not any(each.within(found) for each in founds)]


def _parts(key: str) -> frozenset[str]:
    smaller = (part for each in CONTAINS.get(key, ()) for part in _parts(each))
    return frozenset({key, *smaller})


def _goes_with(one: Alteration, some: Some) -> bool:
    """Tell whether an alteration adds to others: none of them says it already."""
    if any(one.key == each.key for each in some):
        return False
    for each in some:
        both_seen = one.sees is not None and each.sees is not None
        if both_seen and ALONE & {one.key, each.key}:
            return False
        if each.key in _parts(one.key) or one.key in _parts(each.key):
            return False
    return True
