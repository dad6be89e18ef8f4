"""F23: another day's journal beside the file is played back by no command at all.

SQLite would turn the file into neither of the two (sqlite.org/howtocorrupt.html, 1.4).
"""

from __future__ import annotations

from contextlib import closing
from datetime import date
from typing import TYPE_CHECKING

import pytest

from growdesk.services.clock import FixedClock
from growdesk.services.collection import Collection
from growdesk.services.full_check import look_through
from growdesk.services.values import PlantDraft
from tests.faults.beside_files import aside, journal, unsealed

if TYPE_CHECKING:
    from pathlib import Path

    from tests.program.conftest import Growdesk

FILE = "collection.sqlite"


@pytest.fixture(params=["sealed", "unsealed"])
def stale(tmp_path: Path, request: pytest.FixtureRequest) -> tuple[Path, bytes]:
    """Give a folder with a journal of three changes ago, and its file's content."""
    folder = tmp_path / "mine"
    states = []
    for number in range(4):
        made = Collection.open(folder, FixedClock(date(2026, 5, 20)), create=True)
        with closing(made):
            for each in range(30):
                tag = f"A{number}-{each}"
                made.plants.add(PlantDraft(tag, "Cattleya hybrid", "cattleya"))
        states.append((folder / FILE).read_bytes())
    (folder / f"{FILE}-journal").write_bytes(journal(states[0], states[1]))
    if request.param == "unsealed":
        unsealed(folder)
    return folder, states[-1]


@pytest.mark.parametrize("command", [("check",), ("backup",), ("backup", "out.zip")])
def test_what_reads_the_file_alone_sets_it_aside_and_says_so(
    growdesk: Growdesk,
    stale: tuple[Path, bytes],
    tmp_path: Path,
    command: tuple[str, ...],
) -> None:
    folder, content = stale
    given = [tmp_path / each if "." in each else each for each in command]
    run = growdesk("--collection", folder, *given)
    assert run.code == 0
    assert "do not belong to" in run.err
    assert (folder / FILE).read_bytes() == content
    assert len(aside(folder)) == 1


def test_a_restore_sets_the_collection_aside_as_it_was(
    growdesk: Growdesk, stale: tuple[Path, bytes], tmp_path: Path
) -> None:
    folder, content = stale
    left = (folder / f"{FILE}-journal").read_bytes()
    growdesk("--collection", folder, "backup", tmp_path / "out.zip")
    (folder / f"{FILE}-journal").write_bytes(left)
    assert growdesk("--collection", folder, "restore", tmp_path / "out.zip").code == 0
    (old,) = tmp_path.glob("mine-before-restore-*")
    assert (old / FILE).read_bytes() == content


def test_a_rescue_reads_the_file_without_it(
    growdesk: Growdesk, stale: tuple[Path, bytes], tmp_path: Path
) -> None:
    folder, content = stale
    run = growdesk("rescue", folder, "--into", tmp_path / "saved")
    assert run.code == 0
    assert (folder / FILE).read_bytes() == content
    found = look_through(tmp_path / "saved")
    assert (found.plants, found.damage) == (120, ())
