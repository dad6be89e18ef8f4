"""Paint the lines of the day: two lines of text a plant, marks, ticks and headers.

Shape and word carry the verdict; colour only follows. Knows the model's roles and the
theme, and nothing of where the lines come from.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFont, QPainter, QPen
from PySide6.QtWidgets import QStyle, QStyledItemDelegate, QStyleOptionViewItem
from typing_extensions import override

from growdesk.services.values import DoneKind
from growdesk.ui import icons, theme, words
from growdesk.ui.models.day_model import (
    HEAD_ROLE,
    LINE_ROLE,
    UNDER_ROLE,
    Head,
    Place,
    can_tick,
)

if TYPE_CHECKING:
    from growdesk.services.values import Line

Index = QModelIndex | QPersistentModelIndex
_LEFT = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
_PAD = 8
LEAST_MARK = 20


def mark_side(painter: QPainter) -> int:
    """Give the side of a mark beside text in the painter's font."""
    return max(LEAST_MARK, round(painter.fontMetrics().height() * 1.2))


def small(font: QFont) -> QFont:
    """Give the font for the second line."""
    made = QFont(font)
    made.setPointSizeF(max(font.pointSizeF() * 0.88, 7.5))
    return made


def strong(font: QFont) -> QFont:
    """Give the font for what the eye should meet first."""
    made = QFont(font)
    made.setWeight(QFont.Weight.DemiBold)
    return made


class DayDelegate(QStyledItemDelegate):
    """Draws every cell of the day's list."""

    @override
    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:
        metrics = option.fontMetrics
        height = metrics.height()
        if index.data(HEAD_ROLE) is not None:
            return QSize(100, height + 20)
        return QSize(100, 2 * height + 12)

    @override
    def paint(
        self, painter: QPainter, option: QStyleOptionViewItem, index: Index
    ) -> None:
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        head = index.data(HEAD_ROLE)
        rect: QRect = option.rect
        font: QFont = option.font
        if isinstance(head, Head):
            _paint_head(painter, rect, font, head)
        else:
            line: Line = index.data(LINE_ROLE)
            state: QStyle.StateFlag = option.state
            _paint_ground(painter, rect, index.column(), state)
            if index.column() == Place.TICK:
                _paint_tick(painter, rect, line)
            else:
                _paint_text(painter, rect, font, index)
        painter.restore()


def _paint_head(painter: QPainter, rect: QRect, font: QFont, head: Head) -> None:
    c = theme.colours()
    painter.fillRect(rect, QColor(c.card))
    colour = c.verdict(head.verdict)
    base = rect.bottom() - 8
    painter.setFont(font)
    size = mark_side(painter)
    top = base - size + 3
    where = QRectF(rect.left() + 9, top, size, size)
    icons.paint(painter, icons.mark_name(head.verdict), colour, where)
    bold = strong(font)
    bold.setPointSizeF(font.pointSizeF() * 1.12)
    painter.setFont(bold)
    painter.setPen(QColor(colour))
    word = words.VERDICT[head.verdict]
    left = rect.left() + 9 + size + 9
    painter.drawText(left, base, word)
    left += painter.fontMetrics().horizontalAdvance(word) + 10
    painter.setFont(font)
    painter.setPen(QColor(c.muted))
    rest = words.plants(head.count)
    painter.drawText(left, base, f"{rest}, {head.done} done" if head.done else rest)
    painter.setPen(QColor(c.line))
    painter.drawLine(rect.left() + 8, rect.bottom(), rect.right() - 8, rect.bottom())


def _paint_ground(
    painter: QPainter, rect: QRect, column: int, state: QStyle.StateFlag
) -> None:
    c = theme.colours()
    if not state & QStyle.StateFlag.State_Selected:
        return
    painter.fillRect(rect, QColor(c.chosen))
    if column == Place.TICK:
        painter.fillRect(rect.left(), rect.top(), 4, rect.height(), QColor(c.accent))


def _paint_tick(painter: QPainter, rect: QRect, line: Line) -> None:
    c = theme.colours()
    box = QRectF(0, 0, 20, 20)
    box.moveCenter(QRectF(rect).center())
    box.translate(2, 0)
    if line.done is None:
        if can_tick(line):
            painter.setPen(QPen(QColor(c.edge), 1.6))
            painter.setBrush(QColor(c.card))
            painter.drawRoundedRect(box, 4, 4)
        return
    painter.setPen(Qt.PenStyle.NoPen)
    passed = line.done.kind is DoneKind.PASSED_BY
    painter.setBrush(QColor(c.muted if passed else c.accent))
    painter.drawRoundedRect(box, 4, 4)
    inner = box.adjusted(2, 2, -2, -2)
    icons.paint(painter, "down" if passed else "tick", c.card, inner)


def _paint_text(painter: QPainter, rect: QRect, font: QFont, index: Index) -> None:
    c = theme.colours()
    line: Line = index.data(LINE_ROLE)
    column = index.column()
    room = rect.adjusted(_PAD, 5, -4, -5)
    ink = QColor(c.muted if line.done else c.ink)
    if column == Place.VERDICT:
        colour = c.verdict(line.verdict)
        painter.setFont(font)
        side = mark_side(painter)
        where = QRectF(room.left(), rect.center().y() - side / 2 + 1, side, side)
        icons.paint(painter, icons.mark_name(line.verdict), colour, where)
        room.setLeft(room.left() + side + 8)
        ink = QColor(colour)
    upper = str(index.data(Qt.ItemDataRole.DisplayRole) or "")
    under = str(index.data(UNDER_ROLE) or "")
    first = strong(font) if column in {Place.TAG, Place.VERDICT} else font
    if not under:
        _draw(painter, room, first, ink, upper)
        return
    half = room.height() // 2
    top = QRect(room.left(), room.top(), room.width(), half)
    _draw(painter, top, first, ink, upper)
    low = QRect(room.left(), room.top() + half, room.width(), room.height() - half)
    _draw(painter, low, small(font), QColor(c.muted), under)


def _draw(painter: QPainter, rect: QRect, font: QFont, ink: QColor, text: str) -> None:
    painter.setFont(font)
    painter.setPen(ink)
    fitted = painter.fontMetrics().elidedText(
        text, Qt.TextElideMode.ElideRight, rect.width()
    )
    painter.drawText(rect, _LEFT, fitted)
