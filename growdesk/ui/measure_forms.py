"""Open the measures and jugs, and write what their dialog hands out."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from msgspec.structs import replace
from shiboken6 import isValid

from growdesk.domain.measuring import Tool
from growdesk.ui.dialogs.measures import MeasuresDialog
from growdesk.ui.thing_forms import ThingForms

if TYPE_CHECKING:
    from growdesk.services.measures import Measures, MeasuresView
    from growdesk.services.values import Written
    from growdesk.ui.dialogs.measures import Kept


class MeasureForms(ThingForms):
    """The form of measures and jugs of one window."""

    def open(self) -> None:
        """Open all that is recorded."""
        self._desk.load_units()
        self._desk.read(self._now.measures.all, self._open)

    def _open(self, view: MeasuresView) -> None:
        dialog = MeasuresDialog(self._window)
        dialog.show_all(view, None)
        self._attend(dialog, "measures")
        if not view.tools and not view.vessels:
            dialog.start_new()
            dialog.name.setFocus()
        dialog.saved.connect(partial(self._save_thing, dialog))
        dialog.remove_wanted.connect(partial(self._remove_thing, dialog))
        dialog.open()

    def _save_thing(self, dialog: MeasuresDialog, key: int | None, thing: Kept) -> None:
        work = partial(_write, self._now.measures, key, thing)
        self._save(dialog, work, key, partial(self._again, dialog))

    def _remove_thing(self, dialog: MeasuresDialog, key: int) -> None:
        measures = self._now.measures
        work = partial(measures.remove_tool, key)
        if key < 0:
            work = partial(measures.remove_vessel, -key)
        self._remove(dialog, key, work, partial(self._again, dialog))

    def _again(self, dialog: MeasuresDialog, chosen: int | None) -> None:
        def show(view: MeasuresView) -> None:
            if isValid(dialog):
                dialog.show_all(view, chosen)

        self._desk.read(self._now.measures.all, show)


def _write(measures: Measures, key: int | None, thing: Kept) -> Written:
    """Write one thing; a vessel's number comes back as its key in the dialog."""
    if isinstance(thing, Tool):
        if key is None:
            return measures.add_tool(thing)
        return measures.change_tool(key, thing)
    done = (
        measures.add_vessel(thing)
        if key is None
        else measures.change_vessel(-key, thing)
    )
    return replace(done, ids=tuple(-number for number in done.ids))
