"""Take in what became of plants that are not in the collection any more.

Hands out a ``Leaving``, or that those which had left are here again.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct
from PySide6.QtCore import Signal
from PySide6.QtWidgets import QDialogButtonBox
from typing_extensions import override

from growdesk.domain.day_words import figures
from growdesk.domain.holding import Status
from growdesk.domain.speech import tr
from growdesk.services.plant_values import Leaving
from growdesk.ui import sizes, typed
from growdesk.ui.dialogs.base import FormDialog
from growdesk.ui.dialogs.plant_record_tabs import STATUS
from growdesk.ui.dialogs.plant_tabs import note_box
from growdesk.ui.widgets.parts import label
from growdesk.ui.widgets.whom_head import whom_head

if TYPE_CHECKING:
    from datetime import date

    from PySide6.QtWidgets import QWidget

    from growdesk.ui.dialogs.held import Held


class LeaveStart(Struct, frozen=True):
    """What the form opens with: who leaves, and a line for each that had left."""

    whom: str
    on: date
    left: tuple[str, ...] = ()


class LeaveDialog(FormDialog):
    """One or several plants that left the collection."""

    back_wanted = Signal()

    def __init__(self, parent: QWidget | None, start: LeaveStart) -> None:
        super().__init__(parent, tr("Left the collection"), tr("Write it down"))
        if start.whom:
            self.body.addWidget(whom_head(start.whom))
        ways = [each for each in STATUS.items() if each[0] is not Status.GROWING]
        self.status = self.form.combo("status", tr("&What became of it"), ways)
        self.day = self.form.line("left_on", tr("&Day"), typed.day_example())
        self.why = note_box()
        self.form.add("left_why", tr("Wh&y"), self.why)
        self.form.note(tr("To whom, or what it died of, as far as you know."))
        self.form.note(tr("In no round from now on. Tag, records and photos stay."))
        self.form.end()
        self.body.addWidget(self.form)
        self.form.setVisible(bool(start.whom))
        self.save_button.setVisible(bool(start.whom))
        if start.left:
            self.body.addWidget(label(tr("Left already"), tone="head"))
            told = label("\n".join(start.left))
            told.setObjectName("left-already")
            self.body.addWidget(told)
            self.body.addWidget(
                label(tr("Here again takes them back into the rounds."), tone="muted")
            )
        self.back_button = self.buttons.addButton(
            tr("&Here again"), QDialogButtonBox.ButtonRole.ResetRole
        )
        self.back_button.setVisible(bool(start.left))
        self.back_button.clicked.connect(lambda _on=False: self.back_wanted.emit())
        self.body.addStretch(1)
        self.day.setText(figures(start.on))
        sizes.least_wide(self, 480)
        self.begin()
        (self.status if start.whom else self.back_button).setFocus()

    @override
    def draft(self) -> Leaving:
        """Give what was entered."""
        return Leaving(
            Status(self.status.currentData()),
            typed.needed_day(self.day.text(), "left_on"),
            self.why.toPlainText().strip(),
        )

    @override
    def kept(self) -> Held:
        """Give the whole form as it stands, its day too, once anything was changed."""
        return self.held() if self.changes() else {}
