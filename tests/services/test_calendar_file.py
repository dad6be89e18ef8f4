"""The calendar's file, read back by the library and held to RFC 5545 by hand.

What is checked by hand is from RFC 5545, Internet Calendaring and Scheduling Core
Object Specification, September 2009, https://www.rfc-editor.org/rfc/rfc5545: section
3.1 (lines end with CRLF, none over 75 octets but for the break, a fold is CRLF and one
space), 3.3.4 (dates), 3.3.11 (escaping of text), 3.6.1 (UID and DTSTAMP required,
DTEND of a date-valued event not included), 3.8.4.7 (UID).
"""

from __future__ import annotations

import errno
import re
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from icalendar import Calendar as Read  # noqa: TID253 -- the file is read back
from msgspec.structs import replace

from growdesk.domain.errors import StoreError
from growdesk.domain.jobs.job import Sort
from growdesk.services import calendar_file
from growdesk.services.calendar_values import JobLine, JobRef

if TYPE_CHECKING:
    from growdesk.services.collection import Collection
    from tests.services.conftest import Bench

MADE = datetime(2026, 11, 26, 12, tzinfo=UTC)
TODAY = date(2026, 11, 26)
LINE = JobLine(
    ref=JobRef("treat-again", date(2028, 2, 29), 7),
    sort=Sort.TREAT,
    until=None,
    tag="A1",
    name="Cattleya Ærø, 'Blå; \\ Å'",
    place="East window",
    title="Treat again",
    sentence="Treated with soap, by its label; you asked to repeat it.\nTwice — "
    + "ångström " * 12
    + "and no more.",
    walk=(0, "", 0, 0, 0),
)


def by_hand(raw: bytes) -> list[dict[str, str]]:
    """Read the events of a file by the letter of RFC 5545, without the library."""
    assert raw.endswith(b"\r\n")
    assert b"\n" not in raw.replace(b"\r\n", b"")
    physical = raw.split(b"\r\n")[:-1]
    assert all(len(line) <= 75 for line in physical)
    unfolded = raw.replace(b"\r\n ", b"").decode("utf-8").split("\r\n")[:-1]
    assert unfolded[0] == "BEGIN:VCALENDAR"
    assert unfolded[-1] == "END:VCALENDAR"
    events: list[dict[str, str]] = []
    for line in unfolded:
        name, value = line.split(":", 1)
        if line == "BEGIN:VEVENT":
            events.append({})
        elif events and name not in {"END", "BEGIN"}:
            assert name not in events[-1]
            events[-1][name] = value
    return events


def plain(value: str) -> str:
    """Take the escapes out of a text, as section 3.3.11 has them."""
    assert re.search(r"(?<!\\)(?:\\\\)*[;,]", value) is None
    signs = {"n": "\n", "N": "\n"}
    return re.sub(r"\\(.)", lambda m: signs.get(m[1], m[1]), value)


def test_the_file_keeps_to_the_letter() -> None:
    raw = calendar_file.as_ical([LINE], "1", MADE, TODAY)
    (event,) = by_hand(raw)
    assert event["DTSTART;VALUE=DATE"] == "20280229"
    assert event["DTEND;VALUE=DATE"] == "20280301"
    assert event["DTSTAMP"] == "20261126T120000Z"
    assert plain(event["SUMMARY"]) == "A1: Treat again"
    told = f"A1 {LINE.name}\nEast window\n{LINE.sentence}"
    assert plain(event["DESCRIPTION"]) == told
    assert event["CATEGORIES"] == "Treat"
    head = raw.split(b"BEGIN:VEVENT")[0]
    assert b"VERSION:2.0\r\n" in head
    assert b"PRODID:" in head


def test_a_fold_never_breaks_a_letter() -> None:
    raw = calendar_file.as_ical([LINE], "1", MADE, TODAY)
    physical = [line.decode("utf-8") for line in raw.split(b"\r\n")]
    folds = [line for line in physical if line.startswith(" ")]
    assert any("å" in line for line in folds)


def test_the_library_reads_it_back() -> None:
    span = replace(LINE, until=date(2028, 3, 4))
    calendar = Read.from_ical(calendar_file.as_ical([LINE, span], "1", MADE, TODAY))
    one, two = calendar.walk("VEVENT")
    assert one.decoded("dtstart") == date(2028, 2, 29)
    assert one.decoded("dtend") == date(2028, 3, 1)
    assert two.decoded("dtend") == date(2028, 3, 5)
    assert str(one["summary"]) == "A1: Treat again"


def test_the_uid_stays_with_its_job_and_no_other_has_it() -> None:
    def uid(line: JobLine, key: str = "1", at: datetime = MADE) -> str:
        return by_hand(calendar_file.as_ical([line], key, at, TODAY))[0]["UID"]

    later = replace(LINE, sentence="Said anew.", title="Again", until=LINE.on)
    assert uid(later, at=MADE + timedelta(days=3)) == uid(LINE)
    others = {
        uid(replace(LINE, tag="A2")),
        uid(replace(LINE, ref=replace(LINE.ref, key="look-due"))),
        uid(replace(LINE, ref=replace(LINE.ref, on=date(2028, 2, 28)))),
        uid(LINE, key="2"),
    }
    assert len({*others, uid(LINE)}) == 5


def test_a_collections_open_jobs_are_saved(
    collection: Collection,
    bench: Bench,  # noqa: ARG001 -- laid
    today: date,
    tmp_path: Path,
) -> None:
    file = tmp_path / "orchids.ics"
    until = today + timedelta(days=60)
    count = calendar_file.save(collection, file, until)
    lines = collection.calendar.jobs(last=until)
    events = by_hand(file.read_bytes())
    assert count == len(events) == len(lines) > 3
    assert len({event["UID"] for event in events}) == count
    collection.calendar.let_go(next(line for line in lines if line.settled))
    assert calendar_file.save(collection, file, until) == count - 1
    kept = {event["UID"] for event in by_hand(file.read_bytes())}
    assert kept < {event["UID"] for event in events}


def test_nothing_of_the_machine_or_the_grower_is_in_it(
    collection: Collection,
    bench: Bench,  # noqa: ARG001 -- laid
    tmp_path: Path,
) -> None:
    file = tmp_path / "orchids.ics"
    calendar_file.save(collection, file)
    names = {line.split(b":")[0].split(b";")[0] for line in file.read_bytes().split()}
    private = (b"ORGANIZER", b"ATTENDEE", b"LOCATION", b"GEO", b"CONTACT")
    assert not names & set(private)
    assert str(collection.folder).encode() not in file.read_bytes()


def test_a_folder_that_is_not_there_is_refused(
    collection: Collection, tmp_path: Path
) -> None:
    with pytest.raises(StoreError, match="no folder"):
        calendar_file.save(collection, tmp_path / "none" / "orchids.ics")


def test_a_save_that_breaks_leaves_the_calendar_of_before(
    collection: Collection, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = tmp_path / "orchids.ics"
    calendar_file.save(collection, file)
    before = file.read_bytes()

    def full(part: Path, content: bytes) -> int:
        with part.open("wb") as begun:
            begun.write(content[:100])
        raise OSError(errno.ENOSPC, "No space left on device", str(part))

    monkeypatch.setattr(Path, "write_bytes", full)
    with pytest.raises(StoreError, match="full"):
        calendar_file.save(collection, file)
    assert [each.name for each in tmp_path.glob("orchids*")] == ["orchids.ics"]
    assert file.read_bytes() == before


def test_what_is_overdue_stands_on_the_day_the_file_is_made() -> None:
    late = replace(LINE, ref=replace(LINE.ref, on=date(2025, 8, 23)))
    told = replace(late, forecast=True)
    spent = replace(late, until=date(2026, 11, 25))
    lasts = replace(late, until=date(2026, 12, 2))
    raw = calendar_file.as_ical([late, told, spent, lasts], "1", MADE, TODAY)
    days = [
        (event["DTSTART;VALUE=DATE"], event["DTEND;VALUE=DATE"])
        for event in by_hand(raw)
    ]
    assert days == [
        ("20261126", "20261127"),
        ("20250823", "20250824"),  # only told, so that nothing of it is late
        ("20261126", "20261127"),
        ("20250823", "20261203"),
    ]
    next_week = TODAY + timedelta(days=7)
    again = calendar_file.as_ical([late], "1", MADE, next_week)
    assert by_hand(again)[0]["UID"] == by_hand(raw)[0]["UID"]
    assert by_hand(again)[0]["DTSTART;VALUE=DATE"] == "20261203"


def test_a_job_without_a_day_of_its_own_stays_one_event() -> None:
    def uid(days: int, *, floating: bool) -> str:
        day = TODAY + timedelta(days=days)
        line = replace(LINE, ref=JobRef("look-never", day, 7), floating=floating)
        raw = calendar_file.as_ical([line], "key", MADE, day)
        return by_hand(raw)[0]["UID"]

    assert uid(0, floating=True) == uid(1, floating=True)
    assert uid(0, floating=False) != uid(1, floating=False)
