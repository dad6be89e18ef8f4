"""Open the forms for places, tins, waters and house rules, and write their drafts."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject

from growdesk.ui.dialogs.place import PlacesDialog, TypedReading
from growdesk.ui.dialogs.settings import SettingsDialog
from growdesk.ui.dialogs.tin import TinsDialog, WatersDialog

if TYPE_CHECKING:
    from collections.abc import Callable

    from PySide6.QtWidgets import QWidget

    from growdesk.domain.facts import House
    from growdesk.services.collection import Collection
    from growdesk.services.values import (
        PlaceDraft,
        PlaceView,
        TinDraft,
        WaterDraft,
        Written,
    )
    from growdesk.ui.desk import Desk
    from growdesk.ui.dialogs.plant import PlantDialog
    from growdesk.ui.dialogs.rows import RowsDialog


class ShelfForms(QObject):
    """The forms of all that is no plant."""

    def __init__(self, desk: Desk, window: QWidget) -> None:
        super().__init__(window)
        self._desk = desk
        self._window = window

    @property
    def _now(self) -> Collection:
        return self._desk.collection

    # -- house rules ----------------------------------------------------------------

    def settings(self, first: str = "") -> None:
        """Open the house rules, at one of them where it is named."""
        self._desk.read(self._now.settings.house, partial(self._open_settings, first))

    def _open_settings(self, first: str, house: House) -> None:
        declared = self._now.settings.declared()
        dialog = SettingsDialog(self._window, declared, house, first)
        dialog.saved.connect(partial(self._save_settings, dialog, first))
        dialog.open()
        if first:
            dialog.go_to(first)

    def _save_settings(self, dialog: SettingsDialog, first: str, house: House) -> None:
        given = (first,) if first else ()
        self._desk.write(
            partial(self._now.settings.save_house, house, given),
            lambda _done: dialog.close_saved(),
            dialog.refused,
        )

    # -- places ---------------------------------------------------------------------

    def places(self, for_plant: PlantDialog | None = None) -> None:
        """Open the places; a new one goes to the plant form it was asked from."""
        self._desk.read(self._now.places.all, partial(self._open_places, for_plant))

    def _open_places(
        self, for_plant: PlantDialog | None, views: tuple[PlaceView, ...]
    ) -> None:
        parent = for_plant or self._window
        dialog = PlacesDialog(parent, self._desk.today)
        dialog.show_places(views, None)
        if for_plant is not None or not views:
            dialog.start_new()
            dialog.name.setFocus()
        again = partial(self._show_places, dialog, for_plant)
        dialog.saved.connect(partial(self._save_place, dialog, again))
        dialog.remove_wanted.connect(
            lambda key: self._remove(
                dialog, partial(self._now.places.remove, key), again
            )
        )
        dialog.reading_given.connect(partial(self._read_temperature, dialog, again))
        dialog.open()

    def _save_place(
        self,
        dialog: PlacesDialog,
        again: Callable[[int | None], None],
        key: int | None,
        draft: PlaceDraft,
    ) -> None:
        places = self._now.places
        work = partial(places.add, draft)
        if key is not None:
            work = partial(places.change, key, draft)
        self._save(dialog, work, key, again)

    def _show_places(
        self, dialog: PlacesDialog, for_plant: PlantDialog | None, chosen: int | None
    ) -> None:
        def show(views: tuple[PlaceView, ...]) -> None:
            dialog.show_places(views, chosen)
            if for_plant is not None:
                for_plant.offer_places(views, chosen)

        self._desk.read(self._now.places.all, show)

    def _read_temperature(
        self,
        dialog: PlacesDialog,
        again: Callable[[int | None], None],
        key: int,
        reading: TypedReading,
    ) -> None:
        def kept(done: Written) -> None:
            again(key)
            dialog.reading_kept()
            dialog.say(done.title)

        self._desk.write(
            partial(
                self._now.places.read_temperature,
                key,
                reading.on,
                reading.mean_c,
                reading.low_c,
                reading.high_c,
            ),
            kept,
            dialog.reading_refused,
        )

    # -- tins and waters ------------------------------------------------------------

    def tins(self) -> None:
        """Open the tins."""
        dialog = TinsDialog(self._window)

        def again(chosen: int | None) -> None:
            self._desk.read(
                self._now.mixing.tins, lambda views: dialog.show_tins(views, chosen)
            )

        def save(key: int | None, draft: TinDraft) -> None:
            mixing = self._now.mixing
            work = partial(mixing.add_tin, draft)
            if key is not None:
                work = partial(mixing.change_tin, key, draft)
            self._save(dialog, work, key, again)

        dialog.saved.connect(save)
        dialog.remove_wanted.connect(
            lambda key: self._remove(
                dialog, partial(self._now.mixing.remove_tin, key), again
            )
        )
        again(None)
        dialog.open()

    def waters(self) -> None:
        """Open the waters."""
        dialog = WatersDialog(self._window)

        def again(chosen: int | None) -> None:
            self._desk.read(
                self._now.mixing.waters, lambda views: dialog.show_waters(views, chosen)
            )

        def save(key: int | None, draft: WaterDraft) -> None:
            mixing = self._now.mixing
            work = partial(mixing.add_water, draft)
            if key is not None:
                work = partial(mixing.change_water, key, draft)
            self._save(dialog, work, key, again)

        dialog.saved.connect(save)
        dialog.remove_wanted.connect(
            lambda key: self._remove(
                dialog, partial(self._now.mixing.remove_water, key), again
            )
        )
        again(None)
        dialog.open()

    # -- for all of them ------------------------------------------------------------

    def _save(
        self,
        dialog: RowsDialog,
        work: Callable[[], Written],
        key: int | None,
        again: Callable[[int | None], None],
    ) -> None:
        def kept(done: Written) -> None:
            again(done.ids[0] if done.ids else key)
            dialog.say(done.title)

        self._desk.write(work, kept, dialog.refused)

    def _remove(
        self,
        dialog: RowsDialog,
        work: Callable[[], Written],
        again: Callable[[int | None], None],
    ) -> None:
        def removed(done: Written) -> None:
            again(None)
            dialog.say(done.title)

        self._desk.write(work, removed, dialog.refused)
