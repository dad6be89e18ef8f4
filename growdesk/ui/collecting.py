"""Collect Python's cycles on the window's thread alone, between two events.

Left to itself the collector runs wherever memory happens to be asked for: on a
worker's thread, or in the middle of a widget's destruction. If it then lets go of
another widget, Qt may wait for a lock that it holds itself, or crash.

Going through much stops the window. So many new objects at once are set aside unseen:
they are what was read, which stays long and goes without the collector. What was set
aside is gone through while the grower is in another program, or has left the window
alone for minutes; an act makes more objects than a window at rest.
"""

from __future__ import annotations

import gc
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Qt, QTimer

if TYPE_CHECKING:
    from PySide6.QtGui import QGuiApplication

EVERY_MS = 250
WHOLE_EACH = 240
MANY = 50_000
FEW = 500
LEFT_ALONE_EACH = 1_200
"""Rounds of few objects, five minutes, after which nobody sits before the window."""


class Collecting(QObject):
    """Takes collecting over for as long as the application lives."""

    def __init__(self, app: QGuiApplication) -> None:
        super().__init__(app)
        self._rounds = self._still = 0
        gc.disable()
        gc.freeze()  # what is there from the start stays, and need not be gone through
        self._timer = QTimer(self)
        self._timer.setInterval(EVERY_MS)
        self._timer.timeout.connect(self.collect)
        self._timer.start()
        self._has_kept = False
        app.applicationStateChanged.connect(self._turned)

    def collect(self) -> None:
        """Collect what is young; once a minute all that came since a minute ago."""
        self._rounds += 1
        young = gc.get_count()[0]
        self._still = self._still + 1 if young < FEW else 0
        if young > MANY:
            self._set_aside()
        elif self._rounds % WHOLE_EACH:
            gc.collect(1)
        else:
            gc.collect(2 if _old_objects() <= MANY else 1)
            self._set_aside()
        if self._still == LEFT_ALONE_EACH:
            self._still = 0
            self.collect_kept()

    def collect_kept(self) -> None:
        """Go through all that was set aside; that takes long where much was."""
        if self._has_kept:
            gc.unfreeze()
            gc.collect(2)
            gc.freeze()
            self._has_kept = False

    def _set_aside(self) -> None:
        gc.freeze()
        self._has_kept = True

    def _turned(self, state: Qt.ApplicationState) -> None:
        if state is not Qt.ApplicationState.ApplicationActive:
            self.collect_kept()


def _old_objects() -> int:
    """Count what a whole pass would go through.

    ``map`` counts and lets go of all within one step of Python. Were they held any
    longer, a lane that is just building a tuple could not make it larger, and fail.
    """
    (count,) = map(len, map(gc.get_objects, (2,)))
    return count
