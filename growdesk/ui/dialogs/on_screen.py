"""Keep a dialog on its screen: never larger than the room there, and wholly in it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QSize, Qt
from PySide6.QtWidgets import QBoxLayout, QDialog, QHBoxLayout
from typing_extensions import override

from growdesk.services import trail
from growdesk.ui import handbook_asking
from growdesk.ui.dialogs.tabbing import stops
from growdesk.ui.preferences import preferences
from growdesk.ui.tips import titled

if TYPE_CHECKING:
    from PySide6.QtCore import QRect
    from PySide6.QtGui import QKeyEvent, QResizeEvent, QShowEvent

_TITLE_BAR = QSize(16, 48)
_MARGINS_PX = 40
_BAR_PX = 36
"""What a title bar takes that the screen has not told of yet."""


class OnScreen(QDialog):
    """A dialog that is moved back onto its screen whenever it has grown off it."""

    @override
    def setWindowTitle(self, text: str) -> None:
        super().setWindowTitle(titled(text))

    def free(self) -> QRect:
        """Give the part of the screen that windows may stand in."""
        return self.screen().availableGeometry()

    def room(self) -> QSize:
        """Give what room the screen has for the dialog, its title bar taken off."""
        return self.free().size() - _TITLE_BAR

    def come_onto_screen(self) -> None:
        """Shrink to the room there is, then move as little as brings all into sight."""
        self.setMinimumSize(self.minimumSize().boundedTo(self.room()))
        self._stack_wide_rows()
        self.resize(self.size().boundedTo(self.room()))
        free = self.free()
        outer = self.frameGeometry()
        bar = self.geometry().y() - outer.y()
        x = min(outer.x(), free.right() + 1 - outer.width())
        y = min(outer.y(), free.bottom() + 1 - outer.height())
        self.move(max(x, free.x()), max(y, free.y() + (0 if bar else _BAR_PX)))

    def take_kept_size(self) -> None:
        """Take the size that a person last gave to such a dialog."""
        kept = preferences().value(self._size_key())
        if isinstance(kept, QSize) and kept.isValid():
            self.resize(kept.boundedTo(self.room()))

    def _size_key(self) -> str:
        return f"size-of-{type(self).__name__}"

    def _stack_wide_rows(self) -> None:
        """Put under one another what stands side by side and finds no room so."""
        for row in self.findChildren(QHBoxLayout):
            if row.minimumSize().width() > self.room().width() - _MARGINS_PX:
                row.setDirection(QBoxLayout.Direction.TopToBottom)

    def stand_over_parent(self) -> None:
        """Take the middle of the window that it was opened from, on its screen."""
        parent = self.parentWidget()
        if parent is not None:
            middle = parent.window().geometry().center()
            self.move(self.pos() + middle - self.geometry().center())
        self.come_onto_screen()

    @override
    def focusNextPrevChild(self, next: bool) -> bool:
        """Go to the next stop in the dialog's order, and from the last to the first.

        Left to itself Qt comes to a compound that hands its focus on, wherever in the
        form that is, and passes by what stands before it.
        """
        found, held = stops(self), self.focusWidget()
        if held in found and len(found) > 1:
            at = found.index(held) + (1 if next else -1)
            reason = Qt.FocusReason
            way = reason.TabFocusReason if next else reason.BacktabFocusReason
            found[at % len(found)].setFocus(way)
            return True
        return super().focusNextPrevChild(next)

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Open the handbook at the page of this dialog."""
        if event.key() != Qt.Key.Key_F1 or not handbook_asking.ask(self):
            super().keyPressEvent(event)

    @override
    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        if not event.spontaneous():
            trail.note("form", type(self).__name__)
            self.take_kept_size()
            self.stand_over_parent()

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if event.spontaneous() and self.isVisible():
            preferences().setValue(self._size_key(), self.size())
        if self.isVisible():
            self.come_onto_screen()
