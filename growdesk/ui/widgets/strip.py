"""Tell what was just done, with Undo beside it, and that long work goes on.

A line at the foot of the window; it takes no focus and asks nothing. What was told
gives way to the keys' hint after a while and stays with the line's description.
"""

from __future__ import annotations

from PySide6.QtCore import QTimer, Signal
from PySide6.QtGui import QAccessible, QAccessibleAnnouncementEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout

from growdesk.domain.speech import tr
from growdesk.ui import sizes
from growdesk.ui.motion import BusyBar
from growdesk.ui.tips import as_typed
from growdesk.ui.widgets.parts import button, label

_LONG_MS = 1000
TOLD_MS = 10_000
MS_PER_LETTER = 80


class Strip(QFrame):
    """The status line."""

    undo_wanted = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.setProperty("strip", "true")
        self.setAccessibleName(tr("What was just done"))
        self._hint = ""
        self._told = ""
        self.line = label()
        self.line.setObjectName("status-line")
        self.undo = button(tr("Undo"), self.undo_wanted.emit)
        self.undo.hide()
        self._progress = BusyBar()
        sizes.wide(self._progress, 120)
        self._progress.setAccessibleName(tr("Work goes on"))
        self._progress.hide()
        self._patience = QTimer(self)
        self._patience.setSingleShot(True)
        self._patience.setInterval(_LONG_MS)
        self._patience.timeout.connect(self._progress.show)
        self._rest = QTimer(self)
        self._rest.setSingleShot(True)
        self._rest.timeout.connect(self.give_way)
        row = QHBoxLayout(self)
        row.setContentsMargins(16, 4, 16, 4)
        row.addWidget(self.line, 1)
        row.addWidget(self._progress)
        row.addWidget(self.undo)
        sizes.least_high(self, 40)

    def hint(self, text: str) -> None:
        """Show which keys do what, while nothing is told."""
        self._hint = text
        if not self._rest.isActive():
            self.line.setText(text)

    @property
    def told(self) -> str:
        """Give what was told last, shown still or not."""
        return self._told

    @property
    def resting_ms(self) -> int:
        """Give for how long the line told stands."""
        return self._rest.interval()

    def give_way(self) -> None:
        """Show the keys' hint in place of what was told."""
        self._rest.stop()
        self.line.setText(self._hint)
        self.line.setToolTip("")
        self.line.setAccessibleDescription(
            tr("Told last: {told}").format(told=self._told)
        )
        self.undo.hide()

    def tell(self, text: str, *, undo: str = "") -> None:
        """Show a line; ``undo`` is what its button would take back."""
        self._told = text
        self._rest.start(max(TOLD_MS, MS_PER_LETTER * len(text)))
        self.line.setText(text)
        self.line.setToolTip(as_typed(text))
        self.undo.setVisible(bool(undo))
        self.undo.setToolTip(
            as_typed(tr("Undo: {undo}").format(undo=undo)) if undo else ""
        )
        self.undo.setAccessibleName(
            tr("Undo: {undo}").format(undo=undo) if undo else tr("Undo")
        )
        event = QAccessibleAnnouncementEvent(self.line, text)
        event.setPoliteness(QAccessible.AnnouncementPoliteness.Polite)
        QAccessible.updateAccessibility(event)

    def show_busy(self, busy: bool) -> None:  # noqa: FBT001 -- a slot
        """Show progress once work takes longer than a second."""
        if busy:
            self._patience.start()
        else:
            self._patience.stop()
            self._progress.hide()
