"""Take in what was really given, where it differs from the plan.

Hands out a ``Given``; the window writes it for the plants it was opened for.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from typing_extensions import override

from growdesk.domain.facts import CareKind
from growdesk.ui import typed, words
from growdesk.ui.dialogs.base import FormDialog
from growdesk.ui.widgets.form import choose
from growdesk.ui.widgets.parts import label

if TYPE_CHECKING:
    from datetime import date

    from PySide6.QtWidgets import QWidget

    from growdesk.ui.dialogs.held import Held

_CHOICES = (
    (CareKind.FEED, "feed"),
    (CareKind.CLEAR_WATER, "clear water"),
    (CareKind.FLUSH, "flush"),
    (CareKind.DIVIDE, "divide"),
    (CareKind.MOVE, "move"),
    (CareKind.TREAT, "treat"),
    (CareKind.RAIN, "rain"),
)


@dataclass(frozen=True, slots=True)
class Given:
    """What was given, at which strength in mg N per litre, on which day."""

    what: CareKind
    strength_ppm_n: float | None
    note: str
    on: date


class GiveDialog(FormDialog):
    """What was given to one or several plants."""

    def __init__(
        self, parent: QWidget | None, whom: str, on: date, what: CareKind
    ) -> None:
        super().__init__(parent, "What was really given", "Save")
        self.body.addWidget(label(whom, tone="head"))
        self.what = self.form.combo("what", "&What", _CHOICES)
        self.strength = self.form.line("strength_ppm_n", "&Strength", "ppm N, say 120")
        self.day = self.form.line("on", "&Day", "2026-11-25")
        self.note = self.form.line("note", "&Note")
        self.form.end()
        self.body.addWidget(self.form)
        self.day.setText(on.isoformat())
        choose(self.what, what)
        self.what.currentIndexChanged.connect(lambda _row: self._show_strength())
        self._show_strength()
        self.setMinimumWidth(420)
        self.begin()
        self.what.setFocus()

    def propose(self, ppm_n: float | None) -> None:
        """Begin with the strength that was planned."""
        self.strength.setText(words.number(ppm_n))
        self.begin()

    @override
    def kept(self) -> Held:
        """Give the whole form as it stands, its day too, once anything was changed."""
        return self.held() if self.changes() else {}

    @override
    def draft(self) -> Given:
        """Give what was entered."""
        what = CareKind(self.what.currentData())
        on = typed.needed_day(self.day.text(), "on")
        strength = None
        if what is CareKind.FEED:
            strength = typed.number(self.strength.text(), "strength_ppm_n", "120")
        return Given(what, strength, self.note.text().strip(), on)

    def _show_strength(self) -> None:
        self.strength.setEnabled(self.what.currentData() == CareKind.FEED)
