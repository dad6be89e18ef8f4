"""Choose the day or the week, and go to a round that went by without a tick."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QButtonGroup, QHBoxLayout, QPushButton, QWidget

from growdesk.domain.wording import WEEKDAYS
from growdesk.ui import words
from growdesk.ui.widgets.parts import label, link

if TYPE_CHECKING:
    from datetime import date

    from growdesk.services.values import DayView


class DayOrWeek(QWidget):
    """Two buttons of which one is down."""

    week_wanted = Signal()

    def __init__(self) -> None:
        super().__init__()
        self._group = QButtonGroup(self)
        self._group.setExclusive(True)
        self.day = self._choice("Day", "The day's list (Ctrl+K)")
        self.week = self._choice("Week", "Every plant on every watering day (Ctrl+K)")
        self.day.setChecked(True)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(2)
        for each in (self.day, self.week):
            row.addWidget(each)
        self._is_week = False
        self._group.buttonClicked.connect(self._clicked)

    def show_mode(self, *, is_week: bool) -> None:
        """Show which of the two is in sight."""
        self._is_week = is_week
        (self.week if is_week else self.day).setChecked(True)

    def _choice(self, text: str, tip: str) -> QPushButton:
        made = QPushButton(text)
        made.setAutoDefault(False)
        made.setCheckable(True)
        made.setToolTip(tip)
        made.setAccessibleName(f"Show the {text.lower()}")
        self._group.addButton(made)
        return made

    def _clicked(self, pressed: QPushButton) -> None:
        if (pressed is self.week) is not self._is_week:
            self.week_wanted.emit()


class MissedRound(QWidget):
    """A line on the last round where nothing of it is on record."""

    day_wanted = Signal(object)

    def __init__(self) -> None:
        super().__init__()
        self._missed: date | None = None
        self.told = label("")
        self.told.setObjectName("missed-round")
        self.told.setWordWrap(False)
        self.go = link("", self._go)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(4)
        row.addWidget(self.told)
        row.addWidget(self.go, 0, Qt.AlignmentFlag.AlignLeft)
        row.addStretch(1)
        self.hide()

    def show_day(self, view: DayView) -> None:
        """Say that the round before was missed, where it was."""
        self._missed = view.missed
        self.setVisible(view.missed is not None)
        if view.missed is not None:
            day = WEEKDAYS[view.missed.weekday()]
            self.told.setText(view.missed_told)
            self.go.setText(f"Tick {day} late")
            self.go.setToolTip(f"Show {words.near_day(view.missed)}, to tick it late")

    def _go(self) -> None:
        if self._missed is not None:
            self.day_wanted.emit(self._missed)
