"""Take in a repot: its day, and what is new about the pot.

Hands out a ``Repotted``; an empty field leaves the plant as it was.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from typing_extensions import override

from growdesk.domain.facts import Medium
from growdesk.ui import typed, words
from growdesk.ui.dialogs.base import FormDialog
from growdesk.ui.widgets.parts import label

if TYPE_CHECKING:
    from datetime import date

    from PySide6.QtWidgets import QWidget

    from growdesk.ui.dialogs.held import Held

_AS_BEFORE = "as before"


@dataclass(frozen=True, slots=True)
class Repotted:
    """A repot on a day; what is ``None`` stays as it was. Volume in litres."""

    on: date
    pot_volume_l: float | None
    medium: Medium | None
    note: str


class RepotDialog(FormDialog):
    """One or several plants that were repotted."""

    def __init__(self, parent: QWidget | None, whom: str, on: date) -> None:
        super().__init__(parent, "Repot", "Write the repot down")
        self.body.addWidget(label(whom, tone="head"))
        self.pot = self.form.line(
            "pot_volume_l", "New &pot volume", "as before; or say 1.5 L, 0.4 gal"
        )
        media = [(None, _AS_BEFORE), *words.choices(tuple(Medium))]
        self.medium = self.form.combo("medium", "New &medium", media)
        self.day = self.form.line("on", "&Day", "2026-11-25")
        self.note = self.form.line("note", "&Note")
        self.form.end()
        self.body.addWidget(self.form)
        self.body.addStretch(1)
        self.day.setText(on.isoformat())
        self.setMinimumWidth(420)
        self.begin()
        self.pot.setFocus()

    @override
    def draft(self) -> Repotted:
        """Give what was entered."""
        return Repotted(
            on=typed.needed_day(self.day.text(), "on"),
            pot_volume_l=typed.volume_l(self.pot.text(), "pot_volume_l"),
            medium=self.medium.currentData(),
            note=self.note.text().strip(),
        )

    @override
    def kept(self) -> Held:
        """Give the whole form as it stands, its day too, once anything was changed."""
        return self.held() if self.changes() else {}
