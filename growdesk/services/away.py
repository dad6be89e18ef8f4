"""The away sheet as facts: per place and bench, what a helper gives on which day.

Neighbours on a bench that get the same stand in one line. Drawing it is the window's.
"""

from __future__ import annotations

from collections import defaultdict
from datetime import timedelta
from itertools import groupby
from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.domain.away import away_plant
from growdesk.domain.errors import InputError
from growdesk.domain.mugs import in_mugs, the_mug
from growdesk.domain.speech import tr
from growdesk.domain.week import walk_rounds
from growdesk.services.known import load_known
from growdesk.services.long_work import quietly
from growdesk.services.settings import Settings, read_house
from growdesk.services.shelf import house_with_water, read_shelf
from growdesk.services.walking import where
from growdesk.services.water_ready import purest, spoken_of

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence
    from datetime import date, datetime

    from growdesk.domain.away import AwayPlant, Given
    from growdesk.domain.facts import House, Plant
    from growdesk.domain.vessels import Vessel
    from growdesk.services.known import Known
    from growdesk.services.ledger import Ledger
    from growdesk.services.long_work import Step
    from growdesk.services.shelf import Shelf

MOST_DAYS = 60
"""Longer away nobody goes by what was seen before; ours."""


MOST_AHEAD_DAYS = 183


class AwayGroup(Struct, frozen=True):
    """Neighbours on a bench that get the same; without ``days`` they stay dry.

    ``first`` to ``last`` of ``of`` is where they stand along the bench. ``volume_l`` is
    for each of them, None where it is not known.
    """

    tags: tuple[str, ...]
    name: str
    first: int
    of: int
    days: tuple[date, ...]
    volume_l: float | None
    mugs: str

    @property
    def last(self) -> int:
        """Give the place of the last of them."""
        return self.first + len(self.tags) - 1


class AwayBench(Struct, frozen=True):
    """A bench of a place, or a place without one, in walking order."""

    where: str
    groups: tuple[AwayGroup, ...]


class AwaySheet(Struct, frozen=True):
    """What a helper needs; plants in ``bare`` and the lists after it go by their tags.

    ``water`` names the water to use, ``litres`` how much of it each day takes.
    """

    collection: str
    begins: date
    ends: date
    made_at: datetime
    benches: tuple[AwayBench, ...]
    days: tuple[date, ...]
    litres: tuple[tuple[date, float], ...]
    water: str
    bare: tuple[tuple[str, str], ...]
    in_bud: tuple[str, ...]
    last: tuple[str, ...]

    @property
    def plants(self) -> int:
        """Give how many plants are on it."""
        return sum(len(group.tags) for bench in self.benches for group in bench.groups)


class AwaySheets:
    """The away sheets of one collection."""

    def __init__(self, ledger: Ledger) -> None:
        self._ledger = ledger

    def places(self) -> tuple[str, ...]:
        """Give the places that plants stand in, as they are walked."""
        with self._ledger.reading() as session:
            known = load_known(session, self._ledger.today())
        names = dict.fromkeys(each.plant.place.name for each in known)
        return tuple(name for name in names if name)

    def make(
        self,
        begins: date,
        ends: date,
        place: str | None = None,
        step: Step = quietly,
    ) -> AwaySheet:
        """Give the sheet of the days away, both included, of all places or of one.

        ``step`` is told of each plant, and may stop the work.
        """
        today = self._ledger.today()
        _checked(begins, ends, today)
        with self._ledger.reading() as session:
            shelf = read_shelf(session)
            house = house_with_water(read_house(session), shelf)
            known = load_known(session, today)
        days = _watering(begins, ends, house)
        if not days:
            hint = tr("Nobody has to come; or choose more days.")
            raise InputError(
                "until", ends.isoformat(), tr("brings no watering day"), hint
            )
        if place is not None:
            known = _in_place(known, place)
        found = _away(known, house, _watering(today, begins - _DAY, house), days, step)
        mug = the_mug(shelf.vessels)
        lines = [(each, away) for each, away in zip(known, found, strict=True)]
        return AwaySheet(
            collection=Settings(self._ledger).word("collection", self._ledger.name),
            begins=begins,
            ends=ends,
            made_at=self._ledger.clock.now(),
            benches=tuple(
                AwayBench(name, tuple(_groups(list(bench), mug)))
                for name, bench in groupby(lines, key=lambda line: _where(line[0]))
            ),
            days=days,
            litres=_litres(found),
            water=_water(found, shelf),
            bare=tuple(
                (each.plant.tag, each.plant.name)
                for each, away in lines
                if away.bare_is_right
            ),
            in_bud=tuple(each.plant.tag for each, away in lines if away.in_bud),
            last=tuple(
                each.plant.tag for each, away in lines if away.suspect or away.newcomer
            ),
        )


_DAY = timedelta(days=1)


def _checked(begins: date, ends: date, today: date) -> None:
    if ends < begins:
        hint = tr("Give {isoformat} or later.").format(isoformat=begins.isoformat())
        raise InputError("until", ends.isoformat(), tr("is before the first day"), hint)
    if begins < today:
        hint = tr("Give {isoformat} or later.").format(isoformat=today.isoformat())
        raise InputError("from", begins.isoformat(), tr("has gone by"), hint)
    if (begins - today).days > MOST_AHEAD_DAYS:
        hint = tr("Make the sheet nearer to the day, after a last look at the plants.")
        raise InputError("from", begins.isoformat(), tr("is too far off"), hint)
    if (ends - begins).days > MOST_DAYS:
        hint = tr(
            "Give at most {most_days} days; for longer the helper has to learn."
        ).format(most_days=MOST_DAYS)
        raise InputError("until", ends.isoformat(), tr("is too long away"), hint)


def _watering(first: date, last: date, house: House) -> tuple[date, ...]:
    days = (first + number * _DAY for number in range((last - first).days + 1))
    return tuple(day for day in days if day.weekday() in house.watering_weekdays)


def _away(
    known: Sequence[Known],
    house: House,
    before: Sequence[date],
    days: Sequence[date],
    step: Step,
) -> tuple[AwayPlant, ...]:
    """Walk each plant to the day of leaving as planned, then over the days away."""
    kinds = [each.kind for each in known]
    standing: Sequence[Plant] = [each.plant for each in known]
    if before:
        ahead = (*before, *days[:1])
        standing = walk_rounds(standing, kinds, house, ahead)[-1].plants
    found = []
    for number, (plant, kind) in enumerate(zip(standing, kinds, strict=True)):
        step(number, len(kinds))
        found.append(away_plant(plant, kind, house, days))
    return tuple(found)


def _in_place(known: Sequence[Known], place: str) -> tuple[Known, ...]:
    folded = place.strip().casefold()
    found = tuple(each for each in known if each.plant.place.name.casefold() == folded)
    if not found:
        names = dict.fromkeys(each.plant.place.name for each in known)
        there = ", ".join(name for name in names if name)
        hint = (
            tr("Plants stand in: {there}.").format(there=there)
            if there
            else tr("No plant has a place yet.")
        )
        raise InputError("place", place, tr("has no plants"), hint)
    return found


def _where(known: Known) -> str:
    return where(known.plant.place.name, known.bench_name)


def _water(found: Iterable[AwayPlant], shelf: Shelf) -> str:
    """Name the one water that all get; empty where none is in use."""
    pure = purest(shelf) if any(away.wants_pure for away in found) else None
    view = pure or shelf.water_view(shelf.water_id)
    return "" if view is None else spoken_of(view, shelf)


def _litres(found: Iterable[AwayPlant]) -> tuple[tuple[date, float], ...]:
    each: defaultdict[date, float] = defaultdict(float)
    for away in found:
        for given in away.given:
            each[given.on] += given.volume_l or 0.0
    return tuple(sorted(each.items()))


def _groups(
    lines: Sequence[tuple[Known, AwayPlant]], mug: Vessel | None
) -> Iterator[AwayGroup]:
    at = 1
    for given, group in groupby(lines, key=lambda line: _same(line[1].given)):
        members = [known for known, _ in group]
        volume = given[0][1] if given else None
        yield AwayGroup(
            tags=tuple(known.plant.tag for known in members),
            name=members[0].plant.name if len(members) == 1 else "",
            first=at,
            of=len(lines),
            days=tuple(day for day, _ in given),
            volume_l=volume,
            mugs="" if volume is None else in_mugs(volume, mug),
        )
        at += len(members)


def _same(given: Sequence[Given]) -> tuple[tuple[date, float | None], ...]:
    return tuple((each.on, each.volume_l) for each in given)
