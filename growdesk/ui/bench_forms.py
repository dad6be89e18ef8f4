"""Write what the benches of a place are changed to, and show them anew.

While one change is being written the next may be made already: what is shown is only
renewed once nothing is under way.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from shiboken6 import isValid

from growdesk.ui.dialogs.bench import BenchDialog
from growdesk.ui.thing_forms import ThingForms, refuse

if TYPE_CHECKING:
    from collections.abc import Callable

    from PySide6.QtWidgets import QWidget

    from growdesk.services.bench_values import BenchDraft, BenchView, PlaceBenches
    from growdesk.services.values import Written
    from growdesk.ui.desk import Desk
    from growdesk.ui.dialogs.place import PlacesDialog


class BenchForms(ThingForms):
    """The benches page of the places, for one dialog."""

    changed = Signal()

    def __init__(
        self,
        desk: Desk,
        window: QWidget,
        dialog: PlacesDialog,
        again: Callable[[int | None], None],
    ) -> None:
        super().__init__(desk, window)
        self.setParent(dialog)
        self._dialog = dialog
        self._again = again
        self._under_way = 0
        page, services = dialog.benches, self._now.benches
        dialog.place_shown.connect(self.show_place)
        dialog.places_ordered.connect(self._order_places)
        page.bench_wanted.connect(self._open)
        page.bench_unwanted.connect(
            lambda key: self._write(partial(services.remove, key))
        )
        page.benches_ordered.connect(lambda keys: self._in_place(services.order, keys))
        page.plants_ordered.connect(
            lambda bench, keys: self._in_place(services.along, bench, keys)
        )
        page.plants_put.connect(
            lambda bench, keys: self._in_place(services.put, bench, keys)
        )

    def show_place(self, key: int) -> None:
        """Show the benches of the place in the form."""
        self._read(key, None)

    # -- inside ---------------------------------------------------------------------

    def _in_place(self, use: Callable[..., Written], *given: object) -> None:
        key = self._dialog.key
        if key is not None:
            self._write(partial(use, key, *given))

    def _order_places(self, keys: list[int]) -> None:
        def kept(done: Written) -> None:
            if isValid(self._dialog):
                self._dialog.say(done.title)
                self._again(self._dialog.key)

        work = partial(self._now.benches.order_places, keys)
        self._desk.write(work, kept, partial(refuse, self._dialog))

    def _write(self, work: Callable[[], Written]) -> None:
        self._under_way += 1
        self._desk.write(work, self._written, self._refused)

    def _written(self, done: Written) -> None:
        self._under_way -= 1
        if isValid(self._dialog):
            self._dialog.say(done.title)
        self._renew(None)

    def _refused(self, error: Exception) -> None:
        self._under_way -= 1
        refuse(self._dialog, error)
        self._renew(None)

    def _renew(self, bench: int | None) -> None:
        """Show the benches as they are written, once nothing is under way."""
        if self._under_way or not isValid(self._dialog):
            return
        self.changed.emit()
        key = self._dialog.key
        if key is not None:
            self._read(key, bench)

    def _read(self, key: int, bench: int | None) -> None:
        def show(place: PlaceBenches) -> None:
            if isValid(self._dialog) and not self._under_way:
                self._dialog.show_benches(place, bench)

        self._desk.read(partial(self._now.benches.of_place, key), show)

    def _open(self, view: BenchView | None) -> None:
        key = self._dialog.key
        if key is None:
            return
        form = BenchDialog(self._dialog, None if view is None else view.draft)
        bench_id = None if view is None else view.bench_id
        self._attend(form, "bench", key, bench_id)

        def save(draft: BenchDraft) -> None:
            work = partial(self._now.benches.add, key, draft)
            if bench_id is not None:
                work = partial(self._now.benches.change, bench_id, draft)
            self._desk.write(work, kept, form.refused)

        def kept(done: Written) -> None:
            form.close_saved()
            if isValid(self._dialog):
                self._dialog.say(done.title)
            self._renew(done.ids[0])

        form.saved.connect(save)
        form.open()
