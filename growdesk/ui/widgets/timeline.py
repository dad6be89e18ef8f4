"""Show all that is on record of a plant in one scroll, newest first, with filters.

However long the history is, it is one view over a model: nothing is built for an entry
that is not in sight. Enter changes the entry under the cursor, Space opens its photo.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, Qt, Signal
from PySide6.QtWidgets import (
    QAbstractItemView,
    QButtonGroup,
    QHBoxLayout,
    QListView,
    QPushButton,
    QStackedWidget,
    QWidget,
)
from typing_extensions import override

from growdesk.domain.speech import Phrases, mark, tr
from growdesk.ui import sizes
from growdesk.ui.looking import writes
from growdesk.ui.models.timeline_model import Row, TimelineModel
from growdesk.ui.timeline_entries import Entry, What, counted, entries, rows
from growdesk.ui.widgets.parts import button, column, label
from growdesk.ui.widgets.timeline_delegate import TimelineDelegate

if TYPE_CHECKING:
    from collections.abc import Sequence

    from PySide6.QtGui import (
        QFocusEvent,
        QKeyEvent,
        QMouseEvent,
        QPixmap,
        QResizeEvent,
    )

    from growdesk.services.values import PhotoView, PlantDetail
    from growdesk.ui.widgets.thumbs import Thumbs

FILTERS: tuple[tuple[What | None, str], ...] = (
    (None, mark("All")),
    (What.LOOK, mark("Looks")),
    (What.CARE, mark("Care")),
    (What.BLOOM, mark("Blooms")),
    (What.PHOTO, mark("Photos")),
)
_SHOW = Phrases(
    {
        None: "Show all, {count}",
        What.LOOK: "Show looks, {count}",
        What.CARE: "Show care, {count}",
        What.BLOOM: "Show blooms, {count}",
        What.PHOTO: "Show photos, {count}",
    }
)
NOTHING = mark(
    "Nothing is on record of this plant yet. A look says what is growing, and that "
    "decides whether it is fed."
)
NONE_OF = Phrases(
    {
        What.LOOK: "Nobody has looked at this plant yet.",
        What.CARE: "No care is on record. Tick the plant in the list, or say what was "
        "given.",
        What.BLOOM: "No bloom is on record.",
        What.PHOTO: "No photos yet.",
    }
)
_LEAST_PX = 80
_BATCH = 150
"""How many rows are laid out at once; more than a screen has."""
_ENTER = {Qt.Key.Key_Return, Qt.Key.Key_Enter}


class Timeline(QWidget):
    """The timeline of the plant shown."""

    change_wanted = Signal(object)
    photo_opened = Signal(object)
    look_wanted = Signal()

    def __init__(self, thumbs: Thumbs) -> None:
        super().__init__()
        self.model = TimelineModel()
        self.view = TimelineView(self.model, thumbs)
        self.view.change_wanted.connect(self.change_wanted)
        self.view.photo_opened.connect(self.photo_opened)
        self.buttons: dict[What | None, QPushButton] = {}
        self._chosen: What | None = None
        self._entries: tuple[Entry, ...] = ()
        self._nothing = label("", tone="muted")
        self.look_button = writes(button(tr("Record a look…"), self.look_wanted.emit))
        self.look_button.setObjectName("timeline-look")
        self._pages = QStackedWidget()
        self._lay_out()

    def show_plant(self, detail: PlantDetail, *, is_same: bool) -> None:
        """Show a plant; of the same one the filter, cursor and scroll stay."""
        self._entries = entries(detail)
        self._name_filters()
        self._show(from_top=not is_same)

    def choose(self, what: What | None) -> None:
        """Show the entries of one sort, or all."""
        self._chosen = what
        self.buttons[what].setChecked(True)
        self._show(from_top=True)

    def _lay_out(self) -> None:
        row = QHBoxLayout()
        row.setContentsMargins(10, 6, 10, 0)
        row.setSpacing(4)
        group = QButtonGroup(self)
        for what, text in FILTERS:
            made = button(tr(text), partial(self.choose, what))
            made.setCheckable(True)
            made.setChecked(what is None)
            group.addButton(made)
            row.addWidget(made)
            self.buttons[what] = made
        row.addStretch(1)
        empty = QWidget()
        inner = column(margins=14)
        empty.setLayout(inner)
        inner.addWidget(self._nothing)
        aside = QHBoxLayout()
        aside.addWidget(self.look_button)
        aside.addStretch(1)
        inner.addLayout(aside)
        inner.addStretch(1)
        self._pages.addWidget(self.view)
        self._pages.addWidget(empty)
        sizes.least_high(self, _LEAST_PX)
        outer = column(spacing=4)
        outer.addLayout(row)
        outer.addWidget(self._pages, 1)
        self.setLayout(outer)

    def _show(self, *, from_top: bool) -> None:
        shown = rows(self._entries, self._chosen)
        is_new = self.view.show_rows(shown, from_top=from_top)
        self._pages.setCurrentIndex(0 if shown else 1)
        if not shown:
            self._nothing.setText(
                tr(NOTHING) if self._chosen is None else NONE_OF[self._chosen]
            )
            self.look_button.setVisible(self._chosen in {None, What.LOOK})
        elif is_new:
            self.view.viewport().update()

    def _name_filters(self) -> None:
        counts = counted(self._entries)
        for what, _text in FILTERS:
            count = counts[what]
            made = self.buttons[what]
            made.setAccessibleName(_SHOW[what].format(count=count))
            made.setToolTip(tr("{count} on record").format(count=count))


class TimelineView(QListView):
    """The scroll of entries."""

    change_wanted = Signal(object)
    photo_opened = Signal(object)

    def __init__(self, model: TimelineModel, thumbs: Thumbs) -> None:
        super().__init__()
        self._model = model
        self._thumbs = thumbs
        self.setAccessibleName(tr("Timeline"))
        self.setAccessibleDescription(
            tr("Enter changes an entry, Space opens its photo, newest first.")
        )
        self.setModel(model)
        self.rows_painted = TimelineDelegate(self, model, self._picture)
        self.setItemDelegate(self.rows_painted)
        self.setBatchSize(_BATCH)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setFrameShape(QListView.Shape.NoFrame)
        self.setMouseTracking(True)
        sizes.current().turned.connect(self._take_size)

    def _take_size(self) -> None:
        self.scheduleDelayedItemsLayout()

    def _lay_out_from(self, at: int) -> None:
        """Lay out what is in sight first, where that is the top of the scroll.

        Else the rows above are needed to come back to where one was.
        """
        mode = QListView.LayoutMode
        self.setLayoutMode(mode.SinglePass if at else mode.Batched)

    def show_rows(self, shown: Sequence[Row], *, from_top: bool) -> bool:
        """Show rows; tell whether they differ from those before."""
        at, was = self.verticalScrollBar().value(), self._entry(self.currentIndex())
        self._lay_out_from(0 if from_top else at)
        if not self._model.show(shown):
            return False
        if from_top:
            self.scrollToTop()
            return True
        row = -1 if was is None else self._model.row_of(was)
        if row >= 0:
            self.setCurrentIndex(self._model.index(row, 0))
        self.verticalScrollBar().setValue(at)
        return True

    def _picture(self, photo: PhotoView) -> QPixmap | None:
        return self._thumbs.picture(photo, self, self.viewport().update)

    def _entry(self, index: QModelIndex) -> Entry | None:
        return self._model.entry(index.row()) if index.isValid() else None

    @override
    def scrollTo(
        self,
        index: QModelIndex | QPersistentModelIndex,
        hint: QAbstractItemView.ScrollHint = QAbstractItemView.ScrollHint.EnsureVisible,
    ) -> None:
        """Go to a row; where it is not laid out yet, the rest is first."""
        if index.isValid() and not self.visualRect(index).isValid():
            self._lay_out_from(index.row())
            self.doItemsLayout()
        super().scrollTo(index, hint)

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        entry = self._entry(self.currentIndex())
        is_enter = event.key() in _ENTER
        if entry is None or not (is_enter or event.key() == Qt.Key.Key_Space):
            super().keyPressEvent(event)
        elif is_enter and entry.can_change:
            self.change_wanted.emit(entry)
        elif entry.photos:
            self.photo_opened.emit(entry.photos[0])

    @override
    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        super().mouseReleaseEvent(event)
        at = event.position().toPoint()
        index = self.indexAt(at)
        entry = self._entry(index)
        if entry is None or event.button() != Qt.MouseButton.LeftButton:
            return
        within = at - self.visualRect(index).topLeft()
        wide = self.visualRect(index).width()
        photo = self.rows_painted.photo_at(entry, within, wide)
        if photo is not None:
            self.photo_opened.emit(photo)
        elif self.rows_painted.is_change_at(entry, within, wide):
            self.change_wanted.emit(entry)

    @override
    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        super().mouseMoveEvent(event)
        at = event.position().toPoint()
        index = self.indexAt(at)
        entry = self._entry(index)
        hand = False
        if entry is not None:
            within = at - self.visualRect(index).topLeft()
            wide = self.visualRect(index).width()
            hand = self.rows_painted.is_change_at(entry, within, wide) or (
                self.rows_painted.photo_at(entry, within, wide) is not None
            )
        shape = Qt.CursorShape
        self.viewport().setCursor(
            shape.PointingHandCursor if hand else shape.ArrowCursor
        )

    @override
    def focusInEvent(self, event: QFocusEvent) -> None:
        """Put the cursor on the first entry where it stands on none."""
        super().focusInEvent(event)
        if self._entry(self.currentIndex()) is None:
            first = next(
                (n for n in range(len(self._model.rows)) if self._model.entry(n)), None
            )
            if first is not None:
                self.setCurrentIndex(self._model.index(first, 0))

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if event.size().width() != event.oldSize().width():
            self._lay_out_from(self.verticalScrollBar().value())
            self.scheduleDelayedItemsLayout()
