"""Takes a logger's days in as readings of a place: a dry run first, then one action.

``read_days`` needs no collection; ``compare`` holds its days against the record, and
``take`` writes exactly what was compared. A day's temperatures belong together: where
the file gives any of mean, low and high, it gives all three. What the file does not
give stays on record.
"""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from sqlalchemy import select

from growdesk.domain.errors import InputError
from growdesk.domain.facts_fields import words_joined
from growdesk.domain.speech import tr
from growdesk.services import (
    logger_days,
    logger_survey,
    logger_table,
    logger_text,
    logger_words,
)
from growdesk.services.ledger import written
from growdesk.services.logger_columns import QUANTITY, Quantity, Role
from growdesk.services.logger_rows import Reader
from growdesk.services.logger_times import DayOrder
from growdesk.services.logger_values import DayOnRecord, FileRead, Record, Report
from growdesk.services.long_work import quietly
from growdesk.store.mapping import reading_of
from growdesk.store.schema import PlaceRow, ReadingRow

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence
    from datetime import date
    from pathlib import Path

    from growdesk.domain import facts
    from growdesk.services.ledger import Ledger
    from growdesk.services.logger_rows import Reading
    from growdesk.services.logger_survey import Scan
    from growdesk.services.logger_table import Row
    from growdesk.services.logger_text import LoggerText
    from growdesk.services.logger_values import Choices, LoggedDay
    from growdesk.services.long_work import Step
    from growdesk.services.values import Written
    from growdesk.store.session import Session

_LOT = 500
_TEMPERATURES = ("mean_c", "low_c", "high_c")
_GROUPS = (_TEMPERATURES, ("humidity_percent",), ("light_mol_per_m2_d",))


def dry_run(ledger: Ledger, path: Path, choices: Choices, place_id: int) -> Report:
    """Say what taking a file would change at a place; write nothing."""
    return compare(ledger, read_days(path, choices, ledger.today()), place_id)


def read_days(
    path: Path,
    choices: Choices,
    today: date,
    step: Step = quietly,
) -> FileRead:
    """Give the days of a file as chosen; days after ``today`` are left out.

    ``step`` is told of its rows and may stop it.
    """
    return days_of(logger_text.read_text(path), choices, today, step)


def days_of(
    file: LoggerText,
    choices: Choices,
    today: date,
    step: Step = quietly,
) -> FileRead:
    """Give the days of a text that was read before."""
    shape = logger_table.layout(file)
    roles = _checked(choices.roles, shape.names)
    found = logger_survey.scan(file, shape, roles)
    order = _order(choices.day_order, found)
    reader = Reader(shape, roles, order, found.decimal, today)
    rows = logger_table.rows(file, shape)
    readings = reader.read(_told(rows, file.text.count("\n"), step))
    days, notices = _days(readings, roles, reader)
    if readings and not found.example:
        notices.append(tr(logger_words.IN_UTC))
    if not found.decimal:
        notices.append(tr(logger_words.EITHER_DECIMAL))
    return FileRead(
        source=file.source,
        rows_read=len(readings),
        left_out=tuple(reader.left_out.first),
        left_out_count=len(reader.left_out.lines),
        days=tuple(day for day in days if _gives_something(day)),
        part_days=tuple(day for day in days if not _gives_something(day)),
        notices=tuple(notices),
    )


def _told(rows: Iterable[Row], of: int, step: Step) -> Iterator[Row]:
    for number, row in enumerate(rows):
        if not number % _LOT:
            step(number, of)
        yield row


def compare(ledger: Ledger, file: FileRead, place_id: int) -> Report:
    """Hold a file's days against what is on record of a place."""
    with ledger.reading() as session:
        place = session.scalar(select(PlaceRow.name).where(PlaceRow.id == place_id))
        if place is None:
            hint = tr("It was removed; undo brings it back.")
            raise InputError("place", place_id, tr("is not there any more"), hint)
        before = {on: kept for on, (_, kept) in _kept(session, place_id, file).items()}
    days = [
        DayOnRecord(day, _record(before.get(day.on), day.reading), before.get(day.on))
        for day in file.days
    ]
    return Report(file, place_id, place, tuple(days))


def take(ledger: Ledger, report: Report) -> Written:
    """Write the days of a report in one action; what is on record already stays."""
    if not report.to_write:
        hint = tr("Look at the lines that were left out, or choose another file.")
        raise InputError("FILE", report.file.source, tr("gives no new day"), hint)
    days = [each.day.reading for each in report.to_write]
    title = tr("{days} of readings for {place} from {source}").format(
        days=logger_words.days(len(days)), place=report.place, source=report.file.source
    )
    with ledger.writing(title) as writing:
        kept = _kept(writing.session, report.place_id, report.file)
        new = [day for day in days if day.on not in kept]
        ids = writing.insert_many(
            ReadingRow,
            [
                {"place_id": report.place_id, "day": day.on, **_values(day, None)}
                for day in new
            ],
        )
        writing.update_many(
            ReadingRow,
            [
                (kept[day.on][0], _values(day, kept[day.on][1]))
                for day in days
                if day.on in kept
            ],
        )
    return written(writing, title, ids)


def _kept(
    session: Session, place_id: int, file: FileRead
) -> dict[date, tuple[int, facts.Reading]]:
    """Give the number and the readings on record, over the days of a file."""
    if not file.days:
        return {}
    days = [day.on for day in file.days]
    rows = session.execute(
        select(ReadingRow.__table__).where(
            ReadingRow.place_id == place_id,
            ReadingRow.day >= min(days),
            ReadingRow.day <= max(days),
        )
    )
    return {row.day: (row.id, reading_of(row)) for row in rows}


def _values(read: facts.Reading, kept: facts.Reading | None) -> dict[str, object]:
    """Give a row's values: the file's groups, and of the others what is on record."""
    found: dict[str, object] = {}
    for group in _GROUPS:
        gives = any(getattr(read, name) is not None for name in group)
        source = read if gives or kept is None else kept
        found |= {name: getattr(source, name) for name in group}
    return found


def _record(kept: facts.Reading | None, read: facts.Reading) -> Record:
    """Say what a day's readings do to what is on record."""
    if kept is None:
        return Record.NEW
    now, before = _values(read, kept), _values(kept, None)
    changed = [name for name in now if now[name] != before[name]]
    if not changed:
        return Record.SAME
    lost = any(before[name] is not None for name in changed)
    return Record.REPLACED if lost else Record.ADDED_TO


def _gives_something(day: LoggedDay) -> bool:
    return any(value is not None for value in _values(day.reading, None).values())


def _days(
    readings: Sequence[Reading], roles: Sequence[Role], reader: Reader
) -> tuple[list[LoggedDay], list[str]]:
    """Give the days, and what has to be said of how they came about."""
    light = next((r for r in roles if QUANTITY.get(r) is Quantity.LIGHT), None)
    if logger_days.is_daily(readings, roles):
        _refuse_days_without_time(readings)
        has_means = any(Quantity.TEMPERATURE in each.values for each in readings)
        notices = [tr(logger_words.ONE_ROW_A_DAY)] if has_means else []
        if light not in {None, Role.DLI}:
            readings = logger_days.without_light(readings)
            notices.append(tr(logger_words.LIGHT_ONCE_A_DAY))
        return logger_days.from_rows_a_day(readings, reader.left_out), notices
    if light is Role.DLI:
        problem = tr("is the light of a whole day, and this file has many rows a day")
        hint = tr("Leave that column out, or choose one with lux, PPFD or W m-2.")
        raise InputError("columns", logger_words.ROLES[light], problem, hint)
    twice = logger_days.times_read_twice(readings)
    notices = [logger_words.read_twice(twice)] if twice else []
    if light in {Role.LUX, Role.FC}:
        notices.append(tr(logger_words.AS_DAYLIGHT))
    if light is Role.W_PER_M2:
        notices.append(tr(logger_words.AS_SUN))
    return logger_days.from_samples(readings), notices


def _refuse_days_without_time(readings: Sequence[Reading]) -> None:
    days = {reading.at for reading in readings}
    if len(readings) > 2 * len(days):
        hint = tr("Choose the column with the time as well.")
        problem = tr("has several rows a day, and no column says the time")
        raise InputError("columns", tr("date"), problem, hint)


def _order(chosen: DayOrder | None, found: Scan) -> DayOrder:
    if chosen is not None or len(found.orders) < 2:
        first = found.orders[0].order if found.orders else DayOrder.YMD
        return chosen or first
    ways = words_joined([logger_words.dates(each) for each in found.orders])
    problem = tr("can be read in several ways")
    raise InputError(
        "day_order", found.example, problem, tr("Say which: {ways}.").format(ways=ways)
    )


def _checked(roles: Sequence[Role], names: Sequence[str]) -> tuple[Role, ...]:
    """Give a role for each column; refuse roles that cannot be meant together."""
    if len(roles) > len(names):
        hint = tr("Name at most {count}, in the order of the file.").format(
            count=len(names)
        )
        raise InputError("columns", len(roles), tr("are more than the file has"), hint)
    for each, count in Counter(QUANTITY.get(role, role) for role in roles).items():
        if count > 1 and each is not Role.LEAVE_OUT:
            said = (
                logger_words.QUANTITIES[each]
                if isinstance(each, Quantity)
                else logger_words.ROLES[each]
            )
            hint = tr("Leave all but one of its columns out.")
            raise InputError("columns", said, tr("is chosen more than once"), hint)
    if not {Role.TIME, Role.DATE} & set(roles):
        hint = tr("Choose the column with date and time, or with the date.")
        raise InputError("columns", tr("date"), tr("is in no column"), hint)
    if not any(role in QUANTITY for role in roles):
        hint = tr("Choose what at least one column holds.")
        raise InputError("columns", tr("a reading"), tr("is in no column"), hint)
    return (*roles, *[Role.LEAVE_OUT] * (len(names) - len(roles)))
