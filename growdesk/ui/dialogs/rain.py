"""Take in a day's rain, and say at once for which plants it will be written.

Hands out a ``RainDraft``; what it would wet is asked of whoever opened the form.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct
from PySide6.QtCore import Signal
from PySide6.QtWidgets import QCheckBox
from typing_extensions import override

from growdesk.domain.day_words import figures
from growdesk.domain.errors import GrowdeskError
from growdesk.domain.quantity_words import length_unit
from growdesk.domain.speech import Phrases, mark, tr
from growdesk.services.rain import TO_COVER
from growdesk.ui import measured_lines, sizes, typed
from growdesk.ui.dialogs.base import FormDialog
from growdesk.ui.widgets.parts import label
from growdesk.ui.words import counted

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

    from PySide6.QtWidgets import QWidget

    from growdesk.services.rain import OutdoorPlace, RainedOn
    from growdesk.ui.dialogs.held import Held

_COUNTS_AS = Phrases(
    {
        "none": "Too little to water a pot; the house rules say from when it counts.",
        "clear-water": "It counts as clear water for {tags}.",
        "flush": "It counts as a flush for {tags}.",
    }
)
NOWHERE = mark(
    "No place is marked as outdoors. Mark it so under Places and temperatures; rain is "
    "then written for what stands there in the open."
)


class RainDraft(Struct, frozen=True):
    """A day's rain on some places, in mm; ``None`` where nobody measured."""

    place_ids: tuple[int, ...]
    on: date
    rain_mm: float | None
    note: str


class RainDialog(FormDialog):
    """The rain of one day."""

    asked = Signal(object)

    def __init__(
        self, parent: QWidget | None, places: Sequence[OutdoorPlace], on: date
    ) -> None:
        super().__init__(parent, tr("Rain"), tr("Write the rain down"))
        self._places: list[tuple[OutdoorPlace, QCheckBox]] = []
        for place in places:
            held = counted(place.plants, "plant", "plants")
            box = QCheckBox(f"{place.name}: {held}".replace("&", "&&"))
            box.setChecked(bool(place.plants))
            box.setAccessibleName(place.name)
            title = tr("Rain &on") if not self._places else ""
            self.form.add(f"place_{place.place_id}", title, box)
            box.toggled.connect(lambda _on: self._ask())
            self._places.append((place, box))
        self.amount = self.form.line(
            "rain_mm",
            tr("It &fell"),
            tr("{unit}; empty if not measured").format(unit=length_unit()),
        )
        self.day = self.form.line("on", tr("&Day"), typed.day_example())
        self.note = self.form.line("note", tr("&Note"))
        self.form.end()
        self.body.addWidget(self.form)
        self.told = label("" if places else tr(NOWHERE))
        self.beside = label("", tone="muted")
        self.beside.hide()
        self.body.addWidget(self.told)
        self.body.addWidget(self.beside)
        self.body.addStretch(1)
        self.day.setText(figures(on))
        self.save_button.setEnabled(bool(places))
        sizes.least_wide(self, 440)
        self.begin()
        for line in (self.amount, self.day):
            line.textChanged.connect(lambda _text: self._ask())
        self.amount.setFocus()

    def ask(self) -> None:
        """Ask what the rain would wet as the form opens."""
        self._ask()

    def show_rained(self, found: RainedOn) -> None:
        """Say which plants it would be written for, and which not."""
        if not self._places:
            return
        tags = ", ".join(found.tags)
        nobody = tr("No plant stands in the open there.")
        told = _COUNTS_AS[found.counts_as].format(tags=tags)
        if found.counts_as != "none" and not found.tags:
            told = nobody
        self.told.setText(told)
        beside = [
            f"{', '.join(tags)}: {why}."
            for tags, why in (
                (found.covered, tr("under cover")),
                (
                    found.given_already,
                    tr("on record for that day already, and stays so"),
                ),
                (found.resting, tr(TO_COVER).removesuffix(".")),
            )
            if tags
        ]
        self.beside.setText("\n".join(beside))
        self.beside.setVisible(bool(beside))

    @override
    def draft(self) -> RainDraft:
        """Give what was entered."""
        chosen = (place.place_id for place, box in self._places if box.isChecked())
        return RainDraft(
            place_ids=tuple(chosen),
            on=typed.needed_day(self.day.text(), "on"),
            rain_mm=measured_lines.length_mm(self.amount, "rain_mm"),
            note=self.note.text().strip(),
        )

    @override
    def kept(self) -> Held:
        """Give the whole form as it stands, its day too, once anything was changed."""
        return self.held() if self.changes() else {}

    def _ask(self) -> None:
        try:
            self.asked.emit(self.draft())
        except GrowdeskError:
            self.told.setText("")
            self.beside.hide()
