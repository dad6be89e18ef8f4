"""Give forms whose fields carry their own label, name and error line.

An error stands under its field in words, and the field is described by it for a
screen reader. What was typed is never touched.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QComboBox,
    QGridLayout,
    QLabel,
    QLineEdit,
    QWidget,
)

from growdesk.domain.errors import GrowdeskError, InputError
from growdesk.domain.speech import tr
from growdesk.ui import sizes
from growdesk.ui.tips import unmarked
from growdesk.ui.widgets.fitted_combo import FittedCombo
from growdesk.ui.widgets.parts import label

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    _Spot = tuple[int, int, int, int]


class Form(QWidget):
    """Rows of a label, an editor, and an error line that shows only when needed."""

    def __init__(self) -> None:
        super().__init__()
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setHorizontalSpacing(12)
        self._grid.setVerticalSpacing(6)
        self._grid.setColumnStretch(1, 1)
        self._errors: dict[str, QLabel] = {}
        self._error_spots: dict[str, _Spot] = {}
        self._parts: dict[str, list[QWidget]] = {}
        self._editors: dict[str, QWidget] = {}
        self._general = label("", tone="wrong")
        self._general.hide()
        self._next_row = 0

    def add(
        self, field: str, title: str, editor: QWidget, cell: QWidget | None = None
    ) -> None:
        """Add an editor under a title with a mnemonic.

        ``cell`` is what holds the editor where it does not stand alone.
        """
        name = QLabel(title)
        name.setTextFormat(Qt.TextFormat.PlainText)
        name.setBuddy(editor)
        name.setAlignment(Qt.AlignmentFlag.AlignTop | Qt.AlignmentFlag.AlignLeft)
        name.setContentsMargins(0, 6, 0, 0)
        if not editor.accessibleName():
            editor.setAccessibleName(unmarked(title))
        row = self._next_row
        self._grid.addWidget(name, row, 0)
        self._grid.addWidget(cell or editor, row, 1)
        self._error_spots[field] = row + 1, 1, 1, 1
        self._next_row += 2
        self._parts[field] = [name, cell or editor]
        self._editors[field] = editor

    def line(self, field: str, title: str, hint: str = "") -> QLineEdit:
        """Add a line to type in; the hint is an example, never needed to read."""
        made = QLineEdit()
        made.setPlaceholderText(hint)
        if hint:
            made.setToolTip(hint)
        self.add(field, title, made)
        return made

    def combo(
        self,
        field: str,
        title: str,
        choices: Sequence[tuple[object, str]],
        signs: int = 0,
    ) -> QComboBox:
        """Add a choice of values with their words.

        For names that a person gives, ``signs`` keeps a long one from widening all.
        """
        made = FittedCombo(signs) if signs else QComboBox()
        for value, text in choices:
            made.addItem(text, value)
        self.add(field, title, made)
        return made

    def wide(self, widget: QWidget) -> None:
        """Add something over the whole width."""
        self._grid.addWidget(widget, self._next_row, 0, 1, 2)
        self._next_row += 1

    def note(self, text: str, *, tone: str = "muted") -> QLabel:
        """Add a line under the editor added last; a quiet one if not told else."""
        note = label(text, tone=tone)
        self.under(note)
        return note

    def under(self, widget: QWidget) -> None:
        """Add something under the editor added last."""
        self._grid.addWidget(widget, self._next_row, 1)
        self._next_row += 1
        if self._parts:
            self._parts[next(reversed(self._parts))].append(widget)

    def show_field(self, field: str, *, shown: bool) -> None:
        """Show a field with its label, notes and error, or take it out of sight."""
        for part in self._parts[field]:
            part.setVisible(shown)
        error = self._errors.get(field)
        if error is not None:
            error.setVisible(shown and bool(error.text()))

    def keep_narrow(self, most_px: int) -> None:
        """Let no editor grow wider than this; what room is left stays empty."""
        for editor in self._editors.values():
            sizes.most_wide(editor, most_px)
        self._grid.setColumnStretch(1, 0)
        self._grid.setColumnStretch(2, 1)

    def labels_px(self) -> int:
        """Give the width of the widest label."""
        names = (parts[0] for parts in self._parts.values())
        return max((each.sizeHint().width() for each in names), default=0)

    def line_up(self, labels_px: int) -> None:
        """Give the labels' column this width at least, as another form beside has."""
        self._grid.setColumnMinimumWidth(0, labels_px)

    def end(self) -> None:
        """Close the form with the line for errors that belong to no field."""
        self.wide(self._general)
        self._grid.setRowStretch(self._next_row, 1)

    @property
    def editors(self) -> Mapping[str, QWidget]:
        """Give all editors by their fields."""
        return self._editors

    def editor(self, field: str) -> QWidget | None:
        """Give the editor of a field."""
        return self._editors.get(field)

    def has(self, field: str) -> bool:
        """Tell whether the form has the field."""
        return field in self._editors

    def clear_errors(self) -> None:
        """Take all error lines away."""
        self.say("")
        for field in self._errors:
            self._mark(field, "")

    def say(self, text: str) -> None:
        """Tell something that belongs to no single field."""
        if self._grid.indexOf(self._general) < 0:
            self.end()
        self._general.setText(text)
        self._general.setVisible(bool(text))

    def show_error(self, error: Exception) -> str:
        """Tell an error beside its field, else under the form; give the field's key."""
        self.clear_errors()
        line = error.line() if isinstance(error, GrowdeskError) else str(error)
        field = self._field_of(error)
        if not field:
            self.say(line)
            return ""
        self._mark(field, beside(error))
        self._editors[field].setFocus(Qt.FocusReason.OtherFocusReason)
        return field

    def _field_of(self, error: Exception) -> str:
        if not isinstance(error, InputError):
            return ""
        asked = error.field.rsplit(".", 1)[-1].casefold().replace(" ", "_")
        if asked in self._editors:
            return asked
        asked = asked.replace("-", "_")
        near = [key for key in self._editors if asked.startswith(key) or key in asked]
        return max(near, key=len, default="")

    def _error_of(self, field: str) -> QLabel:
        """Give the error line of a field, made when the first error is told."""
        if field not in self._errors:
            self._errors[field] = error = label("", tone="wrong")
            self._grid.addWidget(error, *self._error_spots[field])
        return self._errors[field]

    def _mark(self, field: str, text: str) -> None:
        editor, error = self._editors[field], self._error_of(field)
        error.setText(text)
        error.setVisible(bool(text))
        editor.setAccessibleDescription(text)
        if editor.property("wrong") != bool(text):
            editor.setProperty("wrong", bool(text))
            editor.style().unpolish(editor)
            editor.style().polish(editor)


def beside(error: Exception) -> str:
    """Give an error as it reads under its own field, which need not be named again."""
    if not isinstance(error, InputError):
        return error.line() if isinstance(error, GrowdeskError) else str(error)
    value = tr("This") if error.value in {"", None} else f"“{error.value}”"
    return f"{value} {error.problem}. {error.hint}".strip()


def choose(combo: QComboBox, value: object) -> None:
    """Put a combo on a value; the first entry where it has none such."""
    for row in range(combo.count()):
        if combo.itemData(row) == value:
            combo.setCurrentIndex(row)
            return
    combo.setCurrentIndex(0)
