"""Show the first rows of a logger's file with a chooser over each column."""

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
from typing_extensions import override

from growdesk.domain.speech import tr
from growdesk.services import logger_words
from growdesk.services.logger_columns import Role
from growdesk.ui import sizes, theme
from growdesk.ui.tips import as_typed
from growdesk.ui.widgets.column_chooser import ColumnChooser
from growdesk.ui.widgets.form import choose

if TYPE_CHECKING:
    from collections.abc import Sequence

    from PySide6.QtGui import QResizeEvent

    from growdesk.services.logger_values import Column

_WIDE_PX, _NARROW_PX = 250, 150
_CHOOSER_PX, _ROW_PX, _ROWS = 38, 26, 3


class LoggerPreview(QTableWidget):
    """The first rows as they stand in the file; choosers in the topmost row."""

    changed = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.choosers: list[ColumnChooser] = []
        self.setAccessibleName(tr("First rows of the file"))
        self.setSelectionMode(QAbstractItemView.SelectionMode.NoSelection)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setTabKeyNavigation(False)
        self.setShowGrid(False)
        self.setHorizontalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.verticalHeader().hide()
        header = self.horizontalHeader()
        header.setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        header.setDefaultAlignment(
            Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
        )
        header.setHighlightSections(False)

    @property
    def roles(self) -> tuple[Role, ...]:
        """Give what is chosen over the columns."""
        return tuple(Role(each.currentData()) for each in self.choosers)

    def show_columns(self, columns: Sequence[Column], roles: Sequence[Role]) -> None:
        """Show the columns' first cells, and over each what it is taken for."""
        self.clear()
        self.choosers = []
        deep = min(max((len(each.samples) for each in columns), default=0), _ROWS)
        self.setRowCount(1 + deep)
        self.setColumnCount(len(columns))
        self.setHorizontalHeaderLabels([column.name for column in columns])
        for at, (column, role) in enumerate(zip(columns, roles, strict=True)):
            self._show(at, column, role)
        for row in range(1, 1 + deep):
            self.setRowHeight(row, sizes.px(_ROW_PX))
        self.setRowHeight(0, sizes.px(_CHOOSER_PX))
        self._fit()

    def _show(self, at: int, column: Column, role: Role) -> None:
        head = self.horizontalHeaderItem(at)
        if head is not None:
            head.setToolTip(as_typed(column.name))
        chooser = ColumnChooser(
            tr("What column {name} holds").format(name=column.name),
            [(logger_words.ROLES[each], each) for each in Role],
        )
        choose(chooser, role)
        chooser.currentIndexChanged.connect(lambda _index: self._chosen(at))
        chooser.reached.connect(lambda: self.scrollTo(self.model().index(0, at)))
        self.choosers.append(chooser)
        self.setCellWidget(0, at, chooser)
        for row, text in enumerate(column.samples[:_ROWS], start=1):
            item = QTableWidgetItem(text)
            item.setToolTip(as_typed(text))
            self.setItem(row, at, item)
        self._shade(at)

    def _chosen(self, at: int) -> None:
        self._shade(at)
        self.changed.emit()

    def _shade(self, at: int) -> None:
        """Show the cells of a column that is left out as what does not count."""
        is_read = self.roles[at] is not Role.LEAVE_OUT
        colours = theme.colours()
        for row in range(1, self.rowCount()):
            item = self.item(row, at)
            if item is not None:
                item.setForeground(QColor(colours.ink if is_read else colours.edge))

    def _fit(self) -> None:
        """Give each column what its cells need, within reason, and share the rest."""
        metrics = self.fontMetrics()
        widths = []
        for at in range(self.columnCount()):
            items = [self.item(row, at) for row in range(1, self.rowCount())]
            texts = [item.text() for item in items if item is not None]
            head = self.horizontalHeaderItem(at)
            texts += [head.text() if head is not None else ""]
            widest = max(map(metrics.horizontalAdvance, texts)) + 26
            widths.append(min(max(widest, sizes.px(_NARROW_PX)), sizes.px(_WIDE_PX)))
        spare = self.viewport().width() - sum(widths)
        for at, width in enumerate(widths):
            self.setColumnWidth(at, width + max(0, spare) // max(len(widths), 1))
        self._take_height(needs_bar=spare < 0)

    def _take_height(self, *, needs_bar: bool) -> None:
        """Be as high as the rows, with room for a bar only where there is one."""
        bar = self.horizontalScrollBar().sizeHint().height() if needs_bar else 0
        head = self.horizontalHeader().sizeHint().height()
        rows = sum(self.rowHeight(row) for row in range(self.rowCount()))
        self.setFixedHeight(rows + head + bar + 4)

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit()
