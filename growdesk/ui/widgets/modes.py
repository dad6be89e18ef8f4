"""Choose what stands in the first pane, and go to a round without a tick."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QButtonGroup, QHBoxLayout, QPushButton, QWidget
from typing_extensions import override

from growdesk.domain.day_words import weekday
from growdesk.domain.speech import mark, tr
from growdesk.ui import words
from growdesk.ui.widgets.parts import label, link

if TYPE_CHECKING:
    from collections.abc import Callable
    from datetime import date

    from PySide6.QtGui import QResizeEvent

    from growdesk.services.values import DayView


_CHOICES = (
    ("day", mark("Day"), mark("The day's list"), mark("Show the day")),
    (
        "week",
        mark("Week"),
        mark("Every plant on every watering day (Ctrl+K)"),
        mark("Show the week"),
    ),
    (
        "calendar",
        mark("Calendar"),
        mark("What is to be done, and when (Ctrl+Shift+D)"),
        mark("Show the calendar"),
    ),
    (
        "collection",
        mark("Collection"),
        mark("All plants in one table (Ctrl+Shift+C)"),
        mark("Show the collection"),
    ),
)
"""The faces of the first pane in their order: key, button, tip, name."""


class FaceChoice(QWidget):
    """A row of buttons of which one is down."""

    wanted = Signal(str)

    def __init__(self) -> None:
        super().__init__()
        self._group = QButtonGroup(self)
        self._group.setExclusive(True)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(2)
        self.buttons: dict[str, QPushButton] = {}
        for key, *said in _CHOICES:
            self.buttons[key] = self._choice(key, *(tr(each) for each in said))
            row.addWidget(self.buttons[key])
        self.show_mode("day")

    def show_mode(self, key: str) -> None:
        """Show which of them is in sight; one without a button is of the day."""
        self.buttons.get(key, self.buttons["day"]).setChecked(True)

    def _choice(self, key: str, text: str, tip: str, name: str) -> QPushButton:
        made = QPushButton(text)
        made.setAutoDefault(False)
        made.setCheckable(True)
        made.setToolTip(tip)
        made.setAccessibleName(name)
        made.clicked.connect(lambda: self.wanted.emit(key))
        self._group.addButton(made)
        return made


class TellingLine(QWidget):
    """A line of text with a link behind it; it wraps where it has no room."""

    def __init__(self, name: str, go: Callable[[], object]) -> None:
        super().__init__()
        self.go = link("", go)
        self.told = label("")
        self.told.setObjectName(name)
        self._row = row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(4)
        row.addWidget(self.told)
        row.addWidget(self.go, 0, Qt.AlignmentFlag.AlignLeft)
        row.addStretch(1)
        self._fit()
        self.hide()

    def tell(self, text: str) -> None:
        """Say a text, in one line where there is room."""
        self.told.setText(text)
        self._fit()

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit()

    def _fit(self) -> None:
        room = self.width() - self.go.sizeHint().width() - 2 * self._row.spacing()
        if self.go.isHidden():
            room = self.width()
        wide = self.told.fontMetrics().horizontalAdvance(self.told.text())
        self.told.setWordWrap(wide > room)
        for part, share in enumerate((wide > room, False, wide <= room)):
            self._row.setStretch(part, int(share))


class JobsBeside(TellingLine):
    """A line on what the calendar has overdue, and for tonight."""

    calendar_wanted = Signal()

    def __init__(self) -> None:
        super().__init__("jobs-beside", self._go)
        self.go.setText(tr("See the calendar"))
        self.go.setToolTip(tr("What is to be done beside watering (Ctrl+Shift+D)"))

    def show_told(self, text: str) -> None:
        """Say what is to be done; nothing hides the line."""
        self.tell(text)
        self.setVisible(bool(text))

    def _go(self) -> None:
        self.calendar_wanted.emit()


class BackupsAmiss(TellingLine):
    """A line on what is wrong with the backups, while anything is."""

    backups_wanted = Signal()

    def __init__(self) -> None:
        super().__init__("backups-amiss", self._go)
        self.told.setProperty("tone", "wrong")
        self.go.setText(tr("See the backups"))
        self.go.setToolTip(tr("What is kept, and what is wrong with it (Ctrl+Alt+F)"))

    def show_told(self, text: str) -> None:
        """Say what is wrong; nothing hides the line."""
        self.tell(text)
        self.setVisible(bool(text))

    def _go(self) -> None:
        self.backups_wanted.emit()


class MissedRound(TellingLine):
    """A line on the last round where nothing of it is on record."""

    day_wanted = Signal(object)

    def __init__(self) -> None:
        super().__init__("missed-round", self._go)
        self._missed: date | None = None

    def show_day(self, view: DayView) -> None:
        """Say that the round before was missed, where it was."""
        self._missed = view.missed
        self.setVisible(view.missed is not None)
        if view.missed is not None:
            day = weekday(view.missed)
            self.go.setText(tr("Tick {day} late").format(day=day))
            self.tell(view.missed_told)
            self.go.setToolTip(
                tr("Show {near_day}, to tick it late").format(
                    near_day=words.near_day(view.missed)
                )
            )

    def _go(self) -> None:
        if self._missed is not None:
            self.day_wanted.emit(self._missed)
