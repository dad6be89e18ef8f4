"""Show rows of text as a table to read and to choose from, nothing to be edited in it.

Knows no more than its columns; what a row stands for is its owner's affair.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QModelIndex, QSignalBlocker, QSize, Qt
from PySide6.QtGui import QColor, QIcon
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHeaderView,
    QTableWidget,
    QTableWidgetItem,
)

from growdesk.ui import icons, sizes, theme
from growdesk.ui.tips import as_typed

if TYPE_CHECKING:
    from collections.abc import Sequence

    from growdesk.domain.facts import Verdict


_AIR_PX = 14
_BESIDE_PX = 26
_ICON_PX = 18
_MARK_PX = _ICON_PX + 8
_RIGHT = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter


class ToldTable(QTableWidget):
    """A table of whole rows.

    ``wide`` columns share the room that is left, ``numbers`` stand to the right,
    ``marked`` ones have room for a verdict's mark before the word. A row has one line,
    its whole text in a tip.
    """

    def __init__(
        self,
        name: str,
        columns: Sequence[str],
        wide: Sequence[int],
        numbers: Sequence[int] = (),
        marked: Sequence[int] = (),
    ) -> None:
        super().__init__(0, len(columns))
        self._numbers = frozenset(numbers)
        self.setAccessibleName(name)
        self.setHorizontalHeaderLabels(list(columns))
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self._chooses = True
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setShowGrid(False)
        self.setTabKeyNavigation(False)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self._told: list[tuple[str, ...]] = []
        self._wide = frozenset(wide)
        self._marked = frozenset(marked)
        self.setIconSize(QSize(_ICON_PX, _ICON_PX))
        self.setWordWrap(False)
        rows = self.verticalHeader()
        rows.hide()
        rows.setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        header = self.horizontalHeader()
        header.setDefaultAlignment(
            Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
        )
        header.setHighlightSections(False)
        for column in self._numbers:
            head = self.horizontalHeaderItem(column)
            if head is not None:
                head.setTextAlignment(_RIGHT)
        self._take_size()
        sizes.current().turned.connect(self._take_size)
        for column in self._wide:
            header.setSectionResizeMode(column, QHeaderView.ResizeMode.Stretch)

    def only_tell(self) -> None:
        """Let no row be chosen: there is nothing to be done with one."""
        self._chooses = False
        self.setSelectionMode(QAbstractItemView.SelectionMode.NoSelection)

    def wrap_lines(self) -> None:
        """Let a row have as many lines as its text needs; for a few rows only."""
        self.setWordWrap(True)
        self.verticalHeader().setSectionResizeMode(
            QHeaderView.ResizeMode.ResizeToContents
        )

    def show_rows(self, rows: Sequence[Sequence[str]]) -> list[int]:
        """Fill the table and give the rows that are new or read differently now.

        The row chosen stays chosen by its place, and a row that reads as before is
        left alone. Columns are measured once, when all is filled.
        """
        chosen = max(self.currentRow(), 0)
        wanted = [tuple(row) for row in rows]
        before = dict(enumerate(self._told))
        new = [n for n, row in enumerate(wanted) if before.get(n) != row]
        self._told = wanted
        quiet = QSignalBlocker(self)
        self.setUpdatesEnabled(False)
        self.setRowCount(len(wanted))
        for number in new:
            self._put(number, wanted[number])
        self.setUpdatesEnabled(True)
        quiet.unblock()
        if new or not wanted:
            self._measure()
        if not self._chooses:
            self.setCurrentIndex(QModelIndex())
        elif wanted and self.currentRow() != min(chosen, len(wanted) - 1):
            self.selectRow(min(chosen, len(wanted) - 1))
        return new

    def _put(self, number: int, row: tuple[str, ...]) -> None:
        for column, text in enumerate(row):
            item = QTableWidgetItem(text)
            item.setToolTip(as_typed(text))
            if column in self._numbers:
                item.setTextAlignment(_RIGHT)
            self.setItem(number, column, item)

    def _take_size(self) -> None:
        high = self.fontMetrics().height() + _AIR_PX
        self.verticalHeader().setDefaultSectionSize(high)
        self._measure()

    def _measure(self) -> None:
        """Give every column that is not wide the width of its widest text."""
        metrics = self.fontMetrics()
        header = self.horizontalHeader()
        for column in range(self.columnCount()):
            if column in self._wide:
                continue
            texts = {row[column] for row in self._told}
            most = max((metrics.horizontalAdvance(text) for text in texts), default=0)
            room = _MARK_PX if column in self._marked else 0
            self.setColumnWidth(
                column, max(most + room + _BESIDE_PX, header.sectionSizeHint(column))
            )

    def mark(self, row: int, column: int, verdict: Verdict) -> None:
        """Set a verdict's mark and colour before its word."""
        item = self.item(row, column)
        if item is None:
            return
        colour = theme.colours().verdict(verdict)
        picture = icons.pixmap(icons.mark_name(verdict), colour, _ICON_PX, 2.0)
        icon = QIcon(picture)
        icon.addPixmap(picture, QIcon.Mode.Selected)
        item.setIcon(icon)
        item.setForeground(QColor(colour))
