"""Names that look like markup, on everything that leaves the program: as typed.

They come in by a table. What stands in a PDF is read back by pypdf, a calendar by
icalendar, tables by the csv module; none of them had a hand in writing.
"""

from __future__ import annotations

import csv
import io
import re
from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING

import pypdf
import pytest

from growdesk.services.csv_form import write_table
from tests.faults.hostile_names import ALL, TAGS

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from tests.program.conftest import Growdesk

    Told = Callable[[str], None]
PLAIN = {word: name for word, name in ALL.items() if name.isascii()}
"""Those of which every letter has a form in the fonts of paper."""


@pytest.fixture
def mine(growdesk: Growdesk, tmp_path: Path) -> Path:
    """Give a collection into which a table brought every name, place and tag."""
    names = list(ALL.values())
    tags = [*TAGS, *(f"T{number}" for number in range(len(names) - len(TAGS)))]
    table = tmp_path / "plants.csv"
    rows = [
        (tag, name, "cattleya", names[-1 - at % 3], "1.5", f"{name}\n{name}")
        for at, (tag, name) in enumerate(zip(tags, names, strict=True))
    ]
    head = ("tag", "name", "kind", "place", "pot_volume_l", "note")
    table.write_bytes(write_table(head, rows))
    folder = tmp_path / "mine"
    done = growdesk("--collection", folder, "import", table)
    assert done.code == 0, done.err
    return folder


def _letters(text: str) -> str:
    return re.sub(r"\s", "", text.replace("\u00ad", ""))


def _pdf(path: Path) -> str:
    pages = pypdf.PdfReader(path).pages
    assert not any("/URI" in str(page.get("/Annots")) for page in pages)
    return _letters(" ".join(page.extract_text() for page in pages))


def test_paper_tells_names_as_they_were_typed(
    growdesk: Growdesk, mine: Path, tmp_path: Path, told: Told
) -> None:
    today = datetime.now(tz=UTC).date()
    first, last = today + timedelta(days=7), today + timedelta(days=20)
    days = ("--from", first.isoformat(), "--until", last.isoformat())
    found = {}
    for paper, extra in (
        ("look-list", ("--paper", "A4")),
        ("sheet", ("--paper", "A4")),
        ("tags", ("--layout", "A4 2x4 99.1x67.7 mm", "--copies", "1")),
        ("away", (*days, "--paper", "A4", "--call", "<b>&amp; {x} %s")),
        ("year", ("--paper", "A4")),
    ):
        pdf = tmp_path / f"{paper}.pdf"
        done = growdesk("--collection", mine, paper, "--pdf", pdf, *extra)
        assert done.code == 0, (paper, done.err)
        text = _pdf(pdf)
        wrong = [
            name
            for word, name in PLAIN.items()
            if word in text and _letters(name)[:30] not in text
        ]
        assert wrong == [], paper
        found[paper] = sum(word in text for word in PLAIN)
    assert found["look-list"] == len(PLAIN)
    assert found["tags"] == len(PLAIN)
    told(
        "F15 names on paper: "
        + ", ".join(f"{paper} {count}" for paper, count in found.items())
        + ", all as typed"
    )


def test_a_calendar_file_holds_one_entry_a_job_whatever_names_say(
    growdesk: Growdesk, mine: Path, tmp_path: Path, told: Told
) -> None:
    import icalendar

    ics = tmp_path / "jobs.ics"
    wanted = growdesk("--collection", mine, "calendar", "--json").json
    assert isinstance(wanted, list)
    growdesk("--collection", mine, "calendar", "--ics", ics)
    raw = ics.read_bytes()
    assert all(len(line) <= 75 for line in raw.split(b"\r\n"))
    assert raw.count(b"\n") == raw.count(b"\r\n")
    calendar = icalendar.Calendar.from_ical(raw)
    events = [each for each in calendar.walk() if each.name in {"VEVENT", "VTODO"}]
    assert len(events) == sum(not each["closed"] for each in wanted)
    texts = " ".join(f"{each['summary']} {each.get('description')}" for each in events)
    named = [word for word in ALL if word in texts]
    assert all(_letters(ALL[word]) in _letters(texts) for word in named)
    told(f"F15 names in a calendar: {len(events)} entries, {len(named)} names as typed")


def test_an_export_holds_every_name_and_brings_it_back(
    growdesk: Growdesk, mine: Path, tmp_path: Path, told: Told
) -> None:
    out, back = tmp_path / "out", tmp_path / "back"
    growdesk("--collection", mine, "export", out)
    raw = (out / "plants.csv").read_text("utf-8-sig")
    rows = list(csv.DictReader(io.StringIO(raw, newline="")))
    assert not any(
        cell[:1] in {"=", "+", "-", "@", "\t", "\r"}
        for row in rows
        for cell in row.values()
    )
    done = growdesk("--collection", back, "import", out)
    assert done.code == 0, done.err
    again = tmp_path / "again"
    growdesk("--collection", back, "export", again)
    assert (again / "plants.csv").read_bytes() == (out / "plants.csv").read_bytes()
    told(f"F15 names in tables: {len(rows)} out, in and out again, identical")


def test_decisions_tell_names_as_json_and_in_words(
    growdesk: Growdesk, mine: Path
) -> None:
    told = growdesk("--collection", mine, "decide", "--json").json
    assert isinstance(told, list)
    assert {each["name"] for each in told} == {name.strip() for name in ALL.values()}
    assert growdesk("--collection", mine, "decide").code == 0
