"""Show all plants as a table whose columns the grower sorts, moves and makes wider.

What is left of the width goes to the last wide column. A letter typed here starts a
find: no plain letter ever writes anything.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import (
    QSignalBlocker,
    Qt,
    Signal,
)
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTableView
from typing_extensions import override

from growdesk.domain.speech import tr
from growdesk.ui import sizes
from growdesk.ui.widgets.roster_delegate import RosterDelegate

if TYPE_CHECKING:
    from collections.abc import Mapping

    from PySide6.QtGui import QKeyEvent, QResizeEvent

    from growdesk.ui.models.roster_model import RosterModel

_ENTER = (Qt.Key.Key_Return, Qt.Key.Key_Enter)
_LEAST_PX = 44
_LEAST_WIDE_PX = 130
_PAD_PX = 18
_ROW_PAD_PX = 14


class RosterTable(QTableView):
    """The table of all plants."""

    typed = Signal(str)
    opened = Signal()
    cleared = Signal()
    sorted_by = Signal(str)
    reordered = Signal(object)
    widened = Signal(str, int)

    def __init__(self, model: RosterModel) -> None:
        super().__init__()
        self._plants = model
        self._own: dict[str, int] = {}
        self._is_fitting = False
        self.setModel(model)
        self.setItemDelegate(RosterDelegate(self, model))
        self.setAccessibleName(tr("All plants"))
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setShowGrid(False)
        self.setTabKeyNavigation(False)
        self.setWordWrap(False)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setHorizontalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setContextMenuPolicy(Qt.ContextMenuPolicy.CustomContextMenu)
        rows = self.verticalHeader()
        rows.hide()
        rows.setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        self._set_up_head()
        self._take_size()
        sizes.current().turned.connect(self._take_size)

    def like(self, widths: Mapping[str, int]) -> None:
        """Take the widths that the grower gave to columns."""
        self._own = dict(widths)
        self.fit()

    def show_order(self, key: str, *, downwards: bool) -> None:
        """Mark the heading that the table is sorted by."""
        keys = [column.key for column in self._plants.columns]
        way = Qt.SortOrder.DescendingOrder if downwards else Qt.SortOrder.AscendingOrder
        section = keys.index(key) if key in keys else -1
        self.horizontalHeader().setSortIndicator(section, way)

    def fit(self) -> None:
        """Give every column its width, and what is left over to the last wide one.

        Where there is too little room the wide ones give way first.
        """
        columns = self._plants.columns
        if not columns:
            return
        widths = [self._own.get(each.key, self._usual(each.key)) for each in columns]
        spare = self.viewport().width() - sum(widths)
        wide = [n for n, each in enumerate(columns) if each.wide]
        names = [n for n, each in enumerate(columns) if each.key == "name"]
        if spare > 0:
            widths[(wide or names or [len(columns) - 1])[-1]] += spare
        for section in wide:
            if spare < 0 and columns[section].key not in self._own:
                less = min(-spare, max(widths[section] - _LEAST_WIDE_PX, 0))
                widths[section] -= less
                spare += less
        self._is_fitting = True
        for section, width in enumerate(widths):
            if self.columnWidth(section) != width:
                self.setColumnWidth(section, width)
        self._is_fitting = False

    def wanted_px(self) -> int:
        """Give the width in which every column has its own."""
        keys = [column.key for column in self._plants.columns]
        return sum(self._own.get(key, self._usual(key)) for key in keys) + 20

    def key_here(self) -> str:
        """Give the column that the cursor stands in, or an empty text."""
        index = self.currentIndex()
        return self._plants.columns[index.column()].key if index.isValid() else ""

    def _take_size(self) -> None:
        high = self.fontMetrics().height() + _ROW_PAD_PX
        self.verticalHeader().setDefaultSectionSize(high)
        self.fit()

    def _usual(self, key: str) -> int:
        column = next(each for each in self._plants.columns if each.key == key)
        metrics = self.fontMetrics()
        head = metrics.horizontalAdvance(column.title) + 2 * _PAD_PX
        return max(metrics.horizontalAdvance("0") * column.signs + _PAD_PX, head)

    # -- the headings ---------------------------------------------------------------

    def _set_up_head(self) -> None:
        head = self.horizontalHeader()
        head.setAccessibleName(tr("Columns"))
        head.setMinimumSectionSize(_LEAST_PX)
        head.setSectionsClickable(True)
        head.setSectionsMovable(True)
        head.setSortIndicatorShown(True)
        head.setHighlightSections(False)
        head.setDefaultAlignment(
            Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
        )
        head.sectionClicked.connect(self._head_clicked)
        head.sectionResized.connect(self._resized)
        head.sectionMoved.connect(
            self._moved, Qt.ConnectionType.QueuedConnection
        )  # a heading is not put back while it is being moved

    def _head_clicked(self, section: int) -> None:
        if 0 <= section < len(self._plants.columns):
            self.sorted_by.emit(self._plants.columns[section].key)

    def _resized(self, section: int, _before: int, now: int) -> None:
        columns = self._plants.columns
        if self._is_fitting or not 0 <= section < len(columns) or now == 0:
            return
        self._own[columns[section].key] = now
        self.widened.emit(columns[section].key, now)

    def _moved(self, *_sections: int) -> None:
        """Let the model have the columns as the headings stand now."""
        head, columns = self.horizontalHeader(), self._plants.columns
        shown = [head.logicalIndex(visual) for visual in range(len(columns))]
        if shown == list(range(len(columns))):
            return
        keys = tuple(columns[section].key for section in shown)
        quiet = QSignalBlocker(head)
        for section in range(len(columns)):
            head.moveSection(head.visualIndex(section), section)
        quiet.unblock()
        self.reordered.emit(keys)

    # -- keys -----------------------------------------------------------------------

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.fit()

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in _ENTER and self.currentIndex().isValid():
            self.opened.emit()
        elif event.key() == Qt.Key.Key_Escape:
            self.cleared.emit()
        else:
            super().keyPressEvent(event)

    @override
    def keyboardSearch(self, search: str) -> None:
        """Hand a typed letter on, in place of jumping to a row that begins with it."""
        if search.strip() and search.isprintable():
            self.typed.emit(search)
