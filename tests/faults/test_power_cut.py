"""4.3: the power is cut at any operation of the program's own writing."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.faults.running import harness, linux_only

if TYPE_CHECKING:
    from collections.abc import Callable

pytestmark = linux_only


@pytest.mark.parametrize("seed", [1, 2])
def test_no_cut_loses_or_damages_anything(
    seed: int, told: Callable[[str], None]
) -> None:
    (counts,) = harness("power_cut", "--cuts", "1000", "--seed", str(seed))
    told(counts["line"])
    assert counts["examples"] == []
    assert (counts["cuts"], counts["acts"]) == (1000, 120)


@pytest.mark.parametrize(
    ("pragma", "breaks"),
    [("synchronous = OFF", "corrupt"), ("journal_mode = DELETE", "lost")],
)
def test_the_model_breaks_what_must_break(
    pragma: str, breaks: str, told: Callable[[str], None]
) -> None:
    """Without syncs a cut damages; a journal deleted, not cut, loses the last act."""
    (counts,) = harness(
        "power_cut", "--cuts", "150", "--acts", "40", "--pragma", pragma
    )
    told(f"control, {pragma}: {counts['line']}")
    assert counts[breaks] >= 15


@pytest.mark.parametrize(
    "work", ["create", "zip", "kept", "restore", "export", "rescue"]
)
def test_what_is_made_to_be_kept_is_there_or_not(
    work: str, told: Callable[[str], None]
) -> None:
    (counts,) = harness("file_cuts", "--work", work, "--cuts", "60")
    told(counts["line"])
    assert counts["faults"] == []
    assert counts["cuts"] == 60
    assert counts["whole"] >= 15, "what was done is there"
    assert counts["old"] + counts["absent"] >= 10


def test_a_disk_that_never_syncs_breaks_them(told: Callable[[str], None]) -> None:
    asked = ("--work", "restore", "--cuts", "40", "--without-syncs")
    (counts,) = harness("file_cuts", *asked)
    told(f"control, without syncs: {counts['line']}")
    assert len(counts["faults"]) >= 5
