"""F4: any operation on a file may fail once, and nothing is lost or half.

Each n-th here; each by hand (``python -m tests.faults.file_operations``).
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.faults.running import harness, linux_only

if TYPE_CHECKING:
    from collections.abc import Callable

pytestmark = linux_only

_CHANGES = ("tick", "note", "photos", "undo", "table", "open and close", "create")
_FILES = ("sheet", "spreadsheet", "calendar", "report")
_SETS = ("second place", "kept backup", "day's backup", "zip", "export", "migration")
_RUNS = {
    "changes on a full disk": (_CHANGES, "ENOSPC", 6),
    "changes on a broken disk": (("tick", "photos", "open and close"), "EIO", 11),
    "files that may not be written": (_FILES, "EACCES", 1),
    "copies on a full disk": (_SETS, "ENOSPC", 23),
    "a rescue": (("rescue",), "EIO", 149),
}


@pytest.mark.parametrize("run", _RUNS)
def test_each_operation_that_fails_is_told_and_costs_nothing(
    told: Callable[[str], None], run: str
) -> None:
    works, error, every = _RUNS[run]
    asked = [word for work in works for word in ("--work", work)]
    found = harness("file_operations", *asked, "--error", error, "--every", str(every))
    assert [each["work"] for each in found] == [f"{work}, {error}" for work in works]
    for each in found:
        told(each["line"] + (f" (each {every}th)" if every > 1 else ""))
        assert each["faults"] == []
        assert each["operations"] >= 1
        assert each["refused"] >= each["operations"] // 2
