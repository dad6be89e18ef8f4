"""The weekly mixing sheet as facts: the week walked forward, each round with its jugs.

The judging, the jugs and the words are the watering day's own, so the paper and the
screen say the same. Drawing it is the window's business.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from growdesk.domain import cautions
from growdesk.domain.week import Round, Settled, walk_rounds
from growdesk.services import day_rows
from growdesk.services.judged_day import house_with_water
from growdesk.services.known import load_known
from growdesk.services.planning import mix_plan, plan_of
from growdesk.services.settings import Settings, read_house
from growdesk.services.sheet_jugs import with_week_letters
from growdesk.services.sheet_rounds import Bench, sheet_round
from growdesk.services.sheet_values import Sheet
from growdesk.services.sheet_words import assumed
from growdesk.services.shelf import read_shelf
from growdesk.services.values import DoneKind
from growdesk.services.week import week_days

if TYPE_CHECKING:
    from collections.abc import Mapping
    from datetime import date

    from growdesk.domain.explain import Judgement
    from growdesk.domain.facts import House
    from growdesk.services.known import Known
    from growdesk.services.ledger import Ledger
    from growdesk.services.shelf import Shelf
    from growdesk.services.values import Done, MixPlan
    from growdesk.services.week import WeekDays


@dataclass(frozen=True, slots=True)
class _Read:
    """All that one sheet is made from, read in one go. ``done`` is by day and plant."""

    known: tuple[Known, ...]
    house: House
    shelf: Shelf
    days: WeekDays
    done: Mapping[date, Mapping[int, Done]]
    today: date

    @property
    def by_record(self) -> frozenset[date]:
        """Give the past days of which anything was ticked: they are as ticked."""
        return frozenset(
            day for day, done in self.done.items() if done and day < self.today
        )


class Sheets:
    """The weekly sheets of one collection."""

    def __init__(self, ledger: Ledger) -> None:
        self._ledger = ledger

    def week(self, on: date) -> Sheet:
        """Give the sheet of the week that holds a day.

        Of this week only what is left is on it. Earlier rounds are taken as done, or
        as ticked where they are past and anything was ticked.
        """
        read = self._read(on)
        rounds = _walked(read)[len(read.days.before) :]
        mixes = with_week_letters(_mix(each, read) for each in rounds)
        return Sheet(
            collection=self._name(),
            week_of=read.days.monday,
            made_at=self._ledger.clock.now(),
            rounds=tuple(
                sheet_round(
                    Bench(read.known, read.house, read.done.get(each.on, {})),
                    each,
                    mix,
                    _assumes(read, each.on),
                )
                for each, mix in zip(rounds, mixes, strict=True)
            ),
            cautions_short=cautions.SHORT,
            cautions_full=cautions.FULL,
        )

    def _name(self) -> str:
        return Settings(self._ledger).word("collection", self._ledger.folder.name)

    def _read(self, on: date) -> _Read:
        today = self._ledger.today()
        with self._ledger.reading() as session:
            shelf = read_shelf(session)
            house = house_with_water(read_house(session), shelf)
            days = week_days(on, today, house.watering_weekdays)
            return _Read(
                known=load_known(session, min(days.rounds[0], today)),
                house=house,
                shelf=shelf,
                days=days,
                done={
                    day: day_rows.done_on(session, day)
                    for day in (*days.before, *days.rounds)
                },
                today=today,
            )


def _walked(read: _Read) -> tuple[Round, ...]:
    """Judge every round, and the ones before the week that are still to come."""
    plants = [known.plant for known in read.known]

    def served(judged: tuple[Judgement, ...]) -> list[float | None]:
        batches = plan_of(zip(plants, judged, strict=True), read.house).batches
        strengths = {tag: each.strength_ppm_n for each in batches for tag in each.tags}
        return [strengths.get(plant.tag) for plant in plants]

    tags = {known.plant_id: known.plant.tag for known in read.known}
    passed_by = {
        (tags[plant_id], day)
        for day, done in read.done.items()
        for plant_id, what in done.items()
        if what.kind is DoneKind.PASSED_BY and plant_id in tags
    }
    return walk_rounds(
        plants,
        [known.kind for known in read.known],
        read.house,
        (*read.days.before, *read.days.rounds),
        served=served,
        settled=Settled(passed_by, read.by_record),
    )


def _mix(each: Round, read: _Read) -> MixPlan:
    pairs = list(zip(each.plants, each.judged, strict=True))
    return mix_plan(pairs, read.house, read.shelf)


def _assumes(read: _Read, on: date) -> str | None:
    """Say what a round goes by of the rounds before it."""
    earlier = [day for day in (*read.days.before, *read.days.rounds) if day < on]
    return assumed(
        [day for day in earlier if day not in read.by_record],
        [day for day in earlier if day in read.by_record],
    )
