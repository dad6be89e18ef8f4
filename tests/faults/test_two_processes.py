"""F11: two processes at one collection."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tests.faults.running import harness, linux_only

if TYPE_CHECKING:
    from collections.abc import Callable

pytestmark = linux_only
TIMES = 20


def test_there_are_never_two_writers(told: Callable[[str], None]) -> None:
    (counts,) = harness("two_processes", "--times", str(TIMES))
    told(counts["line"])
    assert counts["faults"] == []
    assert counts["opened"] + counts["refused"] == 2 * TIMES
    assert counts["opened"] >= TIMES
    assert counts["refused"] >= TIMES / 2, "they hardly met"
    assert counts["imports"] + counts["imports_refused"] == 2 * TIMES
    assert counts["reads"] == 30
    assert counts["commands"] == 4


def test_the_harness_finds_two_writers(told: Callable[[str], None]) -> None:
    (counts,) = harness("two_processes", "--times", "4", "--without-lock")
    told(f"control, without the lock: {counts['line']}")
    assert any("two writers" in line for line in counts["faults"])
