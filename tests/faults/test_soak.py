"""F19: random actions in the real window, a short while; the whole is asked by hand."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tests.faults.running import harness, linux_only

if TYPE_CHECKING:
    from collections.abc import Callable

pytestmark = linux_only
ACTIONS = 120


def test_what_the_window_shows_stays_true(told: Callable[[str], None]) -> None:
    (counts,) = harness("soak", "--actions", str(ACTIONS), "--each", "30")
    told(counts["line"])
    assert counts["faults"] == []
    assert (counts["actions"], counts["compared"]) == (ACTIONS, 4)
    assert counts["nones_lost"] < 1000
    assert counts["widgets_more"] < 60  # what the second half wants first is made then
