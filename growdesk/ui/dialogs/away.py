"""Choose the days away, for which places, and whom the helper may call."""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

from msgspec import Struct
from PySide6.QtWidgets import QDialogButtonBox
from typing_extensions import override

from growdesk.domain.day_words import figures
from growdesk.domain.speech import tr
from growdesk.ui import sizes, typed
from growdesk.ui.dialogs.base import FormDialog
from growdesk.ui.widgets.parts import button, label

if TYPE_CHECKING:
    from collections.abc import Callable
    from datetime import date

    from PySide6.QtWidgets import QWidget

    from growdesk.ui.dialogs.held import Held

_FIELD_PX = 340
_WEEKS = 2


class AwayDraft(Struct, frozen=True):
    """The days away, both included, the place or None for all, and whom to call."""

    begins: date
    ends: date
    place: str | None
    call: str


class AwayDialog(FormDialog):
    """The days away, and what else stands on the sheet."""

    def __init__(
        self,
        parent: QWidget | None,
        places: tuple[str, ...],
        today: date,
        call: str = "",
    ) -> None:
        super().__init__(parent, tr("Away sheet for a helper"), tr("Preview"))
        first = today + timedelta(days=1)
        last = first + timedelta(weeks=_WEEKS)
        self.begins = self.form.line("from", tr("&First day away"), figures(first))
        self.begins.setText(figures(first))
        self.ends = self.form.line("until", tr("&Last day away"), figures(last))
        self.ends.setText(figures(last))
        choices = [(None, tr("All places")), *((name, name) for name in places)]
        self.place = self.form.combo("place", tr("&Place"), choices, signs=32)
        self.call = self.form.line(
            "call", tr("&Whom to call"), tr("a name and a number")
        )
        self.call.setText(call)
        self.form.note(tr("Empty leaves a line to write on."))
        self.form.end()
        self.form.keep_narrow(_FIELD_PX)
        self.body.addWidget(self.form)
        told = tr(
            "Nothing is fed while you are away, what stays dry is barred, and no line "
            "asks the helper to choose. Look at your plants before you make it: a look "
            "in date on the first day holds until you are back."
        )
        self.body.addWidget(label(told, tone="muted"))
        self.body.addStretch(1)
        sizes.least_wide(self, 520)
        self.begins.setFocus()
        self.begin()

    @override
    def draft(self) -> AwayDraft:
        """Give what was entered; raises ``InputError`` on a slip."""
        return AwayDraft(
            typed.needed_day(self.begins.text(), "from"),
            typed.needed_day(self.ends.text(), "until"),
            self.place.currentData(),
            self.call.text().strip(),
        )

    @override
    def kept(self) -> Held:
        """Keep nothing: whom to call is remembered once it is used."""
        return {}

    def add_way(self, text: str, pressed: Callable[[], object]) -> None:
        """Add another button at the foot."""
        role = QDialogButtonBox.ButtonRole.ActionRole
        self.buttons.addButton(button(text, pressed), role)
