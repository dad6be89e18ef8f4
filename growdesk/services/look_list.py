"""The look list as facts: the plants of a walk with what was last seen of each.

It is printed, filled in along the benches, and typed in afterwards by the walk, which
goes in the same order. Drawing it is the window's business.
"""

from __future__ import annotations

from itertools import groupby
from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.domain.errors import InputError
from growdesk.domain.kinds import Habit
from growdesk.domain.speech import tr
from growdesk.services.known import load_known
from growdesk.services.look_words import signs_line
from growdesk.services.settings import Settings, read_house
from growdesk.services.walking import where

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date, datetime

    from growdesk.services.known import Known
    from growdesk.services.ledger import Ledger


class LookListLine(Struct, frozen=True):
    """A plant on the list; ``seen`` is empty where it was never looked at."""

    tag: str
    name: str
    looked_on: date | None
    seen: str
    leaf_first: bool


class LookListPlace(Struct, frozen=True):
    """The plants of a bench, or of a place without one; ``where`` names both."""

    where: str
    lines: tuple[LookListLine, ...]


class LookList(Struct, frozen=True):
    """A list to look by on a day, in walking order."""

    collection: str
    on: date
    made_at: datetime
    places: tuple[LookListPlace, ...]

    @property
    def plants(self) -> int:
        """Give how many plants are on it."""
        return sum(len(place.lines) for place in self.places)


class LookLists:
    """The look lists of one collection."""

    def __init__(self, ledger: Ledger) -> None:
        self._ledger = ledger

    def make(
        self, on: date, place: str | None = None, *, only_due: bool = False
    ) -> LookList:
        """Give the list of all places or of one by its name; of all or those due."""
        with self._ledger.reading() as session:
            known = load_known(session, on)
            limit_days = read_house(session).look_limit_days
        if place is not None:
            known = _in_place(known, place)
        lines = [(_where(each), _line(each, on)) for each in known]
        if only_due:
            lines = [
                (stands, line)
                for stands, line in lines
                if line.looked_on is None or (on - line.looked_on).days > limit_days
            ]
        return LookList(
            collection=Settings(self._ledger).word("collection", self._ledger.name),
            on=on,
            made_at=self._ledger.clock.now(),
            places=tuple(
                LookListPlace(stands, tuple(line for _, line in group))
                for stands, group in groupby(lines, key=lambda pair: pair[0])
            ),
        )


def _in_place(known: Sequence[Known], place: str) -> tuple[Known, ...]:
    folded = place.strip().casefold()
    found = tuple(each for each in known if each.plant.place.name.casefold() == folded)
    if found:
        return found
    names = dict.fromkeys(each.plant.place.name for each in known)
    there = ", ".join(name for name in names if name)
    hint = (
        tr("Plants stand in: {there}.").format(there=there)
        if there
        else tr("No plant has a place yet.")
    )
    raise InputError("place", place, tr("has no plants"), hint)


def _where(known: Known) -> str:
    return where(known.plant.place.name, known.bench_name)


def _line(known: Known, on: date) -> LookListLine:
    looks = [look for look in known.plant.looks if look.on <= on]
    last = looks[-1] if looks else None
    return LookListLine(
        tag=known.plant.tag,
        name=known.plant.name,
        looked_on=None if last is None else last.on,
        seen="" if last is None else signs_line(last),
        leaf_first=known.kind.habit is Habit.MONOPODIAL,
    )
