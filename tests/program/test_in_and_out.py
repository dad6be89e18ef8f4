"""Tables and whole collections go in and out by command."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING, Any

import pytest

from growdesk.services.demo import lay_demo

if TYPE_CHECKING:
    from pathlib import Path

    from tests.program.conftest import Growdesk

ON = "2026-05-20"


@pytest.fixture(scope="module")
def laid(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Give a demo collection that no test changes."""
    folder = tmp_path_factory.mktemp("in-and-out") / "collection"
    lay_demo(folder, date.fromisoformat(ON))
    return folder


def files(folder: Path) -> dict[str, bytes]:
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in folder.rglob("*")
        if path.is_file()
    }


def test_a_collection_goes_out_and_comes_back(
    growdesk: Growdesk, laid: Path, tmp_path: Path
) -> None:
    out, new = tmp_path / "out", tmp_path / "new"
    told = growdesk("--collection", laid, "export", out)
    assert "photos to" in told.out
    assert "do not tell where they were taken" in told.out
    assert f"growdesk import {out}" in told.out
    dry = growdesk("--collection", new, "import", out, "--dry-run")
    assert "could be taken" in dry.out
    assert not new.exists()
    taken = growdesk("--collection", new, "import", out)
    assert "one undo takes them back" in taken.out
    asked = ("decide", "--on", ON, "--json")
    by_new: Any = growdesk("--collection", new, *asked).json
    assert by_new == growdesk("--collection", laid, *asked).json
    assert growdesk("--collection", new, "check").code == 0
    growdesk("--collection", new, "export", tmp_path / "again")
    assert files(tmp_path / "again") == files(out)
    assert "is not empty" in growdesk("--collection", new, "import", out).refusal


def test_half_a_folder_makes_no_collection(
    growdesk: Growdesk, laid: Path, tmp_path: Path
) -> None:
    out, new = tmp_path / "out", tmp_path / "new"
    growdesk("--collection", laid, "export", out, "--keep-location")
    (out / "care.csv").unlink()
    refusal = growdesk("--collection", new, "import", out).refusal
    assert "care.csv is missing" in refusal
    assert not new.exists()


@pytest.fixture
def mine(growdesk: Growdesk, tmp_path: Path) -> Path:
    (tmp_path / "plants.csv").write_text("tag,name\nA1,Vanda\n", encoding="utf-8")
    growdesk("--collection", tmp_path / "mine", "import", tmp_path / "plants.csv")
    return tmp_path / "mine"


def test_looks_and_care_come_in_by_command(
    growdesk: Growdesk, mine: Path, tmp_path: Path
) -> None:
    looks, care = tmp_path / "looks.csv", tmp_path / "care.csv"
    looks.write_text("tag,on,root_tips\nA1,2026-01-02,running\n", encoding="utf-8")
    care.write_text("Pflanze;Datum;Was;ppm\nA1;2.1.2026;gedüngt;90\n", "utf-8")
    assert "Took in 1 look from" in growdesk("--collection", mine, "import", looks).out
    told = growdesk("--collection", mine, "import", care, "--dates", "dmy")
    assert "Took in 1 piece of care from care.csv" in told.out
    again = growdesk("--collection", mine, "import", care, "--dates", "dmy")
    assert "Nothing new in care.csv" in again.out
    assert "On record already: 1 row." in again.out


def test_what_is_open_is_asked_for_by_name(
    growdesk: Growdesk, mine: Path, tmp_path: Path
) -> None:
    file = tmp_path / "other.csv"
    file.write_text("tag,acquired,colour\nA1,2/3/2025,red\n", encoding="utf-8")
    start = ("--collection", mine, "import", file)
    assert "'colour' is not a field of a plant" in growdesk(*start).refusal
    named = (*start, "--columns", "tag,acquired_on,-")
    assert "--dates" in growdesk(*named).refusal
    known = growdesk(*named, "--dates", "dmy").refusal
    assert "is on another plant already" in known
    assert "1 row is bad" in known
    told = growdesk(*named, "--dates", "dmy", "--change")
    assert "0 plants and 1 changed plant" in told.out
    wrong = growdesk(*start, "--as", "looks", "--columns", "tag,on")
    assert "names 2 columns of 3" in wrong.refusal


def test_two_hundred_bad_rows_are_shown_and_all_are_counted(
    growdesk: Growdesk, tmp_path: Path
) -> None:
    file = tmp_path / "plants.csv"
    rows = "".join(f"A{at},-1\n" for at in range(250))
    file.write_text(f"tag,volume_l\n{rows}", encoding="utf-8")
    told = growdesk("--collection", tmp_path / "c", "import", file)
    assert "250 rows are bad" in told.refusal
    assert "first 200 are listed" in told.refusal
    assert told.out.count("Row ") == 200
