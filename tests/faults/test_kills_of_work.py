"""F2, F3: killed in a migration, a backup, a restore, an export, a table, a sheet."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from growdesk.store.migrations import SCHEMA
from tests.faults.running import harness, linux_only

if TYPE_CHECKING:
    from collections.abc import Callable

pytestmark = linux_only
KILLS = 50
FEWER = {"export": 20, "csv": 20, "pdf": 20}
"""What is written by the same means as the others; 50 of each by hand."""


@pytest.mark.parametrize("form", range(1, SCHEMA))
def test_a_migration_killed(form: int, told: Callable[[str], None]) -> None:
    (counts,) = harness("migration_kills", "--form", str(form), "--kills", str(KILLS))
    told(counts["line"])
    assert counts["faults"] == []
    assert counts["kills"] == KILLS
    assert counts["within"] > KILLS / 4, "the kills fell beside the steps"
    assert counts["midway_files"] > KILLS / 5


@pytest.mark.parametrize("work", ["zip", "kept", "restore", "export", "csv", "pdf"])
def test_what_is_written_for_the_grower_killed(
    work: str, told: Callable[[str], None]
) -> None:
    kills = FEWER.get(work, KILLS)
    (counts,) = harness("file_kills", "--work", work, "--kills", str(kills))
    told(counts["line"])
    assert counts["faults"] == []
    assert counts["kills"] == kills
    assert counts["within"] > kills / 3, "the kills came after its end"
