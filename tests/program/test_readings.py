"""`growdesk readings` takes a logger's days in, and says in one line what it lacks."""

from __future__ import annotations

from contextlib import closing
from typing import TYPE_CHECKING, Any

import pytest

from growdesk.services.collection import Collection
from growdesk.services.values import PlaceDraft
from tests.services import logger_files as files

if TYPE_CHECKING:
    from pathlib import Path

    from tests.program.conftest import Growdesk


@pytest.fixture
def made(folder: Path) -> Path:
    """Give a collection with one place."""
    with closing(Collection.open(folder, create=True)) as collection:
        collection.places.add(PlaceDraft("East sill"))
    return folder


@pytest.fixture
def german(tmp_path: Path) -> Path:
    path = tmp_path / "sill.csv"
    path.write_bytes(files.german())
    return path


def undo_title(folder: Path) -> str | None:
    with closing(Collection.open_to_read(folder)) as collection:
        return collection.history.view().undo


def test_days_are_taken_and_told(growdesk: Growdesk, made: Path, german: Path) -> None:
    told = growdesk("readings", german, "--place", "east SILL", "--collection", made)
    assert told.code == 0
    assert told.err == ""
    assert "sill.csv: 96 rows read, 2 days." in told.out
    assert "2026-05-01  18.1     14.0  22.0  60.0  6.1      24     new" in told.out
    assert "Took 2 days for East sill; one undo takes them back." in told.out
    assert undo_title(made) == "2 days of readings for East sill from sill.csv"
    again = growdesk("readings", german, "--place", "East sill", "--collection", made)
    assert "All of it is on record" in again.out


def test_a_dry_run_writes_nothing(growdesk: Growdesk, made: Path, german: Path) -> None:
    before = undo_title(made)
    told = growdesk(
        "readings", german, "--place", "East sill", "--dry-run", "--collection", made
    )
    assert "2 days could be taken for East sill. Nothing was written." in told.out
    assert undo_title(made) == before


def test_json_has_its_fixed_keys(growdesk: Growdesk, made: Path, german: Path) -> None:
    answer: Any = growdesk(
        "readings", german, "--place", "East sill", "--json", "--collection", made
    ).json
    assert set(answer) == {
        "file",
        "place",
        "rows_read",
        "left_out_count",
        "left_out",
        "days",
        "part_days",
        "notices",
        "written",
        "sentence",
    }
    assert answer["written"] is True
    assert answer["rows_read"] == 96
    assert [day["on"] for day in answer["days"]] == ["2026-05-01", "2026-05-02"]
    assert set(answer["days"][0]) == {
        "on",
        "mean_c",
        "low_c",
        "high_c",
        "humidity_percent",
        "light_mol_per_m2_d",
        "hours",
        "record",
    }
    assert answer["days"][0]["light_mol_per_m2_d"] == pytest.approx(6.11, abs=0.03)


def test_dates_that_go_both_ways_are_asked_for(
    growdesk: Growdesk, made: Path, tmp_path: Path
) -> None:
    path = tmp_path / "both.csv"
    path.write_text(files.ambiguous("%m/%d/%Y"))
    line = ("readings", path, "--place", "East sill", "--collection", made)
    assert growdesk(*line).refusal == (
        "--day-order: '05/01/2026' can be read in several ways. Add --day-order dmy"
        " (5 Jan 2026 to 5 Feb 2026) or --day-order mdy (1 May 2026 to 2 May 2026)."
    )
    assert "2026-05-02" in growdesk(*line, "--day-order", "mdy").out


def test_columns_are_named_where_the_header_does_not(
    growdesk: Growdesk, made: Path, tmp_path: Path
) -> None:
    path = tmp_path / "bare.csv"
    text = files.named_months().decode().split("\n", 1)[1]
    path.write_text(text.replace(" °C", "").replace(" %", "").replace(" lx", ""))
    line = ("readings", path, "--place", "East sill", "--collection", made)
    refused = growdesk(*line).refusal
    assert refused.startswith("--columns: 'a reading' is in no column.")
    assert "Column 1; Column 2; Column 3; Column 4" in refused
    named = growdesk(*line, "--columns", "time,temperature_c, ,lux")
    assert "2026-05-01  18.1     14.0  22.0        6.1" in named.out


@pytest.mark.parametrize(
    ("options", "said"),
    [
        (("--place", "Nowhere"), "--place: 'Nowhere' is not a place"),
        (("--place", "East sill", "--columns", "time,warmth"), "--columns: 'warmth'"),
        (("--place", "East sill", "--columns=-,humidity"), "'date' is in no column"),
        (("--place", "East sill", "--day-order", "dym"), "invalid choice"),
        ((), "--place"),
    ],
)
def test_slips_are_one_line(
    growdesk: Growdesk, made: Path, german: Path, options: tuple[str, ...], said: str
) -> None:
    refused = growdesk("readings", german, *options, "--collection", made).refusal
    assert said in refused


def test_a_file_without_a_whole_day_is_a_slip(
    growdesk: Growdesk, made: Path, tmp_path: Path
) -> None:
    path = tmp_path / "short.csv"
    path.write_text("Time,°C\n2026-05-01 10:00,20\n2026-05-01 11:00,OFL\n")
    told = growdesk("readings", path, "--place", "East sill", "--collection", made)
    assert told.code == 2
    assert "1 May 2026: 0 of 24 hours read, too few for a mean." in told.out
    assert "Line 3: °C: “OFL” is no number." in told.out
    assert "gives no whole day" in told.err


def test_without_a_collection_it_says_how_to_begin(
    growdesk: Growdesk, tmp_path: Path, german: Path
) -> None:
    gone = tmp_path / "gone"
    refused = growdesk(
        "readings", german, "--place", "Sill", "--collection", gone
    ).refusal
    assert "There is no collection" in refused
    assert not gone.exists()
