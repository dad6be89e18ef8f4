"""The calendar: what is to be done beside watering, found anew each time it is asked.

Only what was done or let go by hand is stored. A job is found again by its plant or
place, its key and its day.
"""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

from sqlalchemy import select

from growdesk.domain import job_words
from growdesk.domain.case import Case
from growdesk.domain.errors import InputError
from growdesk.domain.jobs import (
    blooms,
    leaching,
    looks,
    moves,
    newcomers,
    repots,
    rests,
    stems,
    treatments,
    weather,
)
from growdesk.domain.night import Standing
from growdesk.domain.phrases import inside
from growdesk.domain.speech import mark, tr
from growdesk.services import calendar_rows, checking
from growdesk.services.calendar_values import Closed, JobLine, JobRef
from growdesk.services.known import load_known
from growdesk.services.ledger import written
from growdesk.services.settings import read_house
from growdesk.services.shelf import house_with_water, read_waters
from growdesk.store.mapping import word
from growdesk.store.schema import JobDoneRow

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from datetime import date

    from growdesk.domain.facts import House
    from growdesk.domain.jobs.job import Job
    from growdesk.domain.kinds import Warmth
    from growdesk.services.calendar_rows import Beside, PlaceFacts
    from growdesk.services.known import Known
    from growdesk.services.ledger import Ledger
    from growdesk.services.values import Written
    from growdesk.services.week_walk import Load
    from growdesk.store.session import Session

YEAR_DAYS = 366
_TOLD_ONLY = mark("Nothing is to be done; it only tells what is expected.")
_ELSEWHERE = mark(
    "It closes by itself once the look, the repot, the move or the water is written "
    "down; or let it go."
)


class Calendar:
    """The dated jobs of one collection."""

    def __init__(self, ledger: Ledger, load: Load = load_known) -> None:
        self._ledger = ledger
        self._load = load

    def jobs(
        self,
        first: date | None = None,
        last: date | None = None,
        on: date | None = None,
        pause: Callable[[], object] = lambda: None,
    ) -> tuple[JobLine, ...]:
        """Give the jobs from a day to another, as known on a day; a year from today.

        What is open from before, or goes on, is among them. By day, then as the round
        is walked. ``pause`` is called after each plant.
        """
        day = on or self._ledger.today()
        begins = first or day
        ends = last or day + timedelta(days=YEAR_DAYS)
        with self._ledger.reading() as session:
            house = house_with_water(read_house(session), read_waters(session))
            known = self._load(session, day)
            beside = calendar_rows.load(session, day)
        lines = [
            line
            for line in (
                *_of_plants(known, beside, (house, day, ends), pause),
                *_of_places(known, beside, house, day, ends),
                *_of_nights(known, beside, house, day, ends),
            )
            if _belongs(line, begins)
        ]
        return tuple(sorted(lines, key=lambda line: (line.on, line.walk)))

    def done(self, line: JobLine, on: date | None = None, note: str = "") -> Written:
        """Write a job down as done on a day, today if none is given."""
        if line.forecast:
            raise InputError("job", line.title, tr("cannot be done"), tr(_TOLD_ONLY))
        if line.settled:
            raise InputError(
                "job", line.title, tr("is not ticked off by hand"), tr(_ELSEWHERE)
            )
        return self._close(line, Closed.DONE, on, note)

    def let_go(self, line: JobLine, note: str = "") -> Written:
        """Write a job down as let go; it is asked for no more."""
        if line.forecast:
            raise InputError("job", line.title, tr("cannot be let go"), tr(_TOLD_ONLY))
        return self._close(line, Closed.LET_GO, None, note)

    def reopen(self, line: JobLine) -> Written:
        """Take back that a job was done or let go."""
        with self._ledger.reading() as session:
            there = _record(session, line.ref)
        if there is None:
            hint = tr("It is open as it is.")
            raise InputError("job", line.title, tr("was neither done nor let go"), hint)
        title = tr("{called}: open again").format(called=_called(line))
        with self._ledger.writing(title) as writing:
            writing.delete(JobDoneRow, there)
        return written(writing, title)

    def _close(
        self, line: JobLine, closed: Closed, on: date | None, note: str
    ) -> Written:
        today = self._ledger.today()
        day = on or today
        checking.day_done("on", day, today)
        kept = checking.text("note", note)
        form = tr("{called}: done") if closed is Closed.DONE else tr("{called}: let go")
        title = form.format(called=_called(line))
        ref = line.ref
        values = {
            "plant_id": ref.plant_id,
            "place_id": ref.place_id,
            "job": ref.key,
            "due_on": ref.on,
            "what": closed.value,
            "done_on": day,
            "note": kept,
        }
        with self._ledger.writing(title) as writing:
            there = _record(writing.session, ref)
            if there is None:
                there = writing.insert(JobDoneRow, values)
            else:
                writing.update(JobDoneRow, there, values)
        return written(writing, title, (there,))


def _called(line: JobLine) -> str:
    return f"{line.tag or line.place} {inside(line.title)}"


def _record(session: Session, ref: JobRef) -> int | None:
    return session.scalar(
        select(JobDoneRow.id).where(
            JobDoneRow.plant_id == ref.plant_id,
            JobDoneRow.place_id == ref.place_id,
            JobDoneRow.job == ref.key,
            JobDoneRow.due_on == ref.on,
        )
    )


def _belongs(line: JobLine, first: date) -> bool:
    """Tell whether a line is of the days asked for, is still open, or goes on."""
    if line.closed is not None:
        newest = max(line.on, line.closed_on or line.on)
        return newest >= first
    return not line.forecast or line.until is None or line.until >= first


def _of_plants(
    known: tuple[Known, ...],
    beside: Beside,
    asked: tuple[House, date, date],
    pause: Callable[[], object],
) -> Iterator[JobLine]:
    house, on, until = asked
    for each in known:
        pause()
        case = Case(each.plant, each.kind, house, on, each.kind_known)
        for job in _jobs(each, case, beside, until):
            yield _line(job, each, None, beside, on)


def _jobs(each: Known, case: Case, beside: Beside, until: date) -> Iterator[Job]:
    tag, plant_id, on = each.plant.tag, each.plant_id, case.on
    opened = beside.opened.get(plant_id, ())
    yield from rests.jobs(case, until)
    yield from leaching.jobs(case, until)
    yield from repots.jobs(case, until)
    yield from looks.jobs(case, until, beside.came_on.get(plant_id))
    own, last = blooms.next_opening(opened, on), max(opened, default=None)
    yield from stems.jobs(case, until, own, last)
    yield from newcomers.jobs(case, until)
    yield from treatments.jobs(tag, beside.treatments.get(plant_id, ()), until)
    yield from blooms.jobs(tag, opened, on, until)
    yield from weather.cover(case, until)


def _of_places(
    known: tuple[Known, ...], beside: Beside, house: House, on: date, until: date
) -> Iterator[JobLine]:
    for place in beside.places:
        if not place.outdoors:
            continue
        here: dict[Warmth, tuple[str, ...]] = {}
        home: dict[Warmth, tuple[str, ...]] = {}
        for each in known:
            stands = each.plant.place
            stood = place.name in beside.stood_at.get(each.plant_id, ())
            group = here if stands.name == place.name else home
            if group is here or (stood and not stands.outdoors):
                warmth = each.kind.warmth
                group[warmth] = (*group.get(warmth, ()), each.plant.tag)
        outdoors = moves.Outdoors(place.name, place.lows_c, here, home)
        for job in moves.jobs(outdoors, house, on, until):
            yield _line(job, None, place, beside, on)


def _of_nights(
    known: tuple[Known, ...], beside: Beside, house: House, on: date, until: date
) -> Iterator[JobLine]:
    for place in beside.places:
        days = beside.expected.get(place.place_id, ())
        if not days:
            continue
        stand = [
            Standing(each.plant.tag, each.kind, each.at_glass, place.outdoors)
            for each in known
            if each.plant.place.name == place.name
        ]
        for day, expected in days:
            if day <= until:
                for job in weather.shelter(place.name, day, expected, (stand, house)):
                    yield _line(job, None, place, beside, on)


def _line(
    job: Job, each: Known | None, place: PlaceFacts | None, beside: Beside, on: date
) -> JobLine:
    plant_id = None if each is None else each.plant_id
    place_id = None if place is None else place.place_id
    record = beside.closed.get((plant_id, place_id, job.key, job.on))
    if record is None and job.floating:
        record = beside.floating.get((plant_id, place_id, job.key))
    stands = "" if each is None else each.plant.place.name
    walk = each.walk if each is not None else (0, "", 0, 0, 0)
    return JobLine(
        ref=JobRef(job.key, record.due_on if record else job.on, plant_id, place_id),
        sort=job.sort,
        until=job.until,
        tag=job.tag,
        name="" if each is None else each.plant.name,
        place=stands if place is None else place.name,
        title=job_words.title(job),
        sentence=job_words.sentence(job, on),
        walk=walk if place is None else place.walk,
        settled=job.settled,
        forecast=job.forecast,
        floating=job.floating,
        closed=None if record is None else word(Closed, record.what),
        closed_on=None if record is None else record.done_on,
        note="" if record is None else record.note,
    )
