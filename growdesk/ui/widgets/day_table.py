"""Show the day's lines as a table that sizes itself and hands typed letters on.

Columns share the width so that a reason is read whole where there is room; a row has
its height by whether it is a line or the head of a group. A letter typed here starts a
find: no plain letter ever writes anything.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QFont
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTableView
from typing_extensions import override

from growdesk.domain.speech import tr
from growdesk.ui import sizes
from growdesk.ui.day_columns import Place
from growdesk.ui.widgets.day_delegate import DayDelegate, Wanted, wanted

if TYPE_CHECKING:
    from PySide6.QtGui import QResizeEvent

    from growdesk.ui.models.day_model import DayModel

_LEAST_ROOM = 180
_TICK = 40
_HEAD_PAD, _LINE_PAD = 24, 14


class DayTable(QTableView):
    """The table of the day's list."""

    typed = Signal(str)

    def __init__(self, model: DayModel) -> None:
        super().__init__()
        self._lines = model
        self._head_rows: set[int] = set()
        self._measured: tuple[object, QFont, Wanted] | None = None
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
        rows = self.verticalHeader()
        rows.hide()
        rows.setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        rows.setDefaultSectionSize(2 * self.fontMetrics().height() + _LINE_PAD)
        header = self.horizontalHeader()
        header.hide()
        header.setMinimumSectionSize(30)
        header.setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        self.setContextMenuPolicy(Qt.ContextMenuPolicy.CustomContextMenu)
        sizes.current().turned.connect(self._take_size)

    def fit_rows(self) -> None:
        """Span the group headers and give them their height; lines have theirs."""
        self.clearSpans()
        high = self.fontMetrics().height() + _HEAD_PAD
        columns, heads = self._lines.columnCount(), set(self._lines.head_rows())
        for row in self._head_rows - heads:
            self.setRowHeight(row, self.verticalHeader().defaultSectionSize())
        for row in heads:
            self.setSpan(row, 0, 1, columns)
            self.setRowHeight(row, high)
        self._head_rows = heads

    def fit_columns(self) -> None:
        """Give names and reasons what they need, within reason, side by side.

        What is left over stands behind the amounts, so that the eye keeps to its line.
        """
        unit = self.fontMetrics().horizontalAdvance("0")
        wanted = self._wanted()
        narrow = {Place.TICK: sizes.px(_TICK)}
        narrow[Place.TAG] = unit * min(max(wanted.tag_letters + 2, 4), 8) + 4
        narrow[Place.STRENGTH] = unit * 15
        room = max(self.viewport().width() - sum(narrow.values()), _LEAST_ROOM)
        needed = max(wanted.reason_px, unit * 15)
        verdict = min(needed, max(round(room * 0.58), room - unit * 26))
        named = min(room - verdict, wanted.name_px)
        narrow[Place.STRENGTH] += room - verdict - named
        wide = {Place.VERDICT: verdict, Place.PLANT: named}
        for place, width in (narrow | wide).items():
            self.setColumnWidth(place, width)

    def _wanted(self) -> Wanted:
        """Give what the lines want, measured once for the lines shown and the font."""
        lines, font = self._lines.stands, self.font()
        held = self._measured
        if held is None or held[0] is not lines or held[1] != font:
            held = self._measured = lines, QFont(font), wanted(font, lines)
        return held[2]

    def in_sight(self) -> tuple[int, ...]:
        """Give the rows that are seen, from the first to the last."""
        first, last = self.rowAt(0), self.rowAt(self.viewport().height() - 1)
        if first < 0:
            return ()
        rows = self._lines.rowCount()
        return tuple(range(first, rows if last < 0 else last + 1))

    def _take_size(self) -> None:
        high = 2 * self.fontMetrics().height() + _LINE_PAD
        self.verticalHeader().setDefaultSectionSize(high)
        self.fit_rows()
        self.fit_columns()

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.fit_columns()

    @override
    def keyboardSearch(self, search: str) -> None:
        """Hand a typed letter on, in place of jumping to a row that begins with it."""
        if search.strip() and search.isprintable():
            self.typed.emit(search)
