"""Open the window on the demo collection, save one picture of it, and close it.

The README's picture is made with this, and CI opens the window with it under a virtual
screen. ``--on`` sets the day that the demo is laid on.
"""

from __future__ import annotations

import argparse
import sys
import tempfile
from datetime import date
from pathlib import Path

from PySide6.QtCore import QCoreApplication, QEventLoop, QTimer

from growdesk.services.clock import FixedClock, SystemClock
from growdesk.services.collection import Collection
from growdesk.services.demo import lay_demo
from growdesk.ui import theme
from growdesk.ui.start import application
from growdesk.ui.window import Window

TURN_MS = 20
QUIET_TURNS = 5


def main() -> int:
    """Save the picture; give 0 if it was written."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("out", type=Path)
    parser.add_argument("--width", type=int, default=1280)
    parser.add_argument("--height", type=int, default=800)
    parser.add_argument("--mode", choices=("light", "dark"), default="light")
    parser.add_argument("--on", type=date.fromisoformat)
    parser.add_argument("--tag", help="the plant to show, else the first")
    parser.add_argument("--week", action="store_true", help="show the week")
    chosen = parser.parse_args()
    on = chosen.on or SystemClock().today()
    application()
    theme.current().choose(theme.Mode(chosen.mode))
    with tempfile.TemporaryDirectory(prefix="growdesk-demo-") as made:
        folder = lay_demo(Path(made) / "collection", on)
        collection = Collection.open(folder, FixedClock(on))
        shown = None if chosen.tag is None else collection.plants.find(chosen.tag)
        window = Window(collection, title="growdesk")
        window.resize(chosen.width, chosen.height)
        window.show()
        settle(window)
        if shown is not None:
            window.day_list.go_to(shown)
            settle(window)
        if chosen.week:
            window.weekly.turn()
            settle(window)
        chosen.out.parent.mkdir(parents=True, exist_ok=True)
        is_saved = window.grab().save(str(chosen.out))
        window.close()
    return 0 if is_saved else 1


def settle(window: Window) -> None:
    """Wait until nothing is asked for, nothing is about to be, and all is laid out."""
    quiet = 0
    while quiet < QUIET_TURNS:
        QCoreApplication.processEvents(QEventLoop.ProcessEventsFlag.AllEvents, TURN_MS)
        quiet = 0 if _is_under_way(window) else quiet + 1


def _is_under_way(window: Window) -> bool:
    timers = window.findChildren(QTimer)
    return window.tasks.is_busy or any(
        t.isActive() and t.isSingleShot() for t in timers
    )


if __name__ == "__main__":
    sys.exit(main())
