"""Give dialogs that hand out drafts, stay open until written, and lose nothing.

A dialog emits ``saved`` with its draft. Whoever writes it calls ``close_saved`` or
``refused``; until then what was typed stays as it is. No dialog runs a loop of its own.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QDialog,
    QDialogButtonBox,
    QPushButton,
    QVBoxLayout,
    QWidget,
)
from typing_extensions import override

from growdesk.domain.errors import GrowdeskError
from growdesk.ui.widgets.form import Form
from growdesk.ui.widgets.parts import label

if TYPE_CHECKING:
    from PySide6.QtGui import QKeyEvent


class FormDialog(QDialog):
    """A dialog with a body, an error line, and Save and Cancel."""

    saved = Signal(object)

    def __init__(self, parent: QWidget | None, title: str, save: str) -> None:
        super().__init__(parent)
        self.setWindowTitle(title)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.body = QVBoxLayout()
        self.body.setSpacing(10)
        self._message = label("", tone="wrong")
        self._message.hide()
        self.buttons = QDialogButtonBox()
        self.save_button = QPushButton(save)
        self.save_button.setDefault(True)
        self.save_button.setToolTip("Ctrl+Enter")
        self.buttons.addButton(self.save_button, QDialogButtonBox.ButtonRole.AcceptRole)
        self.buttons.addButton(QDialogButtonBox.StandardButton.Cancel)
        self.buttons.accepted.connect(self.try_save)
        self.buttons.rejected.connect(self.reject)
        outer = QVBoxLayout(self)
        outer.setContentsMargins(18, 16, 18, 14)
        outer.addLayout(self.body, 1)
        outer.addWidget(self._message)
        outer.addWidget(self.buttons)

    def draft(self) -> object:
        """Give what the form holds; raises ``InputError`` on a slip."""
        raise NotImplementedError

    def try_save(self) -> None:
        """Hand the draft out, or tell the slip beside its field."""
        if not self.save_button.isEnabled():
            return
        self.say("")
        for form in self.findChildren(Form):
            form.clear_errors()
        try:
            draft = self.draft()
        except GrowdeskError as error:
            self.refused(error)
            return
        self.save_button.setEnabled(False)
        self.saved.emit(draft)

    def refused(self, error: Exception) -> None:
        """Tell why it was not written; all that was entered stays."""
        self.save_button.setEnabled(True)
        line = error.line() if isinstance(error, GrowdeskError) else str(error)
        self.say(line)

    def close_saved(self) -> None:
        """Close after the draft was written."""
        self.accept()

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Save on Ctrl+Enter, wherever the focus is."""
        enter = event.key() in {Qt.Key.Key_Return, Qt.Key.Key_Enter}
        if enter and event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            self.try_save()
            return
        super().keyPressEvent(event)

    def say(self, text: str) -> None:
        """Show a line above the buttons."""
        self._message.setText(text)
        self._message.setVisible(bool(text))
