"""Show how far many photos have been taken in, and let that be called off."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QProgressBar, QVBoxLayout
from typing_extensions import override

from growdesk.domain.speech import tr
from growdesk.ui.dialogs.on_screen import OnScreen
from growdesk.ui.widgets.parts import button, label, short_label

if TYPE_CHECKING:
    from pathlib import Path

    from PySide6.QtWidgets import QWidget


class TakingDialog(OnScreen):
    """A bar, the file in hand, and a button that stops; what was taken stays."""

    stopped = Signal()

    def __init__(self, parent: QWidget | None, tag: str, many: int) -> None:
        super().__init__(parent)
        self.setWindowTitle(tr("Photos of {tag}").format(tag=tag))
        self.setMinimumWidth(420)
        self._name = short_label("")
        self.bar = QProgressBar()
        self.bar.setRange(0, many)
        self.bar.setAccessibleName(tr("Photos taken in"))
        self.bar.setFormat("%v of %m")
        outer = QVBoxLayout(self)
        outer.setContentsMargins(18, 16, 18, 14)
        outer.setSpacing(10)
        outer.addWidget(self._name)
        outer.addWidget(self.bar)
        outer.addWidget(label(tr("What has been taken in stays."), tone="muted"))
        row = QHBoxLayout()
        row.addStretch(1)
        self.stop_button = button(tr("&Stop"), self.reject, tr("Esc"))
        row.addWidget(self.stop_button)
        outer.addLayout(row)

    def show_next(self, done: int, path: Path) -> None:
        """Name the file in hand."""
        self.bar.setValue(done)
        self._name.setText(path.name)

    @override
    def reject(self) -> None:
        """Stop after the photo in hand."""
        self.stopped.emit()
        super().reject()
