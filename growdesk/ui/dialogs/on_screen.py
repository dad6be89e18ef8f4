"""Keep a dialog on its screen: never larger than the room there, and wholly in it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QSize
from PySide6.QtWidgets import QDialog
from typing_extensions import override

if TYPE_CHECKING:
    from PySide6.QtCore import QRect
    from PySide6.QtGui import QResizeEvent, QShowEvent

_TITLE_BAR = QSize(16, 48)


class OnScreen(QDialog):
    """A dialog that is moved back onto its screen whenever it has grown off it."""

    def free(self) -> QRect:
        """Give the part of the screen that windows may stand in."""
        return self.screen().availableGeometry()

    def room(self) -> QSize:
        """Give what room the screen has for the dialog, its title bar taken off."""
        return self.free().size() - _TITLE_BAR

    def come_onto_screen(self) -> None:
        """Shrink to the room there is, then move as little as brings all into sight."""
        self.resize(self.size().boundedTo(self.room()))
        free = self.free()
        outer = self.frameGeometry()
        x = min(outer.x(), free.right() + 1 - outer.width())
        y = min(outer.y(), free.bottom() + 1 - outer.height())
        self.move(max(x, free.x()), max(y, free.y()))

    @override
    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self.come_onto_screen()

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if self.isVisible():
            self.come_onto_screen()
