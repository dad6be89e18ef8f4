"""Ask one question before a large step; keeping what is there is the default."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QDialogButtonBox, QVBoxLayout, QWidget

from growdesk.ui import sizes
from growdesk.ui.dialogs.on_screen import OnScreen
from growdesk.ui.widgets.parts import button, label

_WIDE_PX = 520


class QuestionDialog(OnScreen):
    """A text, a button that says what will be done, and one that keeps all as it is."""

    agreed = Signal()

    def __init__(
        self, parent: QWidget | None, title: str, text: str, *, keep: str, go: str
    ) -> None:
        super().__init__(parent)
        self.setWindowTitle(title)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.text = label(text)
        self.keep_button = button(keep, self.reject)
        self.keep_button.setAutoDefault(True)
        self.keep_button.setDefault(True)
        self.go_button = button(go, self._agree)
        self.go_button.setAutoDefault(False)
        buttons = QDialogButtonBox()
        buttons.addButton(self.go_button, QDialogButtonBox.ButtonRole.ActionRole)
        buttons.addButton(self.keep_button, QDialogButtonBox.ButtonRole.ActionRole)
        outer = QVBoxLayout(self)
        outer.setContentsMargins(18, 16, 18, 14)
        outer.setSpacing(14)
        outer.addWidget(self.text)
        outer.addWidget(buttons)
        sizes.least_wide(self, _WIDE_PX)
        self.keep_button.setFocus()

    def _agree(self) -> None:
        self.accept()
        self.agreed.emit()
