"""Give the table of all plants to a view: a plant a row, the columns that were chosen.

A key typed into the find is one pass over texts that were folded before; filters and
order are made anew only where they change. The model asks no service for anything.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QPersistentModelIndex, Qt
from typing_extensions import override

from growdesk.domain.speech import tr
from growdesk.services.finding import Finder, folded
from growdesk.services.roster_filter import is_of, kept
from growdesk.services.view_starts import EVERYTHING
from growdesk.ui import roster_columns, words
from growdesk.ui.roster_columns import Entry
from growdesk.ui.tips import as_typed

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from datetime import date

    from growdesk.domain.facts import Verdict
    from growdesk.services.roster_values import RosterLine, ViewDraft
    from growdesk.ui.roster_columns import Column

Index = QModelIndex | QPersistentModelIndex
ID_ROLE = Qt.ItemDataRole.UserRole + 1
_ROOT = QModelIndex()


class RosterModel(QAbstractTableModel):
    """All plants on record, as one view shows them."""

    def __init__(self) -> None:
        super().__init__()
        self.lines: tuple[RosterLine, ...] = ()
        self.view: ViewDraft = EVERYTHING
        self.columns: tuple[Column, ...] = roster_columns.chosen(roster_columns.USUAL)
        self.finder = Finder(())
        self._on: date | None = None
        self._verdicts: Mapping[int, Verdict] = {}
        self._base: list[Entry] = []
        self._rows: tuple[Entry, ...] = ()
        self._row_of: dict[int, int] = {}

    # -- what the pane asks ---------------------------------------------------------

    @property
    def rows(self) -> tuple[Entry, ...]:
        """Give the rows as shown."""
        return self._rows

    @property
    def among(self) -> int:
        """Give how many plants the view is about before filters and find."""
        return sum(1 for line in self.lines if is_of(line, self.view.whose))

    def show(
        self, lines: Sequence[RosterLine], verdicts: Mapping[int, Verdict], on: date
    ) -> bool:
        """Take the plants of a day; tell whether other rows stand there now."""
        self.lines, self._verdicts, self._on = tuple(lines), verdicts, on
        return self._arrange()

    def arrange(self, view: ViewDraft, columns: Sequence[str]) -> None:
        """Take a view with its columns."""
        wanted = roster_columns.chosen(columns)
        if wanted != self.columns:
            self.beginResetModel()
            self.columns = wanted
            self._rows = ()
            self._row_of = {}
            self.endResetModel()
        self.view = view
        self._arrange()

    def find(self, view: ViewDraft) -> None:
        """Take a view that differs in its find alone."""
        self.view = view
        found = self.finder.find(view.find)
        self._take(tuple(self._base[each] for each in found))

    def row_of(self, plant_id: int | None) -> int:
        """Give the row of a plant, or -1 where it is not shown."""
        return -1 if plant_id is None else self._row_of.get(plant_id, -1)

    def held_elsewhere(self) -> int:
        """Count the plants on record that hold the words and are not of the view."""
        words_typed = folded(self.view.find).split()
        shown = {entry.line.plant_id for entry in self._rows}
        return sum(
            1
            for line in self.lines
            if line.plant_id not in shown
            and all(word in line.found_by for word in words_typed)
        )

    # -- what Qt asks ---------------------------------------------------------------

    @override
    def rowCount(self, parent: Index = _ROOT) -> int:
        return 0 if parent.isValid() else len(self._rows)

    @override
    def columnCount(self, parent: Index = _ROOT) -> int:
        return 0 if parent.isValid() else len(self.columns)

    @override
    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        if not index.isValid() or index.row() >= len(self._rows):
            return None
        entry, column = self._rows[index.row()], self.columns[index.column()]
        if role == Qt.ItemDataRole.TextAlignmentRole:
            return _side(column)
        if role == ID_ROLE:
            return entry.line.plant_id
        text = column.text(entry)
        said: dict[int, str] = {
            Qt.ItemDataRole.DisplayRole: text,
            Qt.ItemDataRole.ToolTipRole: as_typed(text),
            Qt.ItemDataRole.AccessibleTextRole: (
                f"{column.title}: {text or tr(words.NOT_RECORDED)}"
            ),
        }
        return said.get(role)

    @override
    def headerData(
        self,
        section: int,
        orientation: Qt.Orientation,
        role: int = Qt.ItemDataRole.DisplayRole,
    ) -> object:
        if orientation is not Qt.Orientation.Horizontal:
            return None
        if not 0 <= section < len(self.columns):
            return None
        column = self.columns[section]
        if role == Qt.ItemDataRole.DisplayRole:
            return column.title
        if role == Qt.ItemDataRole.TextAlignmentRole:
            return _side(column)
        return None

    # -- what stands where ----------------------------------------------------------

    def _arrange(self) -> bool:
        """Filter, sort and find anew; tell whether other rows stand there now."""
        view = self.view
        if self._on is None:
            return False
        left = kept(self.lines, view, self._on, self._verdicts)
        self._base = roster_columns.ordered(
            [Entry(line, self._verdicts.get(line.plant_id)) for line in left],
            view.order,
            downwards=view.downwards,
        )
        self.finder = Finder([_found_by(entry) for entry in self._base])
        found = self.finder.find(view.find)
        return self._take(tuple(self._base[each] for each in found))

    def _take(self, rows: tuple[Entry, ...]) -> bool:
        """Show rows; where the same plants stand, only what differs is told."""
        before = self._rows
        if [e.line.plant_id for e in rows] == [e.line.plant_id for e in before]:
            self._rows = rows
            last = len(self.columns) - 1
            for row, (old, new) in enumerate(zip(before, rows, strict=True)):
                if old != new:
                    self.dataChanged.emit(self.index(row, 0), self.index(row, last))
            return False
        self.beginResetModel()
        self._rows = rows
        self._row_of = {e.line.plant_id: row for row, e in enumerate(rows)}
        self.endResetModel()
        return True


def _side(column: Column) -> Qt.AlignmentFlag:
    """Give how a column is set: numbers to the right."""
    across = (
        Qt.AlignmentFlag.AlignRight if column.is_number else Qt.AlignmentFlag.AlignLeft
    )
    return across | Qt.AlignmentFlag.AlignVCenter


def _found_by(entry: Entry) -> str:
    """Give what a find goes through: the plant's own text, its verdict or its end."""
    verdict = roster_columns.BY_KEY["verdict"].text(entry)
    return f"{entry.line.found_by}\n{folded(verdict)}"
