"""A sample beside the grower's own collection: a program of its own."""

from __future__ import annotations

import subprocess
import sys
from typing import TYPE_CHECKING

from growdesk.ui import sample
from tests.ui.driving import status

if TYPE_CHECKING:
    from pathlib import Path

    import pytest
    from pytestqt.qtbot import QtBot

    from growdesk.ui.window import Window


def test_the_sample_is_this_program_on_its_demo() -> None:
    asked = (*sample.command(), "shelf", "--json")
    done = subprocess.run(
        asked, capture_output=True, text=True, timeout=120, check=True
    )
    assert '"goods"' in done.stdout


def test_a_frozen_program_starts_itself(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "frozen", True, raising=False)
    assert sample.command() == (sys.executable, "--demo")


def test_the_sample_opens_beside_and_leaves_what_is_open(
    qtbot: QtBot, window: Window, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    mark = tmp_path / "started"
    writes = f"open({str(mark)!r}, 'w').close()"
    monkeypatch.setattr(sample, "command", lambda: (sys.executable, "-c", writes))
    before = window.desk.collection
    window.commands["sample"].trigger()
    assert status(window) == sample.OPENING
    qtbot.waitUntil(mark.exists, timeout=20_000)
    assert window.desk.collection is before


def test_what_cannot_be_started_is_told(
    window: Window, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    nowhere = str(tmp_path / "nowhere")
    monkeypatch.setattr(sample, "command", lambda: (nowhere, "--demo"))
    window.commands["sample"].trigger()
    assert status(window).startswith("The sample could not be opened: ")
