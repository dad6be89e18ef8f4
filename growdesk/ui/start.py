"""Open the window on a collection: application, log, exceptions, theme.

The only module of the window that makes an application. A collection that cannot be
opened is told in one line and ends with 2, before any window.
"""

from __future__ import annotations

import sys
from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, QTimer
from PySide6.QtWidgets import QApplication, QMessageBox

from growdesk import APPLICATION_ID, __version__
from growdesk.domain.errors import DamagedError, GrowdeskError
from growdesk.domain.speech import tr
from growdesk.services import log_file
from growdesk.services.collection import Collection, default_folder
from growdesk.services.hard_ends import Watch, take_last
from growdesk.services.whereabouts import OnServer
from growdesk.ui import language, motion, qt_messages, sizes, theme
from growdesk.ui.collecting import Collecting
from growdesk.ui.faults import Faults
from growdesk.ui.instance import Bell, open_or_ring
from growdesk.ui.preferences import (
    keep_private,
    kept_mode,
    kept_motion,
    kept_regional,
    kept_text_per_cent,
)
from growdesk.ui.standing import Standing, once
from growdesk.ui.window import Window
from growdesk.ui.window_memory import come_onto_screen

if TYPE_CHECKING:
    from pathlib import Path

    from growdesk.services.whereabouts import Where

_HOLD_S = 0.0001
"""How long a lane may keep the window's thread from Python: Qt asks for it at each call
of ours, many times a drawing, and would wait Python's usual 5 ms each time."""


def run_window(
    where: Where,
    demo: bool = False,  # noqa: FBT001, FBT002 -- agreed with the program's entry
    *,
    named: bool = True,
) -> int:
    """Open the window where a collection lies; give the exit code when it is closed.

    Unless that was ``named``, a server opens that the grower has chosen for the start.
    """
    app = application()
    log = log_file.start()
    qt_messages.install()
    last, watch = take_last(), Watch()
    watch.begin()
    where = where if named or demo else _chosen(where)
    collection, code = _open(app, where)
    if collection is None:
        watch.end()
        return code
    title = tr("growdesk: demo collection, thrown away at the end") if demo else ""
    make = partial(Window, title=title, log=log)
    faults = Faults(app)
    faults.install()
    bell = Bell(app)
    standing = Standing(app, make, partial(_attend, faults, bell))
    bell.rung.connect(standing.raise_window)
    Collecting(app)
    standing.show(collection)
    if last is not None:
        QTimer.singleShot(0, faults, partial(faults.tell_hard_end, last))
    code = app.exec()
    bell.take_down()
    faults.remove()
    watch.end()
    return code


def _chosen(folder: Where) -> Where:
    """Give the server that the grower has chosen for the start, else the folder."""
    from growdesk.services.servers_known import known  # noqa: PLC0415 -- a small file

    there = known()
    return there.servers[0] if there.next_start else folder


def _open(app: QApplication, where: Where) -> tuple[Collection | None, int]:
    """Open what lies there; where there is none to stand on, give the exit code."""
    if isinstance(where, OnServer):
        from growdesk.ui.server_start import reach  # noqa: PLC0415 -- for a server only

        return reach(app, where), 0
    opening = partial(Collection.open, where, create=_may_create(where))
    try:
        collection = open_or_ring(where, opening)
    except DamagedError as error:
        from growdesk.ui.damage import lead_on  # noqa: PLC0415 -- for a damaged one

        collection = lead_on(app, where)
        code = 0 if collection else _refuse(error.line(), told=True)
        return collection, code
    except GrowdeskError as error:
        return None, _refuse(error.line())
    return collection, 0 if collection else _came(where)


def application() -> QApplication:
    """Give the one application with growdesk's theme in force."""
    app = QApplication.instance()
    if not isinstance(app, QApplication):
        app = QApplication(["growdesk"])
    app.setApplicationName("growdesk")
    app.setApplicationDisplayName("growdesk")
    app.setApplicationVersion(__version__)
    app.setDesktopFileName(APPLICATION_ID)
    keep_private()
    sys.setswitchinterval(_HOLD_S)
    language.install(app, kept_regional())
    theme.install(app, kept_mode())
    motion.current().choose(kept_motion())
    sizes.current().choose(kept_text_per_cent())
    return app


def _attend(faults: Faults, bell: Bell, window: Window) -> None:
    """Make a window ready to be shown, and let it answer once its day stands."""
    faults.attend(window)
    come_onto_screen(window)
    desk = window.desk

    def hang() -> None:
        if desk.collection.looking or isinstance(desk.collection.where, OnServer):
            bell.take_down()  # others may look too
        else:
            bell.hang(desk.collection.folder)
            desk.read(desk.collection.keep_reserve, lambda _none: None)

    once(window.day_stands, hang)
    desk.switched.connect(hang)


def _may_create(folder: Path) -> bool:
    """Only the grower's own folder is made without being asked for by the menu."""
    return folder.resolve() == default_folder().resolve()


def _came(folder: Path) -> int:
    """Say that the window of a folder was open already and has come to the front."""
    said = tr("{folder} is open already; its window has come to the front.")
    if sys.stderr is not None:
        print(said.format(folder=folder), file=sys.stderr)  # noqa: T201 -- no window here
    return 0


def _refuse(line: str, *, told: bool = False) -> int:
    """Say why there is no window; ``told`` where a dialog has said it already."""
    if sys.stderr is not None:
        print(line, file=sys.stderr)  # noqa: T201 -- there is no window yet
        return 2
    if told:
        return 2
    box = QMessageBox(QMessageBox.Icon.Warning, "growdesk", line)
    box.setTextFormat(Qt.TextFormat.PlainText)
    box.finished.connect(QApplication.quit)
    box.open()
    QApplication.exec()
    return 2
