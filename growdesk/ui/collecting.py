"""Collect Python's cycles on the window's thread alone, between two events.

Left to itself the collector runs wherever memory happens to be asked for: on a
worker's thread, or in the middle of a widget's destruction. If it then lets go of
another widget, Qt may wait for a lock that it holds itself, or crash.
"""

from __future__ import annotations

import gc

from PySide6.QtCore import QCoreApplication, QObject, QTimer

_EVERY_MS = 1000
_WHOLE_EACH = 60


class Collecting(QObject):
    """Takes collecting over for as long as the application lives."""

    def __init__(self, app: QCoreApplication) -> None:
        super().__init__(app)
        self._rounds = 0
        gc.disable()
        gc.freeze()  # what is there from the start stays, and need not be gone through
        self._timer = QTimer(self)
        self._timer.setInterval(_EVERY_MS)
        self._timer.timeout.connect(self.collect)
        self._timer.start()

    def collect(self) -> None:
        """Collect what is young; once a minute everything."""
        self._rounds += 1
        gc.collect(2 if self._rounds % _WHOLE_EACH == 0 else 1)
