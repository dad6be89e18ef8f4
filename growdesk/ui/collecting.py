"""Collect Python's cycles on the window's thread alone, between two events.

Left to itself the collector runs wherever memory happens to be asked for: on a
worker's thread, or in the middle of a widget's destruction. If it then lets go of
another widget, Qt may wait for a lock that it holds itself, or crash.

Going through everything stops the window for as long as a large collection takes. So
what has outlived a whole pass is set aside, and is gone through only while the grower
is in another program.
"""

from __future__ import annotations

import gc
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Qt, QTimer

if TYPE_CHECKING:
    from PySide6.QtGui import QGuiApplication

_EVERY_MS = 250
_WHOLE_EACH = 240


class Collecting(QObject):
    """Takes collecting over for as long as the application lives."""

    def __init__(self, app: QGuiApplication) -> None:
        super().__init__(app)
        self._rounds = 0
        gc.disable()
        gc.freeze()  # what is there from the start stays, and need not be gone through
        self._timer = QTimer(self)
        self._timer.setInterval(_EVERY_MS)
        self._timer.timeout.connect(self.collect)
        self._timer.start()
        self._has_kept = False
        app.applicationStateChanged.connect(self.collect_kept)

    def collect(self) -> None:
        """Collect what is young; once a minute all that came since a minute ago."""
        self._rounds += 1
        if self._rounds % _WHOLE_EACH:
            gc.collect(1)
            return
        gc.collect(2)
        gc.freeze()
        self._has_kept = True

    def collect_kept(self, state: Qt.ApplicationState) -> None:
        """Collect everything, where the grower has turned to another program."""
        if state is not Qt.ApplicationState.ApplicationActive and self._has_kept:
            gc.unfreeze()
            gc.collect(2)
            gc.freeze()
            self._has_kept = False
