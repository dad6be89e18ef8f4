"""Paint a dated job: tick, days, mark and title, plant, and under them the sentence."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

from PySide6.QtCore import QRect, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFont, QFontMetrics, QPainter, QPen
from PySide6.QtWidgets import (
    QListView,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
)
from typing_extensions import override

from growdesk.domain.day_words import (
    on_weekday,
    short_dated_text,
    short_text,
    short_weekday,
)
from growdesk.domain.speech import tr
from growdesk.services.calendar_values import Closed
from growdesk.ui import calendar_words, icons, sizes, theme
from growdesk.ui.models.calendar_model import CalendarModel, Head, Index
from growdesk.ui.name_text import NamePainter
from growdesk.ui.widgets.day_delegate import small, strong

if TYPE_CHECKING:
    from growdesk.services.calendar_values import JobLine

_PAD = 8
_TICK = 34
_BOX = 18
_GAP = 10
_WIDEST_DAY, _WIDEST_DATE = date(2026, 9, 30), date(2027, 9, 28)
_WRAP = Qt.TextFlag.TextWordWrap | Qt.AlignmentFlag.AlignLeft
_LEFT = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
_RIGHT = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter


class Setting:
    """What rows of one width and type are high; the same sentence is set once."""

    def __init__(self, font: QFont, wide: int, room: int) -> None:
        self._font = QFont(font)  # an option's own font goes with the option
        self._wide = wide
        self._box = QRect(0, 0, room, 1000)
        self._metrics = QFontMetrics(small(font))
        self._heights: dict[str, int] = {}
        self.first = QFontMetrics(strong(font)).height()

    def fits(self, font: QFont, wide: int) -> bool:
        """Tell whether rows are set in this type and width still."""
        return wide == self._wide and font == self._font

    def height(self, sentence: str) -> int:
        """Give the height of a sentence in as many lines as it needs."""
        found = self._heights.get(sentence)
        if found is None:
            set_in = self._metrics.boundingRect(self._box, _WRAP, sentence)
            found = self._heights[sentence] = set_in.height()
        return found


class CalendarDelegate(QStyledItemDelegate):
    """Draws the agenda; a sentence takes as many lines as it needs."""

    def __init__(self, view: QListView, model: CalendarModel) -> None:
        super().__init__(view)
        self._view = view
        self._model = model
        self._names = NamePainter()
        self._setting: Setting | None = None

    @override
    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:
        wide = self._view.viewport().width()
        setting = self._setting
        if setting is None or not setting.fits(option.font, wide):
            room = max(wide - self._text_left(option.font) - _PAD, 60)
            setting = self._setting = Setting(option.font, wide, room)
        line = self._model.line_at(index.row())
        if line is None:
            return QSize(wide, setting.first + 20)
        return QSize(wide, setting.first + setting.height(line.sentence) + 2 * _PAD)

    @override
    def paint(
        self, painter: QPainter, option: QStyleOptionViewItem, index: Index
    ) -> None:
        entry = self._model.rows[index.row()]
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if isinstance(entry, Head):
            _paint_head(painter, option, entry)
        else:
            self._paint_line(painter, option, entry)
        painter.restore()

    def tick_box(self, rect: QRect) -> QRect:
        """Give where the tick of a row stands."""
        return QRect(rect.left(), rect.top(), sizes.px(_TICK), rect.height())

    def _text_left(self, font: QFont) -> int:
        """Give where titles and sentences begin, right of tick, days and mark."""
        near = on_weekday(short_weekday(_WIDEST_DAY), short_text(_WIDEST_DAY))
        far = short_dated_text(_WIDEST_DATE)
        bold = QFontMetrics(strong(font))
        days = max(bold.horizontalAdvance(near), bold.horizontalAdvance(far))
        span = tr("to {day}").format(day=far)
        spans = QFontMetrics(small(font)).horizontalAdvance(span)
        return sizes.px(_TICK) + max(days, spans) + _GAP

    def _paint_line(
        self, painter: QPainter, option: QStyleOptionViewItem, line: JobLine
    ) -> None:
        today = self._model.today
        if today is None:
            return
        c = theme.colours()
        rect: QRect = option.rect
        chosen = bool(option.state & QStyle.StateFlag.State_Selected)
        if chosen:
            painter.fillRect(rect, QColor(c.chosen))
            painter.fillRect(
                rect.left(), rect.top(), 4, rect.height(), QColor(c.accent)
            )
        bold, little = strong(option.font), small(option.font)
        high = QFontMetrics(bold).height()
        top = rect.top() + _PAD
        _paint_tick(painter, QRect(rect.left() + 10, top, sizes.px(_BOX), high), line)
        closed = line.closed is not None
        late = line.is_overdue(today)
        days = QRect(rect.left() + sizes.px(_TICK), top, 400, high)
        days.setRight(rect.left() + self._text_left(option.font) - _GAP)
        painter.setFont(bold if late else option.font)
        painter.setPen(QColor(c.warn if late else c.muted if closed else c.ink))
        painter.drawText(days, _LEFT, calendar_words.day(line, today))
        painter.setFont(little)
        painter.setPen(QColor(c.muted))
        painter.drawText(
            days.translated(0, high), _LEFT, calendar_words.span(line, today)
        )
        text = QRect(rect)
        text.setLeft(rect.left() + self._text_left(option.font))
        text.setRight(rect.right() - _PAD)
        text.setTop(top)
        first = QRect(text.left(), top, text.width(), high)
        self._paint_first(painter, first, option.font, line)
        painter.setFont(little)
        painter.setPen(QColor(c.muted))
        painter.drawText(text.adjusted(0, high + 1, 0, 0), _WRAP, line.sentence)

    def _paint_first(
        self, painter: QPainter, room: QRect, font: QFont, line: JobLine
    ) -> None:
        """Draw mark and title, tag and name, and at the end how it was closed."""
        c = theme.colours()
        closed = line.closed is not None
        ink = c.muted if closed else calendar_words.colour(line.sort)
        side = QFontMetrics(font).height()
        mark = QRectF(room.left(), room.center().y() - side / 2 + 1, side, side)
        icons.paint(painter, f"job-{line.sort.value}", ink, mark)
        bold = strong(font)
        bold_metrics = QFontMetrics(bold)
        end = calendar_words.beside(line)
        if end:
            painter.setFont(small(font))
            painter.setPen(QColor(c.muted))
            painter.drawText(room, _RIGHT, end)
            wide = QFontMetrics(small(font)).horizontalAdvance(end)
            room = room.adjusted(0, 0, -wide - _GAP, 0)
        left = room.adjusted(side + 6, 0, 0, 0)
        painter.setFont(bold)
        painter.setPen(QColor(ink))
        painter.drawText(left, _LEFT, line.title)
        left.adjust(bold_metrics.horizontalAdvance(line.title) + _GAP, 0, 0, 0)
        painter.setPen(QColor(c.muted if closed else c.ink))
        tag = line.tag or line.place
        painter.drawText(left, _LEFT, tag)
        left.adjust(bold_metrics.horizontalAdvance(tag) + 8, 0, 0, 0)
        painter.setFont(font)
        if line.name and left.width() > 0:
            self._names.paint(painter, left, font, line.name)


def _paint_head(painter: QPainter, option: QStyleOptionViewItem, head: Head) -> None:
    c = theme.colours()
    rect: QRect = option.rect
    font = strong(option.font)
    font.setPointSizeF(option.font.pointSizeF() * 1.12)
    late = head.name == calendar_words.OVERDUE
    room = rect.adjusted(12, 8, -_PAD, -2)
    painter.setFont(font)
    painter.setPen(QColor(c.warn if late else c.ink))
    painter.drawText(room, _LEFT, head.name)
    room.adjust(QFontMetrics(font).horizontalAdvance(head.name) + _GAP, 0, 0, 0)
    painter.setFont(option.font)
    painter.setPen(QColor(c.muted))
    painter.drawText(room, _LEFT, str(head.count))
    painter.setPen(QColor(c.line))
    low = rect.bottom()
    painter.drawLine(rect.left() + 8, low, rect.right() - 8, low)


def _paint_tick(painter: QPainter, room: QRect, line: JobLine) -> None:
    """Draw a box to tick; none where a job closes elsewhere or only tells."""
    c = theme.colours()
    side = sizes.px(_BOX)
    box = QRectF(room.left(), room.center().y() - side / 2 + 1, side, side)
    if line.closed is None:
        if not line.settled and not line.forecast:
            painter.setPen(QPen(QColor(c.edge), 1.6))
            painter.setBrush(QColor(c.card))
            painter.drawRoundedRect(box, 4, 4)
        return
    done = line.closed is Closed.DONE
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(QColor(c.accent if done else c.muted))
    painter.drawRoundedRect(box, 4, 4)
    icons.paint(painter, "tick" if done else "down", c.card, box.adjusted(2, 2, -2, -2))
