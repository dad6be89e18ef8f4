"""Backups on the command line: made, listed, proved, and made by themselves."""

from __future__ import annotations

import json
import shutil
from datetime import date
from typing import TYPE_CHECKING, Any

import pytest

from growdesk.services import second_place
from growdesk.services.clock import SystemClock
from growdesk.services.demo import lay_demo

if TYPE_CHECKING:
    from pathlib import Path

    from tests.program.conftest import Growdesk

CSV = "tag,name\nN1,Cattleya hybrid\n"


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("demo") / "collection"
    lay_demo(folder, date(2026, 3, 28))
    return folder


@pytest.fixture
def laid(demo: Path, tmp_path: Path) -> Path:
    """Give a copy of the demo collection that a test may change."""
    return shutil.copytree(demo, tmp_path / "mine")


@pytest.fixture
def table(tmp_path: Path) -> Path:
    file = tmp_path / "plants.csv"
    file.write_text(CSV)
    return file


def listed(growdesk: Growdesk, folder: Path) -> list[dict[str, Any]]:
    found = growdesk("--collection", folder, "backups", "--json").json
    assert isinstance(found, list)
    return found


def test_a_backup_is_kept_and_listed(growdesk: Growdesk, laid: Path) -> None:
    empty = growdesk("--collection", laid, "backups")
    assert (empty.code, empty.out) == (0, "No backup is kept yet.\n")
    made = growdesk("--collection", laid, "backup")
    assert (made.code, made.err) == (0, "")
    (backup,) = listed(growdesk, laid)
    assert backup["folder"] in made.out
    assert set(backup) == {
        "made_at",
        "why",
        "plants",
        "photos",
        "bytes",
        "form",
        "whole",
        "problem",
        "folder",
    }
    assert (backup["why"], backup["whole"], backup["problem"]) == ("by-hand", True, "")
    assert backup["plants"] >= 30
    assert backup["photos"] == len(list((laid / "photos").glob("*/*")))
    told = growdesk("--collection", laid, "backups", "--prove")
    assert (told.code, told.err) == (0, "")
    assert "by hand" in told.out
    assert "whole" in told.out


def test_one_that_is_not_whole_is_named_and_ends_as_damage(
    growdesk: Growdesk, laid: Path
) -> None:
    growdesk("--collection", laid, "backup")
    growdesk("--collection", laid, "backup")
    newest, _ = listed(growdesk, laid)
    database = laid / "backups" / newest["folder"] / "collection.sqlite"
    content = bytearray(database.read_bytes())
    content[-100] ^= 1
    database.write_bytes(content)
    assert growdesk("--collection", laid, "backups").code == 0
    refused = growdesk("--collection", laid, "backups", "--prove")
    assert "1 backup is not whole" in refused.refusal
    assert "is not what it was" in refused.out
    assert "whole" in refused.out
    broken = growdesk("--collection", laid, "backups", "--prove", "--json")
    assert [each["whole"] for each in json.loads(broken.out)] == [False, True]


def test_a_command_that_writes_makes_the_days_backup_first(
    growdesk: Growdesk, laid: Path, table: Path
) -> None:
    plants = len(growdesk("--collection", laid, "decide", "--json").json)  # type: ignore[arg-type]
    assert listed(growdesk, laid) == []
    assert growdesk("--collection", laid, "import", table).err == ""
    (backup,) = listed(growdesk, laid)
    assert backup["why"] == "daily"
    assert backup["plants"] >= plants
    after = growdesk("--collection", laid, "backup")
    assert f"{backup['plants'] + 1} plants" in after.out
    table.write_text(CSV.replace("N1", "N2"))
    growdesk("--collection", laid, "import", table)
    assert [each["why"] for each in listed(growdesk, laid)] == ["by-hand", "daily"]


def test_a_rehearsal_and_a_new_collection_make_none(
    growdesk: Growdesk, laid: Path, table: Path, tmp_path: Path
) -> None:
    growdesk("--collection", laid, "import", table, "--dry-run")
    assert listed(growdesk, laid) == []
    new = tmp_path / "new"
    growdesk("--collection", new, "import", table)
    assert listed(growdesk, new) == []


def test_what_stops_the_days_backup_is_told_and_the_work_is_done(
    growdesk: Growdesk, laid: Path, table: Path
) -> None:
    (laid / "backups").write_text("in the way")
    run = growdesk("--collection", laid, "import", table)
    assert run.code == 0
    assert "Took in 1 plant" in run.out
    assert run.err.startswith("No backup was made today.")
    assert run.err.count("\n") == 1


def test_the_second_place_is_told_there_or_not(
    growdesk: Growdesk, laid: Path, tmp_path: Path
) -> None:
    stick = tmp_path / "stick"
    stick.mkdir()
    place = second_place.choose(laid, stick, SystemClock().now())
    assert place is not None
    made = growdesk("--collection", laid, "backup")
    assert f"A copy is in {place.backups}." in made.out
    assert len(listed(growdesk, laid)) == 2
    stick.rename(tmp_path / "drawer")
    again = growdesk("--collection", laid, "backup")
    assert f"It was not copied to {stick}, which is not there now." in again.out
    assert "is not there now" in growdesk("--collection", laid, "backups").out
    assert not stick.exists()


def test_the_demo_keeps_no_backup(growdesk: Growdesk, tmp_path: Path) -> None:
    assert "thrown away" in growdesk("--demo", "backup").refusal
    assert growdesk("--demo", "backup", tmp_path / "demo.zip").code == 0
