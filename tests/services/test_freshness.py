"""Whatever was done: what is shown is what a collection just opened shows."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.services.freshness import Freshness

if TYPE_CHECKING:
    from pathlib import Path


@pytest.mark.parametrize("seed", [5])
def test_what_is_kept_is_what_is_read_anew(folder: Path, seed: int) -> None:
    run = Freshness(folder, seed)
    try:
        run.run(24, likely=0.5)
        assert run.compared.total() > 12
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
