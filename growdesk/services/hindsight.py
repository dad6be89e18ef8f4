"""Hindsight: past decisions of a plant, marked with what they should have been.

A past day is judged anew from what was on record by then, under the house rules as
they now are; what was really done stands beside it. A mark keeps the verdict, the rule
and the kind as they were when it was made.
"""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING, Any

from sqlalchemy import select

from growdesk.domain import day_words, hindsight, wording
from growdesk.domain.errors import InputError
from growdesk.domain.facts import CareKind, Verdict
from growdesk.domain.judging import judge
from growdesk.domain.speech import tr
from growdesk.services import checking
from growdesk.services.day_rows import WATERING
from growdesk.services.hindsight_values import HindsightTable, PastDay, Rethought
from growdesk.services.kind_rows import table_of
from growdesk.services.known import load_known, load_some
from growdesk.services.ledger import written
from growdesk.services.plant_rows import get_draft, tags_of
from growdesk.services.settings import read_house
from growdesk.services.shelf import house_with_water, read_waters
from growdesk.store.mapping import word
from growdesk.store.schema import CareRow, MarkRow, PassByRow

if TYPE_CHECKING:
    from collections.abc import Iterator
    from datetime import date

    from growdesk.domain.explain import Judgement
    from growdesk.domain.facts import House
    from growdesk.services.known import Known
    from growdesk.services.ledger import Ledger
    from growdesk.services.values import Written
    from growdesk.store.session import Session

PAST_DAYS = 366


class Hindsight:
    """The marks of one collection."""

    def __init__(self, ledger: Ledger) -> None:
        self._ledger = ledger

    def past(self, plant_id: int, until: date) -> tuple[PastDay, ...]:
        """Give a plant's watering days of the year up to a day, the newest first.

        The house's watering days since the plant came on record, and every other day
        on which something was given, passed by or marked.
        """
        since = until - timedelta(days=PAST_DAYS)
        with self._ledger.reading() as session:
            get_draft(session, plant_id)
            house = house_with_water(read_house(session), read_waters(session))
            (known,) = load_known(session, since, plant_id)
            done = _done(session, plant_id, since, until)
            marks = {
                row.day: row
                for row in _mark_rows(session, plant_id)
                if since <= row.day <= until
            }
        watering = _watering_days(known, house, since, until)
        days = sorted({*done, *marks, *watering}, reverse=True)
        return tuple(_past_day(known, house, day, done, marks) for day in days)

    def mark(
        self, plant_id: int, day: date, better: Verdict, note: str = ""
    ) -> Written:
        """Mark what the decision of a day should have been; a second mark replaces."""
        checking.day_done("day", day, self._ledger.today())
        kept_note = checking.text("note", note)
        with self._ledger.reading() as session:
            tag = tags_of(session, [plant_id])[plant_id]
            house = house_with_water(read_house(session), read_waters(session))
            (known,) = load_known(session, day, plant_id)
            there = _mark_id(session, plant_id, day)
        judgement = _judged(known, house, day)
        values = {
            "plant_id": plant_id,
            "day": day,
            "verdict": judgement.verdict,
            "rule": judgement.rule,
            "kind": known.kind.key,
            "better": better,
            "marked_on": self._ledger.today(),
            "note": kept_note,
        }
        title = tr("Hindsight on {tag} of {day}").format(
            tag=tag, day=day_words.day_text(day, self._ledger.today())
        )
        with self._ledger.writing(title) as writing:
            if there is None:
                there = writing.insert(MarkRow, values)
            else:
                writing.update(MarkRow, there, values)
        return written(writing, title, (there,))

    def unmark(self, plant_id: int, day: date) -> Written:
        """Take a mark back."""
        with self._ledger.reading() as session:
            tag = tags_of(session, [plant_id])[plant_id]
            there = _mark_id(session, plant_id, day)
        if there is None:
            hint = tr("Choose a day that has a mark.")
            raise InputError("day", day.isoformat(), tr("has no mark"), hint)
        title = tr("Hindsight on {tag} of {day} taken back").format(
            tag=tag, day=day_words.day_text(day, self._ledger.today())
        )
        with self._ledger.writing(title) as writing:
            writing.delete(MarkRow, there)
        return written(writing, title)

    def table(self) -> HindsightTable:
        """Give all marks counted by rule and kind, and how many hold by now."""
        with self._ledger.reading() as session:
            rows = _mark_rows(session)
            house = house_with_water(read_house(session), read_waters(session))
            rethought = _rethink(session, house, rows)
            known = table_of(session).kinds
        titles = {
            row.kind: tr(known[row.kind].title) if row.kind in known else row.kind
            for row in rows
        }
        tallies = hindsight.tally(_mark(row) for row in rows)
        return HindsightTable(tallies, titles, rethought)

    def rethink(self, house: House) -> Rethought:
        """Judge every marked day again under other house rules, and count."""
        with self._ledger.reading() as session:
            with_water = house_with_water(house, read_waters(session))
            return _rethink(session, with_water, _mark_rows(session))


def _mark(row: Any) -> hindsight.Mark:
    verdict, better = word(Verdict, row.verdict), word(Verdict, row.better)
    return hindsight.Mark(row.rule, row.kind, verdict, better)


def _rethink(session: Session, house: House, rows: list[Any]) -> Rethought:
    """Count the marks that the judging now agrees with."""
    if not rows:
        return Rethought(0, 0)
    wanted = {row.plant_id for row in rows}
    known = {
        each.plant_id: each
        for each in load_some(session, min(row.day for row in rows), wanted)
    }
    asked = [row for row in rows if row.plant_id in known]
    agrees = sum(
        _judged(known[row.plant_id], house, row.day).verdict.value == row.better
        for row in asked
    )
    return Rethought(len(asked), agrees)


def _watering_days(
    known: Known, house: House, since: date, until: date
) -> Iterator[date]:
    """Give the watering days from the first that is on record of the plant."""
    plant = known.plant
    recorded = [*(look.on for look in plant.looks), *(care.on for care in plant.care)]
    first = max(since, min(recorded, default=until + timedelta(days=1)))
    for ahead in range((until - first).days + 1):
        day = first + timedelta(days=ahead)
        if day.weekday() in house.watering_weekdays:
            yield day


def _judged(known: Known, house: House, day: date) -> Judgement:
    return judge(known.plant, known.kind, house, day, kind_known=known.kind_known)


def _past_day(
    known: Known,
    house: House,
    day: date,
    done: dict[date, CareKind | None],
    marks: dict[date, Any],
) -> PastDay:
    judgement = _judged(known, house, day)
    mark = marks.get(day)
    return PastDay(
        on=day,
        verdict=judgement.verdict,
        water=judgement.water,
        rule=judgement.rule,
        short_reason=wording.short(judgement),
        sentence=wording.tell(judgement)[0].sentence,
        done=done.get(day),
        passed_by=day in done and done[day] is None,
        better=None if mark is None else word(Verdict, mark.better),
        note="" if mark is None else mark.note,
    )


def _done(
    session: Session, plant_id: int, since: date, until: date
) -> dict[date, CareKind | None]:
    """Give what was done by day; nothing where the plant was passed by."""
    passed = session.scalars(
        select(PassByRow.day).where(
            PassByRow.plant_id == plant_id, PassByRow.day.between(since, until)
        )
    )
    done: dict[date, CareKind | None] = dict.fromkeys(passed)
    cared = session.execute(
        select(CareRow.day, CareRow.what)
        .where(
            CareRow.plant_id == plant_id,
            CareRow.day.between(since, until),
            CareRow.what.in_(WATERING),
        )
        .order_by(CareRow.id)
    )
    done.update({row.day: word(CareKind, row.what) for row in cared})
    return done


def _mark_rows(session: Session, plant_id: int | None = None) -> list[Any]:
    wanted = select(MarkRow.__table__).order_by(MarkRow.day, MarkRow.id)
    if plant_id is not None:
        wanted = wanted.where(MarkRow.plant_id == plant_id)
    return list(session.execute(wanted))


def _mark_id(session: Session, plant_id: int, day: date) -> int | None:
    return session.scalar(
        select(MarkRow.id).where(MarkRow.plant_id == plant_id, MarkRow.day == day)
    )
