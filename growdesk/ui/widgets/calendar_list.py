"""The agenda: arrows go from job to job, Space ticks, Del lets go, Enter goes there."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QItemSelectionModel, QModelIndex, Qt, Signal
from PySide6.QtWidgets import QAbstractItemView, QFrame, QListView
from typing_extensions import override

from growdesk.domain.speech import tr
from growdesk.ui import sizes
from growdesk.ui.widgets.calendar_delegate import CalendarDelegate

if TYPE_CHECKING:
    from PySide6.QtGui import QKeyEvent, QMouseEvent, QResizeEvent

    from growdesk.services.calendar_values import JobLine
    from growdesk.ui.models.calendar_model import CalendarModel, Index

_ENTER = {Qt.Key.Key_Return, Qt.Key.Key_Enter}
_STEPS = {
    Qt.Key.Key_Up: -1,
    Qt.Key.Key_Down: 1,
}
_ROWS_AT_ONCE = 200
"""How many rows are laid out before the window goes on; then the next so many."""


class CalendarList(QListView):
    """The list of jobs under the heads of their groups."""

    moved = Signal(object)
    ticked = Signal(object)
    let_go = Signal(object)
    opened = Signal(object)
    typed = Signal(str)

    def __init__(self, model: CalendarModel) -> None:
        super().__init__()
        self._jobs = model
        self.setModel(model)
        self._painter = CalendarDelegate(self, model)
        self.setItemDelegate(self._painter)
        self.setAccessibleName(tr("Jobs of the year"))
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setResizeMode(QListView.ResizeMode.Adjust)
        self.setLayoutMode(QListView.LayoutMode.Batched)
        self.setBatchSize(_ROWS_AT_ONCE)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.doubleClicked.connect(self._open)
        sizes.current().turned.connect(self.scheduleDelayedItemsLayout)

    @property
    def line(self) -> JobLine | None:
        """Give the job that the cursor is on."""
        return self._jobs.line_at(self.currentIndex().row())

    def put_cursor(self, row: int) -> None:
        """Put the cursor on the job of a row, or the next one to it."""
        found = self._jobs.next_line(row)
        self._lay_out_to(found)
        index = self._jobs.index(found) if found >= 0 else QModelIndex()
        flag = QItemSelectionModel.SelectionFlag.ClearAndSelect
        self.selectionModel().setCurrentIndex(index, flag)
        if found >= 0:
            above = (
                found - 1 if found and self._jobs.line_at(found - 1) is None else found
            )
            self.scrollTo(self._jobs.index(above))
            self.scrollTo(index)

    def _lay_out_to(self, row: int) -> None:
        """Have all rows laid out at once where one far down is gone to."""
        modes = QListView.LayoutMode
        mode = modes.SinglePass if row >= _ROWS_AT_ONCE else modes.Batched
        if mode is not self.layoutMode():
            self.setLayoutMode(mode)
            self.scheduleDelayedItemsLayout()

    @override
    def currentChanged(self, current: Index, previous: Index) -> None:
        super().currentChanged(current, previous)
        line = self._jobs.line_at(current.row())
        if line is not None:
            self.moved.emit(line)

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        line, key = self.line, event.key()
        plain = not event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier
        if line is not None and plain and key == Qt.Key.Key_Space:
            self.ticked.emit(line)
        elif line is not None and plain and key == Qt.Key.Key_Delete:
            self.let_go.emit(line)
        elif plain and key in _ENTER:
            self._open(self.currentIndex())
        elif plain and key in _STEPS:
            self._step(_STEPS[Qt.Key(key)])
        else:
            super().keyPressEvent(event)

    @override
    def keyboardSearch(self, search: str) -> None:
        if search.strip():
            self.typed.emit(search)

    @override
    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        super().mouseReleaseEvent(event)
        place = event.position().toPoint()
        index = self.indexAt(place)
        line = self._jobs.line_at(index.row())
        if line is None or event.button() != Qt.MouseButton.LeftButton:
            return
        boxed = line.closed is not None or not (line.settled or line.forecast)
        if boxed and self._painter.tick_box(self.visualRect(index)).contains(place):
            self.ticked.emit(line)

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.scheduleDelayedItemsLayout()

    def _step(self, step: int) -> None:
        """Go to the next job up or down, over the heads between."""
        row = self.currentIndex().row() + step
        while 0 <= row < self._jobs.rowCount():
            if self._jobs.line_at(row) is not None:
                self.put_cursor(row)
                return
            row += step

    def _open(self, index: QModelIndex) -> None:
        line = self._jobs.line_at(index.row())
        if line is not None:
            self.opened.emit(line)
