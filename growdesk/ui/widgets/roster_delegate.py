"""Paint the table of all plants: one line a plant, the verdict by mark and word.

What left the collection is drawn muted; its own column says where it is.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QRect, QRectF, Qt
from PySide6.QtGui import QColor, QFontMetrics, QPainter, QPen
from PySide6.QtWidgets import QStyle, QStyledItemDelegate, QStyleOptionViewItem
from typing_extensions import override

from growdesk.domain.holding import Status
from growdesk.ui import icons, sizes, theme
from growdesk.ui.name_text import NamePainter
from growdesk.ui.widgets.day_delegate import strong

if TYPE_CHECKING:
    from PySide6.QtWidgets import QTableView

    from growdesk.ui.models.roster_model import RosterModel
    from growdesk.ui.roster_columns import Column, Entry

Index = QModelIndex | QPersistentModelIndex
_PAD = 8
_MARK = 16
_STRONG = frozenset({"tag", "verdict"})


class RosterDelegate(QStyledItemDelegate):
    """Draws every cell of the table."""

    def __init__(self, parent: QTableView, model: RosterModel) -> None:
        super().__init__(parent)
        self._table = parent
        self._plants = model
        self._names = NamePainter()

    @override
    def paint(
        self, painter: QPainter, option: QStyleOptionViewItem, index: Index
    ) -> None:
        entry = self._plants.entry(index.row())
        column = self._plants.columns[index.column()]
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        self._paint_ground(painter, option, index)
        if column.key == "name":
            self._paint_name(painter, option, entry)
        else:
            _paint_cell(painter, option, entry, column)
        painter.restore()

    def _paint_name(
        self, painter: QPainter, option: QStyleOptionViewItem, entry: Entry
    ) -> None:
        painter.setPen(QColor(_ink(entry)))
        room: QRect = option.rect.adjusted(_PAD, 0, -_PAD, 0)
        self._names.paint(painter, room, option.font, entry.line.name)

    def _paint_ground(
        self, painter: QPainter, option: QStyleOptionViewItem, index: Index
    ) -> None:
        c, rect = theme.colours(), option.rect
        if option.state & QStyle.StateFlag.State_Selected:
            painter.fillRect(rect, QColor(c.chosen))
        painter.fillRect(rect.left(), rect.bottom(), rect.width(), 1, QColor(c.line))
        is_here = self._table.currentIndex() == index
        if is_here and self._table.hasFocus():
            painter.setPen(QPen(QColor(c.focus), 2))
            painter.drawRoundedRect(QRectF(rect).adjusted(1, 1, -1, -1), 4, 4)


def _ink(entry: Entry) -> str:
    c = theme.colours()
    return c.ink if entry.line.status is Status.GROWING else c.muted


def _paint_cell(
    painter: QPainter, option: QStyleOptionViewItem, entry: Entry, column: Column
) -> None:
    c = theme.colours()
    ink = _ink(entry)
    room: QRect = option.rect.adjusted(_PAD, 0, -_PAD, 0)
    if column.key == "verdict" and entry.verdict is not None:
        ink = c.verdict(entry.verdict)
        side = sizes.px(_MARK)
        top = room.center().y() - side / 2 + 0.5
        box = QRectF(room.left(), top, side, side)
        icons.paint(painter, icons.mark_name(entry.verdict), ink, box)
        room.setLeft(room.left() + side + 6)
    font = strong(option.font) if column.key in _STRONG else option.font
    painter.setFont(font)
    painter.setPen(QColor(ink))
    end = Qt.TextElideMode.ElideRight
    text = QFontMetrics(font).elidedText(column.text(entry), end, room.width())
    across = (
        Qt.AlignmentFlag.AlignRight if column.is_number else Qt.AlignmentFlag.AlignLeft
    )
    painter.drawText(room, across | Qt.AlignmentFlag.AlignVCenter, text)
