"""Run a harness in a process of its own, and read what it counted."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

ROOT = Path(__file__).parents[2]

linux_only = pytest.mark.skipif(
    sys.platform != "linux",
    reason="forks, kills and records by means that only Linux has",
)


def in_memory() -> str | None:
    """Give a folder whose files need no disk, for what is only built and looked at."""
    return "/dev/shm" if Path("/dev/shm").is_dir() else None  # noqa: S108


def harness(name: str, *arguments: str) -> list[dict[str, Any]]:
    """Give the counts that ``python -m tests.faults.NAME`` prints as JSON lines."""
    came = subprocess.run(
        [sys.executable, "-m", f"tests.faults.{name}", "--json", *arguments],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
        timeout=600,
    )
    lines = [line for line in came.stdout.splitlines() if line.startswith("{")]
    assert lines, came.stderr
    return [json.loads(line) for line in lines]
