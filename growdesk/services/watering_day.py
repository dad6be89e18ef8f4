"""The watering day: every plant's verdict, the jugs for it, and what was done.

A tick writes what was really given. Judging leaves the day's own water out of account,
so that what is ticked stays where it stands in the list.
"""

# ruff: noqa: PLC0415 -- a list stands before anything else of a day is asked for

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

from growdesk.domain.holding import Status
from growdesk.domain.week_wording import missed_round
from growdesk.services import day_lines, kind_rows
from growdesk.services.begun_day import PartDay
from growdesk.services.judged_day import judged_apart, judged_day
from growdesk.services.kept_day import KeptDays
from growdesk.services.look_values import Bench
from growdesk.services.settings import read_house
from growdesk.services.values import DayBegun, DayView
from growdesk.services.week_view import missed_before

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence
    from datetime import date

    from growdesk.domain.explain import Judgement
    from growdesk.domain.facts import CareKind, House, Plant
    from growdesk.domain.kinds import KindTable
    from growdesk.services.kept_day import KeptDay
    from growdesk.services.known import Known
    from growdesk.services.ledger import Ledger
    from growdesk.services.look_values import WorthLine
    from growdesk.services.plant_detail import Served
    from growdesk.services.ticking import Repot
    from growdesk.services.values import Line, PlantDetail, Written
    from growdesk.services.week_values import WeekView
    from growdesk.store.session import Session


class WateringDay:
    """The watering days of one collection."""

    def __init__(self, ledger: Ledger) -> None:
        self._ledger = ledger
        self._days = KeptDays()

    def view(self, on: date | None = None) -> DayView:
        """Give a whole watering day; without a day, today."""
        today = self._ledger.today()
        with self._ledger.reading() as session:
            return _view(session, self._days.of(session, on or today, today))

    def by_steps(
        self, on: date | None = None, first: Sequence[int] = ()
    ) -> DayView | DayBegun:
        """Give a whole day, or one step nearer to it; asked again it goes on.

        Only of many plants are there steps; those of ``first`` are judged first.
        """
        today = self._ledger.today()
        with self._ledger.reading() as session:
            found = self._days.by_steps(session, on or today, today, first)
            if not isinstance(found, PartDay):
                return _view(session, found)
        return DayBegun(
            on=found.on,
            is_today=found.on == today,
            next_day=_next_day(found.house, found.on),
            lines=found.standing(),
            judged=len(found.judged),
        )

    def worth(self, on: date) -> tuple[WorthLine, ...]:
        """Give the plants of a day that are worth a look, the first one first."""
        from growdesk.services.look_worth import Ranking

        with self._ledger.reading() as session:
            kept = self._days.of(session, on, self._ledger.today())
        return Ranking().rank(_bench(kept))

    def week(self, on: date) -> WeekView:
        """Give the watering days of the week that holds a day, as its sheet has them.

        Days of this week that are past go by what is on record.
        """
        from growdesk.services.week_view import week_view
        from growdesk.services.week_walk import walked_week

        with self._ledger.reading() as session:
            today = self._ledger.today()
            walked = walked_week(session, on, today, load=self.known)
        return week_view(walked)

    def known(self, session: Session, on: date) -> tuple[Known, ...]:
        """Give all plants as known on a day, read anew only where they have to be."""
        return self._days.known(session, on, self._ledger.today())

    def facts(self, on: date) -> tuple[House, tuple[Plant, ...], KindTable]:
        """Give house, plants by bench and kinds as they are judged by on a day."""
        with self._ledger.reading() as session:
            day = judged_day(session, on)
            table = kind_rows.table_of(session)
        return day.house, tuple(known.plant for known, _ in day.judged), table

    def detail(
        self, plant_id: int, on: date, seen: DayView | None = None
    ) -> PlantDetail:
        """Give all that is shown of one plant on a day.

        ``seen`` is that day's view where it is at hand; it spares judging every plant
        again for the jug that one is served from. One that is not here any more has its
        last word in place of a verdict.
        """
        from growdesk.services.plant_detail import as_left, detail_of
        from growdesk.services.plant_rows import get_draft

        with self._ledger.reading() as session:
            if get_draft(session, plant_id).status is not Status.GROWING:
                apart = _served_apart(session, on, plant_id)
                return as_left(detail_of(session, self._ledger.folder, apart, on))
            served = _served_by(seen) if seen is not None and seen.on == on else {}
            of_it = served.get(plant_id) or self._served_anew(session, on, plant_id)
            return detail_of(session, self._ledger.folder, of_it, on)

    def _served_anew(self, session: Session, on: date, plant_id: int) -> Served:
        from growdesk.services.plant_detail import Served

        today = self._ledger.today()
        part = self._days.begun(session, on, today, plant_id)
        if part is not None:
            known, _ = part.judged[plant_id]
            return Served(known, part.house, part.lines[plant_id], waits=True)
        kept = self._days.of(session, on, today)
        return _served(kept.day.judged, kept.lines, kept.day.house)[plant_id]

    def tick(self, plant_ids: Sequence[int], on: date) -> Written:
        """Write as given what the day's plan says, at the jug's strength.

        A plant that is to be kept dry or looked at first is left out and named.
        """
        from growdesk.services import ticking

        return ticking.tick(self._ledger, plant_ids, on, self._days)

    def pass_by(self, plant_ids: Sequence[int], on: date) -> Written:
        """Write that plants were passed by, still damp."""
        from growdesk.services import ticking

        return ticking.pass_by(self._ledger, plant_ids, on, self._days)

    def give(
        self,
        plant_ids: Sequence[int],
        on: date,
        what: CareKind,
        strength_ppm_n: float | None,
        note: str = "",
    ) -> Written:
        """Write what was really given or done, whatever the plan says."""
        from growdesk.services import ticking

        given = ticking.Given(on, what, strength_ppm_n, note)
        return ticking.give(self._ledger, plant_ids, given)

    def repot(self, plant_ids: Sequence[int], done: Repot) -> Written:
        """Write that plants were repotted, with what is new about their pots."""
        from growdesk.services import ticking

        return ticking.repot(self._ledger, plant_ids, done)

    def untick(self, plant_ids: Sequence[int], on: date) -> Written:
        """Take back what is written as given, or passed by, on a day."""
        from growdesk.services import ticking

        return ticking.untick(self._ledger, plant_ids, on)

    def next_watering_day(self, after: date) -> date:
        """Give the first of the house's watering days after a day."""
        with self._ledger.reading() as session:
            return _next_day(read_house(session), after)

    def step(self, on: date, by: int) -> date:
        """Give the watering day after (1) or before (-1) a day; today counts as one."""
        today = self._ledger.today()
        with self._ledger.reading() as session:
            house = read_house(session)
        if by > 0:
            found = _next_day(house, on)
            return today if on < today < found else found
        found = _previous_day(house, on)
        return today if found < today < on else found


def _next_day(house: House, after: date) -> date:
    days = (after + timedelta(days=ahead) for ahead in range(1, 8))
    return next(day for day in days if day.weekday() in house.watering_weekdays)


def _previous_day(house: House, before: date) -> date:
    days = (before - timedelta(days=back) for back in range(1, 8))
    return next(day for day in days if day.weekday() in house.watering_weekdays)


def _missed(session: Session, kept: KeptDay) -> date | None:
    if kept.day.on != kept.today or kept.done:
        return None
    known = [each for each, _ in kept.day.judged]
    return missed_before(session, known, kept.day.house, kept.today)


def _view(session: Session, kept: KeptDay) -> DayView:
    day, today = kept.day, kept.today
    missed = _missed(session, kept)
    return DayView(
        on=day.on,
        is_today=day.on == today,
        next_day=_next_day(day.house, day.on),
        lines=kept.lines,
        mix=kept.mix,
        setup=kept.setup,
        missed=missed,
        missed_told="" if missed is None else missed_round(missed, today),
        bench=_bench(kept),
        taken_as_done=day.taken_as_done,
    )


def _served_by(view: DayView) -> dict[int, Served]:
    if view.bench is None:
        return {}
    return _served(view.bench.judged, view.lines, view.bench.house)


def _served(
    judged: Iterable[tuple[Known, Judgement]], lines: Iterable[Line], house: House
) -> dict[int, Served]:
    """Give each plant of a day with the jug it is served from."""
    from growdesk.services.plant_detail import Served

    return {
        line.plant_id: Served(known, house, line)
        for (known, _), line in zip(judged, lines, strict=True)
    }


def _served_apart(session: Session, on: date, plant_id: int) -> Served:
    """Give a plant that has left; it takes part in no round and in no jug."""
    from growdesk.services.plant_detail import Served

    day = judged_apart(session, on, plant_id)
    known, judgement = day.judged[0]
    return Served(known, day.house, day_lines.line(day, known, judgement, {}))


def _bench(kept: KeptDay) -> Bench:
    return Bench(kept.day.on, kept.day.house, kept.day.judged, frozenset(kept.done))
