"""Whatever was done: what is shown is what a collection just opened shows."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from growdesk.services import begun_day
from tests.services.freshness import FEW, Freshness

if TYPE_CHECKING:
    from pathlib import Path


@pytest.fixture(autouse=True)
def by_steps(monkeypatch: pytest.MonkeyPatch) -> None:
    """Have even these few plants judged by steps."""
    for name, many in zip(("AT_ONCE", "FIRST", "STEP"), FEW, strict=True):
        monkeypatch.setattr(begun_day, name, many)


@pytest.mark.parametrize("seed", [5])
def test_what_is_kept_is_what_is_read_anew(folder: Path, seed: int) -> None:
    run = Freshness(folder, seed)
    try:
        run.run(24, likely=0.5)
        assert run.compared.total() > 12
        assert run.compared["steps, part"] > 3
        assert run.compared["steps, whole"] > 1
        assert run.done.total() > 2 * run.refused.total()
    finally:
        run.close()


def test_what_is_amid_writing_is_not_kept(folder: Path) -> None:
    run = Freshness(folder, 3)
    try:
        for _ in range(3):
            run.do_together_in_vain()
            run.do_care()
            run.compare("day")
        run.do_together()
    finally:
        run.close()
