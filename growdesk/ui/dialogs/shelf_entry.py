"""Take in what was counted on the shelf, or what came in; new, or to be put right."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct
from typing_extensions import override

from growdesk.domain.day_words import figures
from growdesk.domain.speech import Phrases, tr
from growdesk.domain.stocktaking import Good, What
from growdesk.services.stocktaking_values import EntryDraft
from growdesk.ui import measured_lines, sizes, typed
from growdesk.ui.dialogs.base import FormDialog
from growdesk.ui.stocktaking_texts import price_text
from growdesk.ui.widgets.form import choose
from growdesk.ui.widgets.parts import label

if TYPE_CHECKING:
    from datetime import date

    from PySide6.QtWidgets import QWidget

    from growdesk.ui.dialogs.held import Held

_MOMENTS = Phrases({True: "after that day's round", False: "before that day's round"})
_HINTS = Phrases({"g": "g, say 420", "mL": "mL, say 250", "L": "L, say 120"})


class EntryStart(Struct, frozen=True):
    """What the form opens with: the good, its name and unit, and an entry if any.

    ``round_done`` tells that the round of the day was ticked by now.
    """

    good: Good
    name: str
    unit: str
    what: What
    on: date
    entry: EntryDraft | None = None
    round_done: bool = False


class EntryDialog(FormDialog):
    """One count, or one delivery."""

    def __init__(self, parent: QWidget | None, start: EntryStart) -> None:
        self._start = start
        counts = start.what is What.COUNTED
        said = tr("Count: {name}") if counts else tr("What came in: {name}")
        title = said.format(name=start.name)
        super().__init__(parent, title, tr("Save"))
        self.body.addWidget(label(title, tone="head"))
        self.amount = self.form.line("amount", tr("&Amount"), _HINTS[start.unit])
        self.day = self.form.line("on", tr("&Day"), typed.day_example())
        self.moment = self.form.combo(
            "after_round", tr("&When"), tuple(_MOMENTS.items())
        )
        self.price = self.form.line(
            "price", tr("&Price"), tr("of all of it, say 12.50")
        )
        self.note = self.form.line("note", tr("&Note"))
        self.form.show_field("after_round", shown=counts)
        self.form.show_field("price", shown=not counts)
        if counts:
            self.form.note(
                tr("A count takes the place of all that was reckoned before it."),
            )
        self.form.end()
        self.body.addWidget(self.form)
        self._fill()
        sizes.least_wide(self, 420)
        self.begin()
        self.amount.setFocus()

    def _fill(self) -> None:
        start, entry = self._start, self._start.entry
        self.day.setText(figures(entry.on if entry else start.on))
        choose(self.moment, entry.after_round if entry else start.round_done)
        if entry is None:
            return
        measured_lines.show_amount(self.amount, entry.amount, start.unit)
        self.price.setText(price_text(entry.price))
        self.note.setText(entry.note)

    @override
    def kept(self) -> Held:
        """Give the whole form as it stands once anything was changed."""
        return self.held() if self.changes() else {}

    @override
    def draft(self) -> EntryDraft:
        """Give what was entered."""
        start = self._start
        is_count = start.what is What.COUNTED
        return EntryDraft(
            good=start.good,
            on=typed.needed_day(self.day.text(), "on"),
            what=start.what,
            amount=measured_lines.amount(self.amount, start.unit, "amount"),
            after_round=bool(self.moment.currentData()) if is_count else False,
            price=None
            if is_count
            else typed.number(self.price.text(), "price", "12.50"),
            note=self.note.text().strip(),
        )
