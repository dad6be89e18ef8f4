"""How long the window stands still, what one key costs, a chart again, a long soak."""

from __future__ import annotations

import json
import subprocess
import sys
import time
from datetime import timedelta
from functools import cache, partial
from itertools import chain, cycle
from statistics import median
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QEventLoop
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from growdesk.domain.facts import Verdict
from growdesk.services.collection import Collection
from growdesk.ui import theme
from growdesk.ui.charts.panel import Style
from growdesk.ui.charts.plate import Plate, Sitting
from growdesk.ui.start import application
from growdesk.ui.window import Window
from tests.bench.bars import Bar, Limit, Pair
from tests.ui.gaps import p99

if TYPE_CHECKING:
    from pathlib import Path

    from growdesk.ui.tasks import Tasks
    from tests.bench.ground import Ground


_ACTIONS = 4_000
_RSS_MORE = 1.05
_KEYS = "150 ppm N"
_WIDE_PX, _HIGH_PX, _DOTS = 500, 430, 96
SMALL, LARGE = 40, 2_000
_WAITING = QEventLoop.ProcessEventsFlag.WaitForMoreEvents
_KEPT = ("timers", "threads", "files")


def longest(ground: Ground) -> Pair:
    """Give the longest gap of the day, once its window stands."""
    gaps_s = _gaps_s(ground.folder, ground)
    return Pair(partial(max, gaps_s))


def ninety_nine(ground: Ground) -> Pair:
    """Give the gap of that day that 99 of 100 stay under."""

    return Pair(partial(p99, _gaps_s(ground.folder, ground)))


def key(ground: Ground) -> Pair:
    """Type a strength into a whole quick mix, and give what a key of several costs."""
    return _typing(ground, is_answered=False)


def answer(ground: Ground) -> Pair:
    """Type it, and give what passes from a key to its answer worked out and painted.

    The pause in which one may type on is left out.
    """
    return _typing(ground, is_answered=True)


def _typing(ground: Ground, *, is_answered: bool) -> Pair:
    application()
    window = Window(Collection.open(ground.copy(photos=False), ground.clock()))
    window.show()
    window.commands["quick-mix"].trigger()
    _settle(window.tasks)
    quick = window.mixing.quick
    quick.analysis.setText("20-20-20")
    quick.volume.setText("5 L")

    def typed() -> float:
        spent = []
        quick.target.clear()
        for letter in _KEYS:
            _settle(window.tasks)
            began = time.perf_counter()
            QTest.keyClicks(quick.target, letter)
            QApplication.processEvents()
            keyed = time.perf_counter()
            quick.ask()
            _settle(window.tasks)
            spent.append((time.perf_counter() if is_answered else keyed) - began)
        assert "150 ppm N" in quick.said(), quick.said()
        return median(spent)

    def close() -> None:
        window._reminded = True
        window.close()
        window.deleteLater()
        QApplication.processEvents()

    return Pair(typed, close=close)


def ticked(ground: Ground) -> Pair:
    """Tick plant after plant in the window, until the list is painted that says so.

    Jugs are mixed anew then; what is ranked and read beside the list comes after it.
    """
    application()
    window = Window(Collection.open(ground.copy(photos=False), ground.clock()))
    window.show()
    while window.desk.view is None:
        _settle(window.tasks)
    lines = window.desk.view.lines
    fed = iter([each.plant_id for each in lines if each.verdict is Verdict.FEED])

    def go_on() -> None:
        window.day_list.go_to(next(fed))
        _settle(window.tasks)

    def tick() -> None:
        before = window.desk.view
        window.commands["tick"].trigger()
        while window.desk.view is before:
            QApplication.processEvents(_WAITING, 20)
        QApplication.processEvents()

    def close() -> None:
        window.close()
        window.deleteLater()
        QApplication.processEvents()

    return Pair(tick, before=go_on, close=close)


def chart_again(ground: Ground) -> Pair:
    """Draw a plant's chart again, told of another day; its lines set and drawn by hand.

    Two days in turn, so that each has to be drawn: the same one is only painted.
    """

    application()
    with_it = Collection.open(ground.copy(photos=False), ground.clock())
    plant_id = with_it.day.view().lines[0].plant_id
    days = ground.today, ground.today - timedelta(days=7)
    charts = [with_it.charts.plant(plant_id, day) for day in days]
    with_it.close()
    assert charts[0] != charts[1]
    plate = Plate()
    turns = cycle(_sitting(each) for each in charts)
    plate.draw(next(turns))
    figure = plate.figure
    assert figure is not None

    def by_hand() -> None:
        for axes in figure.axes:
            for each in axes.lines:
                each.set_ydata(each.get_ydata())
        figure.canvas.draw()

    def again() -> None:
        plate.draw(next(turns))

    return Pair(again, by_hand)


def soak(ground: Ground) -> Pair:
    """Give the memory after the second half of a soak, against after the first."""
    counts = _soaked(ground.plants)
    return Pair(lambda: counts["end_mb"] / counts["halfway_mb"])


def kept(ground: Ground) -> Pair:
    """Give how many timers, threads and open files the second half left more."""
    counts = _soaked(ground.plants)
    more = {what: counts["end"][what] - counts["halfway"][what] for what in _KEPT}
    return Pair(lambda: float(max(more.values())))


def _sitting(chart: object) -> Sitting:
    style = Style(theme.LIGHT, 9.0)
    return Sitting(chart, style, _WIDE_PX, _HIGH_PX, _DOTS, 1.0)  # type: ignore[arg-type]


@cache
def _day(folder: Path, copy: Path) -> tuple[float, ...]:
    """Run the day in a program of its own; the longest of a day are one run's.

    Of the opening all counts but the first gap, at whose end the window stands.
    """
    del folder
    asked = [sys.executable, "-m", "tests.ui.gaps", "--json", "--folder", str(copy)]
    told = subprocess.run(asked, check=True, capture_output=True, text=True)
    steps = json.loads(told.stdout)
    opening, *rest = (step["gaps_s"] for step in steps)
    return tuple(chain(opening[1:], *rest))


_COPIES: dict[Path, Path] = {}


def _gaps_s(folder: Path, ground: Ground) -> tuple[float, ...]:
    if folder not in _COPIES:
        _COPIES[folder] = ground.copy()
    return _day(folder, _COPIES[folder])


@cache
def _soaked(plants: int) -> dict[str, Any]:
    asked = [sys.executable, "-m", "tests.faults.soak", "--json"]
    asked += ["--actions", str(_ACTIONS)]
    asked += ["--plants", str(plants)] if plants == LARGE else []
    told = subprocess.run(asked, check=True, capture_output=True, text=True)
    counts: dict[str, Any] = json.loads(told.stdout.splitlines()[-1])
    return counts


def _settle(tasks: Tasks) -> None:
    QApplication.processEvents()
    while tasks.is_busy:
        QApplication.processEvents(_WAITING, 20)
    QApplication.processEvents()


def _of_day(plants: int) -> tuple[Bar, ...]:
    said = {SMALL: "a day", LARGE: "a day of many plants"}[plants]
    sizes, once = (plants,), 1
    is_slow = plants == LARGE
    return (
        Bar(
            f"gap-longest-{plants}",
            f"The longest the window stands still in {said}",
            "",
            Limit.ms(150),
            longest,
            sizes,
            runs=once,
            slow=is_slow,
        ),
        Bar(
            f"gap-p99-{plants}",
            f"99 of 100 gaps of a 5 ms timer in {said}",
            "",
            Limit.ms(50),
            ninety_nine,
            sizes,
            runs=once,
            slow=is_slow,
        ),
    )


def _of_soak(plants: int) -> tuple[Bar, ...]:
    actions = f"{_ACTIONS:,}".replace(",", " ")
    among = " among many plants" if plants == LARGE else ""
    return (
        Bar(
            f"soak-{plants}",
            f"Memory after {actions} random actions{among}, of after half of them",
            "",
            Limit.count(_RSS_MORE),
            soak,
            (plants,),
            runs=1,
            slow=True,
        ),
        Bar(
            f"soak-kept-{plants}",
            f"Timers, threads or files left by the second half of them{among}",
            "",
            Limit.count(0),
            kept,
            (plants,),
            runs=1,
            slow=True,
        ),
    )


BARS: tuple[Bar, ...] = (
    *_of_day(SMALL),
    *_of_day(LARGE),
    Bar(
        "ticked",
        "A plant ticked: written, judged, mixed anew, the list painted",
        "",
        Limit.ms(250),
        ticked,
        grows=True,
    ),
    Bar("key", "One key in the quick mix", "", Limit.ms(4), key, (SMALL,)),
    Bar(
        "key-answer",
        "From a key in the quick mix to its answer, after the pause",
        "",
        Limit.ms(50),
        answer,
        (SMALL,),
    ),
    Bar(
        "chart-again",
        "A plant's chart, the second time",
        "its lines set and drawn by the drawing library",
        Limit.times(1.3),
        chart_again,
        (SMALL,),
    ),
    *_of_soak(SMALL),
    *_of_soak(LARGE),
)
