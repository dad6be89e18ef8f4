"""What the tests of faults share: the disk as the program takes it."""

from __future__ import annotations

import pytest


@pytest.fixture(autouse=True)
def disk() -> None:
    """Bring to the disk all that the program brings there."""
