"""F1: killed at any moment of writing; what was acknowledged is there, nothing is half.

The issue's 200 kills of mixed work run here, and 12 of each work alone; the whole list
(200 and 5 times 50) by ``python -m tests.faults.killing --full``.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.faults.running import harness, linux_only

if TYPE_CHECKING:
    from collections.abc import Callable

pytestmark = linux_only


def check(counts: dict[str, object], kills: int, told: Callable[[str], None]) -> None:
    told(str(counts["line"]))
    assert counts["faults"] == []
    assert counts["kills"] == kills
    assert isinstance(counts["acknowledged"], int)
    assert isinstance(counts["at_work"], int)
    assert counts["acknowledged"] > kills / 2, "the kills came before any work"
    assert counts["at_work"] > kills / 2, "the kills came after all work"


@pytest.mark.parametrize("seed", [1, 2])
def test_mixed_work_killed(seed: int, told: Callable[[str], None]) -> None:
    (counts,) = harness("killing", "--kills", "100", "--seed", str(seed))
    check(counts, 100, told)


def test_each_work_alone_killed(told: Callable[[str], None]) -> None:
    works = ["ticks", "notes", "photos", "undo", "csv"]
    found = harness("killing", "--kills", "12", "--work", *works)
    assert [counts["work"] for counts in found] == works
    for counts in found:
        check(counts, 12, told)


def test_the_harness_finds_what_is_lost(told: Callable[[str], None]) -> None:
    """Acts said to be kept inside a transaction that is still open must be missed."""
    (counts,) = harness("killing", "--kills", "8", "--too-early")
    told(f"control, said before it was kept: {counts['line']}")
    assert len(counts["faults"]) >= 3
