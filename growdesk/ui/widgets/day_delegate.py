"""Paint the lines of the day: two lines of text a plant, marks, ticks and headers.

Shape and word carry the verdict; colour only follows. Knows the model's roles and the
theme, and nothing of where the lines come from. Measuring text and drawing marks is
dear, so both are kept between paints.
"""

from __future__ import annotations

from heapq import nlargest
from typing import TYPE_CHECKING

from msgspec import Struct
from PySide6.QtCore import (
    QModelIndex,
    QPersistentModelIndex,
    QRect,
    QRectF,
    QSize,
    Qt,
)
from PySide6.QtGui import QColor, QFont, QFontMetrics, QPainter, QPen, QPixmap
from PySide6.QtWidgets import QStyle, QStyledItemDelegate, QStyleOptionViewItem
from typing_extensions import override

from growdesk.domain.speech import tr
from growdesk.services.values import DoneKind, Unjudged
from growdesk.ui import icons, sizes, theme, words
from growdesk.ui.day_columns import COLUMNS, Place, band_mark, can_tick
from growdesk.ui.models.day_model import DayModel, Head
from growdesk.ui.name_text import NamePainter

if TYPE_CHECKING:
    from collections.abc import Sequence

    from PySide6.QtWidgets import QWidget

    from growdesk.services.values import Line

Index = QModelIndex | QPersistentModelIndex
_LEFT = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
PAD = 8
_END = 4
_GAP = 6
LEAST_MARK = 18
_MEASURED = 300
_STRONG = frozenset({Place.TAG, Place.VERDICT})


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


class Wanted(Struct, frozen=True):
    """What lines want of the columns: letters of a tag, and pixels to be read whole."""

    tag_letters: int
    name_px: int
    reason_px: int


def wanted(font: QFont, lines: Sequence[Line | Unjudged]) -> Wanted:
    """Measure lines in a font: names and places, and reasons, as they are drawn.

    Of thousands the longest by their letters are measured.
    """
    large, little = QFontMetrics(font), QFontMetrics(small(font))
    under = COLUMNS[Place.PLANT].under
    judged = [line for line in lines if not isinstance(line, Unjudged)]
    turns = {
        (line.place, line.bench_name, line.together, words.turn(line)): line
        for line in judged
    }
    stands = {
        (line.place, line.bench_name, line.together): line
        for line in lines
        if isinstance(line, Unjudged)
    }
    under_names = {under(line) for line in turns.values()}
    under_names |= {words.stands(line) for line in stands.values()}
    named = max(
        _widest(large, {line.name for line in lines}), _widest(little, under_names)
    )
    reason = _widest(little, {line.short_reason for line in judged})
    return Wanted(
        max((len(line.tag) for line in lines), default=0),
        named + PAD + _END + 4 * _GAP,
        reason + PAD + _END + 2,
    )


def _widest(metrics: QFontMetrics, texts: set[str]) -> int:
    longest = nlargest(_MEASURED, texts, key=len)
    return max(map(metrics.horizontalAdvance, longest), default=0)


class _Type:
    """The fonts of the list and their measures, kept for one base font."""

    def __init__(self, font: QFont) -> None:
        self.base = QFont(font)
        self.plain = self.base, QFontMetrics(self.base)
        bold = strong(font)
        self.strong = bold, QFontMetrics(bold)
        little = small(font)
        self.small = little, QFontMetrics(little)
        head = strong(font)
        head.setPointSizeF(font.pointSizeF() * 1.12)
        self.head = head, QFontMetrics(head)
        self.mark = max(LEAST_MARK, round(self.plain[1].height() * 1.1))


Face = tuple[QFont, QFontMetrics]


class DayDelegate(QStyledItemDelegate):
    """Draws every cell of the day's list; fitted texts and marks are kept."""

    def __init__(self, parent: QWidget, model: DayModel) -> None:
        super().__init__(parent)
        self._model = model
        self._type = _Type(parent.font())
        self._fitted: dict[tuple[str, int, int], str] = {}
        self._names = NamePainter()
        self._marks: dict[tuple[str, str, int, float], QPixmap] = {}

    @override
    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:
        height = option.fontMetrics.height()
        if isinstance(self._model.rows[index.row()], Head):
            return QSize(100, height + 20)
        return QSize(100, 2 * height + 12)

    @override
    def paint(
        self, painter: QPainter, option: QStyleOptionViewItem, index: Index
    ) -> None:
        entry = self._model.rows[index.row()]
        column = index.column()
        rect: QRect = option.rect
        font: QFont = option.font
        if font != self._type.base:
            self._type = _Type(font)
            self._fitted.clear()
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if isinstance(entry, Head):
            self._paint_head(painter, rect, entry)
        else:
            _paint_ground(painter, rect, column, option.state)
            if column == Place.TICK:
                self._paint_tick(painter, rect, entry)
            else:
                self._paint_text(painter, rect, entry, column)
        painter.restore()

    def _paint_head(self, painter: QPainter, rect: QRect, head: Head) -> None:
        c = theme.colours()
        painter.fillRect(rect, QColor(c.card))
        colour = c.verdict(head.verdict)
        base = rect.bottom() - 8
        side = self._type.mark + 2
        left = rect.left() + 9
        box = QRect(left, base - side + 3, side, side)
        self._mark(painter, icons.mark_name(head.verdict), colour, box)
        font, metrics = self._type.head
        painter.setFont(font)
        painter.setPen(QColor(colour))
        word = words.VERDICT[head.verdict]
        left += side + 9
        painter.drawText(left, base, word)
        left += metrics.horizontalAdvance(word) + 10
        painter.setFont(self._type.base)
        painter.setPen(QColor(c.muted))
        rest = words.plants(head.count)
        painter.drawText(
            left,
            base,
            tr("{rest}, {done} done").format(rest=rest, done=head.done)
            if head.done
            else rest,
        )
        painter.setPen(QColor(c.line))
        low = rect.bottom()
        painter.drawLine(rect.left() + 8, low, rect.right() - 8, low)

    def _paint_tick(
        self, painter: QPainter, rect: QRect, line: Line | Unjudged
    ) -> None:
        if isinstance(line, Unjudged):
            return
        c = theme.colours()
        box = QRectF(0, 0, sizes.px(20), sizes.px(20))
        box.moveCenter(QRectF(rect).center())
        box.translate(2, 0)
        if line.done is None:
            if can_tick(line) and self._model.is_open:
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

    def _paint_text(
        self, painter: QPainter, rect: QRect, entry: Line | Unjudged, column: int
    ) -> None:
        c = theme.colours()
        upper, under = self._model.texts(entry, column)
        line = None if isinstance(entry, Unjudged) else entry
        room = rect.adjusted(PAD, 5, -_END, -5)
        half = room.height() // 2
        low = room.adjusted(0, half, 0, 0)
        top = QRect(room)
        if under:
            top.setHeight(half)
        ink = c.muted if line is not None and line.done else c.ink
        if column == Place.VERDICT and line is None:
            self._draw(painter, top, self._type.small, c.muted, upper)
            return
        if column == Place.VERDICT and line is not None:
            ink = c.verdict(line.verdict)
            side = self._type.mark
            box = QRect(top.left(), top.center().y() - side // 2 + 1, side, side)
            self._mark(painter, icons.mark_name(line.verdict), ink, box)
            top.setLeft(top.left() + side + _GAP)
        first = self._type.strong if column in _STRONG else self._type.plain
        if column == Place.PLANT:
            painter.setPen(QColor(ink))
            self._names.paint(painter, top, first[0], upper)
        else:
            self._draw(painter, top, first, ink, upper)
        if under:
            self._draw(painter, low, self._type.small, c.muted, under)
        if column == Place.VERDICT and line is not None and band_mark(line):
            left = self._type.strong[1].horizontalAdvance(upper) + 2 * _GAP
            self._paint_band(painter, top.adjusted(left, 0, 0, 0), line)

    def _paint_band(self, painter: QPainter, rect: QRect, line: Line) -> None:
        """Mark a plant served outside its band: the way it is off, and the word."""
        c = theme.colours()
        wide = self._type.mark - 4
        box = QRect(rect.left(), rect.center().y() - wide // 2 + 1, wide, wide)
        above = words.is_stronger(line.strength_ppm_n, line.jug_ppm_n)
        self._mark(painter, "up" if above else "down", c.warn, box)
        room = rect.adjusted(wide + 3, 0, 0, 0)
        self._draw(painter, room, self._type.small, c.warn, band_mark(line))

    def _draw(
        self, painter: QPainter, rect: QRect, face: Face, ink: str, text: str
    ) -> None:
        font, metrics = face
        key = (text, rect.width(), id(font))
        fitted = self._fitted.get(key)
        if fitted is None:
            mode = Qt.TextElideMode.ElideRight
            fitted = metrics.elidedText(text, mode, rect.width())
            self._fitted[key] = fitted
        painter.setFont(font)
        painter.setPen(QColor(ink))
        painter.drawText(rect, _LEFT, fitted)

    def _mark(self, painter: QPainter, name: str, colour: str, box: QRect) -> None:
        ratio = painter.device().devicePixelRatioF()
        key = (name, colour, box.width(), ratio)
        if key not in self._marks:
            self._marks[key] = icons.pixmap(name, colour, box.width(), ratio)
        painter.drawPixmap(box.topLeft(), self._marks[key])


def _paint_ground(
    painter: QPainter, rect: QRect, column: int, state: QStyle.StateFlag
) -> None:
    if not state & QStyle.StateFlag.State_Selected:
        return
    c = theme.colours()
    painter.fillRect(rect, QColor(c.chosen))
    if column == Place.TICK:
        painter.fillRect(rect.left(), rect.top(), 4, rect.height(), QColor(c.accent))
