"""Paint one row of a timeline: day, plain line, note, thumbnails, and "Change…".

Where each part lies is reckoned in one place, for painting, for the height, and for
what a click means.
"""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

from msgspec import Struct
from PySide6.QtCore import QPoint, QRect, QSize, Qt
from PySide6.QtGui import QColor, QFont, QFontMetrics, QPainter, QPixmap
from PySide6.QtWidgets import (
    QListView,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
)
from typing_extensions import override

from growdesk.domain.day_words import short_text
from growdesk.domain.speech import mark, tr
from growdesk.ui import theme
from growdesk.ui.timeline_entries import Entry, Heading, What
from growdesk.ui.widgets.day_delegate import small, strong

if TYPE_CHECKING:
    from collections.abc import Callable

    from growdesk.services.values import PhotoView
    from growdesk.ui.models.timeline_model import Index, TimelineModel

CHANGE = mark("Change…")
THUMB_PX = 54
THUMBS_SHOWN = 4
_PAD = 10
_GAP = 6
_MOST_HEIGHTS = 20_000
_WIDEST_DAY = date(2026, 11, 30)
_WRAP = int(Qt.TextFlag.TextWordWrap | Qt.AlignmentFlag.AlignLeft)
_ONE = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop
_COLOURS = {
    What.LOOK: "accent",
    What.CARE: "clear_water",
    What.BLOOM: "flush",
    What.PHOTO: "muted",
    What.PLANT: "ink",
}


class Places(Struct, frozen=True):
    """Where the parts of an entry lie, from the left upper corner of its row."""

    day: QRect
    line: QRect
    note: QRect
    thumbs: tuple[QRect, ...]
    more: QRect
    change: QRect
    height: int


class _Type:
    """A font of the rows with what is measured in it once."""

    def __init__(self, font: QFont) -> None:
        self.font = QFont(font)
        self.plain = QFontMetrics(font)
        self.fine = QFontMetrics(small(font))
        self.day_px = self.plain.horizontalAdvance(short_text(_WIDEST_DAY))
        self.change_px = self.plain.horizontalAdvance(tr(CHANGE))
        self.heading_px = QFontMetrics(strong(font)).height() + 2 * _GAP + 4


class TimelineDelegate(QStyledItemDelegate):
    """Paints headings and entries; ``picture`` gives a thumbnail once it is read."""

    def __init__(
        self,
        view: QListView,
        model: TimelineModel,
        picture: Callable[[PhotoView], QPixmap | None],
    ) -> None:
        super().__init__(view)
        self._view = view
        self._model = model
        self._picture = picture
        self._type = _Type(view.font())
        self._heights: dict[tuple[object, ...], int] = {}

    def places(self, entry: Entry, wide: int, font: QFont) -> Places:
        """Reckon where the parts of an entry lie in a width."""
        face = self._face(font)
        plain, fine = face.plain, face.fine
        left = _PAD + 6 + face.day_px + _PAD
        change_wide = face.change_px if entry.can_change else 0
        change = QRect(wide - _PAD - change_wide, _GAP, change_wide, plain.height())
        room = max(change.left() - _PAD - left, 80)
        line = _boxed(plain, entry.line, QRect(left, _GAP, room, 0))
        bottom = line.bottom() + 1
        wider = max(wide - _PAD - left, 80)
        note = QRect(left, bottom, wider, 0)
        if entry.note:
            note = _boxed(fine, _quoted(entry), QRect(left, bottom + 2, wider, 0))
            bottom = note.bottom() + 1
        thumbs, more = [], QRect()
        if entry.photos:
            fits = max(1, min(THUMBS_SHOWN, wider // (THUMB_PX + _GAP)))
            for number in range(min(fits, len(entry.photos))):
                x = left + number * (THUMB_PX + _GAP)
                thumbs.append(QRect(x, bottom + 4, THUMB_PX, THUMB_PX))
            if len(entry.photos) > fits:
                x = left + fits * (THUMB_PX + _GAP)
                more = QRect(x, bottom + 4, 60, THUMB_PX)
            bottom += THUMB_PX + 6
        day = QRect(_PAD + 6, _GAP, left - 2 * _PAD, plain.height())
        return Places(day, line, note, tuple(thumbs), more, change, bottom + _GAP)

    def photo_at(self, entry: Entry, at: QPoint, wide: int) -> PhotoView | None:
        """Give the photo under a point of an entry's row."""
        places = self.places(entry, wide, self._view.font())
        for photo, box in zip(entry.photos, places.thumbs, strict=False):
            if box.contains(at):
                return photo
        return None

    def is_change_at(self, entry: Entry, at: QPoint, wide: int) -> bool:
        """Tell whether a point of an entry's row lies on its link."""
        box = self.places(entry, wide, self._view.font()).change
        return entry.can_change and box.adjusted(-4, -4, 4, 4).contains(at)

    @override
    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:
        wide = self._view.viewport().width()
        row = self._model.rows[index.row()]
        face = self._face(option.font)
        if isinstance(row, Heading):
            return QSize(wide, face.heading_px)
        key = wide, row.line, row.note, len(row.photos), row.can_change
        high = self._heights.get(key)
        if high is None:
            high = self._heights[key] = self.places(row, wide, option.font).height
        return QSize(wide, high)

    def _face(self, font: QFont) -> _Type:
        """Give the measures of a font; with another one no height is known."""
        if font != self._type.font:
            self._type = _Type(font)
            self._heights.clear()
        if len(self._heights) > _MOST_HEIGHTS:
            self._heights.clear()
        return self._type

    @override
    def paint(
        self, painter: QPainter, option: QStyleOptionViewItem, index: Index
    ) -> None:
        row = self._model.rows[index.row()]
        painter.save()
        if isinstance(row, Heading):
            self._paint_heading(painter, option, row)
        else:
            self._paint_entry(painter, option, row)
        painter.restore()

    def _paint_heading(
        self, painter: QPainter, option: QStyleOptionViewItem, row: Heading
    ) -> None:
        c = theme.colours()
        rect: QRect = option.rect
        painter.setFont(strong(option.font))
        painter.setPen(QColor(c.ink))
        painter.drawText(rect.adjusted(_PAD, _GAP + 4, -_PAD, 0), _ONE, row.title)
        painter.setPen(QColor(c.line))
        painter.drawLine(rect.bottomLeft(), rect.bottomRight())

    def _paint_entry(
        self, painter: QPainter, option: QStyleOptionViewItem, entry: Entry
    ) -> None:
        c = theme.colours()
        rect: QRect = option.rect
        is_chosen = bool(option.state & QStyle.StateFlag.State_Selected)
        if is_chosen and self._view.hasFocus():
            painter.fillRect(rect, QColor(c.chosen))
        colour = QColor(getattr(c, _COLOURS[entry.what]))
        painter.fillRect(rect.left() + 4, rect.top() + 4, 4, rect.height() - 8, colour)
        places = self.places(entry, rect.width(), option.font)
        painter.setFont(option.font)
        painter.setPen(QColor(c.muted))
        day = places.day.translated(rect.topLeft())
        painter.drawText(day, _ONE, short_text(entry.on))
        painter.setPen(QColor(c.ink))
        line = places.line.translated(rect.topLeft())
        painter.drawText(line, _WRAP, entry.line)
        if entry.can_change:
            painter.setPen(QColor(c.accent))
            followed = QFont(option.font)
            followed.setUnderline(True)
            painter.setFont(followed)
            painter.drawText(places.change.translated(rect.topLeft()), _ONE, tr(CHANGE))
        if entry.note:
            painter.setFont(small(option.font))
            painter.setPen(QColor(c.muted))
            note = places.note.translated(rect.topLeft())
            painter.drawText(note, _WRAP, _quoted(entry))
        self._paint_photos(painter, rect.topLeft(), places, entry)

    def _paint_photos(
        self, painter: QPainter, corner: QPoint, places: Places, entry: Entry
    ) -> None:
        c = theme.colours()
        for photo, box in zip(entry.photos, places.thumbs, strict=False):
            at = box.translated(corner)
            picture = None if photo.problem else self._picture(photo)
            if picture is None or picture.isNull():
                painter.setPen(QColor(c.edge))
                painter.drawRect(at.adjusted(0, 0, -1, -1))
                if photo.problem:
                    painter.setPen(QColor(c.muted))
                    centre = Qt.AlignmentFlag.AlignCenter
                    painter.drawText(at, centre, tr("missing"))
                continue
            keep = Qt.AspectRatioMode.KeepAspectRatioByExpanding
            side = picture.size().scaled(at.size(), keep)
            share = picture.width() / max(side.width(), 1)
            cut = QRect(0, 0, round(at.width() * share), round(at.height() * share))
            cut.moveCenter(picture.rect().center())
            painter.drawPixmap(at, picture, cut)
        if not places.more.isNull():
            painter.setPen(QColor(c.muted))
            more = f"+ {len(entry.photos) - len(places.thumbs)}"
            middle = Qt.AlignmentFlag.AlignVCenter
            painter.drawText(places.more.translated(corner), middle, more)


def _boxed(metrics: QFontMetrics, text: str, room: QRect) -> QRect:
    if "\n" not in text and metrics.horizontalAdvance(text) <= room.width():
        return QRect(room.left(), room.top(), room.width(), metrics.height())
    wide = QRect(room.left(), room.top(), room.width(), 10_000)
    found = metrics.boundingRect(wide, _WRAP, text)
    high = max(found.height(), metrics.height())
    return QRect(room.left(), room.top(), room.width(), high)


def _quoted(entry: Entry) -> str:
    return f"“{entry.note}”"
