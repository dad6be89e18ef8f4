"""Tell something that stands in the way, with the one button that leads on."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QDialogButtonBox, QPushButton, QVBoxLayout, QWidget

from growdesk.ui import sizes
from growdesk.ui.dialogs.on_screen import OnScreen
from growdesk.ui.widgets.parts import label

if TYPE_CHECKING:
    from collections.abc import Callable

_WIDE_PX = 460


class ToldDialog(OnScreen):
    """A few lines of text; ``way`` names the button that leads on and what it does."""

    def __init__(
        self,
        parent: QWidget | None,
        title: str,
        text: str,
        way: tuple[str, Callable[[], object]],
    ) -> None:
        super().__init__(parent)
        self.setWindowTitle(title)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.text = label(text)
        self.way_button = QPushButton(way[0])
        self.way_button.setDefault(True)
        self.way_button.clicked.connect(lambda _on=False: self._go(way[1]))
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
        buttons.addButton(self.way_button, QDialogButtonBox.ButtonRole.ActionRole)
        buttons.rejected.connect(self.reject)
        outer = QVBoxLayout(self)
        outer.setContentsMargins(18, 16, 18, 14)
        outer.setSpacing(14)
        outer.addWidget(self.text)
        outer.addWidget(buttons)
        sizes.least_wide(self, _WIDE_PX)
        self.way_button.setFocus()

    def _go(self, on: Callable[[], object]) -> None:
        self.accept()
        on()
