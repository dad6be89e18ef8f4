"""F11: two programs on one collection: one window, never two writers."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from growdesk.domain.errors import BusyError
from growdesk.services.collection import Collection
from growdesk.services.values import PlantDraft
from growdesk.store.lock import LOCK_NAME
from growdesk.store.store import Store
from tests.faults.beside_files import add, names, now

if TYPE_CHECKING:
    from collections.abc import Callable

TIMES = 20
pytestmark = pytest.mark.skipif(
    not hasattr(os, "fork"), reason="starts its programs by fork"
)


def test_twenty_double_starts_are_one_window_each(
    tmp_path: Path, told: Callable[[str], None]
) -> None:
    pytest.importorskip("PySide6.QtNetwork")
    collection = Collection.open(tmp_path / "c", create=True)
    collection.plants.add(PlantDraft("A1", "", ""))
    collection.close()
    home = tmp_path / "home"
    home.mkdir()
    where = [str(tmp_path / "c"), str(home), str(TIMES)]
    ran = subprocess.run(
        [sys.executable, "-m", "tests.faults.double_starts", *where],
        cwd=Path(__file__).parents[2],
        env={**os.environ, "QT_QPA_PLATFORM": "offscreen", "PYTHONPATH": "."},
        capture_output=True,
        text=True,
        check=False,
        timeout=300,
    )
    assert ran.stderr == ""
    came = [line.split() for line in ran.stdout.splitlines()]
    assert came == [["0", "10", "1", "1"]] * TIMES
    told(f"F11 double starts: {TIMES}, each one window, raised by the second start")


def _writes(folder: Path, number: int, at: float) -> int:
    """Write as the only one, or give up; say with 3 that somebody else was there."""
    time.sleep(max(0.0, at - time.time()))
    try:
        store = Store.open(folder, now)
    except BusyError:
        return 3
    here = folder / "collection.sqlite.writer"
    here.touch(exist_ok=False)
    add(store, number)
    time.sleep(0.02)
    here.unlink()
    store.close()
    return 0


def test_two_writers_at_once_are_never_both_in(
    tmp_path: Path, told: Callable[[str], None]
) -> None:
    folder = tmp_path / "c"
    Store.open(folder, now, create=True).close()
    (folder / LOCK_NAME).write_text(f"{os.getpid()}\n")
    wrote = refused = 0
    for number in range(TIMES):
        at, children = time.time() + 0.02, []
        for half in range(2):
            child = os.fork()
            if not child:
                code = 99
                try:
                    code = _writes(folder, 10 * number + half, at)
                finally:
                    os._exit(code)
            children.append(child)
        codes = [os.waitstatus_to_exitcode(os.waitpid(each, 0)[1]) for each in children]
        assert set(codes) <= {0, 3}
        wrote += codes.count(0)
        refused += codes.count(3)
    assert len(names(folder)) == wrote
    assert wrote >= TIMES
    told(
        f"F11 writers at once: {TIMES} pairs, {wrote} wrote, {refused} told it is open,"
        " never both in"
    )


def test_a_dead_holder_holds_nothing_and_asks_for_a_check(tmp_path: Path) -> None:
    folder = tmp_path / "c"
    Store.open(folder, now, create=True).close()
    ready, tell = os.pipe()
    child = os.fork()
    if not child:
        store = Store.open(folder, now)
        add(store, 1)
        os.write(tell, b"x")
        time.sleep(60)
        os._exit(99)
    os.read(ready, 1)
    with pytest.raises(BusyError, match="open in another growdesk"):
        Store.open(folder, now)
    reading = Store.open_to_read(folder, now)
    reading.close()
    os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)
    os.close(ready)
    os.close(tell)
    store = Store.open(folder, now)
    assert store.full_check_due
    assert store.notice == ""
    store.close()
    assert names(folder) == ["Shelf 1"]
