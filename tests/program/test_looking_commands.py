"""Commands where a collection may not be written, is in use, or was changed."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

import pytest

from growdesk.services.collection import Collection
from growdesk.services.demo import lay_demo
from tests.faults.beside_files import digests, read_only

if TYPE_CHECKING:
    from pathlib import Path

    from tests.program.conftest import Growdesk

ON = "2026-03-28"


@pytest.fixture
def laid(tmp_path: Path) -> Path:
    """Give a demo collection, and beside it a table of one plant to take in."""
    folder = tmp_path / "demo" / "collection"
    lay_demo(folder, date.fromisoformat(ON))
    (tmp_path / "plants.csv").write_text("tag,name\nZ9,Cattleya labiata\n")
    return folder


def test_a_command_that_writes_says_why_it_cannot(
    growdesk: Growdesk, laid: Path, tmp_path: Path
) -> None:
    before = digests(laid)
    at = ("--collection", laid)
    with read_only(laid):
        line = growdesk(*at, "import", tmp_path / "plants.csv").refusal
        assert line.startswith(f"The disk of {laid} may only be read. Copy the coll")
        assert growdesk(*at, "decide", "--on", ON, "--json").json
        assert growdesk(*at, "check").code == 0
    assert digests(laid) == before
    assert growdesk(*at, "import", tmp_path / "plants.csv").code == 0


def test_while_the_window_is_open_reading_goes_on_and_writing_is_refused(
    growdesk: Growdesk, laid: Path, tmp_path: Path
) -> None:
    at = ("--collection", laid)
    window = Collection.open(laid)
    line = growdesk(*at, "import", tmp_path / "plants.csv").refusal
    assert "is open in another growdesk. Close that one first" in line
    assert growdesk(*at, "decide", "--on", ON, "--json").json
    window.close()
    assert growdesk(*at, "import", tmp_path / "plants.csv").code == 0


def test_a_file_changed_by_hand_is_told_beside_the_answer(
    growdesk: Growdesk, laid: Path, tmp_path: Path
) -> None:
    file = laid / "collection.sqlite"
    file.write_bytes(file.read_bytes() + bytes(4096))
    ran = growdesk("--collection", laid, "import", tmp_path / "plants.csv")
    assert ran.code == 0
    assert ran.err.count("\n") == 1
    assert f"The collection in {laid} is not as growdesk left it on" in ran.err
