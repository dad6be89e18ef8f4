"""``growdesk calendar``: the year's jobs in words, as JSON, and as a calendar file."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING, Any

import pytest
from icalendar import Calendar  # noqa: TID253 -- the file is read back

from growdesk.domain.jobs.job import Sort
from growdesk.services.demo import lay_demo

if TYPE_CHECKING:
    from pathlib import Path

    from tests.program.conftest import Growdesk

ON = ("--on", "2026-11-25")


@pytest.fixture(scope="module")
def laid(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Give a demo collection of an autumn day."""
    folder = tmp_path_factory.mktemp("calendar") / "collection"
    lay_demo(folder, date(2026, 11, 25))
    return folder


def test_the_calendar_as_json_has_its_keys(growdesk: Growdesk, laid: Path) -> None:
    told: Any = growdesk("--collection", laid, "calendar", *ON, "--json").json
    assert [job["on"] for job in told] == sorted(job["on"] for job in told)
    assert {job["sort"] for job in told} <= {sort.value for sort in Sort}
    assert {"rest", "look", "bloom", "water"} <= {job["sort"] for job in told}
    for job in told:
        assert set(job) == {
            *("key", "sort", "on", "until", "tag", "name", "place", "title"),
            *("sentence", "forecast", "overdue", "closed"),
        }
        assert job["sentence"].endswith(".")
        assert not (job["forecast"] and job["overdue"])
    assert max(job["on"] for job in told) <= "2027-11-26"


def test_the_calendar_in_words_ends_where_it_is_told_to(
    growdesk: Growdesk, laid: Path
) -> None:
    arguments = ("--collection", laid, "calendar", *ON)
    said = growdesk(*arguments, "--until", "2026-12-01").out.splitlines()
    assert said[0] == "To do beside watering, from Wednesday 2026-11-25"
    days = [line[:10] for line in said[1::2]]
    assert max(days) <= "2026-12-01"
    assert any("Rest: E6 Dendrobium nobile" in line for line in said)
    assert len(growdesk(*arguments).out.splitlines()) > len(said)


def test_the_calendars_file_is_read_back(
    growdesk: Growdesk, laid: Path, tmp_path: Path
) -> None:
    file = tmp_path / "orchids.ics"
    arguments = ("--collection", laid, "calendar", *ON, "--ics", file)
    said = growdesk(*arguments)
    events = Calendar.from_ical(file.read_bytes()).walk("VEVENT")
    assert said.out == f"Wrote {len(events)} jobs up to 2027-11-26 to {file}.\n"
    assert len(events) > 20
    assert len({str(event["uid"]) for event in events}) == len(events)
    again = {str(event["uid"]) for event in events}
    growdesk(*arguments)  # a calendar is written over
    anew = Calendar.from_ical(file.read_bytes()).walk("VEVENT")
    assert {str(event["uid"]) for event in anew} == again


@pytest.mark.parametrize(
    ("arguments", "word"),
    [
        (("--until", "2026-11-24"), "out of range"),
        (("--until", "2036-11-24"), "out of range"),
        (("--until", "soon"), "--until"),
        (("--ics", "{folder}"), "is a folder"),
        (("--ics", "{other}"), "is no calendar"),
        (("--ics", "{folder}/none/a.ics"), "no folder"),
    ],
)
def test_slips_are_one_plain_line(
    growdesk: Growdesk,
    laid: Path,
    tmp_path: Path,
    arguments: tuple[str, str],
    word: str,
) -> None:
    other = tmp_path / "letter.txt"
    other.write_text("Dear aunt")
    option, value = arguments
    named = value.format(folder=tmp_path, other=other)
    refused = growdesk("--collection", laid, "calendar", *ON, option, named)
    assert word in refused.refusal
    assert other.read_text() == "Dear aunt"


def test_a_plant_never_looked_at_is_told_so(growdesk: Growdesk, tmp_path: Path) -> None:
    growdesk("--collection", tmp_path / "c", "import", _csv(tmp_path))
    said = growdesk("--collection", tmp_path / "c", "calendar")
    assert "No look is on record." in said.out


def _csv(folder: Path) -> Path:
    file = folder / "plants.csv"
    file.write_text("tag,name\nA1,Cattleya\n")
    return file
