"""Start the window of one collection many times at once, as an impatient hand does.

Run as a program: what a window needs is loaded once, and each start is a fork of it.
"""

from __future__ import annotations

import os
import sys
import time
from pathlib import Path
from typing import Any

from PySide6 import QtNetwork  # noqa: F401 -- loaded once for all
from PySide6.QtCore import QSettings, QTimer
from PySide6.QtWidgets import QApplication

from growdesk.ui import start
from growdesk.ui.standing import Standing

HERE, CAME, REFUSED = 0, 10, 11


def one_start(folder: Path, home: Path, at: float) -> int:
    """Start the window, and give what came of it."""
    settings = QSettings.Format.IniFormat, QSettings.Scope.UserScope
    QSettings.setPath(*settings, str(home / "preferences"))
    os.environ["XDG_STATE_HOME"] = str(home / "state")
    os.environ["XDG_RUNTIME_DIR"] = str(home)
    raised = home / f"raised-{os.getpid()}"
    real = Standing.raise_window

    def raise_it(self: Standing) -> None:
        real(self)
        raised.touch()
        QTimer.singleShot(300, QApplication.quit)

    Standing.raise_window = raise_it  # type: ignore[method-assign]
    time.sleep(max(0.0, at - time.time()))
    real_show: Any = Standing.show
    shown = False

    def show(self: Standing, collection: Any) -> Any:
        nonlocal shown
        shown = True
        (home / f"shown-{os.getpid()}").touch()
        return real_show(self, collection)

    Standing.show = show  # type: ignore[method-assign]
    sys.stderr = open(os.devnull, "w", encoding="utf-8")  # noqa: SIM115, PTH123 -- to the end
    code = start.run_window(folder)
    if shown:
        return HERE
    return CAME if code == 0 else REFUSED


def main(folder: Path, home: Path, rounds: int) -> None:
    """Start two at once, so many times; say each time what came of both."""
    for number in range(rounds):
        of_round = home / f"{number}"
        of_round.mkdir()
        at = time.time() + 0.05
        children = []
        for _ in range(2):
            child = os.fork()
            if not child:
                code = 99
                try:
                    code = one_start(folder, of_round, at)
                finally:
                    os._exit(code)
            children.append(child)
        codes = sorted(os.waitstatus_to_exitcode(os.waitpid(c, 0)[1]) for c in children)
        raised = len(list(of_round.glob("raised-*")))
        shown = len(list(of_round.glob("shown-*")))
        sys.stdout.write(f"{' '.join(map(str, [*codes, shown, raised]))}\n")
        sys.stdout.flush()


if __name__ == "__main__":
    main(Path(sys.argv[1]), Path(sys.argv[2]), int(sys.argv[3]))
