"""Give the looks worth taking to a view: tag and name, what it may turn to, and why.

Rows are frozen; the same plants told anew are no reset, so that the cursor stays.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QAbstractListModel, QModelIndex, QPersistentModelIndex, Qt
from typing_extensions import override

if TYPE_CHECKING:
    from collections.abc import Sequence

    from growdesk.services.look_values import WorthLine

Index = QModelIndex | QPersistentModelIndex
ID_ROLE = Qt.ItemDataRole.UserRole + 1
_ROOT = QModelIndex()


class LooksModel(QAbstractListModel):
    """The plants worth a look, in their order."""

    def __init__(self) -> None:
        super().__init__()
        self._lines: tuple[WorthLine, ...] = ()

    @property
    def lines(self) -> tuple[WorthLine, ...]:
        """Give the lines as shown."""
        return self._lines

    def show(self, lines: Sequence[WorthLine]) -> bool:
        """Take the lines; tell whether anything differs."""
        wanted = tuple(lines)
        if wanted == self._lines:
            return False
        self.beginResetModel()
        self._lines = wanted
        self.endResetModel()
        return True

    def row_of(self, plant_id: int | None) -> int:
        """Give the row of a plant, or -1 where it is not shown."""
        ids = [line.plant_id for line in self._lines]
        return -1 if plant_id not in ids else ids.index(plant_id)

    @override
    def rowCount(self, parent: Index = _ROOT) -> int:
        return 0 if parent.isValid() else len(self._lines)

    @override
    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        if not index.isValid():
            return None
        line = self._lines[index.row()]
        if role == Qt.ItemDataRole.DisplayRole:
            return f"{line.tag} {line.name}".strip()
        if role == ID_ROLE:
            return line.plant_id
        if role == Qt.ItemDataRole.AccessibleTextRole:
            return f"{line.tag} {line.name}, {line.place}. {line.why}"
        return None
