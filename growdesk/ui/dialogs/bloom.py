"""Take in one flowering of a plant: its days, its flowers, its award."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct
from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QCompleter, QDialogButtonBox
from typing_extensions import override

from growdesk.domain.day_words import figures
from growdesk.domain.speech import tr
from growdesk.services.bloom_values import BloomDraft
from growdesk.ui import measured_lines, sizes, typed, words
from growdesk.ui.bloom_texts import AWARDS, SOCIETIES, award_list
from growdesk.ui.dialogs.base import FormDialog
from growdesk.ui.widgets.parts import button, label
from growdesk.ui.widgets.whom_head import whom_head

if TYPE_CHECKING:
    from datetime import date

    from PySide6.QtWidgets import QWidget

    from growdesk.ui.dialogs.held import Held


class BloomStart(Struct, frozen=True):
    """What the form opens with; ``bloom_id`` is of a bloom on record.

    ``filled`` says where what stands in it comes from, where nobody typed it.
    """

    plant_id: int
    whom: str
    draft: BloomDraft
    bloom_id: int | None = None
    filled: str = ""


class BloomDialog(FormDialog):
    """One bloom of one plant."""

    delete_wanted = Signal(int)

    def __init__(self, parent: QWidget | None, start: BloomStart) -> None:
        is_new = start.bloom_id is None
        title = tr("Bloom of {whom}").format(whom=start.whom)
        super().__init__(
            parent,
            title if is_new else tr("{title}, on record").format(title=title),
            tr("Save"),
        )
        self._start = start
        self.body.addWidget(whom_head(start.whom))
        if start.filled:
            self.body.addWidget(label(start.filled, tone="muted"))
        form = self.form
        self.spike = form.line("spike_seen_on", tr("S&pike seen"), typed.day_example())
        self.opened = form.line(
            "first_open_on", tr("First flower &open"), typed.day_example()
        )
        self.faded = form.line(
            "last_faded_on", tr("Last flower &faded"), tr("empty: open")
        )
        self.flowers = form.line("flowers", tr("F&lowers"), tr("on the whole plant"))
        self.spikes = form.line("spikes", tr("Sp&ikes"), tr("that carried them"))
        self.spread = form.line(
            "size_mm", tr("Si&ze"), tr("natural spread of a flower: 85, or 8.5 cm")
        )
        self.award = form.line("award", tr("&Award"), tr("AM/AOS 82 points"))
        self.award.setCompleter(_awards())
        form.note(
            tr(
                "The usual codes are {award_list}; any text is kept as it stands."
            ).format(award_list=award_list())
        )
        self.note = form.line(
            "note", tr("&Note"), tr("scent, colour, what went before")
        )
        form.end()
        self.body.addWidget(form)
        self.body.addStretch(1)
        if not is_new:
            remove = button(tr("&Delete"), self._delete, tr("It comes back by Undo"))
            self.buttons.addButton(remove, QDialogButtonBox.ButtonRole.DestructiveRole)
        self._fill(start.draft)
        sizes.least_wide(self, 460)
        self.begin()
        self._first_empty().setFocus()

    @override
    def kept(self) -> Held:
        """Give the whole form as it stands once anything was changed."""
        return self.held() if self.changes() else {}

    @override
    def draft(self) -> BloomDraft:
        """Give what was entered."""
        return BloomDraft(
            spike_seen_on=typed.day(self.spike.text(), "spike_seen_on"),
            first_open_on=typed.day(self.opened.text(), "first_open_on"),
            last_faded_on=typed.day(self.faded.text(), "last_faded_on"),
            flowers=typed.whole(self.flowers.text(), "flowers", "14"),
            spikes=typed.whole(self.spikes.text(), "spikes", "2"),
            size_mm=measured_lines.length_mm(self.spread, "size_mm"),
            note=self.note.text().strip(),
            award=self.award.text().strip(),
        )

    def _fill(self, draft: BloomDraft) -> None:
        self.spike.setText(_iso(draft.spike_seen_on))
        self.opened.setText(_iso(draft.first_open_on))
        self.faded.setText(_iso(draft.last_faded_on))
        self.flowers.setText(words.number(draft.flowers, 0))
        self.spikes.setText(words.number(draft.spikes, 0))
        measured_lines.show_length(self.spread, draft.size_mm)
        self.award.setText(draft.award)
        self.note.setText(draft.note)

    def _first_empty(self) -> QWidget:
        """Give the first day that is not filled in: the one that comes next."""
        days = (self.spike, self.opened, self.faded)
        filled = [number for number, day in enumerate(days) if day.text()]
        after = filled[-1] + 1 if filled else 0
        return days[after] if after < len(days) else self.flowers

    def _delete(self) -> None:
        if self._start.bloom_id is not None and self.save_button.isEnabled():
            self.delete_wanted.emit(self._start.bloom_id)


def _awards() -> QCompleter:
    """Offer every code with every society."""
    offered = [f"{code}/{society}" for code, _ in AWARDS for society, _ in SOCIETIES]
    made = QCompleter(offered)
    made.setCaseSensitivity(Qt.CaseSensitivity.CaseInsensitive)
    return made


def _iso(day: date | None) -> str:
    return "" if day is None else figures(day)
