"""The calendar as an iCalendar file (RFC 5545) that any calendar program takes in.

Every job is an event of whole days; one that is overdue stands on the day the file is
made, since a calendar shows nothing of what lies back. Its UID stays the same from one
file to the next, so that a program which takes the file in again changes its events and
adds none.
"""

from __future__ import annotations

import uuid
from datetime import timedelta
from functools import partial
from typing import TYPE_CHECKING

from sqlalchemy import select

from growdesk.domain.errors import StoreError
from growdesk.domain.job_templates import SORTS
from growdesk.domain.speech import tr
from growdesk.services.long_work import quietly
from growdesk.store.schema import MigrationRow
from growdesk.store.trouble import file_trouble
from growdesk.store.whole_files import write_whole

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date, datetime
    from pathlib import Path

    from icalendar import Event

    from growdesk.services.calendar_values import JobLine
    from growdesk.services.collection import Collection
    from growdesk.services.long_work import Step

PRODUCT = "-//growdesk//growdesk calendar//EN"
_SPACE = uuid.UUID("5b0c3c0e-6a0b-5d0e-9a57-0d5f8f7f2c11")


def save(
    collection: Collection,
    file: Path,
    until: date | None = None,
    step: Step = quietly,
) -> int:
    """Write the open jobs of today and after into a file; give how many there are.

    ``step`` may stop the work before anything is written.
    """
    if not file.absolute().parent.is_dir():
        raise StoreError(
            tr("There is no folder {parent}, so the calendar was not saved.").format(
                parent=file.parent
            ),
            tr("Choose a folder that is there."),
        )
    jobs = collection.calendar.jobs(last=until, pause=partial(step, 0, 0))
    lines = [line for line in jobs if line.closed is None]
    made_at, today = collection.clock.now(), collection.clock.today()
    content = as_ical(lines, collection_key(collection), made_at, today, step)
    try:
        write_whole(file, content)
    except OSError as error:
        raise file_trouble(error, file) from error
    return len(lines)


def collection_key(collection: Collection) -> str:
    """Give what tells a collection from others and stays: the second it was made in."""
    with collection.ledger.reading() as session:
        made_at_s = session.scalar(
            select(MigrationRow.at_s).order_by(MigrationRow.id).limit(1)
        )
    return str(made_at_s)


def as_ical(
    lines: Sequence[JobLine],
    key: str,
    made_at: datetime,
    today: date,
    step: Step = quietly,
) -> bytes:
    """Give the file's bytes: folded at 75 octets, each line ended by CR and LF."""
    from icalendar import Calendar, Event

    calendar = Calendar()
    calendar.add("prodid", PRODUCT)
    calendar.add("version", "2.0")
    calendar.add("calscale", "GREGORIAN")
    for number, line in enumerate(lines):
        step(number, len(lines))
        event = _event(Event(), line, key, today)
        event.add("dtstamp", made_at)
        calendar.add_component(event)
    made: bytes = calendar.to_ical()
    return made


def _event(event: Event, line: JobLine, key: str, today: date) -> Event:
    what = line.tag or line.place
    day = "" if line.floating else line.on.isoformat()
    of_day = f"{line.ref.key}|{what}|{day}|{key}"
    summary = f"{what}: {line.title}" if what else line.title
    described = [f"{line.tag} {line.name}".strip(), line.place, line.sentence]
    first = today if line.is_overdue(today) else line.on
    last = max(line.until or first, first)
    event.add("uid", f"{uuid.uuid5(_SPACE, of_day)}@growdesk.invalid")
    event.add("dtstart", first)
    event.add("dtend", last + timedelta(days=1))
    event.add("summary", summary)
    event.add("description", "\n".join(dict.fromkeys(filter(None, described))))
    event.add("categories", [SORTS[line.sort]])
    event.add("transp", "TRANSPARENT")
    return event
