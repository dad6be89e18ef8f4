"""Choose what a column of a file holds."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QComboBox
from typing_extensions import override

if TYPE_CHECKING:
    from collections.abc import Sequence

    from PySide6.QtGui import QFocusEvent, QWheelEvent


class ColumnChooser(QComboBox):
    """What a column holds. A turning wheel changes nothing that has no focus.

    Its list is as wide as the longest choice, however narrow the column.
    """

    reached = Signal()

    def __init__(self, name: str, choices: Sequence[tuple[str, object]]) -> None:
        super().__init__()
        self.setAccessibleName(name)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        for text, key in choices:
            self.addItem(text, key)
        longest = max((text for text, _key in choices), key=len)
        wide = self.fontMetrics().horizontalAdvance(longest) + 40
        self.view().setMinimumWidth(wide)

    @override
    def focusInEvent(self, e: QFocusEvent) -> None:
        super().focusInEvent(e)
        self.reached.emit()

    @override
    def wheelEvent(self, e: QWheelEvent) -> None:
        if self.hasFocus():
            super().wheelEvent(e)
        else:
            e.ignore()
