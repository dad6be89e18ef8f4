"""Give the field that narrows a list, with its keys.

Enter and Down go to what was found, Escape clears and goes back. What is found, and
whether there is anything to go to, is the pane's business.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QLineEdit
from typing_extensions import override

from growdesk.domain.speech import tr

if TYPE_CHECKING:
    from PySide6.QtGui import QKeyEvent


class FindLine(QLineEdit):
    """A field for find-as-you-type."""

    entered = Signal()
    left_empty = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.setPlaceholderText(tr("Find by tag, name, place, verdict"))
        self.setClearButtonEnabled(True)
        self.setAccessibleName(tr("Find in the list"))
        self.returnPressed.connect(self.entered)

    def begin(self, typed: str) -> None:
        """Take over a text that was typed in the list."""
        self.setFocus(Qt.FocusReason.ShortcutFocusReason)
        self.setText(typed)

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self.clear()
            self.left_empty.emit()
        elif event.key() == Qt.Key.Key_Down:
            self.entered.emit()
        else:
            super().keyPressEvent(event)


class DialogFindLine(FindLine):
    """The find line of a dialog: Enter goes in and saves nothing.

    An empty one leaves Escape to the dialog, and Ctrl+Enter always is the dialog's.
    """

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        is_enter = event.key() in {Qt.Key.Key_Return, Qt.Key.Key_Enter}
        with_ctrl = event.modifiers() & Qt.KeyboardModifier.ControlModifier
        if is_enter and not with_ctrl:
            self.entered.emit()
        elif is_enter or (event.key() == Qt.Key.Key_Escape and not self.text()):
            event.ignore()
        else:
            super().keyPressEvent(event)
