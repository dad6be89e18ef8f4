"""Take a look at a plant: signs, measures, note and photos, by keyboard in seconds.

Starts from the last look and says so, or blank; a sign that was not looked at stays
*not recorded*.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct
from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout
from typing_extensions import override

from growdesk.domain.speech import mark, tr
from growdesk.ui import sizes
from growdesk.ui.dialogs.base import FormDialog
from growdesk.ui.widgets.look_form import LookForm
from growdesk.ui.widgets.parts import button, label

if TYPE_CHECKING:
    from pathlib import Path

    from PySide6.QtWidgets import QLineEdit, QWidget

    from growdesk.domain.facts import Look
    from growdesk.ui.dialogs.held import Held

HINT = mark(
    "Tab moves on; arrows, digits or first letters choose. "
    "Ctrl+Enter saves, Esc leaves and keeps a draft."
)

ROWS_PX = 940
"""A row of signs is shown whole, in whatever language."""


class LookDraft(Struct, frozen=True):
    """A look as the form holds it, with photos to be added to it."""

    look: Look
    note: str
    photos: tuple[Path, ...]


class LookStart(Struct, frozen=True):
    """What a look form opens with; ``filled`` says where its signs come from.

    ``why`` says why a look is worth taking, and ``sign`` is the one in doubt.
    ``photos`` are files to be on it, each with what it is called.
    """

    plant_id: int
    title: str
    look: Look
    monopodial: bool = False
    note: str = ""
    filled: str = ""
    why: str = ""
    sign: str = ""
    look_id: int | None = None
    photos: tuple[tuple[Path, str], ...] = ()


_FIELD_OF = {
    "growth": "new_growths",
    "leaf": "new_leaf",
    "leaf-unfolds": "new_leaf",
    "tips": "root_tips",
    "flowering": "flowering",
    "roots": "longest_new_root_mm",
    "leaves": "leaves",
    "may-be-bare": "leaves",
    "rot": "health",
    "no-roots": "health",
    "shrivelled": "bulbs",
    "pot": "pot",
}
"""Which field tells of a sign, by its key in the domain or the key's first word."""


class LookDialog(FormDialog):
    """One look, new or to be changed."""

    delete_wanted = Signal(int)

    def __init__(self, parent: QWidget | None, start: LookStart) -> None:
        super().__init__(parent, start.title, tr("Save"))
        self._start = start
        self._rows = LookForm(monopodial=start.monopodial)
        self.form = self._rows
        self.forms = (self.form,)
        self.growths = self._rows.growths
        self.roots = self._rows.roots
        self.leaf = self._rows.leaf
        self.flowering = self._rows.flowering
        self.leaves = self._rows.leaves
        self.bulbs = self._rows.bulbs
        self.pot = self._rows.pot
        self.health = self._rows.health
        self.note = self._rows.note_box
        self.photos = self._rows.photos
        self.day = self._rows.day
        self._lay_out()
        self._rows.show_look(start.look, start.note)
        for path, shown in start.photos:
            self.photos.add_as(path, shown)
        self._first().setFocus(Qt.FocusReason.TabFocusReason)
        self.begin()

    # -- FormDialog -----------------------------------------------------------------

    @override
    def draft(self) -> LookDraft:
        """Give the look as entered."""
        return LookDraft(self._rows.look(), self._rows.note_text(), self.photos.paths)

    @override
    def kept(self) -> Held:
        """Give the whole look as it stands, its day too, once anything was changed."""
        return self.held() if self.changes() else {}

    @override
    def throw_away(self) -> None:
        super().throw_away()
        self._first().setFocus(Qt.FocusReason.OtherFocusReason)

    def start_blank(self) -> None:
        """Take the signs of the last look away: none of them is recorded yet."""
        self._rows.start_blank()
        self._first().setFocus(Qt.FocusReason.TabFocusReason)

    def measure(self, field: str) -> QLineEdit:
        """Give the line a measure or a count is typed into."""
        return self._rows.measure(field)

    # -- inside ---------------------------------------------------------------------

    def _lay_out(self) -> None:
        if self._start.why:
            why = label(self._start.why, scale=1.08)
            why.setObjectName("why-look")
            self.top.addWidget(why)
        if self._start.filled:
            self._add_origin(self._start.filled)
        self.top.addWidget(label(tr(HINT), tone="muted"))
        self.body.addWidget(self.form)
        if self._start.look_id is not None:
            self._add_delete(self._start.look_id)
        self.area.text_px = ROWS_PX
        sizes.least_wide(self, 760)

    def _add_origin(self, filled: str) -> None:
        row = QHBoxLayout()
        row.addWidget(label(filled), 1)
        self.blank_button = button(
            tr("&Start blank"), self.start_blank, tr("All signs not recorded")
        )
        row.addWidget(self.blank_button)
        self.top.addLayout(row)

    def _first(self) -> QWidget:
        """Give the row of the sign in doubt, else the first of the form."""
        return self._rows.row(field_of(self._start.sign))

    def _add_delete(self, look_id: int) -> None:
        delete = self.buttons.addButton(
            tr("Remove the look"), self.buttons.ButtonRole.DestructiveRole
        )
        delete.setAutoDefault(False)
        delete.setToolTip(tr("It comes back by Undo"))
        delete.clicked.connect(lambda: self.delete_wanted.emit(look_id))


def field_of(sign: str) -> str:
    """Give the field of the form that a sign's key speaks of, or nothing."""
    whole = _FIELD_OF.get(sign)
    return whole or _FIELD_OF.get(sign.partition("-")[0], "")
