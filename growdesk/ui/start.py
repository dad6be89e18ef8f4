"""Open the window on a collection: application, log, exceptions, theme.

The only module of the window that makes an application. A collection that cannot be
opened is told in one line and ends with 2, before any window.
"""

from __future__ import annotations

import logging
import sys
import threading
from functools import partial
from logging.handlers import RotatingFileHandler
from typing import TYPE_CHECKING

import platformdirs
from PySide6.QtWidgets import QApplication, QMessageBox

from growdesk import APPLICATION_ID, __version__
from growdesk.domain.errors import GrowdeskError
from growdesk.domain.speech import tr
from growdesk.services.collection import Collection, default_folder
from growdesk.ui import language, motion, sizes, theme
from growdesk.ui.collecting import Collecting
from growdesk.ui.field_words import BUG_LINE
from growdesk.ui.preferences import (
    kept_mode,
    kept_motion,
    kept_regional,
    kept_text_per_cent,
)
from growdesk.ui.standing import Standing
from growdesk.ui.window import Window
from growdesk.ui.window_memory import come_onto_screen

if TYPE_CHECKING:
    from pathlib import Path
    from types import TracebackType

log = logging.getLogger("growdesk")
_MEGABYTE = 1_000_000
_HOLD_S = 0.0005
"""How long a lane may keep the window's thread from Python: Qt asks for it at each call
of ours, many times a drawing, and would wait Python's usual 5 ms each time."""


def run_window(folder: Path, demo: bool = False) -> int:  # noqa: FBT001, FBT002 -- agreed with the program's entry
    """Open the window on a folder and give the exit code when it is closed."""
    app = application()
    log_file = _start_log()
    try:
        collection = Collection.open(folder, create=_may_create(folder))
    except GrowdeskError as error:
        return _refuse(error.line())
    title = tr("growdesk: demo collection, thrown away at the end") if demo else ""
    make = partial(Window, title=title, log=log_file)
    standing = Standing(app, make, _attend)
    Collecting(app)
    standing.show(collection)
    return app.exec()


def application() -> QApplication:
    """Give the one application with growdesk's theme in force."""
    app = QApplication.instance()
    if not isinstance(app, QApplication):
        app = QApplication(["growdesk"])
    app.setApplicationName("growdesk")
    app.setApplicationDisplayName("growdesk")
    app.setApplicationVersion(__version__)
    app.setDesktopFileName(APPLICATION_ID)
    sys.setswitchinterval(_HOLD_S)
    language.install(app, kept_regional())
    theme.install(app, kept_mode())
    motion.current().choose(kept_motion())
    sizes.current().choose(kept_text_per_cent())
    return app


def _attend(window: Window) -> None:
    """Make a window ready to be shown."""
    catch_bugs(window)
    come_onto_screen(window)


def _may_create(folder: Path) -> bool:
    """Only the grower's own folder is made without being asked for by the menu."""
    return folder.resolve() == default_folder().resolve()


def _refuse(line: str) -> int:
    if sys.stderr is not None:
        print(line, file=sys.stderr)  # noqa: T201 -- there is no window yet
        return 2
    box = QMessageBox(QMessageBox.Icon.Warning, "growdesk", line)
    box.finished.connect(QApplication.quit)
    box.open()
    QApplication.exec()
    return 2


def _start_log() -> Path | None:
    """Write what goes wrong to a file, where the folder for it lets us."""
    folder = platformdirs.user_log_path("growdesk", appauthor=False)
    try:
        folder.mkdir(parents=True, exist_ok=True)
        file = folder / "growdesk.log"
        handler = RotatingFileHandler(
            file, maxBytes=_MEGABYTE, backupCount=3, encoding="utf-8"
        )
    except OSError:
        return None
    handler.setFormatter(logging.Formatter("%(asctime)s %(name)s %(message)s"))
    handler.setLevel(logging.WARNING)
    if not any(isinstance(h, RotatingFileHandler) for h in log.handlers):
        log.addHandler(handler)
    return file


def catch_bugs(window: Window) -> None:
    """Log an exception that nobody caught, tell one line, and let the window live."""

    def caught(
        kind: type[BaseException],
        error: BaseException,
        trace: TracebackType | None,
    ) -> None:
        if issubclass(kind, KeyboardInterrupt):
            window.close()
            return
        log.error("not caught", exc_info=(kind, error, trace))
        window.desk.told.emit(tr(BUG_LINE))

    def caught_in_thread(given: threading.ExceptHookArgs) -> None:
        if given.exc_value is not None:
            caught(given.exc_type, given.exc_value, given.exc_traceback)

    sys.excepthook = caught
    threading.excepthook = caught_in_thread
