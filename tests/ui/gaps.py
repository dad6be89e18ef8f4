"""Measure for how long the window stands still while long work goes on.

``python -m tests.ui.gaps`` opens the window on the demo, or with ``--plants 2000`` on
the demo's plants copied that often with ten looks each, runs each long work once, and
prints the longest gap between two beats of a 5 ms timer on the window's thread: as the
clock has it, and how much of it that thread itself worked. ``--where`` adds what ran
then. Times are for reading, on a quiet machine; tests gate on counts.
"""

from __future__ import annotations

import argparse
import os
import sqlite3
import sys
import tempfile
import threading
import time
import traceback
from contextlib import closing
from dataclasses import dataclass, field
from datetime import date
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QEventLoop, Qt, QTimer
from PySide6.QtWidgets import QDialog

from growdesk.services import calendar_file
from growdesk.services.clock import FixedClock
from growdesk.services.collection import Collection
from growdesk.services.demo import lay_demo
from growdesk.ui.charts.asking import Wanted, Which
from growdesk.ui.collecting import Collecting
from growdesk.ui.dialogs.take_in import TakeInDialog
from growdesk.ui.dialogs.year import YearDialog
from growdesk.ui.start import application
from growdesk.ui.take_in import TakeIn
from growdesk.ui.window import Window
from growdesk.ui.year_prints import YearPrints

if TYPE_CHECKING:
    from collections.abc import Callable
    from types import FrameType


ON = date(2026, 11, 25)
LOOKS_EACH = 10
_BEAT_MS = 5
_LATE_S = 0.02
_MOST_S = 300.0


@dataclass
class Gap:
    """The longest time without a beat while one work ran."""

    longest_s: float = 0.0
    own_s: float = 0.0
    over_50: int = 0
    where: list[str] = field(default_factory=list)


class Heart:
    """Beats on the window's thread; another thread looks where a late beat hangs."""

    def __init__(self) -> None:

        self.gap = Gap()
        self._main = threading.get_ident()
        self._last = self._own = 0.0
        self._seen: list[str] = []
        self._beats = False
        self._timer = QTimer()
        self._timer.setTimerType(Qt.TimerType.PreciseTimer)
        self._timer.setInterval(_BEAT_MS)
        self._timer.timeout.connect(self._beat)
        threading.Thread(target=self._look, daemon=True).start()

    def begin(self) -> None:
        """Forget what was and begin to beat."""
        self.gap = Gap()
        self._last, self._own = time.monotonic(), time.thread_time()
        self._timer.start()
        self._beats = True

    def end(self) -> Gap:
        """Stop, and give the longest gap since the beginning."""
        self._beat()
        self._beats = False
        self._timer.stop()
        return self.gap

    def _beat(self) -> None:
        now, own = time.monotonic(), time.thread_time()
        gap = now - self._last
        self.gap.over_50 += gap > 0.05
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


class Works:
    """The long works of one window, writing into one folder."""

    def __init__(self, window: Window, into: Path) -> None:
        self._window = window
        self._into = into
        self._first = int(window.day_list.chosen or 1)
        self._table = into / "plants.csv"
        rows = (f"N{n},Cattleya intermedia,Shelf {n % 9}\n" for n in range(2_000))
        self._table.write_text("tag,name,place\n" + "".join(rows))

    def all(self) -> dict[str, Callable[[], object]]:
        """Give each work by its name, in the order to run them in."""
        return {**self._reading(), **self._dialogs(), **self._files(), **self._taken()}

    def _reading(self) -> dict[str, Callable[[], object]]:
        window, desk, first = self._window, self._window.desk, self._first
        chart = Wanted(Which.PLANT, first, ON)
        areas, tabs = window.detail._areas, window.detail.tabs
        return {
            "next plant": lambda: desk.show_plant(first + 1),
            "day again": desk.show_day,
            "week": desk.show_week,
            "collection": window.commands["collection"].trigger,
            "calendar": window.commands["calendar"].trigger,
            "back to the day": window.faces.show_day,
            "chart, first": lambda: desk.show_chart(chart),
            "chart in sight": lambda: tabs.setCurrentWidget(areas[-1]),
        }

    def _dialogs(self) -> dict[str, Callable[[], object]]:
        works: dict[str, Callable[[], object]] = {}
        for key in ("kinds", "hindsight", "who-blooms", "meter"):
            works[key] = self._window.commands[key].trigger
            works[f"{key} closed"] = self._close_all
        return works

    def _files(self) -> dict[str, Callable[[], object]]:
        window, files, into = self._window, self._window.files, self._into
        folder = window.desk.collection.folder
        pictures = sorted((folder / "photos").glob("*/*"))[:40]
        jobs = partial(calendar_file.save, window.desk.collection)
        return {
            "export": lambda: files.export_to(into / "tables"),
            "backup": lambda: files.backup_to(into / "backup.zip"),
            "photos": lambda: window.photos.take(self._first, pictures),
            "photos closed": self._close_all,
            "sheet PDF": lambda: files.save_sheet_to(into / "sheet.pdf"),
            "preview of the sheet": files.preview_sheet,
            "preview closed": self._close_all,
            "calendar file": lambda: files.save_calendar_to(
                lambda file: str(jobs(file)), into / "jobs.ics"
            ),
            "year PDF": lambda: self._year(preview=False),
            "year preview": lambda: self._year(preview=True),
            "year closed": self._close_all,
        }

    def _taken(self) -> dict[str, Callable[[], object]]:
        window = self._window

        def dialog() -> TakeInDialog:
            return window.findChildren(TakeInDialog)[0]

        def take() -> None:
            dialog().take_button.click()

        return {
            "table, survey": lambda: window.findChildren(TakeIn)[0].read_first(
                self._table
            ),
            "table, trial": lambda: dialog().try_it(),
            "table, taken": take,
            "table, undone": window.commands["undo"].trigger,
        }

    def _year(self, *, preview: bool) -> None:
        window = self._window
        (prints,) = window.findChildren(YearPrints)
        dialog = YearDialog(window, window.desk.today)
        within = dialog.draft()
        if preview:
            prints._chosen(dialog, within)
        else:
            prints.save_to(dialog, within, self._into / "year.pdf")

    def _close_all(self) -> None:
        for each in self._window.findChildren(QDialog):
            if each.isVisible():
                each.close()


def main() -> int:
    """Run all or the named works and print their gaps."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("works", nargs="*", help="only these, by the start of a name")
    parser.add_argument("--plants", type=int, default=0)
    parser.add_argument("--where", action="store_true")
    given = parser.parse_args()
    os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
    with tempfile.TemporaryDirectory() as made:
        os.environ["XDG_CONFIG_HOME"] = os.environ["XDG_STATE_HOME"] = made
        _measure(Path(made), given.works, given.plants, where=given.where)
    return 0


def _measure(into: Path, only: list[str], plants: int, *, where: bool) -> None:

    app = application()
    folder = lay_demo(into / "demo", ON)
    if plants:
        copied(folder, plants)
    clock = FixedClock(ON)
    collecting = Collecting(app)
    heart = Heart()

    def wait(window: Window) -> float:
        began = quiet = time.monotonic()
        while time.monotonic() - quiet < 0.25 and time.monotonic() - began < _MOST_S:
            app.processEvents(QEventLoop.ProcessEventsFlag.WaitForMoreEvents, 20)
            if window.tasks.is_busy:
                quiet = time.monotonic()
        return quiet - began

    heart.begin()
    window = Window(Collection.open(folder, clock))
    window.show()
    took = wait(window)
    _print("window opens", took, heart.end(), where=where)
    for name, begin in Works(window, into).all().items():
        if only and not any(name.startswith(each) for each in only):
            continue
        heart.begin()
        begin()
        took = wait(window)
        _print(name, took, heart.end(), where=where)
    window._reminded = True
    began = time.monotonic()
    window.close()
    sys.stdout.write(f"closing the window took {time.monotonic() - began:.2f} s\n")
    del collecting


def _print(name: str, took: float, gap: Gap, *, where: bool) -> None:
    sys.stdout.write(
        f"{name:22} {took:7.2f} s   longest gap {gap.longest_s * 1000:6.0f} ms,"
        f" own {gap.own_s * 1000:6.0f} ms, over 50 ms: {gap.over_50}\n"
    )
    sys.stdout.flush()
    if where:
        for line in dict.fromkeys(gap.where):
            sys.stdout.write(f"      {gap.where.count(line)} x {line}\n")


if __name__ == "__main__":
    raise SystemExit(main())
