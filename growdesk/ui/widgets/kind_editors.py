"""Give an editor for each sort of field a kind has, and the cell that stands in it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QGridLayout,
    QLineEdit,
    QPlainTextEdit,
    QWidget,
)

from growdesk.domain.day_words import MONTHS, SHORT_MONTHS
from growdesk.domain.kind_corrections import read_field
from growdesk.domain.kind_fields import FIELDS, KindField, Sort
from growdesk.domain.kind_words import cell
from growdesk.domain.quantity_words import figure_text, kept_of, unit_shown
from growdesk.domain.speech import tr
from growdesk.ui import sizes, typed
from growdesk.ui.widgets.form import choose

if TYPE_CHECKING:
    from collections.abc import Callable

_A_ROW = 6
_LONG = "advice"


class MonthsEdit(QWidget):
    """The months of a rest, each to be ticked."""

    changed = Signal()

    def __init__(self, title: str) -> None:
        super().__init__()
        self.setAccessibleName(title)
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(10)
        grid.setVerticalSpacing(0)
        self._boxes = [QCheckBox(name) for name in SHORT_MONTHS]
        for number, box in enumerate(self._boxes):
            box.setAccessibleName(f"{title}: {MONTHS[number]}")
            box.toggled.connect(lambda _on: self.changed.emit())
            grid.addWidget(box, number // _A_ROW, number % _A_ROW)
        grid.setColumnStretch(_A_ROW, 1)
        self.setFocusProxy(self._boxes[0])

    def held(self) -> tuple[int, ...]:
        """Give the months ticked, January as 1."""
        return tuple(n for n, box in enumerate(self._boxes, 1) if box.isChecked())

    def hold(self, value: tuple[int, ...]) -> None:
        """Tick months."""
        for number, box in enumerate(self._boxes, 1):
            box.setChecked(number in value)


_KEPT = "kept"


def title_of(declared: KindField) -> str:
    """Give a field's title with its unit."""
    title, unit = tr(declared.title), unit_shown(tr(declared.unit))
    return f"{title}, {unit}" if unit else title


def make(declared: KindField, text: str) -> QWidget:
    """Give the editor of a field, filled from a cell."""
    if declared.sort is Sort.MONTHS:
        months = MonthsEdit(tr(declared.title))
        months.hold(read_field(declared.name, text))
        return months
    if declared.choices is not None:
        combo = QComboBox()
        if declared.optional:
            combo.addItem(tr(declared.empty), "")
        for value, words in declared.choices.items():
            combo.addItem(words, str(value))
        choose(combo, text)
        return combo
    if declared.name == _LONG:
        long = QPlainTextEdit(tr(text))
        long.setProperty(_KEPT, (long.toPlainText(), text))
        long.setTabChangesFocus(True)
        sizes.high(long, 84)
        return long
    line = QLineEdit(_shown(declared, text))
    line.setProperty(_KEPT, (line.text(), text))
    if declared.optional:
        line.setPlaceholderText(tr("empty: {empty}").format(empty=tr(declared.empty)))
    return line


def cell_in(name: str, editor: QWidget) -> str:
    """Give the cell that stands in an editor, or refuse it with the way out."""
    if isinstance(editor, MonthsEdit):
        text = cell(name, editor.held())
    elif isinstance(editor, QComboBox):
        text = str(editor.currentData())
    elif isinstance(editor, QPlainTextEdit):
        shown, kept = editor.property(_KEPT)
        text = kept if editor.toPlainText() == shown else editor.toPlainText()
    elif isinstance(editor, QLineEdit):
        shown, kept = editor.property(_KEPT)
        text = kept if editor.text() == shown else _typed(name, editor.text())
    else:
        raise TypeError(f"no cell in a {type(editor).__name__}")
    return cell(name, read_field(name, text))


def on_change(editor: QWidget, call: Callable[[], object]) -> None:
    """Call whenever what stands in an editor changes."""
    if isinstance(editor, MonthsEdit):
        editor.changed.connect(call)
    elif isinstance(editor, QComboBox):
        editor.currentIndexChanged.connect(lambda _row: call())
    elif isinstance(editor, QPlainTextEdit):
        editor.textChanged.connect(call)
    elif isinstance(editor, QLineEdit):
        editor.textChanged.connect(lambda _text: call())


def _typed(name: str, text: str) -> str:
    """Give a number as people type it, with a comma say, as the cell has it."""
    declared = FIELDS[name]
    if declared.sort not in {Sort.NUMBER, Sort.WHOLE} or not text.strip():
        return text.strip()
    bare = text.strip().removesuffix(unit_shown(tr(declared.unit))).strip()
    if declared.unit == "°C":
        degrees = typed.temperature_c(bare, name)
        return "" if degrees is None else cell(name, degrees)
    found = typed.number(bare, name, "100")
    return "" if found is None else cell(name, kept_of(found, declared.unit))


def _shown(declared: KindField, text: str) -> str:
    """Give a cell as its editor shows it: in the manner and language of the place."""
    if declared.sort not in {Sort.NUMBER, Sort.WHOLE} or not text:
        return tr(text)
    return figure_text(float(text), declared.unit)
