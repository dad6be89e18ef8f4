"""Show the week as a table of marks and words; a cell is a plant on a day.

Arrow keys go from cell to cell, Enter or a double click opens the cell's day. Shape and
word carry the verdict; colour only follows.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QRect, QRectF, Qt, Signal
from PySide6.QtGui import QColor, QFontMetrics, QPainter, QPen
from PySide6.QtWidgets import (
    QAbstractItemView,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QTableView,
)
from typing_extensions import override

from growdesk.domain.speech import tr
from growdesk.services.values import DoneKind
from growdesk.ui import icons, sizes, theme, week_words
from growdesk.ui.widgets.day_delegate import small, strong
from growdesk.ui.widgets.week_headers import (
    NARROW_PLANTS_PX,
    PLANTS_PX,
    DayHeader,
    PlantHeader,
)

if TYPE_CHECKING:
    from PySide6.QtGui import QFont, QKeyEvent, QResizeEvent

    from growdesk.services.week_values import WeekCell
    from growdesk.ui.models.week_model import WeekModel

Index = QModelIndex | QPersistentModelIndex
LEAST_DAY_PX = 114
SCROLLED_DAY_PX = 152
DAY_PX = 168
MOST_DAY_PX = 260
_FRAME_PX = 30
_CELL_LEFT, _CELL_RIGHT = 8, 4
_ASKED = 100
_MARK = 18
_ENTER = (Qt.Key.Key_Return, Qt.Key.Key_Enter)
_LEFT = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter


class WeekTable(QTableView):
    """The table of the week."""

    typed = Signal(str)
    opened = Signal(QModelIndex)

    def __init__(self, model: WeekModel) -> None:
        super().__init__()
        self._lines = model
        self.setModel(model)
        self.setItemDelegate(WeekDelegate(self, model))
        self.setVerticalHeader(PlantHeader(self, model))
        self.setHorizontalHeader(DayHeader(self, model))
        self.setAccessibleName(tr("The week: plants by place, watering days across"))
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setShowGrid(False)
        self.setCornerButtonEnabled(False)
        self.setTabKeyNavigation(False)
        self.setWordWrap(False)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setHorizontalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.doubleClicked.connect(self.opened)
        sizes.current().turned.connect(self.fit)

    def wanted_px(self) -> int:
        """Give the width in which every day has room for its words."""
        days = self._day_px() * len(self._lines.days)
        return sizes.px(PLANTS_PX) + days + _FRAME_PX

    def _day_px(self) -> int:
        """Give the width in which what stands in a day's cells is read whole.

        The first plants speak for all; the words are the same.
        """
        entries = [each for each in self._lines.rows if not isinstance(each, str)]
        metrics = QFontMetrics(small(self.font()))
        said = {
            week_words.under(cell) for line in entries[:_ASKED] for cell in line.cells
        }
        widest = max((metrics.horizontalAdvance(each) for each in said), default=0)
        asked = widest + _CELL_LEFT + _CELL_RIGHT + 2
        return min(max(sizes.px(DAY_PX), asked), sizes.px(MOST_DAY_PX))

    def fit(self) -> None:
        """Give every row its height, and the days the width there is."""
        height = self.fontMetrics().height()
        header, plant, place = self.verticalHeader(), 2 * height + 12, height + 18
        if header.defaultSectionSize() != plant:
            header.setDefaultSectionSize(plant)
        places = {n for n, row in enumerate(self._lines.rows) if isinstance(row, str)}
        for row in range(len(self._lines.rows)):
            wanted = place if row in places else plant
            if header.sectionSize(row) != wanted:
                header.resizeSection(row, wanted)
        self._fit_days()
        self.updateGeometries()

    def _fit_days(self) -> None:
        count = len(self._lines.days)
        if not count:
            return
        header = self.verticalHeader()
        whole = self.viewport().width() + header.width()
        is_narrow = whole < sizes.px(PLANTS_PX) + self._day_px() * count
        plants = NARROW_PLANTS_PX if is_narrow else PLANTS_PX
        if header.width() != sizes.px(plants):
            sizes.wide(header, plants)
            self.updateGeometries()
        width = (whole - sizes.px(plants)) // count
        if width < sizes.px(LEAST_DAY_PX):
            width = sizes.px(
                SCROLLED_DAY_PX
            )  # it scrolls anyway, so every word has its room
        for column in range(count):
            if self.columnWidth(column) != width:
                self.setColumnWidth(column, width)

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit_days()

    @override
    def currentChanged(self, current: Index, previous: Index) -> None:
        super().currentChanged(current, previous)
        self.verticalHeader().viewport().update()
        self.viewport().update()

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in _ENTER and self.currentIndex().isValid():
            self.opened.emit(self.currentIndex())
        else:
            super().keyPressEvent(event)

    @override
    def keyboardSearch(self, search: str) -> None:
        """Hand a typed letter on, in place of jumping to a row that begins with it."""
        if search.strip() and search.isprintable():
            self.typed.emit(search)


class WeekDelegate(QStyledItemDelegate):
    """Draws a plant on a day: a mark and a word, and under them how."""

    def __init__(self, parent: WeekTable, model: WeekModel) -> None:
        super().__init__(parent)
        self._table = parent
        self._lines = model

    @override
    def paint(
        self, painter: QPainter, option: QStyleOptionViewItem, index: Index
    ) -> None:
        cell = self._lines.cell_at(index)
        rect: QRect = option.rect
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        self._paint_ground(painter, rect, index, option.state)
        if cell is None:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing, on=False)
            painter.setPen(QColor(theme.colours().line))
            painter.drawLine(rect.left(), rect.bottom(), rect.right(), rect.bottom())
        else:
            is_past = self._lines.days[index.column()].is_past
            room = rect.adjusted(_CELL_LEFT, 3, -_CELL_RIGHT, -3)
            _paint_cell(painter, room, cell, option.font, is_past=is_past)
        painter.restore()

    def _paint_ground(
        self, painter: QPainter, rect: QRect, index: Index, state: QStyle.StateFlag
    ) -> None:
        c = theme.colours()
        if self._lines.days[index.column()].is_today:
            painter.fillRect(rect, QColor(c.page))
        is_row = self._table.currentIndex().row() == index.row()
        if is_row and self._lines.cell_at(index) is not None:
            painter.fillRect(rect, QColor(c.chosen))
        if state & QStyle.StateFlag.State_Selected:
            painter.setPen(QPen(QColor(c.focus), 2))
            painter.drawRoundedRect(QRectF(rect).adjusted(1, 1, -1, -1), 4, 4)


def _paint_cell(
    painter: QPainter, room: QRect, cell: WeekCell, font: QFont, *, is_past: bool
) -> None:
    c = theme.colours()
    name, ink = _mark(cell, is_past=is_past)
    half = room.height() // 2
    side = sizes.px(_MARK)
    box = QRectF(room.left(), room.top() + (half - side) / 2 + 1, side, side)
    icons.paint(painter, name, ink, box)
    top = QRect(room.left() + side + 6, room.top(), room.width() - side - 6, half)
    word = c.muted if cell.done is not None else ink
    _draw(painter, strong(font), word, top, week_words.upper(cell))
    low = QRect(room.left(), room.top() + half, room.width(), half)
    under = c.warn if cell.missed else c.muted
    _draw(painter, small(font), under, low, week_words.under(cell))


def _mark(cell: WeekCell, *, is_past: bool) -> tuple[str, str]:
    """Give the mark of a cell and its colour: a tick where it is done."""
    c = theme.colours()
    if cell.done is None:
        ink = c.muted if is_past else c.verdict(cell.verdict)
        return icons.mark_name(cell.verdict), ink
    passed = cell.done.kind is DoneKind.PASSED_BY
    return ("down", c.muted) if passed else ("tick", c.accent)


def _draw(painter: QPainter, font: QFont, ink: str, rect: QRect, text: str) -> None:
    painter.setFont(font)
    painter.setPen(QColor(ink))
    mode = Qt.TextElideMode.ElideRight
    painter.drawText(
        rect, _LEFT, QFontMetrics(font).elidedText(text, mode, rect.width())
    )
