"""From nothing to a list that answers, what a window holds, and short commands."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import time
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any

from tests.bench.bars import Bar, Limit, Pair
from tests.bench.ground import ground as ground_of

if TYPE_CHECKING:
    from tests.bench.ground import Ground

ROOT = Path(__file__).parents[3]
BARE = """
import sys, time
from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QApplication, QMainWindow
app = QApplication([])
class Window(QMainWindow):
    def paintEvent(self, event):
        QTimer.singleShot(0, stand)
def stand():
    print(time.perf_counter() - float(sys.argv[1]))
    app.quit()
window = Window()
window.show()
app.exec()
"""
WITH_ORM = BARE.replace("app =", "import sqlalchemy.orm\napp =", 1)
"""Both are empty and as short as they come."""


def _run(*arguments: str) -> str:
    """Run Python; what it compiles is kept, as an installed program has it."""
    done = subprocess.run(
        [sys.executable, *arguments],
        env={**os.environ, "PYTHONPATH": str(ROOT), "PYTHONDONTWRITEBYTECODE": ""},
        capture_output=True,
        text=True,
        check=True,
        timeout=300,
    )
    return done.stdout


def started(folder: Path, ground: Ground, *more: str) -> dict[str, Any]:
    """Start the program on a folder and give what it tells of its first paint.

    A plant in sight then that says no verdict would be no list to go by.
    """
    script = str(ROOT / "tests/bench/first_paint.py")
    day = ground.today.isoformat()
    told = _run(script, str(folder), day, str(time.perf_counter()), *more)
    found: dict[str, Any] = json.loads(told)
    assert found["unjudged"] == 0, found["unjudged"]
    return found


def _floor(program: str) -> float:
    return float(_run("-c", program, str(time.perf_counter())))


def _starting(floor: str, ground: Ground) -> Pair:
    folder = ground.copy(photos=False)
    return Pair(lambda: float(started(folder, ground)["s"]), partial(_floor, floor))


def _whole(ground: Ground) -> Pair:
    """Start until every plant is judged and can be ticked."""
    folder = ground.copy(photos=False)
    return Pair(lambda: float(started(folder, ground, "whole")["whole_s"]))


def _beside_few(ground: Ground) -> Pair:
    few = ground_of(40, ground.tmp)
    many, little = ground.copy(photos=False), few.copy(photos=False)
    return Pair(
        lambda: float(started(many, ground)["s"]),
        lambda: float(started(little, few)["s"]),
    )


def _held(ground: Ground) -> Pair:
    folder = ground.copy()
    return Pair(lambda: float(started(folder, ground, "scroll")["mb"]))


def _helping(_ground: Ground) -> Pair:
    return Pair(
        lambda: _timed("-m", "growdesk", "--help"), lambda: _timed("-c", "pass")
    )


def _looking(ground: Ground) -> Pair:
    day = ground.today.isoformat()
    asked = ("--collection", str(ground.folder), "looks", "--on", day)
    return Pair(
        lambda: _timed("-m", "growdesk", *asked),
        lambda: _timed("-c", "import sqlalchemy.orm"),
    )


def _timed(*arguments: str) -> float:
    began = time.perf_counter()
    _run(*arguments)
    return time.perf_counter() - began


BARS: tuple[Bar, ...] = (
    Bar(
        "start",
        "From the start to a list that answers",
        "an empty window, sqlalchemy.orm imported",
        Limit.times(1.5),
        partial(_starting, WITH_ORM),
        sizes=(40,),
    ),
    Bar(
        "start-many",
        "The same, of 10 000 plants, those in sight judged",
        "the same window",
        Limit.times(2),
        partial(_starting, WITH_ORM),
        sizes=(10_000,),
    ),
    Bar(
        "start-whole",
        "From the start until all plants are judged and can be ticked",
        "",
        Limit.ms(5_000),
        _whole,
        grows=True,
    ),
    Bar(
        "start-bare",
        "From the start to a list that answers",
        "an empty window, nothing else imported",
        Limit.times(3.2),
        partial(_starting, BARE),
        sizes=(40,),
    ),
    Bar(
        "start-beside",
        "From the start to a list of 10 000 plants",
        "the start with 40",
        Limit.times(1.25),
        _beside_few,
        sizes=(10_000,),
    ),
    Bar(
        "memory",
        "The most held by the window, all plants scrolled through",
        "",
        Limit.mb(400),
        _held,
        sizes=(40, 10_000),
        runs=1,
    ),
    Bar(
        "command-help",
        "growdesk --help",
        "Python alone",
        Limit.times(8),
        _helping,
        sizes=(40,),
    ),
    Bar(
        "command-looks",
        "growdesk looks, of 40 plants",
        "sqlalchemy.orm imported",
        Limit.times(3),
        _looking,
        sizes=(40,),
    ),
)
