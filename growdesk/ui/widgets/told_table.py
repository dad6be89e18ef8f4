"""Show rows of text as a table to read and to choose from, nothing to be edited in it.

Knows no more than its columns; what a row stands for is its owner's affair.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QIcon
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHeaderView,
    QTableWidget,
    QTableWidgetItem,
)

from growdesk.ui import icons, theme

if TYPE_CHECKING:
    from collections.abc import Sequence

    from growdesk.domain.facts import Verdict


class ToldTable(QTableWidget):
    """A table of whole rows. ``wide`` columns share the room that is left."""

    def __init__(self, name: str, columns: Sequence[str], wide: Sequence[int]) -> None:
        super().__init__(0, len(columns))
        self.setAccessibleName(name)
        self.setHorizontalHeaderLabels(list(columns))
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setShowGrid(False)
        self.setTabKeyNavigation(False)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.verticalHeader().hide()
        header = self.horizontalHeader()
        header.setDefaultAlignment(
            Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
        )
        header.setHighlightSections(False)
        for column in range(len(columns)):
            way = QHeaderView.ResizeMode.ResizeToContents
            if column in wide:
                way = QHeaderView.ResizeMode.Stretch
            header.setSectionResizeMode(column, way)

    def show_rows(self, rows: Sequence[Sequence[str]]) -> None:
        """Fill the table; the row chosen stays chosen by its place."""
        chosen = max(self.currentRow(), 0)
        self.setRowCount(len(rows))
        for number, row in enumerate(rows):
            for column, text in enumerate(row):
                item = QTableWidgetItem(text)
                item.setToolTip(text)
                self.setItem(number, column, item)
        self.resizeRowsToContents()
        if rows:
            self.selectRow(min(chosen, len(rows) - 1))

    def mark(self, row: int, column: int, verdict: Verdict) -> None:
        """Set a verdict's mark and colour before its word."""
        item = self.item(row, column)
        if item is None:
            return
        colour = theme.colours().verdict(verdict)
        picture = icons.pixmap(icons.mark_name(verdict), colour, 18, 2.0)
        item.setIcon(QIcon(picture))
        item.setForeground(QColor(colour))
