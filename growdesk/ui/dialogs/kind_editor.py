"""Take in a correction of one field of a kind, with the fields it has to go with."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QTimer, Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QVBoxLayout

from growdesk.domain.errors import GrowdeskError
from growdesk.domain.kind_fields import FIELDS, together
from growdesk.domain.speech import tr
from growdesk.ui.dialogs.held import Held, held, hold
from growdesk.ui.widgets import kind_editors
from growdesk.ui.widgets.form import Form
from growdesk.ui.widgets.parts import button, label

if TYPE_CHECKING:
    from growdesk.services.kind_values import KindView

_PAUSE_MS = 300


class KindEditor(QFrame):
    """The editors of a field and of those it is checked against, and a note."""

    settled = Signal()
    left = Signal()

    def __init__(self, view: KindView, name: str) -> None:
        super().__init__()
        self.setProperty("card", "true")
        self.setAccessibleName(
            tr("Correct {title}").format(title=tr(FIELDS[name].title))
        )
        self.view = view
        self.name = name
        self.names = together(name)
        self.form = Form()
        for each in self.names:
            declared = FIELDS[each]
            editor = kind_editors.make(declared, view.field(each).cell)
            kind_editors.on_change(editor, self._changed)
            self.form.add(each, kind_editors.title_of(declared), editor)
            if declared.meaning:
                self.form.note(tr(declared.meaning))
        self.note = self.form.line("note", tr("Note"), tr("why, in your own words"))
        self.note.setText(view.field(name).note)
        self.form.end()
        self.effect = label("", tone="muted")
        self.effect.setObjectName("kind-effect")
        self.pause = QTimer(self)
        self.pause.setSingleShot(True)
        self.pause.setInterval(_PAUSE_MS)
        self.pause.timeout.connect(self.settled)
        self.opened_with = held((self.form,))
        self.keep_row = QHBoxLayout()
        self.keep_row.addStretch(1)
        self.leave_button = button(tr("Cancel"), self.left.emit)
        self.keep_row.addWidget(self.leave_button)
        outer = QVBoxLayout(self)
        outer.setContentsMargins(14, 12, 14, 12)
        outer.addWidget(self.form)
        outer.addWidget(self.effect)
        outer.addLayout(self.keep_row)

    def cells(self) -> dict[str, str]:
        """Give the cells that differ from what holds; raises ``InputError``."""
        read = {
            name: kind_editors.cell_in(name, self.form.editors[name])
            for name in self.names
        }
        return {
            name: text
            for name, text in read.items()
            if text != self.view.field(name).cell
        }

    def to_keep(self) -> dict[str, str]:
        """Give the cells to be kept; a new note alone keeps its own field again."""
        found = self.cells()
        own = self.view.field(self.name)
        if not found and own.corrected and self.note.text().strip() != own.note:
            return {self.name: own.cell}
        return found

    def readable_cells(self) -> dict[str, str]:
        """Give the cells that differ, or none while something is only half typed."""
        try:
            return self.cells()
        except GrowdeskError:
            return {}

    def changes(self) -> Held:
        """Give what was typed since the editor opened."""
        now = held((self.form,))
        return {f: v for f, v in now.items() if v != self.opened_with.get(f)}

    def take(self, kept: Held) -> None:
        """Put back what was typed and left."""
        hold((self.form,), kept)

    def take_focus(self) -> None:
        """Put the focus on the field that is corrected."""
        self.form.editors[self.name].setFocus()

    def say_effect(self, text: str) -> None:
        """Say what keeping it would change today."""
        self.effect.setText(text)

    def _changed(self) -> None:
        self.effect.setText("")
        self.pause.start()
