"""What all tests may ask for: a clock that stands still, and a new collection.

A test that counts (kills, cuts, damaged files) tells its counts by ``told``; they are
printed together before pytest's own last line.
"""

from __future__ import annotations

import gc
import os
from datetime import date
from typing import TYPE_CHECKING

import pytest

from growdesk.services.clock import FixedClock
from growdesk.services.collection import Collection
from tests.quick_store import quick_store
from tests.server_store import SERVER, let_go, stores_on_server

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

if not (os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY")):
    os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

TODAY = date(2026, 5, 20)
"""A Wednesday in growth time, and a watering day by the house's defaults."""


_COUNTED = "counted"


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """Print what was counted, by the tests' own lines."""
    lines = sorted(
        str(line)
        for reports in terminalreporter.stats.values()
        for report in reports
        if isinstance(report, pytest.TestReport) and report.when == "call"
        for name, line in report.user_properties
        if name == _COUNTED
    )
    if lines:
        terminalreporter.section("counted")
        for line in lines:
            terminalreporter.line(line)


def pytest_configure(config: pytest.Config) -> None:
    """Name the mark of tests that a server cannot be asked."""
    config.addinivalue_line("markers", "file: is about the file of a collection itself")


def pytest_sessionfinish() -> None:
    """Let go of the server, where there is one."""
    let_go()


def pytest_runtest_setup(item: pytest.Item) -> None:
    """Let Python collect cycles again; the window's tests do it themselves."""
    gc.enable()
    if SERVER and item.get_closest_marker("file") is not None:
        pytest.skip("is about the file itself")


@pytest.fixture
def told(record_property: Callable[[str, object], None]) -> Callable[[str], None]:
    """Give what takes a line of counts, for example "F1 ticks: 200 kills, 0 lost"."""
    return lambda line: record_property(_COUNTED, line)


@pytest.fixture(autouse=True)
def quick() -> Iterator[None]:
    """Give quick stores; the tests of the store and of its faults take the real one."""
    with quick_store(), stores_on_server():
        yield


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
