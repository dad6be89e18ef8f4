"""Tells what is to be done beside watering, dated, or writes it as a calendar file."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path
from typing import TYPE_CHECKING

from growdesk.commands import output, reading
from growdesk.domain.errors import InputError
from growdesk.domain.job_templates import SORTS

if TYPE_CHECKING:
    from argparse import Namespace
    from collections.abc import Sequence
    from datetime import date

    from growdesk.commands.desk import Desk
    from growdesk.services.calendar_values import JobLine

MOST_DAYS = 1100
_MAGIC = b"BEGIN:VCALENDAR"


def run(arguments: Namespace, desk: Desk) -> None:
    """Print the open jobs of a year, or up to a day, or write them into a file."""
    on = reading.day("--on", arguments.on, desk.today)
    until = on + timedelta(days=366)
    if arguments.until is not None:
        until = reading.day("--until", arguments.until, on)
    if not on <= until <= on + timedelta(days=MOST_DAYS):
        hint = f"Give a day from {on.isoformat()} on, within three years."
        raise InputError("--until", arguments.until, "is out of range", hint)
    file = None if arguments.ics is None else _file(arguments.ics)
    with desk.reading(on) as collection:
        if file is not None:
            from growdesk.services import calendar_file  # noqa: PLC0415 -- only for it

            count = calendar_file.save(collection, file, until)
            output.say(f"Wrote {count} jobs up to {until.isoformat()} to {file}.")
            return
        lines = collection.calendar.jobs(last=until)
    if arguments.json:
        output.say_json([_report(line, on) for line in lines])
        return
    for text in _lines(lines, on):
        output.say(text)


def _file(name: str) -> Path:
    path = Path(name)
    if path.is_dir():
        hint = "Name the file to write, for example orchids.ics."
        raise InputError("--ics", name, "is a folder", hint)
    if path.exists() and not _is_calendar_or_empty(path):
        hint = "Choose another name; it was left as it is."
        raise InputError("--ics", name, "is there and is no calendar", hint)
    return path


def _is_calendar_or_empty(path: Path) -> bool:
    """Tell whether a file that is there may be written over."""
    if not path.is_file():
        return False
    with path.open("rb") as file:
        head = file.read(len(_MAGIC))
    return head in {b"", _MAGIC}


def _report(line: JobLine, on: date) -> dict[str, object]:
    return {
        "key": line.ref.key,
        "sort": line.sort.value,
        "on": line.on.isoformat(),
        "until": None if line.until is None else line.until.isoformat(),
        "tag": line.tag,
        "name": line.name,
        "place": line.place,
        "title": line.title,
        "sentence": line.sentence,
        "forecast": line.forecast,
        "overdue": line.is_overdue(on),
        "closed": None if line.closed is None else line.closed.value,
    }


def _lines(lines: Sequence[JobLine], on: date) -> list[str]:
    told = [f"To do beside watering, from {on:%A} {on.isoformat()}"]
    lines = [line for line in lines if line.closed is None]
    if not lines:
        told.append("Nothing is due.")
    for line in lines:
        days = line.on.isoformat()
        if line.until is not None and line.until != line.on:
            days += f" to {line.until.isoformat()}"
        late = " (overdue)" if line.is_overdue(on) else ""
        what = f"{line.tag} {line.name}".strip() or line.place
        told.append(f"{days}  {SORTS[line.sort]}: {what}: {line.title}{late}")
        told.append(f"      {line.sentence}")
    return told
