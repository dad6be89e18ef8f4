"""Show a watering day summed up, in place of its list; to read, copy and print."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QFrame, QHBoxLayout, QVBoxLayout

from growdesk.domain.speech import mark, tr
from growdesk.ui import day_sum_words
from growdesk.ui.widgets.parts import Page, button, clear, label, scrolled

if TYPE_CHECKING:
    from growdesk.services.day_sum import DaySum

COPIED = mark("The day in sum is on the clipboard.")


class DaySumPane(QFrame):
    """The day in sum."""

    back_wanted = Signal()
    looks_wanted = Signal()
    print_wanted = Signal()
    told = Signal(str)

    def __init__(self) -> None:
        super().__init__()
        self.setProperty("pane", "true")
        self.setAccessibleName(tr("The day summed up"))
        self.summed: DaySum | None = None
        self.title = label("", scale=1.2)
        self._page = Page()
        self._lines = QVBoxLayout(self._page)
        self._lines.setContentsMargins(18, 4, 18, 12)
        self._lines.setSpacing(6)
        self._area = scrolled(self._page, tr("The day summed up"))
        self.looks_button = button(tr("Look at them now"), self.looks_wanted.emit)
        self.back_button = button(tr("Back to the list"), self.back_wanted.emit)
        self.copy_button = button(tr("Copy"), self.copy)
        self.print_button = button(tr("Print…"), self.print_wanted.emit)
        row = QHBoxLayout()
        row.setContentsMargins(18, 8, 18, 6)
        for each in (
            self.back_button,
            self.looks_button,
            self.copy_button,
            self.print_button,
        ):
            row.addWidget(each)
        row.addStretch(1)
        self.title.setContentsMargins(18, 12, 18, 0)
        outer = QVBoxLayout(self)
        outer.setContentsMargins(1, 1, 1, 4)
        outer.setSpacing(2)
        outer.addWidget(self.title)
        outer.addWidget(self._area, 1)
        outer.addLayout(row)

    def show_sum(self, summed: DaySum) -> None:
        """Show a day in sum."""
        self.summed = summed
        self.title.setText(day_sum_words.title(summed))
        clear(self._lines)
        for part in day_sum_words.parts(summed):
            if part.title:
                self._lines.addSpacing(6)
                self._lines.addWidget(label(part.title, tone="head"))
            for line in part.lines:
                self._lines.addWidget(label(line))
        self._lines.addStretch(1)
        had = self.looks_button.hasFocus()
        self.looks_button.setVisible(bool(summed.looks) and not summed.is_to_come)
        if had and self.looks_button.isHidden():
            self.focus()

    def focus(self) -> None:
        """Put the focus on the way back to the list."""
        self.back_button.setFocus(Qt.FocusReason.ShortcutFocusReason)

    def copy(self) -> None:
        """Put all of it on the clipboard as plain text."""
        if self.summed is not None:
            QGuiApplication.clipboard().setText(day_sum_words.as_text(self.summed))
            self.told.emit(tr(COPIED))
