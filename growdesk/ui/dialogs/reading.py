"""The fields of one day's readings, for a new one and for one to be put right."""

from __future__ import annotations

from typing import TYPE_CHECKING

from typing_extensions import override

from growdesk.domain.day_words import figures
from growdesk.domain.facts import Reading
from growdesk.domain.quantity_words import temperature_unit
from growdesk.domain.speech import mark, tr
from growdesk.ui import measured_lines, sizes, typed, words
from growdesk.ui.dialogs.base import FormDialog
from growdesk.ui.widgets.parts import label

if TYPE_CHECKING:
    from PySide6.QtWidgets import QLineEdit, QWidget

    from growdesk.ui.dialogs.held import Held
    from growdesk.ui.widgets.form import Form

FIELDS = (
    ("on", mark("&Day"), ""),
    ("mean_c", mark("&Mean"), ""),
    ("low_c", mark("Lo&w"), ""),
    ("high_c", mark("Hi&gh"), ""),
    ("light_mol_per_m2_d", mark("L&ight"), mark("mol a day")),
    ("humidity_percent", mark("H&umidity"), "%"),
)
NOTE = mark(
    "Give the day's mean, or its low and high. Light is the day's sum at the leaf, in "
    "mol per m²; read on three days of three weeks, it counts before window and lamps. "
    "Humidity is kept and shown; it decides nothing."
)


class ReadingFields:
    """The editors of a day's readings in a form, and what stands in them."""

    def __init__(self, form: Form) -> None:
        self.lines: dict[str, QLineEdit] = {
            field: form.line(field, tr(title), _hint(field, hint))
            for field, title, hint in FIELDS
        }

    def reading(self) -> Reading:
        """Give what was typed; raises ``InputError`` on a slip."""
        text = {field: line.text().strip() for field, line in self.lines.items()}
        light, humidity = text["light_mol_per_m2_d"], text["humidity_percent"]
        return Reading(
            typed.needed_day(text["on"], "on"),
            measured_lines.temperature_c(self.lines["mean_c"], "mean_c"),
            measured_lines.temperature_c(self.lines["low_c"], "low_c"),
            measured_lines.temperature_c(self.lines["high_c"], "high_c"),
            typed.number(light, "light_mol_per_m2_d", "6.5"),
            typed.percent(humidity, "humidity_percent", "60"),
        )

    def fill(self, reading: Reading) -> None:
        """Put a day's readings into the editors."""
        self.lines["on"].setText(figures(reading.on))
        for field, line in self.lines.items():
            if field.endswith("_c"):
                measured_lines.show_temperature(line, getattr(reading, field))
            elif field != "on":
                line.setText(words.number(getattr(reading, field)))

    def clear(self) -> None:
        """Make room for the next reading; the day stays."""
        for field, line in self.lines.items():
            if field != "on":
                line.clear()


def _hint(field: str, hint: str) -> str:
    if field == "on":
        return typed.day_example()
    if field == "mean_c":
        return measured_lines.temperature_hint()
    return temperature_unit() if field.endswith("_c") else tr(hint)


class ReadingDialog(FormDialog):
    """One day's readings, to be put right."""

    def __init__(self, parent: QWidget | None, reading: Reading) -> None:
        super().__init__(parent, tr("What was read"), tr("Save"))
        said = tr("Read on {short_day}").format(short_day=words.short_day(reading.on))
        self.body.addWidget(label(said, tone="head"))
        self.fields = ReadingFields(self.form)
        self.form.note(tr("What is left empty is not recorded."))
        self.form.end()
        self.body.addWidget(self.form)
        self.fields.fill(reading)
        sizes.least_wide(self, 420)
        self.begin()
        self.fields.lines["mean_c"].setFocus()

    @override
    def kept(self) -> Held:
        """Give the whole form as it stands once anything was changed."""
        return self.held() if self.changes() else {}

    @override
    def draft(self) -> Reading:
        """Give what was entered."""
        return self.fields.reading()
