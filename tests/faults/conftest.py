"""What the tests of faults share: the store as the program has it."""

from __future__ import annotations

import pytest


@pytest.fixture(autouse=True)
def quick() -> None:
    """Leave the store as it is."""
