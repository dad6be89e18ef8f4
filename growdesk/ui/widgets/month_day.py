"""Give an editor for a day of the year without a year."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QComboBox, QHBoxLayout, QSpinBox, QWidget

from growdesk.domain import day_words
from growdesk.domain.speech import tr


class MonthDayEdit(QWidget):
    """A day of the year without a year."""

    changed = Signal()

    def __init__(self, title: str) -> None:
        super().__init__()
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        self._day = QSpinBox()
        self._day.setRange(1, 31)
        self._day.setAccessibleName(tr("{title}: day").format(title=title))
        self._day.lineEdit().setAccessibleName(tr("{title}: day").format(title=title))
        self._day.valueChanged.connect(lambda _day: self.changed.emit())
        self._month = QComboBox()
        self._month.addItems(list(day_words.MONTHS))
        self._month.setAccessibleName(tr("{title}: month").format(title=title))
        self._month.currentIndexChanged.connect(lambda _row: self.changed.emit())
        row.addWidget(self._day)
        row.addWidget(self._month)
        row.addStretch(1)
        self.setFocusProxy(self._day)

    def stops(self) -> list[QWidget]:
        """Give what the Tab key comes to."""
        return [self._day, self._month]

    def month_day(self) -> tuple[int, int]:
        """Give month and day."""
        return self._month.currentIndex() + 1, self._day.value()

    def held(self) -> tuple[int, int]:
        """Give what a kept draft needs."""
        return self.month_day()

    def hold(self, value: tuple[int, int]) -> None:
        """Put back what a kept draft had."""
        self.set_month_day(value)

    def set_month_day(self, month_day: tuple[int, int]) -> None:
        """Show month and day."""
        self._month.setCurrentIndex(month_day[0] - 1)
        self._day.setValue(month_day[1])
