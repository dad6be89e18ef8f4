"""A whole day in the real program, in a process where no socket can be made.

``python -m tests.faults.private_day COLLECTION OUTPUTS`` opens the window on a
collection, asks for every command, draws charts, follows the handbook's links, and then
writes all that the command line writes. It prints what it did as JSON.
"""

from __future__ import annotations

import json
import socket
import sys
from datetime import UTC, datetime
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any, NoReturn

tried: list[str] = []


def refuse(*what: object, **_named: object) -> NoReturn:
    tried.append(repr(what))
    raise OSError("no socket on this day")


class NoSocket(socket.socket):
    """A kind of socket that cannot be made; libraries may still be built on it."""

    def __init__(self, *what: object, **_named: object) -> None:
        refuse(*what)


socket.socket = NoSocket  # type: ignore[misc]
socket.create_connection = refuse
socket.getaddrinfo = refuse

from PySide6.QtCore import QObject, QTimer, QUrl  # noqa: E402 -- no socket before
from PySide6.QtGui import QDesktopServices, QGuiApplication  # noqa: E402
from PySide6.QtWidgets import QApplication, QDialog  # noqa: E402

from growdesk import app  # noqa: E402
from growdesk.services.collection import Collection  # noqa: E402
from growdesk.ui import start, theme  # noqa: E402
from growdesk.ui.charts import saving  # noqa: E402
from growdesk.ui.charts.asking import Wanted, Which, read  # noqa: E402
from growdesk.ui.charts.panel import Style  # noqa: E402
from growdesk.ui.dialogs.handbook import HandbookDialog  # noqa: E402
from growdesk.ui.window import Window  # noqa: E402

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

NOT_ASKED = frozenset({"quit", "sample", "cancel", "print-sheet"})
"""What ends the day, starts another process, or asks a printer of this machine."""
WRITTEN = (
    "calendar --ics {out}/orchids.ics",
    "sheet --week {day} --pdf {out}/sheet.pdf",
    "look-list --pdf {out}/look-list.pdf",
    "tags --pdf {out}/tags.pdf",
    "away --from {day} --until {later} --pdf {out}/away.pdf --call Nobody",
    "year --pdf {out}/year.pdf",
    "export {out}/tables",
    "backup {out}/whole.zip",
    "check",
    "report {out}/report.txt",
    "decide --json",
    "looks --json",
    "rules --json",
    "shelf",
)
REMOTE = "https://example.org/picture.png"


class Day(QObject):
    """Does one step after another, each once what was asked before has come."""

    def __init__(self, outputs: Path) -> None:
        super().__init__()
        self.outputs = outputs
        self.asked: list[str] = []
        self.copied: list[str] = []
        self.opened: list[str] = []
        self._steps: Iterator[Callable[[], object]] | None = None
        self._timer = QTimer(self)
        self._timer.timeout.connect(self.next)
        self._timer.start(1)

    def window(self) -> Window | None:
        found = QApplication.topLevelWidgets()
        return next((each for each in found if isinstance(each, Window)), None)

    def next(self) -> None:
        window = self.window()
        if window is None or window.desk.view is None or window.tasks.is_busy:
            return
        if window.desk.long.now is not None:
            return
        self._steps = self._steps or iter(list(self.steps(window)))
        step = next(self._steps, None)
        if step is None:
            self._timer.stop()
            window._reminded = True
            window.close()
            QApplication.quit()
            return
        step()

    def steps(self, window: Window) -> Iterator[Callable[[], object]]:
        for key in window.commands:
            if key not in NOT_ASKED:
                yield partial(self.ask, window, key)
                yield self.leave
                yield self.leave
        out = self.outputs
        yield partial(window.files.export_to, out / "from-window")
        yield partial(window.files.save_sheet_to, out / "window-sheet.pdf")
        yield partial(self.read_handbook, window)
        yield self.leave

    def ask(self, window: Window, key: str) -> None:
        action = window.commands[key]
        if action.isEnabled():
            self.asked.append(key)
            action.trigger()

    def leave(self) -> None:
        text = QGuiApplication.clipboard().text()
        if text:
            self.copied.append(text)
        for each in QApplication.topLevelWidgets():
            if isinstance(each, QDialog) and each.isVisible():
                each.reject()

    def read_handbook(self, window: Window) -> None:
        window.commands["handbook"].trigger()
        for each in QApplication.topLevelWidgets():
            if isinstance(each, HandbookDialog):
                for page in each._pages:
                    each.go_to(page)
                each.page.setHtml(f'<img src="{REMOTE}"><a href="{REMOTE}">x</a>')
                each.page.anchorClicked.emit(QUrl(REMOTE))
                each.page.grab()


def charts(collection: Path, outputs: Path) -> int:
    """Save charts as pictures and as drawings."""
    made = Collection.open_to_read(collection)
    today = made.clock.today()
    plant_id = made.day.view(None).lines[0].plant_id
    written = 0
    for which in (Which.PLANT, Which.BLOOMS):
        chart = read(made, Wanted(which, plant_id, today))
        for form in ("png", "svg"):
            saving.save(chart, Style(theme.LIGHT, 10), outputs / f"{which}.{form}")
            written += 1
    made.close()
    return written


def main(collection: str, outputs: str) -> None:
    out = Path(outputs)
    opened: list[str] = []

    def open_url(url: QUrl) -> bool:
        opened.append(url.toString())
        return True

    QDesktopServices.openUrl = open_url  # type: ignore[method-assign, assignment]
    start.application()
    day = Day(out)
    start.run_window(Path(collection))
    drawn = charts(Path(collection), out)
    today = datetime.now(tz=UTC).date()
    given = {"out": out, "day": today, "later": today.replace(day=28)}
    codes: dict[str, int] = {}
    sys.stdout.flush()
    answers = sys.stdout
    with (out / "answers.txt").open("w", encoding="utf-8") as said:
        sys.stdout = said
        for line in WRITTEN:
            words = [word.format(**given) for word in line.split()]
            codes[line] = app.main(["--collection", collection, *words])
        sys.stdout = answers
    (out / "copied.txt").write_text("\n".join(day.copied), encoding="utf-8")
    told: dict[str, Any] = {
        "asked": day.asked,
        "codes": codes,
        "charts": drawn,
        "opened": opened,
        "tried": tried,
        "copied": len(day.copied),
    }
    sys.stdout.write(f"{json.dumps(told)}\n")


if __name__ == "__main__":
    main(*sys.argv[1:])
