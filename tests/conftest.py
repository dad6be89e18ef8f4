"""What all tests may ask for: a clock that stands still, and a new collection."""

from __future__ import annotations

import gc
import os
from datetime import date
from typing import TYPE_CHECKING

import pytest

from growdesk.services.clock import FixedClock
from growdesk.services.collection import Collection

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

if not (os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY")):
    os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

TODAY = date(2026, 5, 20)
"""A Wednesday in growth time, and a watering day by the house's defaults."""


def pytest_runtest_setup() -> None:
    """Let Python collect cycles again; the window's tests do it themselves."""
    gc.enable()


@pytest.fixture
def today() -> date:
    return TODAY


@pytest.fixture
def clock() -> FixedClock:
    return FixedClock(TODAY)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return tmp_path / "collection"


@pytest.fixture
def collection(folder: Path, clock: FixedClock) -> Iterator[Collection]:
    made = Collection.open(folder, clock, create=True)
    yield made
    made.close()
