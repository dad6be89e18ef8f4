"""Give dialogs for one thing that hand out a draft and stay open until it is written.

A dialog emits ``saved`` with its draft. Whoever writes it calls ``close_saved`` or
``refused``; until then what was typed stays as it is.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QDialogButtonBox
from typing_extensions import override

from growdesk.ui.dialogs.frame import Framed

if TYPE_CHECKING:
    from PySide6.QtWidgets import QWidget


class FormDialog(Framed):
    """A dialog around one form, with Save and Cancel."""

    saved = Signal(object)

    def __init__(self, parent: QWidget | None, title: str, save: str) -> None:
        super().__init__(parent, title, save)
        self.buttons.addButton(self.save_button, QDialogButtonBox.ButtonRole.AcceptRole)
        self.buttons.addButton(QDialogButtonBox.StandardButton.Cancel)
        self.buttons.accepted.connect(self.try_save)
        self._is_sent = False

    @override
    def send(self, draft: object) -> None:
        self._is_sent = True
        self.save_button.setEnabled(False)
        self.saved.emit(draft)

    @override
    def reject(self) -> None:
        """Leave with a draft; while the form is being written, wait for the answer."""
        if self.save_button.isEnabled() or not self._is_sent:
            super().reject()

    def close_saved(self) -> None:
        """Close after the draft was written."""
        self.accept()
