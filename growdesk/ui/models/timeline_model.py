"""Give the timeline of a plant to a view: headings of months, and entries.

The same entries told anew are no reset, so that the cursor and the scroll stay.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QAbstractListModel, QModelIndex, QPersistentModelIndex, Qt
from typing_extensions import override

from growdesk.ui import words
from growdesk.ui.timeline_entries import Entry, Heading

if TYPE_CHECKING:
    from collections.abc import Sequence

Index = QModelIndex | QPersistentModelIndex
Row = Entry | Heading
_ROOT = QModelIndex()


class TimelineModel(QAbstractListModel):
    """The rows of a timeline."""

    def __init__(self) -> None:
        super().__init__()
        self._rows: tuple[Row, ...] = ()

    @property
    def rows(self) -> tuple[Row, ...]:
        """Give the rows as shown."""
        return self._rows

    def show(self, rows: Sequence[Row]) -> bool:
        """Take the rows; tell whether anything differs."""
        wanted = tuple(rows)
        if wanted == self._rows:
            return False
        self.beginResetModel()
        self._rows = wanted
        self.endResetModel()
        return True

    def entry(self, row: int) -> Entry | None:
        """Give the entry of a row; none for a heading."""
        if not 0 <= row < len(self._rows):
            return None
        found = self._rows[row]
        return found if isinstance(found, Entry) else None

    def row_of(self, entry: Entry) -> int:
        """Give the row of an entry, as it was or since changed; -1 where it is gone."""
        keys = [row.key if isinstance(row, Entry) else None for row in self._rows]
        return keys.index(entry.key) if entry.key in keys else -1

    @override
    def rowCount(self, parent: Index = _ROOT) -> int:
        return 0 if parent.isValid() else len(self._rows)

    @override
    def flags(self, index: Index) -> Qt.ItemFlag:
        """Let the cursor pass over headings."""
        if self.entry(index.row()) is None:
            return Qt.ItemFlag.ItemIsEnabled
        return Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable

    @override
    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        if not index.isValid():
            return None
        row = self._rows[index.row()]
        if isinstance(row, Heading):
            is_text = role in {
                Qt.ItemDataRole.DisplayRole,
                Qt.ItemDataRole.AccessibleTextRole,
            }
            return row.title if is_text else None
        if role == Qt.ItemDataRole.DisplayRole:
            return row.line
        if role == Qt.ItemDataRole.AccessibleTextRole:
            return spoken(row)
        return None


def spoken(entry: Entry) -> str:
    """Give an entry as a screen reader should say it."""
    parts = [words.short_day(entry.on), entry.line, entry.note]
    if entry.photos:
        parts.append(words.counted(len(entry.photos), "photo", "photos"))
    return ". ".join(part.rstrip(".") for part in parts if part)
