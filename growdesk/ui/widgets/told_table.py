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


_RIGHT = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter


class ToldTable(QTableWidget):
    """A table of whole rows.

    ``wide`` columns share the room that is left, ``numbers`` stand to the right.
    """

    def __init__(
        self,
        name: str,
        columns: Sequence[str],
        wide: Sequence[int],
        numbers: Sequence[int] = (),
    ) -> None:
        super().__init__(0, len(columns))
        self._numbers = frozenset(numbers)
        self.setAccessibleName(name)
        self.setHorizontalHeaderLabels(list(columns))
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setShowGrid(False)
        self.setTabKeyNavigation(False)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        rows = self.verticalHeader()
        rows.hide()
        rows.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
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
                if column in self._numbers:
                    item.setTextAlignment(_RIGHT)
                self.setItem(number, column, item)
        if rows:
            self.selectRow(min(chosen, len(rows) - 1))

    def mark(self, row: int, column: int, verdict: Verdict) -> None:
        """Set a verdict's mark and colour before its word."""
        item = self.item(row, column)
        if item is None:
            return
        colour = theme.colours().verdict(verdict)
        picture = icons.pixmap(icons.mark_name(verdict), colour, 18, 2.0)
        icon = QIcon(picture)
        icon.addPixmap(picture, QIcon.Mode.Selected)
        item.setIcon(icon)
        item.setForeground(QColor(colour))
