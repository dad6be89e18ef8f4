"""Show long work at the foot of the window: what, how far, and a way to cancel it.

It comes after a second beside what was told, so that nothing above it moves, takes no
focus, and is announced when it comes and goes.
Escape cancels where the focus is in it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, Qt, QTimer, Signal
from PySide6.QtGui import QAccessible, QAccessibleAnnouncementEvent, QKeyEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QProgressBar, QWidget
from typing_extensions import override

from growdesk.domain.speech import tr
from growdesk.ui import motion, sizes
from growdesk.ui.widgets.parts import button, label, short_label

if TYPE_CHECKING:
    from growdesk.ui.long_work import LongWork, Turn

PATIENCE_MS = 1000
STEPS = 100
"""The bar's own steps: a reader of the screen is told of no more, with any parts."""
_READ_EVERY_MS = 100
_BAR_PX = 110


class LongPanel(QFrame):
    """One line for the long work that runs."""

    came = Signal()

    def __init__(self, long_work: LongWork, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._long = long_work
        self._shown: Turn | None = None
        self.setProperty("strip", "true")
        self.setAccessibleName(tr("Long work"))
        self.line = label()
        self.line.setObjectName("long-work-line")
        self.counted = short_label(tone="muted")
        self.bar = QProgressBar()
        sizes.wide(self.bar, _BAR_PX)
        self.bar.setTextVisible(False)
        self.cancel_button = button(
            tr("Cancel"), long_work.cancel, tr("Esc here, or Ctrl+. anywhere")
        )
        row = QHBoxLayout(self)
        row.setContentsMargins(16, 4, 16, 4)
        row.setSpacing(12)
        row.addWidget(self.line, 1)
        row.addWidget(self.counted)
        row.addWidget(self.bar)
        row.addWidget(self.cancel_button)
        self._patience = QTimer(self)
        self._patience.setSingleShot(True)
        self._patience.setInterval(PATIENCE_MS)
        self._patience.timeout.connect(self._come)
        self._timer = QTimer(self)
        self._timer.setInterval(_READ_EVERY_MS)
        self._timer.timeout.connect(self.read)
        long_work.turned.connect(self._turn)
        self.hide()

    def read(self) -> None:
        """Show how far the work is now."""
        turn = self._shown
        if turn is None:
            return
        self.counted.setText(turn.told)
        if turn.going.of:
            self.bar.setRange(0, STEPS)
            self.bar.setValue(min(STEPS, STEPS * turn.going.done // turn.going.of))
        self.bar.setAccessibleDescription(turn.told)
        self.cancel_button.setEnabled(not turn.going.is_stopped)

    def _turn(self) -> None:
        """Follow the work whose turn it is, or none any more."""
        turn = self._long.now
        if turn is None:
            self._go()
            return
        if turn is not self._shown:
            self._shown = turn
            motion.leave_open(self.bar)
            self.bar.setAccessibleName(turn.title)
            self.cancel_button.setAccessibleName(
                tr("Cancel: {title}").format(title=turn.title)
            )
            if self.isHidden():
                self._patience.start()
            else:
                self._announce(turn.title)
        then = self._long.waiting
        self.line.setText(f"{turn.title}… {then}" if then else f"{turn.title}…")
        self.read()

    def _come(self) -> None:
        if self._shown is None:
            return
        self.read()
        self._timer.start()
        self.show()
        self.came.emit()
        self._announce(self._shown.title)

    def _go(self) -> None:
        ended, self._shown = self._shown, None
        self._patience.stop()
        self._timer.stop()
        was_seen = not self.isHidden()
        self._hand_focus_on()
        self.hide()
        if ended is not None and was_seen:
            self._announce(tr("Over: {title}").format(title=ended.title))

    def _hand_focus_on(self) -> None:
        """Leave the focus to what had it next, rather than to a line that goes."""
        if self.cancel_button.hasFocus():
            self.focusPreviousChild()

    def _announce(self, text: str) -> None:
        QAccessible.updateAccessibility(QAccessibleAnnouncementEvent(self, text))

    @override
    def event(self, event: QEvent) -> bool:
        """Keep Escape to this line where the focus is in it."""
        if (
            event.type() == QEvent.Type.ShortcutOverride
            and isinstance(event, QKeyEvent)
            and event.key() == Qt.Key.Key_Escape
        ):
            event.accept()
            return True
        return super().event(event)

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Cancel on Escape."""
        if event.key() == Qt.Key.Key_Escape:
            self._long.cancel()
        else:
            super().keyPressEvent(event)
