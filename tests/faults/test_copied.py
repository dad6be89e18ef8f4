"""F22: the files of a program that is writing, copied as they lie at any moment."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tests.faults.running import harness, linux_only

if TYPE_CHECKING:
    from collections.abc import Callable

pytestmark = linux_only


def test_a_copy_holds_what_was_acknowledged(told: Callable[[str], None]) -> None:
    (counts,) = harness("copied", "--copies", "200")
    told(counts["line"])
    assert counts["faults"] == []
    assert counts["copies"] == 200
    assert counts["midway"] >= 10
    assert counts["shortened"] >= 3
