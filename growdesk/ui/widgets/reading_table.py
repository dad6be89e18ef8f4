"""Show what was read at a place, newest first, to be put right or removed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHBoxLayout,
    QHeaderView,
    QTableView,
    QVBoxLayout,
    QWidget,
)
from typing_extensions import override

from growdesk.domain.speech import tr
from growdesk.ui import sizes
from growdesk.ui.models.reading_model import ReadingModel
from growdesk.ui.widgets.parts import button

if TYPE_CHECKING:
    from collections.abc import Sequence

    from PySide6.QtGui import QKeyEvent

    from growdesk.services.values import ReadingView

_ROWS_SEEN = 6


class _Table(QTableView):
    """The rows; Delete asks for the chosen ones to be removed."""

    delete_pressed = Signal()

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Delete:
            self.delete_pressed.emit()
        else:
            super().keyPressEvent(event)


class ReadingTable(QWidget):
    """The readings of one place, with what can be done to the chosen ones."""

    change_wanted = Signal(object)
    remove_wanted = Signal(object)

    def __init__(self) -> None:
        super().__init__()
        self.model = ReadingModel()
        self.rows = _Table()
        self.rows.setModel(self.model)
        self.rows.setAccessibleName(tr("Readings of this place, newest first"))
        self._dress()
        self.change_button = button(tr("Change…"), self.change, tr("Enter on a day"))
        self.remove_button = button(
            tr("Remove"),
            self._remove,
            tr("Delete on days; undo brings them back"),
        )
        below = QHBoxLayout()
        below.addWidget(self.change_button)
        below.addWidget(self.remove_button)
        below.addStretch(1)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.rows, 1)
        column.addLayout(below)
        chosen = self.rows.selectionModel()
        chosen.selectionChanged.connect(lambda *_changed: self._offer())
        self.rows.doubleClicked.connect(lambda _index: self.change())
        self.rows.delete_pressed.connect(self._remove)
        self._offer()

    def show_readings(self, views: Sequence[ReadingView]) -> None:
        """Show other readings, none of them chosen; without any the table is gone."""
        self.model.show(views)
        self._offer()
        self.setVisible(bool(views))

    def change(self) -> None:
        """Ask for the one chosen reading to be put right."""
        chosen = self._chosen()
        if len(chosen) == 1:
            self.change_wanted.emit(chosen[0])

    def stops(self) -> list[QWidget]:
        """Give what the Tab key comes to."""
        return [self.rows, self.change_button, self.remove_button]

    def _remove(self) -> None:
        chosen = self._chosen()
        if chosen:
            self.remove_wanted.emit(chosen)

    def _chosen(self) -> list[ReadingView]:
        found = self.rows.selectionModel().selectedRows()
        return [self.model.views[row] for row in sorted(each.row() for each in found)]

    def _offer(self) -> None:
        count = len(self._chosen())
        self.change_button.setEnabled(count == 1)
        self.remove_button.setEnabled(count > 0)

    def _dress(self) -> None:
        rows = self.rows
        rows.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        rows.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
        rows.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        rows.setProperty("records", "true")
        rows.setShowGrid(False)
        rows.setTabKeyNavigation(False)
        rows.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        rows.verticalHeader().hide()
        header = rows.horizontalHeader()
        header.setSectionResizeMode(QHeaderView.ResizeMode.Stretch)
        header.setHighlightSections(False)
        header.setMinimumSectionSize(40)
        for wide in (0, self.model.columnCount() - 1):
            header.setSectionResizeMode(wide, QHeaderView.ResizeMode.ResizeToContents)
        self._take_size()
        sizes.current().turned.connect(self._take_size)

    def _take_size(self) -> None:
        high = self.rows.fontMetrics().height() + 8
        self.rows.verticalHeader().setMinimumSectionSize(high)
        self.rows.verticalHeader().setDefaultSectionSize(high)
        self.rows.setMinimumHeight(high * (_ROWS_SEEN + 1) + 14)
