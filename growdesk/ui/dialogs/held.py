"""Give what a form's editors hold just now, as typed, and put it back.

A draft of a form that was left is made of this. Nothing is read or checked here: a
slip is held as it stands.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Protocol, runtime_checkable

from PySide6.QtWidgets import QCheckBox, QComboBox, QLineEdit, QPlainTextEdit, QWidget

from growdesk.ui.widgets.form import choose

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from growdesk.ui.widgets.form import Form

Held = dict[str, Any]


@runtime_checkable
class Holding(Protocol):
    """An editor of our own that can tell and take back what it holds."""

    def held(self) -> Any:
        """Give what stands in the editor."""

    def hold(self, value: Any) -> None:
        """Put back what stood in the editor."""


def held(forms: Iterable[Form]) -> Held:
    """Give what stands in every editor of the forms, by field."""
    return {
        field: _value(editor)
        for form in forms
        for field, editor in form.editors.items()
    }


def hold(forms: Iterable[Form], given: Mapping[str, Any]) -> None:
    """Put back what stood in the editors; a field not named stays as it is."""
    for form in forms:
        for field, editor in form.editors.items():
            if field in given:
                _put(editor, given[field])


def _value(editor: QWidget) -> Any:
    if isinstance(editor, Holding):
        return editor.held()
    if isinstance(editor, QLineEdit):
        return editor.text()
    if isinstance(editor, QPlainTextEdit):
        return editor.toPlainText()
    if isinstance(editor, QComboBox):
        return editor.currentData()
    if isinstance(editor, QCheckBox):
        return editor.isChecked()
    raise TypeError(f"nothing is known of what a {type(editor).__name__} holds")


def _put(editor: QWidget, value: Any) -> None:
    if isinstance(editor, Holding):
        editor.hold(value)
    elif isinstance(editor, QLineEdit):
        editor.setText(value)
    elif isinstance(editor, QPlainTextEdit):
        editor.setPlainText(value)
    elif isinstance(editor, QComboBox):
        choose(editor, value)
    elif isinstance(editor, QCheckBox):
        editor.setChecked(value)
