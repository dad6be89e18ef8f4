"""A bar in a dialog that reads how far some work is."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QProgressBar

from growdesk.domain.speech import tr
from growdesk.ui import motion

if TYPE_CHECKING:
    from growdesk.ui.going import Going

_READ_EVERY_MS = 100
_STEPS = 100


class Progress(QProgressBar):
    """A bar that reads how far some work is, as long as it is told of any.

    ``counted`` is a text with ``{done}`` and ``{of}``, for the bar and its reader.
    """

    def __init__(self, name: str, counted: str) -> None:
        super().__init__()
        self.setAccessibleName(name)
        self._counted = counted
        self._going: Going | None = None
        self._timer = QTimer(self)
        self._timer.setInterval(_READ_EVERY_MS)
        self._timer.timeout.connect(self.read)

    def follow(self, going: Going | None) -> None:
        """Follow some work, or none any more."""
        self._going = going
        motion.leave_open(self)
        self.setFormat("")
        if going is None:
            self._timer.stop()
        else:
            self._timer.start()

    def read(self) -> None:
        """Show how far it is now."""
        going = self._going
        if going is not None and going.of:
            said = tr(self._counted).format(done=going.done, of=going.of)
            self.setRange(0, _STEPS)
            self.setValue(min(_STEPS, _STEPS * going.done // going.of))
            self.setFormat(said)
            self.setAccessibleDescription(said)
