"""What the command-line tests share: a facts file and a way to run growdesk."""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import TYPE_CHECKING

import pytest

from growdesk.app import main

if TYPE_CHECKING:
    from pathlib import Path


@pytest.fixture(autouse=True, scope="session")
def _one_application(qapp: object) -> object:
    """Let the window's application come first: the sheet's alone would bar it."""
    return qapp


FACTS: dict[str, object] = {
    "house": {
        "latitude": 48.2,
        "full_strength_ppm_n": 300,
        "strength_step_ppm_n": 10,
        "look_limit_days": 21,
        "least_interval_days": 6,
        "feeds_before_flush": 3,
        "jugs": 3,
    },
    "plants": [
        {
            "tag": "A1",
            "name": "Cattleya hybrid",
            "kind": "cattleya",
            "hybrid": True,
            "place": {"kind": "windowsill", "controlled": False},
            "pot_volume_l": 1.5,
            "looks": [
                {
                    "on": "2026-01-20",
                    "new_growths": {"extending": 1, "matured": 2},
                    "root_tips": "running",
                    "flowering": "open",
                    "leaves": "firm",
                    "health": [],
                }
            ],
            "care": [{"on": "2026-01-10", "what": "feed", "strength_ppm_n": 160}],
        },
        {
            "tag": "B2",
            "name": "Fräulein Ærø",
            "kind": "unheard-of",
            "pot_volume_l": 0.6,
            "looks": [{"on": "2025-06-01", "root_tips": "none"}],
        },
    ],
}


class Run:
    """What one run of growdesk gave."""

    def __init__(self, code: int, out: str, err: str) -> None:
        self.code = code
        self.out = out
        self.err = err

    @property
    def json(self) -> object:
        """Give the answer, which was asked for as JSON."""
        assert self.code == 0, self.err
        assert self.err == ""
        return json.loads(self.out)

    @property
    def refusal(self) -> str:
        """Give the one plain line of a run that was refused."""
        assert self.code == 2, self.out
        assert self.err.endswith("\n")
        line = self.err[:-1]
        assert line
        assert "\n" not in line
        assert "Traceback" not in line
        return line


Growdesk = Callable[..., Run]


@pytest.fixture
def growdesk(capsys: pytest.CaptureFixture[str]) -> Growdesk:
    """Give a function that runs growdesk in this process."""

    def run(*arguments: object) -> Run:
        capsys.readouterr()
        code = main([str(argument) for argument in arguments])
        captured = capsys.readouterr()
        return Run(code, captured.out, captured.err)

    return run


@pytest.fixture
def facts_file(tmp_path: Path) -> Path:
    """Give a facts file with one plant that is fed and one to look at first."""
    path = tmp_path / "facts.json"
    path.write_text(json.dumps(FACTS), encoding="utf-8")
    return path
