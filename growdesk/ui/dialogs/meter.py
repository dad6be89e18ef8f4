"""Take in what the meter reads in a jug, and say at once what that means."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct
from PySide6.QtCore import Signal
from PySide6.QtWidgets import QDialogButtonBox
from typing_extensions import override

from growdesk.domain.errors import GrowdeskError
from growdesk.domain.meter import parse_reading_ms_per_cm
from growdesk.domain.quantity_words import temperature_unit
from growdesk.domain.speech import mark, tr
from growdesk.services.meter import answer_to
from growdesk.services.meter_values import MeterDraft
from growdesk.ui import measured_lines, meter_texts, sizes, words
from growdesk.ui.dialogs.base import FormDialog
from growdesk.ui.widgets.parts import button, label

if TYPE_CHECKING:
    from datetime import date

    from PySide6.QtWidgets import QWidget

    from growdesk.services.meter_values import JugToRead, MeterAnswer, MeterView
    from growdesk.ui.dialogs.held import Held

_TEMPERATURE = mark(
    "Only for a meter that does not correct to 25 °C itself; 2 % a degree are taken."
)


class MeterStart(Struct, frozen=True):
    """What the form opens with: a day's jugs, and a reading to be put right if any."""

    on: date
    jugs: tuple[JugToRead, ...]
    reading: MeterView | None = None


class MeterDialog(FormDialog):
    """One reading of one jug."""

    readings_wanted = Signal()

    def __init__(self, parent: QWidget | None, start: MeterStart) -> None:
        self._start = start
        title = tr("Meter reading, {short_day}").format(
            short_day=words.short_day(start.on)
        )
        super().__init__(parent, title, tr("Save"))
        self.body.addWidget(label(title, tone="head"))
        choices = [(n, meter_texts.jug_text(jug)) for n, jug in enumerate(start.jugs)]
        self.jug = self.form.combo("letter", tr("&Jug"), choices, 36)
        self.reading = self.form.line(
            "reading", tr("&Reading"), tr("1.25, or 840 ppm 700")
        )
        self.temperature = self.form.line(
            "temperature", tr("&Feed at"), temperature_unit()
        )
        self.form.note(tr(_TEMPERATURE))
        self.note = self.form.line("note", tr("&Note"))
        self.form.end()
        self.body.addWidget(self.form)
        self.expected = label("", tone="muted")
        self.right = label("")
        self.off = label("", tone="wrong")
        self.checks = label("")
        self.scales = label("", tone="muted")
        for each in (self.expected, self.right, self.off, self.checks, self.scales):
            self.body.addWidget(each)
        self.body.addStretch(1)
        self.readings_button = button(tr("Rea&dings…"), self.readings_wanted.emit)
        if start.reading is None:
            role = QDialogButtonBox.ButtonRole.ActionRole
            self.buttons.addButton(self.readings_button, role)
        self._fill()
        sizes.least_wide(self, 480)
        self.begin()
        self.jug.currentIndexChanged.connect(lambda _index: self._tell())
        self.reading.textChanged.connect(lambda _text: self._tell())
        self.temperature.textChanged.connect(lambda _text: self._tell())
        self._tell()
        self.reading.setFocus()

    def chosen(self) -> JugToRead:
        """Give the jug that is read."""
        return self._start.jugs[max(self.jug.currentIndex(), 0)]

    @override
    def kept(self) -> Held:
        """Give the whole form as it stands once anything was changed."""
        return self.held() if self.changes() else {}

    @override
    def draft(self) -> MeterDraft:
        """Give what was entered, with what was to be expected of the jug."""
        jug = self.chosen()
        expected = jug.expected
        return MeterDraft(
            on=self._start.on,
            letter=jug.letter,
            strength_ppm_n=jug.strength_ppm_n,
            read_ms_per_cm=parse_reading_ms_per_cm(self.reading.text(), "reading"),
            temperature_c=measured_lines.temperature_c(self.temperature, "temperature"),
            expected_low_ms_per_cm=None if expected is None else expected.low_ms_per_cm,
            expected_high_ms_per_cm=None
            if expected is None
            else expected.high_ms_per_cm,
            recipe_id=jug.recipe_id,
            note=self.note.text().strip(),
        )

    def _fill(self) -> None:
        view = self._start.reading
        if view is None:
            return
        self.reading.setText(f"{words.number(view.draft.read_ms_per_cm, 6)} mS/cm")
        measured_lines.show_temperature(self.temperature, view.draft.temperature_c)
        self.note.setText(view.draft.note)

    def _tell(self) -> None:
        """Say what the reading means, once it can be read."""
        jug = self.chosen()
        found = self._answer(jug)
        self.expected.setText(meter_texts.expected_text(jug))
        said = "" if found is None else " ".join(found.said)
        is_off = found is not None and bool(found.checks)
        self.right.setText("" if is_off else said)
        self.off.setText(said if is_off else "")
        self.checks.setText("" if found is None else meter_texts.checks_text(found))
        self.scales.setText("" if found is None else meter_texts.scales_text(found))
        for each in (self.right, self.off, self.checks, self.scales):
            each.setVisible(bool(each.text()))

    def _answer(self, jug: JugToRead) -> MeterAnswer | None:
        try:
            shown = parse_reading_ms_per_cm(self.reading.text(), "reading")
            warm = measured_lines.temperature_c(self.temperature, "temperature")
            return answer_to(jug, shown, warm)
        except GrowdeskError:
            return None
