"""Start the program on a folder and tell what stood when its list was first painted.

    python tests/bench/first_paint.py FOLDER DAY BEGAN [whole | scroll]

BEGAN is the moment the process was begun, by ``time.perf_counter`` of who did. With
``whole`` it is waited until all plants are judged and can be ticked; with ``scroll``
the collection's table is gone through then, and plants are shown. One line of JSON:
seconds to a painted list that takes keys and to the whole day, the modules, widgets,
statements and plants in sight without a verdict at the paint, and the most megabytes.
"""

from __future__ import annotations

import json
import sys
import time
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any

from typing_extensions import override

from growdesk import app as program
from growdesk.services import clock

if TYPE_CHECKING:
    from collections.abc import Callable

    from growdesk.ui.window import Window

FOLDER, DAY, BEGAN = sys.argv[1], date.fromisoformat(sys.argv[2]), float(sys.argv[3])
TOLD: dict[str, Any] = {}
STATEMENTS: list[int] = []


def main() -> int:
    """Run the program as its command does, with an eye on the first window."""
    load = program._loaded

    def watched() -> Callable[[Path, bool], int]:
        run_window = load()
        from sqlalchemy import Engine, event  # noqa: PLC0415 -- is there by now

        from growdesk.ui.standing import Standing  # noqa: PLC0415 -- as late as ours

        event.listen(Engine, "before_cursor_execute", _count)
        show = Standing.show

        def shown(self: Standing, collection: Any) -> Window:
            window = show(self, collection)
            _watch(window)
            return window

        Standing.show = shown  # type: ignore[method-assign]
        return run_window

    program._loaded = watched
    clock.SystemClock.today = _day  # type: ignore[method-assign]
    code = program.main(["--collection", FOLDER])
    sys.stdout.write(json.dumps(TOLD))
    return code


def _count(*_of: object) -> None:
    STATEMENTS.append(1)


def _day(self: clock.SystemClock) -> date:  # noqa: ARG001 -- as the clock is asked
    return DAY


def _watch(window: Window) -> None:
    from PySide6.QtCore import QEvent, QObject, QTimer  # noqa: PLC0415 -- Qt's turn now
    from PySide6.QtWidgets import QWidget  # noqa: PLC0415

    class Eye(QObject):
        @override
        def eventFilter(self, _watched: QObject, event: QEvent) -> bool:
            is_there = window.day_list.model.rowCount() > 0
            if event.type() == QEvent.Type.Paint and is_there and not TOLD:
                TOLD["modules"] = sorted(sys.modules)
                TOLD["statements"] = len(STATEMENTS)
                TOLD["widgets"] = len(window.findChildren(QWidget))
                TOLD["unjudged"] = _unjudged(window)
                QTimer.singleShot(0, self, self.stand)
            return False

        def stand(self) -> None:
            TOLD["s"] = time.perf_counter() - BEGAN
            if sys.argv[4:]:
                _settle(window, whole=True)
                TOLD["whole_s"] = time.perf_counter() - BEGAN
            if sys.argv[4:] == ["scroll"]:
                _scroll(window)
            TOLD["mb"] = _held_mb()
            window.close()

    window.day_list.table.viewport().installEventFilter(Eye(window))


def _unjudged(window: Window) -> int:
    from growdesk.services.values import Unjudged  # noqa: PLC0415 -- as late as ours

    shown = window.day_list
    lines = shown.model.lines_at(shown.table.in_sight())
    return sum(isinstance(each, Unjudged) for each in lines)


def _settle(window: Window, *, whole: bool = False) -> None:
    """Wait until the whole day is shown, and but for that until nothing is under way.

    Beside a whole day the looks worth taking are ranked, which nobody waits for.
    """
    from PySide6.QtCore import QEventLoop  # noqa: PLC0415 -- as above
    from PySide6.QtWidgets import QApplication  # noqa: PLC0415

    QApplication.processEvents()
    while window.desk.view is None or (window.tasks.is_busy and not whole):
        QApplication.processEvents(QEventLoop.ProcessEventsFlag.WaitForMoreEvents, 20)
    QApplication.processEvents()


def _scroll(window: Window) -> None:
    from PySide6.QtWidgets import QApplication  # noqa: PLC0415

    window.faces.go("collection")
    _settle(window)
    table = window.roster.pane.table
    bar = table.verticalScrollBar()
    for step in range(201):
        bar.setValue(bar.maximum() * step // 200)
        QApplication.processEvents()
    lines = window.roster.pane.model.lines
    for line in lines[:: max(1, len(lines) // 20)]:
        window.desk.show_plant(line.plant_id)
        _settle(window)
    TOLD["plants"] = len(lines)
    window.faces.go("day")  # the face is remembered for the next start


def _held_mb() -> float:
    """Give the most that the process has held in memory, in MB."""
    for line in Path("/proc/self/status").read_text().splitlines():
        if line.startswith("VmHWM"):
            return int(line.split()[1]) / 1024
    return 0.0


if __name__ == "__main__":
    sys.exit(main())
