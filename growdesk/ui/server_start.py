"""Reach a server at the start, or ask what to do while it is away."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QTimer
from PySide6.QtWidgets import QApplication

from growdesk.domain.errors import GrowdeskError
from growdesk.services.collection import Collection, default_folder
from growdesk.ui.field_words import plain_line
from growdesk.ui.server_asking import ServerAsking
from growdesk.ui.tasks import Job, Lane, Tasks

if TYPE_CHECKING:
    from growdesk.services.whereabouts import OnServer
    from growdesk.ui.dialogs.server import ServerDialog


def reach(app: QApplication, where: OnServer) -> Collection | None:
    """Open a collection on a server; nothing where the grower would rather quit.

    Where it cannot be opened a dialog says why: it is tried again, the folder on this
    computer is opened, or nothing.
    """
    try:
        return Collection.open(where)
    except GrowdeskError as error:
        return _Reaching(app).ask(where, plain_line(error))


class _Reaching(QObject):
    """The dialog before there is a window."""

    def __init__(self, app: QApplication) -> None:
        super().__init__()
        self._app = app
        self._tasks = Tasks()
        self._got: list[Collection] = []

    def ask(self, where: OnServer, line: str) -> Collection | None:
        quits = self._app.quitOnLastWindowClosed()
        self._app.setQuitOnLastWindowClosed(False)
        QTimer.singleShot(0, self, partial(self._open, where, line))
        QApplication.exec()
        self._tasks.stop()
        self._app.setQuitOnLastWindowClosed(quits)
        return self._got[0] if self._got else None

    def _open(self, where: OnServer, line: str) -> None:
        asking = ServerAsking(self._tasks, None, self)
        asking.opened.connect(self._got.append)
        dialog = asking.open(None, where, line=line, at_start=True)
        dialog.folder_wanted.connect(partial(self._here, dialog))
        dialog.finished.connect(lambda _result: QTimer.singleShot(0, self._app.quit))

    def _here(self, dialog: ServerDialog) -> None:
        def done(collection: Collection) -> None:
            self._got.append(collection)
            dialog.accept()

        self._tasks.ask(self, Job(_folder_here, done, dialog.refused), Lane.SIDE)


def _folder_here() -> Collection:
    return Collection.open(default_folder(), create=True)
