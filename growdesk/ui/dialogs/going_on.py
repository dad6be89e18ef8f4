"""Show how far long work is, with a way to stop it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QDialogButtonBox, QProgressBar, QVBoxLayout, QWidget
from typing_extensions import override

from growdesk.domain.speech import tr
from growdesk.ui.dialogs.on_screen import OnScreen
from growdesk.ui.widgets.parts import label

if TYPE_CHECKING:
    from growdesk.ui.going import Going

_READ_EVERY_MS = 100


class Progress(QProgressBar):
    """A bar that reads how far some work is, as long as it is told of any."""

    def __init__(self, name: str) -> None:
        super().__init__()
        self.setAccessibleName(name)
        self._going: Going | None = None
        self._timer = QTimer(self)
        self._timer.setInterval(_READ_EVERY_MS)
        self._timer.timeout.connect(self.read)

    def follow(self, going: Going | None) -> None:
        """Follow some work, or none any more."""
        self._going = going
        self.setRange(0, 0)
        if going is None:
            self._timer.stop()
        else:
            self._timer.start()

    def read(self) -> None:
        """Show how far it is now."""
        if self._going is not None and self._going.of:
            self.setRange(0, self._going.of)
            self.setValue(self._going.done)


class GoingOnDialog(OnScreen):
    """What is being done, a bar, and a button to stop it."""

    def __init__(self, parent: QWidget | None, title: str, going: Going) -> None:
        super().__init__(parent)
        self.setWindowTitle(title)
        self._going = going
        self.line = label(f"{title}…")
        self.bar = Progress(title)
        self.bar.follow(going)
        outer = QVBoxLayout(self)
        outer.setContentsMargins(18, 16, 18, 14)
        outer.setSpacing(10)
        outer.addWidget(self.line)
        outer.addWidget(self.bar)
        foot = QDialogButtonBox()
        self.stop_button = foot.addButton(
            tr("&Stop"), QDialogButtonBox.ButtonRole.RejectRole
        )
        foot.rejected.connect(self.reject)
        outer.addWidget(foot)
        self.resize(420, 140)

    @override
    def reject(self) -> None:
        self._going.stop()
        super().reject()

    def finish(self) -> None:
        """Close once the work is over."""
        self.bar.follow(None)
        self.accept()
