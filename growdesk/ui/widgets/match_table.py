"""Show a table's rows as they stand and as they are understood, a chooser over each.

The topmost row says what each column is; then three cells as they are in the file, then
the first rows as they would be read.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QColor
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHeaderView,
    QTableWidget,
    QTableWidgetItem,
)

from growdesk.domain.speech import tr
from growdesk.ui import sizes, theme
from growdesk.ui.take_in_texts import LEAVE_OUT
from growdesk.ui.tips import as_typed
from growdesk.ui.widgets.column_chooser import ColumnChooser
from growdesk.ui.widgets.form import choose

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from growdesk.services.intake_fields import Field
    from growdesk.services.intake_values import Column

_SAMPLES = 3
_WIDE_PX, _NARROW_PX = 260, 150
_CHOOSER_PX, _ROW_PX = 38, 26


class MatchTable(QTableWidget):
    """The columns of a file with what each is read as."""

    changed = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.choosers: list[ColumnChooser] = []
        self.setAccessibleName(tr("Columns of the file, and what they are read as"))
        self.setSelectionMode(QAbstractItemView.SelectionMode.NoSelection)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setTabKeyNavigation(False)
        self.setShowGrid(False)
        self.setHorizontalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        header = self.horizontalHeader()
        header.setDefaultAlignment(
            Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
        )
        header.setHighlightSections(False)
        self.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        self.verticalHeader().setHighlightSections(False)
        sizes.least_high(self, 200)

    @property
    def keys(self) -> tuple[str, ...]:
        """Give what is chosen over the columns."""
        return tuple(str(each.currentData()) for each in self.choosers)

    def show_columns(
        self,
        columns: Sequence[Column],
        fields: Mapping[str, Field],
        keys: Sequence[str],
    ) -> None:
        """Show the columns with their first cells, and over each what it is read as."""
        self.clear()
        self.choosers = []
        self.setRowCount(1 + _SAMPLES)
        self.setColumnCount(len(columns))
        self.setHorizontalHeaderLabels([column.name for column in columns])
        for at, (column, key) in enumerate(zip(columns, keys, strict=True)):
            head = self.horizontalHeaderItem(at)
            if head is not None:
                head.setToolTip(as_typed(column.name))
            self._show(at, column, fields, key)
        self.setRowHeight(0, sizes.px(_CHOOSER_PX))
        self._fit()

    def _show(
        self, at: int, column: Column, fields: Mapping[str, Field], key: str
    ) -> None:
        choices = [
            (tr(LEAVE_OUT), ""),
            *((each.title, key) for key, each in fields.items()),
        ]
        chooser = ColumnChooser(
            tr("What column {name} is read as").format(name=column.name), choices
        )
        choose(chooser, key)
        chooser.currentIndexChanged.connect(lambda _index: self.changed.emit())
        chooser.reached.connect(lambda: self.scrollTo(self.model().index(0, at)))
        self.choosers.append(chooser)
        self.setCellWidget(0, at, chooser)
        for row in range(_SAMPLES):
            text = column.samples[row] if row < len(column.samples) else ""
            self._put(1 + row, at, text, theme.colours().muted)

    def show_understood(self, rows: Sequence[tuple[int, Sequence[str]]]) -> None:
        """Show rows as they are understood, each with its number in the file."""
        colours = theme.colours()
        self.setRowCount(1 + _SAMPLES + len(rows))
        heads = [tr("Read as"), tr("In the file"), "", ""]
        for at, (number, cells) in enumerate(rows):
            heads.append(tr("Row {number} is read").format(number=number))
            for column, text in enumerate(cells):
                wrong = text.startswith("⚠")
                tone = colours.warn if wrong else colours.ink
                self._put(1 + _SAMPLES + at, column, text, tone)
        self.setVerticalHeaderLabels(heads)
        for row in range(1, self.rowCount()):
            self.setRowHeight(row, sizes.px(_ROW_PX))

    def _put(self, row: int, column: int, text: str, colour: str) -> None:
        shown = " ".join(text.split())
        item = QTableWidgetItem(shown)
        item.setToolTip(as_typed(text))
        item.setForeground(QColor(colour))
        self.setItem(row, column, item)

    def _fit(self) -> None:
        metrics = self.fontMetrics()
        for at, chooser in enumerate(self.choosers):
            items = [self.item(row, at) for row in range(1, self.rowCount())]
            texts = [item.text() for item in items if item is not None]
            head = self.horizontalHeaderItem(at)
            texts += [head.text() if head is not None else "", chooser.currentText()]
            widest = max(map(metrics.horizontalAdvance, texts)) + 44
            self.setColumnWidth(
                at, min(max(widest, sizes.px(_NARROW_PX)), sizes.px(_WIDE_PX))
            )
