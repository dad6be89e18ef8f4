"""Give the week to a view: plants down by place, watering days across.

Rows are places and plants in bench order; a cell is a plant on a day. The model asks
no service and writes nothing.
"""

from __future__ import annotations

from itertools import groupby
from typing import TYPE_CHECKING

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QPersistentModelIndex, Qt
from typing_extensions import override

from growdesk.domain.speech import mark, tr
from growdesk.services.walking import where
from growdesk.ui import week_words, words

if TYPE_CHECKING:
    from collections.abc import Sequence

    from growdesk.services.week_values import WeekCell, WeekDay, WeekLine, WeekView

Index = QModelIndex | QPersistentModelIndex
_ROOT = QModelIndex()
NO_PLACE = mark("No place recorded")


class WeekModel(QAbstractTableModel):
    """The table of one week, filtered by typed words."""

    def __init__(self) -> None:
        super().__init__()
        self.view: WeekView | None = None
        self._filter = ""
        self._rows: tuple[str | WeekLine, ...] = ()

    # -- what the pane asks ---------------------------------------------------------

    @property
    def rows(self) -> tuple[str | WeekLine, ...]:
        """Give the rows as shown: a place with its bench by name, or a plant."""
        return self._rows

    @property
    def days(self) -> tuple[WeekDay, ...]:
        """Give the days, one a column."""
        return () if self.view is None else self.view.days

    def show(self, view: WeekView | None) -> None:
        """Take a week; only what differs is told where its rows and days stay."""
        before_days, before = [day.on for day in self.days], self._rows
        rows = self._filtered(view)
        days = [] if view is None else [day.on for day in view.days]
        if days != before_days or [_key(e) for e in rows] != [_key(e) for e in before]:
            self.beginResetModel()
            self.view, self._rows = view, rows
            self.endResetModel()
            return
        self.view, self._rows = view, rows
        last = len(days) - 1
        for row, (old, new) in enumerate(zip(before, rows, strict=True)):
            if old != new:
                self.dataChanged.emit(self.index(row, 0), self.index(row, last))
        if days:
            self.headerDataChanged.emit(Qt.Orientation.Horizontal, 0, last)

    def filter_by(self, typed: str) -> None:
        """Keep the plants that hold every typed word."""
        wanted = typed.casefold()
        if wanted != self._filter:
            self._filter = wanted
            self.beginResetModel()
            self._rows = self._filtered(self.view)
            self.endResetModel()

    def row_of(self, plant_id: int) -> int:
        """Give the row of a plant, or -1 where it is not shown."""
        for row, entry in enumerate(self._rows):
            if not isinstance(entry, str) and entry.plant_id == plant_id:
                return row
        return -1

    def line_at(self, row: int) -> WeekLine | None:
        """Give the plant of a row; a place has none."""
        entry = self._rows[row] if 0 <= row < len(self._rows) else ""
        return None if isinstance(entry, str) else entry

    def cell_at(self, index: Index) -> WeekCell | None:
        """Give the cell at an index."""
        line = self.line_at(index.row()) if index.isValid() else None
        return None if line is None else line.cells[index.column()]

    # -- what Qt asks ---------------------------------------------------------------

    @override
    def rowCount(self, parent: Index = _ROOT) -> int:
        return 0 if parent.isValid() else len(self._rows)

    @override
    def columnCount(self, parent: Index = _ROOT) -> int:
        return 0 if parent.isValid() else len(self.days)

    @override
    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        line, cell = self.line_at(index.row()), self.cell_at(index)
        if line is None or cell is None:
            return None
        if role == Qt.ItemDataRole.DisplayRole:
            return f"{week_words.upper(cell)}\n{week_words.under(cell)}".strip()
        if role == Qt.ItemDataRole.ToolTipRole:
            return cell.sentence
        if role == Qt.ItemDataRole.AccessibleTextRole:
            return week_words.spoken(line, cell)
        return None

    @override
    def headerData(
        self,
        section: int,
        orientation: Qt.Orientation,
        role: int = Qt.ItemDataRole.DisplayRole,
    ) -> object:
        wanted = (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.AccessibleTextRole)
        if orientation is Qt.Orientation.Horizontal:
            if section >= len(self.days):
                return None
            day = self.days[section]
            if role in (*wanted, Qt.ItemDataRole.ToolTipRole):
                return week_words.day_spoken(day)
            return None
        if role not in wanted or section >= len(self._rows):
            return None
        entry = self._rows[section]
        return entry if isinstance(entry, str) else f"{entry.tag}, {entry.name}"

    @override
    def flags(self, index: Index) -> Qt.ItemFlag:
        if self.cell_at(index) is None:
            return Qt.ItemFlag.NoItemFlags  # so that the arrow keys step over a place
        plain = Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable
        return plain | Qt.ItemFlag.ItemNeverHasChildren

    def _filtered(self, view: WeekView | None) -> tuple[str | WeekLine, ...]:
        asked = self._filter.split()
        kept = [
            line
            for line in (() if view is None else view.lines)
            if all(word in _folded(line) for word in asked)
        ]
        return tuple(_by_place(kept))


def _by_place(lines: Sequence[WeekLine]) -> list[str | WeekLine]:
    rows: list[str | WeekLine] = []
    for place, group in groupby(lines, key=_where):
        rows += [place, *group]
    return rows


def _where(line: WeekLine) -> str:
    return where(line.place or tr(NO_PLACE), line.bench_name)


def _key(entry: str | WeekLine) -> str | int:
    return entry if isinstance(entry, str) else entry.plant_id


def _folded(line: WeekLine) -> str:
    verdicts = (words.VERDICT[cell.verdict] for cell in line.cells)
    return "\n".join(
        (line.tag, line.name, line.place, line.bench_name, *verdicts)
    ).casefold()
