"""``growdesk report`` writes a text without a plant, and over nothing."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pathlib import Path

    import pytest

    from tests.program.conftest import Growdesk


def test_the_report_of_the_demo_is_a_text_without_a_plant(
    growdesk: Growdesk, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("platformdirs.user_log_path", lambda *_, **__: tmp_path / "log")
    file = tmp_path / "report.txt"
    run = growdesk("--demo", "report", str(file))
    assert run.code == 0
    assert "nothing was sent" in run.out
    text = file.read_text(encoding="utf-8")
    assert "rows of plant: " in text
    assert "The report was made without a window." in text
    assert "Cattleya" not in text
    again = growdesk("--demo", "report", str(file))
    assert again.code == 2
    assert "is there already" in again.err
    assert file.read_text(encoding="utf-8") == text


def test_a_collection_that_is_damaged_is_reported(
    growdesk: Growdesk, tmp_path: Path
) -> None:
    folder = tmp_path / "collection"
    folder.mkdir()
    (folder / "collection.sqlite").write_bytes(b"\xff" * 5_000)
    file = tmp_path / "report.txt"
    assert growdesk("--collection", str(folder), "report", str(file)).code == 0
    assert "it could not be read: " in file.read_text(encoding="utf-8")
