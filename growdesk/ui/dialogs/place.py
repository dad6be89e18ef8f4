"""Keep the places where plants stand, and take in temperatures read there."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QCheckBox, QLineEdit
from typing_extensions import override

from growdesk.domain.errors import InputError
from growdesk.domain.facts import PlaceKind
from growdesk.services.values import PlaceDraft
from growdesk.ui import typed, words
from growdesk.ui.dialogs.rows import RowsDialog
from growdesk.ui.widgets.form import Form, choose
from growdesk.ui.widgets.parts import button, label

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

    from PySide6.QtWidgets import QWidget

    from growdesk.services.values import PlaceView
    from growdesk.ui.dialogs.held import Held


@dataclass(frozen=True, slots=True)
class TypedReading:
    """A day's temperatures in °C."""

    on: date
    mean_c: float | None
    low_c: float | None
    high_c: float | None


class PlacesDialog(RowsDialog):
    """All places, one of them in the form, with a reading below it."""

    reading_given = Signal(int, object)

    def __init__(self, parent: QWidget | None, today: date) -> None:
        super().__init__(parent, "Places", "place")
        self._views: dict[int, PlaceView] = {}
        self._today = today
        self.name = self.form.line("name", "&Name", "say kitchen window")
        kinds = words.choices(tuple(PlaceKind))
        self.kind = self.form.combo("kind", "&Kind", [(k.value, t) for k, t in kinds])
        self.controlled = QCheckBox("heated and lit as the plants want")
        self.form.add("controlled", "&Controlled", self.controlled)
        self.outdoors = QCheckBox("in the open")
        self.form.add("outdoors", "&Outdoors", self.outdoors)
        self.hours = self.form.line("lamps_hours", "&Lamps", "hours a day, say 12")
        self.ppfd = self.form.line(
            "lamps_ppfd", "Light at the lea&f", "PPFD in µmol m-2 s-1, say 150"
        )
        self.form.end()
        self._add_reading()

    def show_places(self, views: Sequence[PlaceView], chosen: int | None) -> None:
        """Show the places there are."""
        self._views = {view.place_id: view for view in views}
        self.show_rows([(v.place_id, v.draft.name) for v in views], chosen)

    @override
    def draft(self) -> PlaceDraft:
        """Give the place as entered."""
        view = self._views.get(self.key) if self.key is not None else None
        return PlaceDraft(
            name=self.name.text().strip(),
            kind=self.kind.currentData(),
            controlled=self.controlled.isChecked(),
            outdoors=self.outdoors.isChecked(),
            lamps_hours=typed.number(self.hours.text(), "lamps_hours", "12"),
            lamps_ppfd=typed.number(self.ppfd.text(), "lamps_ppfd", "150"),
            note=view.draft.note if view is not None else "",
        )

    @override
    def show_key(self, key: int | None) -> None:
        view = self._views.get(key) if key is not None else None
        draft = view.draft if view is not None else PlaceDraft(name="")
        self.name.setText(draft.name)
        choose(self.kind, draft.kind)
        self.controlled.setChecked(draft.controlled)
        self.outdoors.setChecked(draft.outdoors)
        self.hours.setText(words.number(draft.lamps_hours))
        self.ppfd.setText(words.number(draft.lamps_ppfd))
        self.reading_kept()
        self.day.setText(self._today.isoformat())
        self._reading_button.setEnabled(view is not None)
        self._mean_said.setText(_mean_words(view))

    @override
    def enter(self, focused: QWidget | None) -> None:
        """Write the temperature down from its own fields, else do as any dialog."""
        is_reading = isinstance(focused, QLineEdit) and self._readings.isAncestorOf(
            focused
        )
        if is_reading and self.key is not None:
            self._give_reading()
        else:
            super().enter(focused)

    @override
    def try_save(self) -> None:
        """Save the place; a temperature typed for a place as it stands is written."""
        changed = self.changes()
        is_reading = bool(changed) and not any(map(self.form.has, changed))
        if is_reading and self.key is not None:
            self._give_reading()
        else:
            super().try_save()

    @override
    def changes(self) -> Held:
        """Give what was typed; a day alone, without a temperature, is nothing."""
        changed = super().changes()
        if not {"mean_c", "low_c", "high_c"} & changed.keys():
            changed.pop("on", None)
        return changed

    @override
    def tab_stops(self) -> list[QWidget]:
        readings = self._readings.editors.values()
        return [*super().tab_stops(), *readings, self._reading_button]

    def _add_reading(self) -> None:
        self._readings = Form()
        self._readings.wide(label("Temperature read there", tone="head"))
        self._mean_said = label("", tone="muted")
        self._readings.wide(self._mean_said)
        self.day = self._readings.line("on", "&Day", "2026-11-25")
        self.mean = self._readings.line("mean_c", "&Mean", "°C, or 70 °F")
        self.low = self._readings.line("low_c", "or lo&w", "°C")
        self.high = self._readings.line("high_c", "and hi&gh", "°C")
        self._reading_button = button("Write the temperature down", self._give_reading)
        self._readings.wide(self._reading_button)
        self._readings.end()
        self.body.insertSpacing(self.body.count() - 1, 10)
        self.body.insertWidget(self.body.count() - 1, self._readings)
        self.forms = (self.form, self._readings)

    def _give_reading(self) -> None:
        key = self.key
        if key is None:
            return
        self._readings.clear_errors()
        try:
            on = typed.needed_day(self.day.text(), "on")
            reading = TypedReading(
                on,
                typed.temperature_c(self.mean.text().strip(), "mean_c"),
                typed.temperature_c(self.low.text().strip(), "low_c"),
                typed.temperature_c(self.high.text().strip(), "high_c"),
            )
        except InputError as error:
            self._readings.show_error(error)
            return
        self.reading_given.emit(key, reading)

    def reading_refused(self, error: Exception) -> None:
        """Tell why a reading was not written."""
        self._readings.show_error(error)

    def reading_kept(self) -> None:
        """Make room for the next reading."""
        for edit in (self.mean, self.low, self.high):
            edit.clear()


def _mean_words(view: PlaceView | None) -> str:
    if view is None:
        return "Add the place first, then its readings."
    stand = f"{words.plants(view.plants)} here."
    if view.mean_7_days_c is None:
        return f"{stand} No reading in the last 7 days, so temperature says nothing."
    return f"{stand} Mean of the last 7 days: {view.mean_7_days_c:.1f} °C."
