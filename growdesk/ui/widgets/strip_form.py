"""Give a form whose fields stand side by side, each under its label."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel, QLineEdit, QWidget
from typing_extensions import override

from growdesk.ui.tips import unmarked
from growdesk.ui.widgets.form import Form

_LABELS, _EDITORS, _ERRORS = range(3)
_PAD_PX = 22


class StripForm(Form):
    """One row of short fields; an error line shows below all of them."""

    def __init__(self) -> None:
        super().__init__()
        self._grid.setHorizontalSpacing(6)
        self._grid.setColumnStretch(1, 0)
        self._next_row = _ERRORS

    @override
    def add(
        self, field: str, title: str, editor: QWidget, cell: QWidget | None = None
    ) -> None:
        column = len(self._editors)
        name = QLabel(title)
        name.setTextFormat(Qt.TextFormat.PlainText)
        name.setBuddy(editor)
        if not editor.accessibleName():
            editor.setAccessibleName(unmarked(title))
        if isinstance(editor, QLineEdit):
            hint = editor.fontMetrics().horizontalAdvance(editor.placeholderText())
            editor.setMinimumWidth(hint + _PAD_PX)
        self._grid.addWidget(name, _LABELS, column)
        self._grid.addWidget(cell or editor, _EDITORS, column)
        self._error_spots[field] = self._next_row, 0, 1, -1
        self._grid.setColumnStretch(column, 1)
        self._next_row += 1
        self._parts[field] = [name, cell or editor]
        self._editors[field] = editor

    @override
    def wide(self, widget: QWidget) -> None:
        self._grid.addWidget(widget, self._next_row, 0, 1, -1)
        self._next_row += 1
