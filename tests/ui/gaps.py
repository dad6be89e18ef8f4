"""Measure for how long the window stands still in a scripted watering day.

``python -m tests.ui.gaps`` opens the window on the demo, or with ``--plants 2000`` on
the demo's plants copied that often with ten looks each, and goes through the steps of
``scripted_day``. Of the gaps between two beats of a 5 ms timer on the window's thread
it prints the longest of each step: as the clock has it, and how much of it that thread
itself worked; and of the whole day the longest and the one that 99 of 100 stay under.
Only the gaps until a step has come to rest count. ``--where`` adds what ran in the
longest. Times are for reading, on a quiet machine; tests gate on counts.
"""

from __future__ import annotations

import argparse
import json
import os
import sqlite3
import sys
import tempfile
import threading
import time
import traceback
from contextlib import closing
from dataclasses import asdict, dataclass, field
from functools import partial
from math import ceil
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QEventLoop, Qt, QTimer

from growdesk.services.clock import FixedClock
from growdesk.services.collection import Collection
from growdesk.services.demo import lay_demo
from growdesk.ui.collecting import Collecting
from growdesk.ui.start import application
from growdesk.ui.window import Window
from tests.ui.scripted_day import ON, ScriptedDay

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence
    from types import FrameType

    from PySide6.QtWidgets import QApplication


LOOKS_EACH = 10
OPENING = "window opens"
_BEAT_MS = 5
_LATE_S = 0.02
_QUIET_S = 0.25
_MOST_S = 300.0


@dataclass
class Gap:
    """The gaps of one step: all of them, and what made the longest.

    ``own_s`` is what the window's thread itself worked in the longest, ``most_own_s``
    the most that it worked in any: other programs have no part in that.
    """

    name: str = ""
    took_s: float = 0.0
    gaps_s: list[float] = field(default_factory=list)
    longest_s: float = 0.0
    own_s: float = 0.0
    most_own_s: float = 0.0
    where: list[str] = field(default_factory=list)

    @property
    def p99_s(self) -> float:
        """Give the gap that 99 of 100 stay under."""
        return p99(self.gaps_s)


def p99(gaps_s: Sequence[float]) -> float:
    """Give the gap that 99 of 100 stay under or are; 0 where there is none."""
    return sorted(gaps_s)[ceil(len(gaps_s) * 0.99) - 1] if gaps_s else 0.0


class Heart:
    """Beats on the window's thread; another thread may look where a late beat hangs."""

    def __init__(self, *, looks: bool = False) -> None:
        self.gap = Gap()
        self._main = threading.get_ident()
        self._last = self._own = 0.0
        self._seen: list[str] = []
        self._beats = False
        self._timer = QTimer()
        self._timer.setTimerType(Qt.TimerType.PreciseTimer)
        self._timer.setInterval(_BEAT_MS)
        self._timer.timeout.connect(self.beat)
        if looks:
            threading.Thread(target=self._look, daemon=True).start()

    def begin(self, name: str) -> None:
        """Forget what was and begin to beat."""
        self.gap = Gap(name)
        self._last, self._own = time.monotonic(), time.thread_time()
        self._timer.start()
        self._beats = True

    def end(self) -> Gap:
        """Stop, and give the gaps since the beginning."""
        self._beats = False
        self._timer.stop()
        return self.gap

    def beat(self) -> None:
        """Take the time since the last beat."""
        now, own = time.monotonic(), time.thread_time()
        gap = now - self._last
        self.gap.gaps_s.append(gap)
        self.gap.most_own_s = max(self.gap.most_own_s, own - self._own)
        if gap > self.gap.longest_s:
            self.gap.longest_s, self.gap.own_s = gap, own - self._own
            self.gap.where = self._seen
        self._seen = []
        self._last, self._own = now, own

    def _look(self) -> None:
        while True:
            time.sleep(0.01)
            if self._beats and time.monotonic() - self._last > _LATE_S:
                frames = sys._current_frames()
                mine = threading.get_ident()
                self._seen += [
                    ("window: " if each == self._main else "lane: ") + _told(frame)
                    for each, frame in frames.items()
                    if each != mine
                ]


class Watching:
    """Runs steps one after another, each until the window has come to rest."""

    def __init__(self, app: QApplication, *, where: bool = False) -> None:
        self._app = app
        self._heart = Heart(looks=where)

    def run(self, name: str, begin: Callable[[], Window]) -> Gap:
        """Run one step and give its gaps; the rest after it counts for nothing."""
        heart = self._heart
        heart.begin(name)
        began = time.monotonic()
        window = begin()
        heart.beat()
        quiet, beats = time.monotonic(), len(heart.gap.gaps_s)
        while (
            time.monotonic() - quiet < _QUIET_S and time.monotonic() - began < _MOST_S
        ):
            self._app.processEvents(QEventLoop.ProcessEventsFlag.WaitForMoreEvents, 20)
            if window.tasks.is_busy or heart.gap.gaps_s[-1] > _LATE_S:
                quiet, beats = time.monotonic(), len(heart.gap.gaps_s) + 1
        gap = heart.end()
        gap.took_s = quiet - began
        del gap.gaps_s[beats + 1 :]
        return gap


def _told(frame: FrameType) -> str:
    ours = [
        f"{Path(each.filename).name}:{each.lineno} {each.name}"
        for each in traceback.extract_stack(frame)
        if "threading" not in each.filename
    ]
    return " > ".join(ours[-5:])


def copied(folder: Path, plants: int) -> None:
    """Copy the plants of a closed collection until there are so many of them."""
    with closing(sqlite3.connect(folder / "collection.sqlite")) as base, base:
        ids = [row[0] for row in base.execute("SELECT id FROM plant ORDER BY id")]
        for number in range(plants - len(ids)):
            tag = f"X{number + 1}"
            new = _copy(base, "plant", "id = ?", ids[number % len(ids)], {"tag": tag})
            for table in ("look", "care"):
                order = f"plant_id = ? ORDER BY day DESC LIMIT {LOOKS_EACH}"
                _copy(base, table, order, ids[number % len(ids)], {"plant_id": new})


def _copy(
    base: sqlite3.Connection, table: str, which: str, of: int, new: dict[str, object]
) -> int:
    heads = [row[1] for row in base.execute(f"PRAGMA table_info({table})")]
    kept = [head for head in heads if head != "id" and head not in new]
    names = ", ".join(f'"{head}"' for head in (*new, *kept))
    marks = ", ".join("?" for _ in new)
    values = ", ".join([*([marks] if marks else []), *(f'"{head}"' for head in kept)])
    made = base.execute(
        f"INSERT INTO {table} ({names}) SELECT {values} FROM {table} WHERE {which}",  # noqa: S608
        (*new.values(), of),
    )
    return int(made.lastrowid or 0)


def day(folder: Path, into: Path, *, only: list[str], where: bool) -> list[Gap]:
    """Have the scripted day in a window on a folder, and give the gaps of each step.

    What the day writes beside the collection goes ``into`` a folder. ``only`` leaves
    out steps whose name does not begin so.
    """
    app = application()
    collecting = Collecting(app)
    watching = Watching(app, where=where)

    def opened() -> Window:
        window = Window(Collection.open(folder, FixedClock(ON)))
        window.show()
        windows.append(window)
        return window

    def step(do: Callable[[], object]) -> Window:
        do()
        return windows[0]

    windows: list[Window] = []
    found = [watching.run(OPENING, opened)]
    for name, do in ScriptedDay(windows[0], into).steps().items():
        if not only or any(name.startswith(each) for each in only):
            found.append(watching.run(name, partial(step, do)))
    windows[0]._reminded = True
    windows[0].close()
    del collecting
    return found


def main() -> int:
    """Run the day, or the named steps of it, and print the gaps."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("steps", nargs="*", help="only these, by the start of a name")
    parser.add_argument("--plants", type=int, default=0)
    parser.add_argument("--folder", type=Path, help="a collection to write in")
    parser.add_argument("--where", action="store_true")
    parser.add_argument("--json", action="store_true", help="seconds, for the bars")
    given = parser.parse_args()
    os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
    with tempfile.TemporaryDirectory() as made:
        os.environ["XDG_CONFIG_HOME"] = os.environ["XDG_STATE_HOME"] = made
        folder = given.folder or lay_demo(Path(made, "demo"), ON)
        if given.plants:
            copied(folder, given.plants)
        found = day(folder, Path(made), only=given.steps, where=given.where)
    if given.json:
        sys.stdout.write(json.dumps([asdict(each) for each in found]))
        return 0
    for each in found:
        _print(each, where=given.where)
    rest = [each for each in found if each.name != OPENING]
    every = [gap for each in rest for gap in each.gaps_s]
    sys.stdout.write(
        f"the day after the opening: {len(rest)} steps, {len(every)} gaps, p99"
        f" {p99(every) * 1000:.0f} ms, longest {max(every) * 1000:.0f} ms, most own"
        f" work {max(each.most_own_s for each in rest) * 1000:.0f} ms\n"
    )
    return 0


def _print(gap: Gap, *, where: bool) -> None:
    sys.stdout.write(
        f"{gap.name:28} {gap.took_s:7.2f} s   longest {gap.longest_s * 1000:6.0f} ms,"
        f" own {gap.own_s * 1000:6.0f} ms, most own {gap.most_own_s * 1000:6.0f} ms,"
        f" p99 {gap.p99_s * 1000:4.0f} ms,"
        f" over 50 ms: {sum(each > 0.05 for each in gap.gaps_s)}\n"
    )
    if where and gap.longest_s > 0.05:
        for line in dict.fromkeys(gap.where):
            sys.stdout.write(f"      {gap.where.count(line)} x {line}\n")


if __name__ == "__main__":
    raise SystemExit(main())
