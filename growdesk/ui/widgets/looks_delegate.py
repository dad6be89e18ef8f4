"""Paint a look worth taking: tag, name, what it may turn to, and under them why."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QRect, QSize, Qt
from PySide6.QtGui import QColor, QFontMetrics, QPainter
from PySide6.QtWidgets import (
    QListView,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
)
from typing_extensions import override

from growdesk.domain.speech import tr
from growdesk.ui import theme, words
from growdesk.ui.widgets.day_delegate import small, strong

if TYPE_CHECKING:
    from collections.abc import Callable

    from growdesk.services.look_values import WorthLine
    from growdesk.ui.models.looks_model import Index, LooksModel

_PAD = 8
_WRAP = Qt.TextFlag.TextWordWrap | Qt.AlignmentFlag.AlignLeft


class LooksDelegate(QStyledItemDelegate):
    """Paints tag and name, and under them why, as many lines as it takes."""

    def __init__(
        self, view: QListView, model: LooksModel, has_keys: Callable[[], bool]
    ) -> None:
        super().__init__(view)
        self._view = view
        self._model = model
        self._has_keys = has_keys

    @override
    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:
        wide = self._view.viewport().width()
        why = self._model.lines[index.row()].why
        first = QFontMetrics(strong(option.font)).height()
        return QSize(wide, first + self._why_high(option, why, wide) + _PAD + 4)

    @override
    def paint(
        self, painter: QPainter, option: QStyleOptionViewItem, index: Index
    ) -> None:
        c = theme.colours()
        line = self._model.lines[index.row()]
        rect: QRect = option.rect
        if option.state & QStyle.StateFlag.State_Selected and self._has_keys():
            painter.fillRect(rect, QColor(c.chosen))
            painter.fillRect(
                rect.left(), rect.top(), 4, rect.height(), QColor(c.accent)
            )
        painter.save()
        room = rect.adjusted(_PAD + 4, _PAD // 2, -_PAD, -_PAD // 2)
        bold = strong(option.font)
        metrics = QFontMetrics(bold)
        painter.setFont(bold)
        painter.setPen(QColor(c.ink))
        painter.drawText(room, _WRAP, line.tag)
        left = metrics.horizontalAdvance(line.tag) + 10
        painter.setFont(option.font)
        plain = QFontMetrics(option.font)
        turn = turn_text(line)
        wide = room.width() - left - plain.horizontalAdvance(turn) - _PAD
        name = plain.elidedText(line.name, Qt.TextElideMode.ElideRight, wide)
        first = room.adjusted(left, 0, 0, 0)
        painter.drawText(first, Qt.AlignmentFlag.AlignLeft, name)
        painter.setPen(QColor(c.verdict(line.would_turn_to)))
        painter.drawText(room, Qt.AlignmentFlag.AlignRight, turn)
        painter.setFont(small(option.font))
        painter.setPen(QColor(c.muted))
        painter.drawText(room.adjusted(0, metrics.height() + 2, 0, 0), _WRAP, line.why)
        painter.restore()

    def _why_high(self, option: QStyleOptionViewItem, why: str, wide: int) -> int:
        metrics = QFontMetrics(small(option.font))
        room = QRect(0, 0, max(wide - 2 * _PAD - 4, 60), 1000)
        return metrics.boundingRect(room, _WRAP, why).height() + 2


def turn_text(line: WorthLine) -> str:
    """Say in a word or two what the look may turn the verdict to."""
    return tr("to {verdict}?").format(verdict=words.VERDICT_INSIDE[line.would_turn_to])
