"""Give the calendar's lines to a view, under the heads of their groups, narrowed.

Heads are rows that cannot be chosen. What was done or let go stays for the day.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct
from PySide6.QtCore import QAbstractListModel, QModelIndex, QPersistentModelIndex, Qt
from typing_extensions import override

from growdesk.ui import calendar_folds, calendar_words

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence
    from datetime import date

    from growdesk.domain.jobs.job import Sort
    from growdesk.services.calendar_values import JobLine, JobRef

Index = QModelIndex | QPersistentModelIndex
_ROOT = QModelIndex()


class Head(Struct, frozen=True):
    """The head of a group, and how many lines stand under it."""

    name: str
    count: int


class Filter(Struct, frozen=True):
    """What is shown: one sort or all, one place or all, what a text finds."""

    sort: Sort | None = None
    place: str = ""
    typed: str = ""

    def of(self, lines: Sequence[JobLine], found_by: Sequence[str]) -> list[JobLine]:
        """Give the lines that are shown, each by what a find goes through in it."""
        parts = self.typed.casefold().split()
        taken = zip(lines, found_by, strict=True) if parts else ((x, "") for x in lines)
        return [
            line
            for line, text in taken
            if self.sort in (None, line.sort)
            and self.place in ("", line.place)
            and all(part in text for part in parts)
        ]


class CalendarModel(QAbstractListModel):
    """The jobs of a year."""

    def __init__(self) -> None:
        super().__init__()
        self.lines: tuple[JobLine, ...] | None = None
        self.today: date | None = None
        self.rows: list[Head | JobLine] = []
        self.filter = Filter()
        self._opened: set[date] = set()
        self._found_by: list[str] = []

    @property
    def shown(self) -> list[JobLine]:
        """Give the lines in sight."""
        return [row for row in self.rows if not isinstance(row, Head)]

    def show(self, lines: Sequence[JobLine] | None, today: date) -> None:
        """Take the lines as known today; none while they are not read yet."""
        self.lines = None if lines is None else tuple(lines)
        if lines is None:
            self._opened.clear()
        self.today = today
        self._found_by = []
        self._fill()

    def narrow(self, wanted: Filter) -> None:
        """Show only what a filter takes."""
        if wanted != self.filter:
            self.filter = wanted
            self._fill()

    def unfold(self, on: date) -> None:
        """Show each of the looks of a day."""
        self._opened.add(on)
        self._fill()

    def line_at(self, row: int) -> JobLine | None:
        """Give the line of a row; a head is none."""
        if not 0 <= row < len(self.rows):
            return None
        entry = self.rows[row]
        return None if isinstance(entry, Head) else entry

    def row_of(self, ref: JobRef | None) -> int:
        """Give the row of a job, or -1."""
        for number, entry in enumerate(self.rows):
            if not isinstance(entry, Head) and entry.ref == ref:
                return number
        return -1

    def next_line(self, row: int) -> int:
        """Give the row of the first line from a row on, else the last before it."""
        after = range(max(row, 0), len(self.rows))
        before = range(min(row, len(self.rows)) - 1, -1, -1)
        found = (n for n in (*after, *before) if self.line_at(n) is not None)
        return next(found, -1)

    @override
    def rowCount(self, parent: Index = _ROOT) -> int:
        return 0 if parent.isValid() else len(self.rows)

    @override
    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        if not index.isValid() or self.today is None:
            return None
        entry = self.rows[index.row()]
        if isinstance(entry, Head):
            named = role in {
                Qt.ItemDataRole.DisplayRole,
                Qt.ItemDataRole.AccessibleTextRole,
            }
            return f"{entry.name}, {entry.count}" if named else None
        if role == Qt.ItemDataRole.DisplayRole:
            return f"{calendar_words.whom(entry)}: {entry.title}"
        if role == Qt.ItemDataRole.AccessibleTextRole:
            return calendar_words.spoken(entry, self.today)
        return None

    @override
    def flags(self, index: Index) -> Qt.ItemFlag:
        if self.line_at(index.row()) is None:
            return Qt.ItemFlag.NoItemFlags
        return Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable

    def _fill(self) -> None:
        self.beginResetModel()
        self.rows = []
        if self.lines is not None and self.today is not None:
            if self.filter.typed.strip() and not self._found_by:
                self._found_by = [calendar_words.folded(line) for line in self.lines]
            taken = self.filter.of(self.lines, self._found_by)
            for name, group in calendar_words.grouped(taken, self.today).items():
                self.rows += [Head(name, len(group)), *self._folded(group)]
        self.endResetModel()

    def _folded(self, group: Sequence[JobLine]) -> Iterable[JobLine]:
        """Fold a group's looks of one day, but not while something is sought."""
        if self.today is None or self.filter.typed.strip():
            return group
        return calendar_folds.fold(group, self.today, self._opened)
