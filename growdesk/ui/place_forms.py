"""Open the form for places and their readings, and write what it hands out."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from msgspec import Struct
from shiboken6 import isValid

from growdesk.ui.bench_forms import BenchForms
from growdesk.ui.dialogs.place import PlacesDialog
from growdesk.ui.dialogs.reading import ReadingDialog
from growdesk.ui.logger_forms import LoggerForms
from growdesk.ui.thing_forms import ThingForms, refuse

if TYPE_CHECKING:
    from collections.abc import Sequence

    from PySide6.QtWidgets import QWidget

    from growdesk.domain.facts import Reading
    from growdesk.services.bench_values import BenchChoice
    from growdesk.services.values import PlaceDraft, PlaceView, ReadingView, Written
    from growdesk.ui.desk import Desk
    from growdesk.ui.dialogs.plant import PlantDialog
    from growdesk.ui.place_years import PlaceYears


class _Open(Struct, frozen=True):
    """A dialog of places, and the plant form it was asked from."""

    dialog: PlacesDialog
    for_plant: PlantDialog | None


class PlaceForms(ThingForms):
    """The forms of places and of what is read there."""

    def __init__(self, desk: Desk, window: QWidget, years: PlaceYears) -> None:
        super().__init__(desk, window)
        self._years = years

    def places(self, for_plant: PlantDialog | None = None) -> None:
        """Open the places; a new one goes to the plant form it was asked from."""
        self._desk.read(self._now.places.all, partial(self._open, for_plant))

    def _open(
        self, for_plant: PlantDialog | None, views: tuple[PlaceView, ...]
    ) -> None:
        dialog = PlacesDialog(for_plant or self._window, self._desk.today)
        opened = _Open(dialog, for_plant)
        benches = BenchForms(
            self._desk, self._window, dialog, partial(self._again, opened)
        )
        benches.changed.connect(partial(self._know_benches, opened))
        dialog.place_shown.connect(partial(self._show_readings, dialog))
        dialog.show_places(views, None)
        self._attend(dialog, "places")
        if for_plant is not None or not views:
            dialog.start_new()
            dialog.name.setFocus()
        dialog.saved.connect(partial(self._save_place, opened))
        dialog.remove_wanted.connect(partial(self._remove_place, opened))
        dialog.reading_given.connect(partial(self._write_reading, opened))
        dialog.reading_wanted.connect(partial(self._open_reading, opened))
        dialog.readings_unwanted.connect(partial(self._remove_readings, opened))
        dialog.year_wanted.connect(partial(self._open_year, dialog))
        dialog.logger_wanted.connect(partial(self._read_logger, opened))
        dialog.open()

    def _save_place(self, opened: _Open, key: int | None, draft: PlaceDraft) -> None:
        places = self._now.places
        work = partial(places.add, draft)
        if key is not None:
            work = partial(places.change, key, draft)
        self._save(opened.dialog, work, key, partial(self._again, opened))

    def _remove_place(self, opened: _Open, key: int) -> None:
        work = partial(self._now.places.remove, key)
        self._remove(opened.dialog, key, work, partial(self._again, opened))

    def _again(self, opened: _Open, chosen: int | None) -> None:
        def show(views: tuple[PlaceView, ...]) -> None:
            if isValid(opened.dialog):
                opened.dialog.show_places(views, chosen)
            if opened.for_plant is not None and isValid(opened.for_plant):
                opened.for_plant.offer_places(views, chosen)

        self._desk.read(self._now.places.all, show)
        self._know_benches(opened)

    def _know_benches(self, opened: _Open) -> None:
        """Let the plant form that the places were asked from know their benches."""
        plant = opened.for_plant
        if plant is None:
            return

        def know(benches: tuple[BenchChoice, ...]) -> None:
            if isValid(plant):
                plant.plant.where.know(benches)

        self._desk.read(self._now.benches.choices, know)

    def _open_year(self, dialog: PlacesDialog, key: int) -> None:
        self._years.open_over(dialog, key, self._desk.today)

    def _read_logger(self, opened: _Open, key: int) -> None:
        """Read a logger's file for a place, over the places."""
        forms = LoggerForms(self._desk, opened.dialog, key)
        forms.taken.connect(partial(self._again, opened, key))
        forms.open()

    # -- what was read there --------------------------------------------------------

    def _show_readings(self, dialog: PlacesDialog, key: int) -> None:
        def show(views: tuple[ReadingView, ...]) -> None:
            if isValid(dialog):
                dialog.show_readings(key, views)

        self._desk.read(partial(self._now.readings.of_place, key), show)

    def _write_reading(self, opened: _Open, key: int, reading: Reading) -> None:
        dialog = opened.dialog

        def kept(done: Written) -> None:
            if isValid(dialog):
                dialog.reading_kept()
            self._told(opened, key, done)

        work = partial(self._now.readings.write, key, reading)
        self._desk.write(work, kept, dialog.reading_refused)

    def _open_reading(self, opened: _Open, key: int, view: ReadingView) -> None:
        form = ReadingDialog(opened.dialog, view.reading)
        self._attend(form, "reading", view.reading_id)

        def save(reading: Reading) -> None:
            def kept(done: Written) -> None:
                form.close_saved()
                self._told(opened, key, done)

            work = partial(self._now.readings.change, view.reading_id, reading)
            self._desk.write(work, kept, form.refused)

        form.saved.connect(save)
        form.open()

    def _remove_readings(
        self, opened: _Open, key: int, views: Sequence[ReadingView]
    ) -> None:
        ids = [view.reading_id for view in views]
        self._desk.write(
            partial(self._now.readings.remove, ids),
            partial(self._told, opened, key),
            partial(refuse, opened.dialog),
        )

    def _told(self, opened: _Open, key: int, done: Written) -> None:
        """Say what was written, and show the place anew."""
        if isValid(opened.dialog):
            opened.dialog.say(done.title)
        self._again(opened, key)
