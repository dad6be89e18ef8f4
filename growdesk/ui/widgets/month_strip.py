"""A strip of the year: how much there is to do in each week, month by month."""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING

from PySide6.QtCore import QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QFontMetrics, QPainter
from PySide6.QtWidgets import QSizePolicy, QWidget
from typing_extensions import override

from growdesk.domain.day_words import SHORT_MONTHS
from growdesk.domain.speech import tr
from growdesk.ui import theme, words
from growdesk.ui.widgets.day_delegate import small

if TYPE_CHECKING:
    from collections.abc import Sequence

    from PySide6.QtGui import QMouseEvent, QPaintEvent

_BARS_PX = 26
_MARGIN_PX = 14


class MonthStrip(QWidget):
    """Bars of a year of weeks, this one first; a click goes to a week."""

    week_wanted = Signal(object)

    def __init__(self) -> None:
        super().__init__()
        self._weeks: Sequence[tuple[date, int]] = ()
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAccessibleName(tr("Jobs by week"))
        self.setToolTip(tr("How much there is to do in each week of the year to come"))

    def show_weeks(self, weeks: Sequence[tuple[date, int]]) -> None:
        """Show weeks by their Monday, each with its count."""
        self._weeks = weeks
        said = [
            tr("week of {near_day} {count}").format(
                near_day=words.near_day(day), count=count
            )
            for day, count in weeks
            if count
        ]
        self.setAccessibleDescription(", ".join(said) or tr("No week has a job."))
        self.update()

    @override
    def sizeHint(self) -> QSize:
        text = QFontMetrics(small(self.font())).height()
        return QSize(300, _BARS_PX + text + 6)

    @override
    def minimumSizeHint(self) -> QSize:
        return QSize(120, self.sizeHint().height())

    @override
    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        week = int((event.position().x() - _MARGIN_PX) // max(self._step(), 0.1))
        if 0 <= week < len(self._weeks):
            self.week_wanted.emit(self._weeks[week][0])

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        if not self._weeks:
            return
        c = theme.colours()
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setFont(small(self.font()))
        step = self._step()
        most = max(*(count for _day, count in self._weeks), 1)
        painter.setPen(Qt.PenStyle.NoPen)
        for number, (_day, count) in enumerate(self._weeks):
            left = _MARGIN_PX + number * step
            high = max(3.0, _BARS_PX * count / most) if count else 1.5
            bar = QRectF(left, _BARS_PX + 2 - high, max(step - 2, 1.5), high)
            painter.setBrush(QColor(c.accent if count else c.line))
            painter.drawRoundedRect(bar, 1, 1)
        painter.setPen(QColor(c.muted))
        high = painter.fontMetrics().height()
        for number, (day, _count) in enumerate(self._weeks):
            first = _month_begins(day)
            left = _MARGIN_PX + number * step
            if first is not None and left + 3.5 * step < self.width():
                room = QRectF(left, _BARS_PX + 4, 5 * step, high)
                name = SHORT_MONTHS[first.month - 1]
                painter.drawText(room, Qt.AlignmentFlag.AlignLeft, name)
        painter.end()

    def _step(self) -> float:
        return (self.width() - 2 * _MARGIN_PX) / max(len(self._weeks), 1)


def _month_begins(monday: date) -> date | None:
    """Give the first of a month that falls into a week."""
    sunday = monday + timedelta(days=6)
    first = sunday.replace(day=1)
    return first if first >= monday else None
