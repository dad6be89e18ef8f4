"""Give a list whose rows are put in another order: Alt with the arrows, or by drag."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QAbstractItemView, QListWidget, QListWidgetItem
from typing_extensions import override

from growdesk.domain.speech import tr

if TYPE_CHECKING:
    from collections.abc import Sequence

    from PySide6.QtGui import QDropEvent, QKeyEvent

KEY = Qt.ItemDataRole.UserRole
STEPS = {Qt.Key.Key_Up: -1, Qt.Key.Key_Down: 1}


class OrderList(QListWidget):
    """Rows with keys; ``ordered`` brings all keys in their new order.

    A row without a key stands last and stays there.
    """

    ordered = Signal(object)

    def __init__(self, name: str, *, many: bool = False) -> None:
        super().__init__()
        self.setAccessibleName(name)
        self.setToolTip(tr("Alt and the arrows, or a drag, put it elsewhere"))
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setDragDropMode(QAbstractItemView.DragDropMode.InternalMove)
        if many:
            mode = QAbstractItemView.SelectionMode.ExtendedSelection
            self.setSelectionMode(mode)

    @property
    def keys(self) -> list[int]:
        """Give the keys in their order."""
        found = (self.item(row).data(KEY) for row in range(self.count()))
        return [key for key in found if key is not None]

    @property
    def chosen(self) -> list[int]:
        """Give the keys of the selected rows, from above."""
        rows = sorted(self.row(item) for item in self.selectedItems())
        found = (self.item(row).data(KEY) for row in rows)
        return [key for key in found if key is not None]

    @property
    def current(self) -> int | None:
        """Give the key of the row with the cursor; none for the last one."""
        row = self.currentRow()
        key: int | None = None if row < 0 else self.item(row).data(KEY)
        return key

    def show_rows(
        self, rows: Sequence[tuple[int | None, str]], chosen: Sequence[int | None]
    ) -> None:
        """Show rows, those of some keys chosen; else the first."""
        self.blockSignals(True)  # noqa: FBT003 -- Qt's own signature
        self.clear()
        for key, text in rows:
            item = QListWidgetItem(text)
            item.setData(KEY, key)
            plain = Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable
            dragged = plain | Qt.ItemFlag.ItemIsDragEnabled
            item.setFlags(plain if key is None else dragged)
            self.addItem(item)
        self._choose(chosen)
        self.blockSignals(False)  # noqa: FBT003 -- Qt's own signature

    def move_by(self, step: int) -> None:
        """Move the selected rows up or down by one, as far as there is room."""
        keys, chosen = self.keys, self.chosen
        moved = shifted(keys, chosen, step)
        if moved == keys:
            return
        texts = {
            self.item(n).data(KEY): self.item(n).text() for n in range(self.count())
        }
        rows: list[tuple[int | None, str]] = [(key, texts[key]) for key in moved]
        if None in texts:
            rows.append((None, texts[None]))
        self.show_rows(rows, chosen)
        self.ordered.emit(moved)

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        step = STEPS.get(Qt.Key(event.key()))
        if step and event.modifiers() & Qt.KeyboardModifier.AltModifier:
            self.move_by(step)
        else:
            super().keyPressEvent(event)

    @override
    def dropEvent(self, event: QDropEvent) -> None:
        before = self.keys
        super().dropEvent(event)
        if self.keys != before:
            self.ordered.emit(self.keys)

    def _choose(self, chosen: Sequence[int | None]) -> None:
        items = [self.item(row) for row in range(self.count())]
        found = [item for item in items if item.data(KEY) in chosen]
        for item in found[:1] or items[:1]:
            self.setCurrentItem(item)
        for item in found:
            item.setSelected(True)


def shifted(keys: Sequence[int], chosen: Sequence[int], step: int) -> list[int]:
    """Give keys with the chosen ones moved by one, -1 for up; none past an end."""
    moved = list(keys)
    order = range(len(moved)) if step < 0 else range(len(moved) - 1, -1, -1)
    for at in order:
        to = at + step
        if moved[at] not in chosen or not 0 <= to < len(moved):
            continue
        if moved[to] not in chosen:
            moved[at], moved[to] = moved[to], moved[at]
    return moved
