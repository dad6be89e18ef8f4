"""Open the forms for rain and for a cold or hot night, and write what they hand out."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from shiboken6 import isValid

from growdesk.ui.dialogs.night import NightDialog
from growdesk.ui.dialogs.rain import RainDialog
from growdesk.ui.thing_forms import ThingForms

if TYPE_CHECKING:
    from datetime import date

    from growdesk.domain.night import Expected
    from growdesk.services.nights import NightView
    from growdesk.services.rain import OutdoorPlace, RainedOn
    from growdesk.ui.dialogs.rain import RainDraft


class WeatherForms(ThingForms):
    """The forms of rain and of nights."""

    def rain(self) -> None:
        """Open the rain of the day shown."""
        on = min(self._desk.on, self._desk.today)
        self._desk.read(self._now.rain.places, partial(self._open_rain, on))

    def _open_rain(self, on: date, places: tuple[OutdoorPlace, ...]) -> None:
        dialog = RainDialog(self._window, places, on)
        self._drafts.attend((self._now.folder, "rain"), dialog)

        def asked(draft: RainDraft) -> None:
            work = partial(
                self._now.rain.would_wet, draft.place_ids, draft.on, draft.rain_mm
            )
            self._desk.read(work, show, lambda _error: None)

        def show(found: RainedOn) -> None:
            if isValid(dialog):
                dialog.show_rained(found)

        def save(draft: RainDraft) -> None:
            work = partial(
                self._now.rain.fell,
                draft.place_ids,
                draft.on,
                draft.rain_mm,
                draft.note,
            )
            self._desk.write(work, lambda _done: dialog.close_saved(), dialog.refused)

        dialog.asked.connect(asked)
        dialog.saved.connect(save)
        dialog.open()
        dialog.ask()

    def night(self) -> None:
        """Open what is expected of today and the night after it."""
        work = partial(self._now.nights.view, self._desk.today)
        self._desk.read(work, self._open_night)

    def _open_night(self, view: NightView) -> None:
        dialog = NightDialog(self._window, view)
        self._drafts.attend((self._now.folder, "night", view.on), dialog)

        def asked(expected: dict[int, Expected]) -> None:
            work = partial(self._now.nights.would_be, view.on, expected)
            self._desk.read(work, show, lambda _error: None)

        def show(found: NightView) -> None:
            if isValid(dialog):
                dialog.show_view(found)

        def save(expected: dict[int, Expected]) -> None:
            work = partial(self._now.nights.expect, view.on, expected)
            self._desk.write(work, lambda _done: dialog.close_saved(), dialog.refused)

        dialog.asked.connect(asked)
        dialog.saved.connect(save)
        dialog.open()
