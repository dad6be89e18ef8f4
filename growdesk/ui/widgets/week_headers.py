"""Paint the week's two headers: plants at the left that stay, days with their jugs."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QRect, QSize, Qt
from PySide6.QtGui import QColor, QFontMetrics, QPainter
from PySide6.QtWidgets import QHeaderView, QTableView
from typing_extensions import override

from growdesk.domain.speech import tr
from growdesk.ui import sizes, theme, week_words
from growdesk.ui.name_text import NamePainter
from growdesk.ui.widgets.day_delegate import small, strong

if TYPE_CHECKING:
    from PySide6.QtGui import QFont

    from growdesk.services.week_values import WeekDay, WeekLine
    from growdesk.ui.models.week_model import WeekModel

PLANTS_PX = 196
NARROW_PLANTS_PX = 150
_PAD = 8
_TAG_PX = 38
_BRIEF_PX = 150
_LEAST_PLACE_PX = 30
_LEFT = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter


class PlantHeader(QHeaderView):
    """Tag and name of each plant, and the places over them."""

    def __init__(self, parent: QTableView, model: WeekModel) -> None:
        super().__init__(Qt.Orientation.Vertical, parent)
        self._lines = model
        self._table = parent
        self._names = NamePainter(lines=2)
        self.setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        self.setAccessibleName(tr("Plants by place"))
        self.setSectionsClickable(True)
        sizes.wide(self, PLANTS_PX)

    @override
    def paintSection(self, painter: QPainter, rect: QRect, logicalIndex: int) -> None:
        if not 0 <= logicalIndex < len(self._lines.rows):
            return
        c = theme.colours()
        entry = self._lines.rows[logicalIndex]
        painter.save()
        painter.fillRect(rect, QColor(c.card))
        if isinstance(entry, str):
            self._paint_place(painter, rect, entry)
        else:
            is_chosen = self._table.currentIndex().row() == logicalIndex
            self._paint_plant(painter, rect, entry, is_chosen=is_chosen)
        painter.restore()

    def _paint_place(self, painter: QPainter, rect: QRect, name: str) -> None:
        c = theme.colours()
        font, room = strong(self.font()), rect.adjusted(12, 8, -4, -2)
        text = fitted_place(name, QFontMetrics(font), room.width())
        _draw(painter, font, c.muted, room, text)
        painter.setPen(QColor(c.line))
        painter.drawLine(rect.left() + 8, rect.bottom(), rect.right(), rect.bottom())

    def _paint_plant(
        self, painter: QPainter, rect: QRect, line: WeekLine, *, is_chosen: bool
    ) -> None:
        c = theme.colours()
        if is_chosen:
            painter.fillRect(rect, QColor(c.chosen))
            painter.fillRect(
                rect.left(), rect.top(), 4, rect.height(), QColor(c.accent)
            )
        tag = QRect(rect.left() + 12, rect.top(), sizes.px(_TAG_PX), rect.height())
        _draw(painter, strong(self.font()), c.ink, tag, line.tag)
        font = small(self.font())
        painter.setPen(QColor(c.ink))
        room = rect.adjusted(12 + sizes.px(_TAG_PX), 3, -4, -3)
        self._names.paint(painter, room, font, line.name)


class DayHeader(QHeaderView):
    """Each watering day with what came of it, or what to have ready for it."""

    def __init__(self, parent: QTableView, model: WeekModel) -> None:
        super().__init__(Qt.Orientation.Horizontal, parent)
        self._lines = model
        self.setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        self.setMinimumSectionSize(30)
        self.setSectionsClickable(False)
        self.setAccessibleName(tr("Watering days"))

    @override
    def sizeHint(self) -> QSize:
        rows = max(
            (len(week_words.day_amounts(d)) for d in self._lines.days), default=0
        )
        little = QFontMetrics(small(self.font())).height() + 1
        return QSize(100, self.fontMetrics().height() + (rows + 1) * little + 22)

    @override
    def paintSection(self, painter: QPainter, rect: QRect, logicalIndex: int) -> None:
        if not 0 <= logicalIndex < len(self._lines.days):
            return
        c = theme.colours()
        day = self._lines.days[logicalIndex]
        painter.save()
        painter.fillRect(rect, QColor(c.page if day.is_today else c.card))
        if day.is_today:
            painter.fillRect(rect.left(), rect.top(), rect.width(), 4, QColor(c.accent))
        self._paint_day(painter, rect.adjusted(_PAD, 10, -4, -6), day)
        painter.setPen(QColor(c.line))
        painter.drawLine(rect.left(), rect.bottom(), rect.right(), rect.bottom())
        painter.restore()

    def _paint_day(self, painter: QPainter, room: QRect, day: WeekDay) -> None:
        c = theme.colours()
        ink = c.muted if day.is_past and not day.is_missed else c.ink
        near = c.warn if day.is_missed else c.accent if day.is_today else c.muted
        top = room.top()
        brief, bold = room.width() < sizes.px(_BRIEF_PX) - 12, strong(self.font())
        rows = [
            (bold, ink, week_words.day_title(day.on, brief=brief)),
            (small(self.font() if brief else bold), near, week_words.day_near(day)),
        ]
        amounts = week_words.day_amounts(day, brief=brief)
        rows += [(small(self.font()), c.ink, text) for text in amounts]
        for font, colour, text in rows:
            height = QFontMetrics(font).height() + 1
            _draw(
                painter,
                font,
                colour,
                QRect(room.left(), top, room.width(), height),
                text,
            )
            top += height


def fitted_place(name: str, metrics: QFontMetrics, room_px: int) -> str:
    """Cut a place so that its bench is read, by which its heads differ."""
    place, between, bench = name.rpartition(" · ")
    if not between or metrics.horizontalAdvance(name) <= room_px:
        return name
    bench = f"{between}{bench}"
    left_px = room_px - metrics.horizontalAdvance(bench)
    if left_px < sizes.px(_LEAST_PLACE_PX):
        return bench.removeprefix(between)
    return metrics.elidedText(place, Qt.TextElideMode.ElideRight, left_px) + bench


def _draw(painter: QPainter, font: QFont, ink: str, rect: QRect, text: str) -> None:
    painter.setFont(font)
    painter.setPen(QColor(ink))
    mode = Qt.TextElideMode.ElideRight
    painter.drawText(
        rect, _LEFT, QFontMetrics(font).elidedText(text, mode, rect.width())
    )
