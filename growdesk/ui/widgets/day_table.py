"""Show the day's lines as a table that sizes itself and hands typed letters on.

Columns share the width so that a reason is read whole where there is room; every row
has its height by what stands in it now. A letter typed here starts a find: no plain
letter ever writes anything.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTableView
from typing_extensions import override

from growdesk.domain.speech import tr
from growdesk.ui import sizes
from growdesk.ui.models.day_model import Head, Place
from growdesk.ui.widgets.day_delegate import DayDelegate, name_width, reason_width

if TYPE_CHECKING:
    from PySide6.QtGui import QResizeEvent

    from growdesk.ui.models.day_model import DayModel

_LEAST_ROOM = 180
_TICK = 40


class DayTable(QTableView):
    """The table of the day's list."""

    typed = Signal(str)

    def __init__(self, model: DayModel) -> None:
        super().__init__()
        self._lines = model
        self.setModel(model)
        self.setItemDelegate(DayDelegate(self, model))
        self.setAccessibleName(tr("Plants of the watering day, grouped by verdict"))
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setShowGrid(False)
        self.setTabKeyNavigation(False)
        self.setWordWrap(False)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.verticalHeader().hide()
        header = self.horizontalHeader()
        header.hide()
        header.setMinimumSectionSize(30)
        header.setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        self.setContextMenuPolicy(Qt.ContextMenuPolicy.CustomContextMenu)
        sizes.current().turned.connect(self._take_size)

    def fit_rows(self) -> None:
        """Span the group headers and give every row its height."""
        self.clearSpans()
        height = self.fontMetrics().height()
        for row, entry in enumerate(self._lines.rows):
            is_head = isinstance(entry, Head)
            if is_head:
                self.setSpan(row, 0, 1, self._lines.columnCount())
            wanted = height + 24 if is_head else 2 * height + 14
            if self.rowHeight(row) != wanted:
                self.setRowHeight(row, wanted)

    def fit_columns(self) -> None:
        """Give names and reasons what they need, within reason, side by side.

        What is left over stands behind the amounts, so that the eye keeps to its line.
        """
        unit = self.fontMetrics().horizontalAdvance("0")
        narrow = {Place.TICK: sizes.px(_TICK), Place.TAG: self._tag_width(unit)}
        narrow[Place.STRENGTH] = unit * 15
        room = max(self.viewport().width() - sum(narrow.values()), _LEAST_ROOM)
        reasons = (line.short_reason for line in self._lines.lines)
        needed = max(reason_width(self.font(), reasons), unit * 15)
        verdict = min(needed, max(round(room * 0.58), room - unit * 26))
        named = min(room - verdict, name_width(self.font(), self._lines.lines))
        narrow[Place.STRENGTH] += room - verdict - named
        wide = {Place.VERDICT: verdict, Place.PLANT: named}
        for place, width in (narrow | wide).items():
            self.setColumnWidth(place, width)

    def _take_size(self) -> None:
        self.fit_rows()
        self.fit_columns()

    def _tag_width(self, unit: int) -> int:
        """Give the width of the longest tag, within reason."""
        longest = max((len(line.tag) for line in self._lines.lines), default=0)
        return unit * min(max(longest + 2, 4), 8) + 4

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.fit_columns()

    @override
    def keyboardSearch(self, search: str) -> None:
        """Hand a typed letter on, in place of jumping to a row that begins with it."""
        if search.strip() and search.isprintable():
            self.typed.emit(search)
