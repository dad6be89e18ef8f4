"""Takes a logger's days in as readings of a place, or says what would be taken."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from growdesk.commands import output
from growdesk.domain.errors import InputError
from growdesk.domain.facts_fields import words_joined

if TYPE_CHECKING:
    from argparse import Namespace
    from datetime import date

    from growdesk.commands.desk import Desk
    from growdesk.services.collection import Collection
    from growdesk.services.logger_values import (
        Choices,
        DayOnRecord,
        FileRead,
        Report,
        Survey,
    )

_HEADS = ("day", "mean °C", "low", "high", "RH %", "mol m-2", "hours", "")


def run(arguments: Namespace, desk: Desk) -> None:
    """Read the file first, then hold its days against the place; write if asked."""
    from growdesk.services import logger_reading, logger_survey  # noqa: PLC0415

    path = Path(arguments.file)
    dry_run: bool = arguments.dry_run
    survey = logger_survey.survey(path)
    choices = _choices(arguments, survey)
    file = _read(path, choices, survey, desk.today)
    opening = desk.reading if dry_run else desk.changing
    with opening(desk.today) as collection:
        place_id = _place_id(collection, arguments.place)
        report = logger_reading.compare(collection.ledger, file, place_id)
        writes = bool(report.to_write) and not dry_run
        if writes:
            logger_reading.take(collection.ledger, report)
    if arguments.json:
        output.say_json(_as_json(report, survey, written=writes))
    else:
        _tell(report, survey, written=writes)
    if not report.days:
        hint = "Look at what was left out, or name its columns with --columns."
        raise InputError("FILE", file.source, "gives no whole day", hint)


def _choices(arguments: Namespace, survey: Survey) -> Choices:
    from growdesk.services.logger_columns import Role  # noqa: PLC0415
    from growdesk.services.logger_times import DayOrder  # noqa: PLC0415
    from growdesk.services.logger_values import Choices  # noqa: PLC0415

    roles = survey.choices.roles
    if arguments.columns is not None:
        known = {role.value: role for role in Role} | {"": Role.LEAVE_OUT}
        given = [name.strip().casefold() for name in arguments.columns.split(",")]
        for name in given:
            if name not in known:
                hint = f"Use {words_joined([role.value for role in Role])}."
                raise InputError("--columns", name, "is not known here", hint)
        roles = tuple(known[name] for name in given)
    order = arguments.day_order
    return Choices(roles, survey.day_order if order is None else DayOrder(order))


def _read(path: Path, choices: Choices, survey: Survey, today: date) -> FileRead:
    """Give the days of a file; what has to be chosen is named by its option."""
    from growdesk.services import logger_reading, logger_words  # noqa: PLC0415

    try:
        return logger_reading.read_days(path, choices, today)
    except InputError as error:
        if error.field == "columns":
            names = "; ".join(column.name for column in survey.columns)
            hint = f"{error.hint} The file's columns are: {names}."
            raise InputError("--columns", error.value, error.problem, hint) from None
        if error.field != "day_order":
            raise
        ways = [
            f"--day-order {each.order} ({logger_words.span(each)})"
            for each in survey.orders
        ]
        hint = f"Add {' or '.join(ways)}." if ways else error.hint
        raise InputError("--day-order", error.value, error.problem, hint) from None


def _place_id(collection: Collection, name: str) -> int:
    views = collection.places.all()
    for view in views:
        if view.draft.name.casefold() == name.strip().casefold():
            return view.place_id
    names = "; ".join(view.draft.name for view in views)
    hint = f"Its places are: {names}." if names else "Add the place in the window."
    raise InputError("--place", name, "is not a place of the collection", hint)


def _tell(report: Report, survey: Survey, *, written: bool) -> None:
    from growdesk.services import logger_words  # noqa: PLC0415

    file = report.file
    rows = output.counted(file.rows_read, "row")
    output.say(f"{file.source}: {rows} read, {logger_words.days(len(report.days))}.")
    if report.days:
        lines = [_HEADS, *map(_row, report.days)]
        for line in output.columns(lines):
            output.say(line)
    for part in file.part_days:
        output.say(logger_words.part_day(part))
    output.say(logger_words.left_out_count(file.left_out_count, len(file.left_out)))
    for entry in file.left_out:
        output.say(f"  {logger_words.left_out(entry)}")
    for notice in (*survey.notices, *file.notices):
        output.say(notice)
    output.say(_ending(report, written=written))


def _ending(report: Report, *, written: bool) -> str:
    from growdesk.services import logger_words  # noqa: PLC0415

    new = logger_words.days(len(report.to_write))
    if written:
        return f"Took {new} for {report.place}; one undo takes them back."
    if report.to_write:
        return f"{new} could be taken for {report.place}. Nothing was written."
    if report.days:
        return f"All of it is on record for {report.place}; nothing was written."
    return "Nothing was written."


def _row(found: DayOnRecord) -> tuple[str, ...]:
    from growdesk.services import logger_words  # noqa: PLC0415

    numbers = logger_words.numbers(found.day)
    return (found.day.on.isoformat(), *numbers, logger_words.on_record(found))


def _as_json(report: Report, survey: Survey, *, written: bool) -> dict[str, object]:
    file = report.file
    return {
        "file": file.source,
        "place": report.place,
        "rows_read": file.rows_read,
        "left_out_count": file.left_out_count,
        "left_out": [
            {"line": each.line, "why": each.why.value, "text": each.text}
            for each in file.left_out
        ],
        "days": [_day_as_json(each) for each in report.days],
        "part_days": [
            {"on": each.on.isoformat(), "hours": each.hours} for each in file.part_days
        ],
        "notices": [*survey.notices, *file.notices],
        "written": written,
        "sentence": _ending(report, written=written),
    }


def _day_as_json(found: DayOnRecord) -> dict[str, object]:
    reading = found.day.reading
    return {
        "on": reading.on.isoformat(),
        "mean_c": reading.mean_c,
        "low_c": reading.low_c,
        "high_c": reading.high_c,
        "humidity_percent": reading.humidity_percent,
        "light_mol_per_m2_d": reading.light_mol_per_m2_d,
        "hours": found.day.hours,
        "record": found.record.value,
    }
