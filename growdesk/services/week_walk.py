"""One week read and walked forward: what the sheet and the window's week both show.

Exists so that paper and screen cannot disagree about a week. Days that are past go by
the record alone; from today on each day's planned care is taken as done.
"""

from __future__ import annotations

from itertools import count
from typing import TYPE_CHECKING

from msgspec import Struct
from msgspec.structs import replace

from growdesk.domain.week import Round, Settled, walk_rounds
from growdesk.services import day_rows
from growdesk.services.known import load_known
from growdesk.services.long_work import quietly
from growdesk.services.planning import mix_plan
from growdesk.services.serving import plan_of
from growdesk.services.settings import read_house
from growdesk.services.sheet_jugs import with_week_letters
from growdesk.services.shelf import house_with_water, read_shelf
from growdesk.services.shortages import after, with_short_over
from growdesk.services.values import DoneKind
from growdesk.services.water_in_jugs import with_water_flags
from growdesk.services.week import week_days

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping
    from datetime import date

    from growdesk.domain.explain import Judgement
    from growdesk.domain.facts import House
    from growdesk.services.known import Known
    from growdesk.services.long_work import Step
    from growdesk.services.shelf import Shelf
    from growdesk.services.values import Done, MixPlan
    from growdesk.services.week import WeekDays
    from growdesk.store.session import Session

    DaysFor = Callable[[date, date, House], WeekDays]
    Load = Callable[[Session, date], tuple[Known, ...]]


class WalkedWeek(Struct, frozen=True):
    """A week walked: its plants by bench, its rounds in order, what is on record.

    ``rounds`` holds every day walked, those before the week too. ``done`` is by day
    and plant, and has each of those days.
    """

    known: tuple[Known, ...]
    house: House
    shelf: Shelf
    days: WeekDays
    done: Mapping[date, Mapping[int, Done]]
    today: date
    rounds: tuple[Round, ...]

    @property
    def left(self) -> tuple[Round, ...]:
        """Give the rounds that a sheet of the week is for."""
        return tuple(each for each in self.rounds if each.on in self.days.rounds)

    def mixes(self) -> tuple[MixPlan, ...]:
        """Give what to have ready for each round left, lettered over the week.

        What runs short goes by what the rounds before it leave.
        """
        lettered = with_week_letters(self._mixed())
        days = [each.on for each in self.left]
        return with_short_over(zip(days, lettered, strict=True), self.shelf)

    def _mixed(self) -> Iterator[MixPlan]:
        """Give the rounds' plans, each from the bottles as the last one leaves them."""
        shelf = self.shelf
        for each in self.left:
            mix = self._mix(each, shelf)
            yield mix
            shelf = after(mix, shelf, each.on)

    def _mix(self, each: Round, shelf: Shelf) -> MixPlan:
        pairs = list(zip(each.plants, each.judged, strict=True))
        kinds = {known.plant.tag: known.kind for known in self.known}
        plan = mix_plan(pairs, self.house, shelf)
        return with_water_flags(plan, kinds, self.shelf)


def walked_week(
    session: Session,
    on: date,
    today: date,
    step: Step = quietly,
    load: Load = load_known,
) -> WalkedWeek:
    """Read and walk the week that holds a day; ``step`` is told of each round."""
    return _walked(session, on, today, _days_of, load, step)


def walked_to(
    session: Session, on: date, today: date, load: Load = load_known
) -> WalkedWeek:
    """Read and walk the week to a day to come, which is its round even on a day off."""
    return _walked(session, on, today, _days_to, load)


def _days_of(on: date, today: date, house: House) -> WeekDays:
    return week_days(on, today, house.watering_weekdays)


def _days_to(on: date, today: date, house: House) -> WeekDays:
    days = _days_of(on, today, house)
    if on in days.rounds:
        return days
    earlier = tuple(day for day in days.rounds if day < on)
    return replace(days, before=(*days.before, *earlier), rounds=(on,))


def _walked(
    session: Session,
    on: date,
    today: date,
    days_for: DaysFor,
    load: Load,
    step: Step = quietly,
) -> WalkedWeek:
    step(0, 0)
    shelf = read_shelf(session)
    house = house_with_water(read_house(session), shelf)
    days = days_for(on, today, house)
    walked = (*days.before, *days.past, *days.rounds)
    known = load(session, min(*walked, today))
    done = day_rows.done_on_days(session, walked)
    tags = {each.plant_id: each.plant.tag for each in known}
    passed_by = {
        (tags[plant_id], day)
        for day, of_day in done.items()
        for plant_id, what in of_day.items()
        if what.kind is DoneKind.PASSED_BY and plant_id in tags
    }
    past = {day for day in walked if day < today}
    rounds = _walk(known, (house, shelf), walked, Settled(passed_by, past), step)
    return WalkedWeek(known, house, shelf, days, done, today, rounds)


def _walk(
    known: tuple[Known, ...],
    under: tuple[House, Shelf],
    days: tuple[date, ...],
    settled: Settled,
    step: Step,
) -> tuple[Round, ...]:
    house, shelf = under
    plants = [each.plant for each in known]
    walked = count(1)

    def served(judged: tuple[Judgement, ...]) -> list[float | None]:
        step(next(walked), len(days))
        batches = plan_of(zip(plants, judged, strict=True), house, shelf).batches
        strengths = {tag: each.strength_ppm_n for each in batches for tag in each.tags}
        return [strengths.get(plant.tag) for plant in plants]

    return walk_rounds(
        plants,
        [each.kind for each in known],
        house,
        days,
        served=served,
        settled=settled,
    )
