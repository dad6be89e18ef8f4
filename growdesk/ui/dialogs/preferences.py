"""Show the few preferences of this machine; each takes effect as it is chosen.

What the system gives stands beside its choice. Whether a choice can be taken just now
is for who opened the dialog: what cannot is put back and told.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, Any

from msgspec import Struct
from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QComboBox, QDialogButtonBox, QVBoxLayout, QWidget

from growdesk.domain.speech import tr
from growdesk.ui.dialogs.frame import BodyArea
from growdesk.ui.dialogs.on_screen import OnScreen
from growdesk.ui.widgets.form import Form, choose
from growdesk.ui.widgets.parts import Page, label

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence


class Row(Struct, frozen=True):
    """One preference: its section, its key, its choices with their words."""

    section: str
    key: str
    title: str
    choices: Sequence[tuple[str, str]]
    chosen: str
    note: str = ""


class PreferencesDialog(OnScreen):
    """All preferences by section, and how things read with them."""

    chosen = Signal(str, str)

    def __init__(self, parent: QWidget | None, rows: Sequence[Row]) -> None:
        super().__init__(parent)
        self.setWindowTitle(tr("Preferences"))
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.combos: dict[str, QComboBox] = {}
        self._held: dict[str, str] = {}
        inner = Page()
        self._column = QVBoxLayout(inner)
        self._column.setContentsMargins(0, 0, 10, 0)
        self._column.setSpacing(8)
        self._forms: dict[str, Form] = {}
        for row in rows:
            self._add(row)
        self._line_up()
        self.example = label("", tone="muted")
        self.refusal = label("", tone="wrong")
        self.refusal.hide()
        self._column.addStretch(1)
        outer = QVBoxLayout(self)
        outer.setContentsMargins(18, 16, 18, 14)
        outer.setSpacing(10)
        outer.addWidget(BodyArea(inner, tr("Preferences")), 1)
        outer.addWidget(self.example)
        outer.addWidget(self.refusal)
        close = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
        close.rejected.connect(self.accept)
        outer.addWidget(close)

    def say_example(self, text: str) -> None:
        """Show how days and figures read as things stand."""
        self.example.setText(text)

    def refuse(self, key: str, why: str) -> None:
        """Put a choice back and tell why it cannot be taken now."""
        combo = self.combos[key]
        combo.blockSignals(True)  # noqa: FBT003 -- Qt's own
        choose(combo, self._held[key])
        combo.blockSignals(False)  # noqa: FBT003 -- Qt's own
        self.refusal.setText(why)
        self.refusal.setVisible(True)

    def offer(self, key: str, choices: Sequence[tuple[str, str]], chosen: str) -> None:
        """Offer other choices of a preference, one of them as it stands."""
        combo = self.combos[key]
        combo.blockSignals(True)  # noqa: FBT003 -- Qt's own
        combo.clear()
        for value, text in choices:
            combo.addItem(text, value)
        choose(combo, chosen)
        combo.blockSignals(False)  # noqa: FBT003 -- Qt's own
        self._held[key] = chosen

    def go_to(self, key: str) -> None:
        """Put the focus on a preference."""
        self.combos[key].setFocus(Qt.FocusReason.OtherFocusReason)

    def held(self) -> Mapping[str, Any]:
        """Give what is chosen, by key."""
        return dict(self._held)

    def _add(self, row: Row) -> None:
        form = self._forms.get(row.section)
        if form is None:
            self._column.addWidget(label(row.section, tone="head"))
            form = self._forms[row.section] = Form()
            self._column.addWidget(form)
        combo = form.combo(row.key, row.title, row.choices)
        choose(combo, row.chosen)
        self._held[row.key] = row.chosen
        combo.currentIndexChanged.connect(partial(self._changed, row.key))
        self.combos[row.key] = combo
        if row.note:
            form.note(row.note)

    def _line_up(self) -> None:
        wide = max((form.labels_px() for form in self._forms.values()), default=0)
        for form in self._forms.values():
            form.line_up(wide)

    def _changed(self, key: str, _row: int) -> None:
        self.refusal.hide()
        value = str(self.combos[key].currentData())
        self.chosen.emit(key, value)
        if self.combos[key].currentData() == value:
            self._held[key] = value
