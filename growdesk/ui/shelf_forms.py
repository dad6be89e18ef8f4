"""Open the forms for places, tins, waters and house rules, and write their drafts."""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING, Any, TypeVar

from PySide6.QtCore import QObject
from shiboken6 import isValid

from growdesk.ui.dialogs.place import PlacesDialog, TypedReading
from growdesk.ui.dialogs.settings import SettingsDialog
from growdesk.ui.dialogs.tin import TinsDialog, WatersDialog
from growdesk.ui.drafts import Drafts

if TYPE_CHECKING:
    from collections.abc import Callable

    from PySide6.QtWidgets import QWidget

    from growdesk.domain.facts import House
    from growdesk.services.collection import Collection
    from growdesk.services.values import (
        PlaceDraft,
        PlaceView,
        TinView,
        WaterView,
        Written,
    )
    from growdesk.ui.desk import Desk
    from growdesk.ui.dialogs.frame import Framed
    from growdesk.ui.dialogs.plant import PlantDialog
    from growdesk.ui.dialogs.rows import RowsDialog


T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class _Calls:
    """What adds, changes and removes one sort of thing on the shelf."""

    add: Callable[[Any], Written]
    change: Callable[[int, Any], Written]
    remove: Callable[[int], Written]


class ShelfForms(QObject):
    """The forms of all that is no plant."""

    def __init__(self, desk: Desk, window: QWidget) -> None:
        super().__init__(window)
        self._desk = desk
        self._window = window
        self._drafts = Drafts.of(window)

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
        self._attend(dialog, "house")
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
        self._attend(dialog, "places")
        if for_plant is not None or not views:
            dialog.start_new()
            dialog.name.setFocus()
        again = partial(self._show_places, dialog, for_plant)
        dialog.saved.connect(partial(self._save_place, dialog, again))
        dialog.remove_wanted.connect(
            lambda key: self._remove(
                dialog, key, partial(self._now.places.remove, key), again
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
            if isValid(dialog):
                dialog.show_places(views, chosen)
            if for_plant is not None and isValid(for_plant):
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
            if isValid(dialog):
                dialog.reading_kept()
                dialog.say(done.title)
            again(key)

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
        self._desk.read(self._now.mixing.tins, self._open_tins)

    def _open_tins(self, views: tuple[TinView, ...]) -> None:
        dialog = TinsDialog(self._window)
        mixing = self._now.mixing
        dialog.show_tins(views, None)
        self._open_shelf(
            dialog,
            _Calls(mixing.add_tin, mixing.change_tin, mixing.remove_tin),
            partial(self._again, dialog, mixing.tins, dialog.show_tins),
            is_first=not views,
        )

    def waters(self) -> None:
        """Open the waters."""
        self._desk.read(self._now.mixing.waters, self._open_waters)

    def _open_waters(self, views: tuple[WaterView, ...]) -> None:
        dialog = WatersDialog(self._window)
        mixing = self._now.mixing
        dialog.show_waters(views, None)
        self._open_shelf(
            dialog,
            _Calls(mixing.add_water, mixing.change_water, mixing.remove_water),
            partial(self._again, dialog, mixing.waters, dialog.show_waters),
            is_first=not views,
        )

    def _open_shelf(
        self,
        dialog: RowsDialog,
        calls: _Calls,
        again: Callable[[int | None], None],
        *,
        is_first: bool,
    ) -> None:
        """Open tins or waters; where there was none, the first one ends the step."""

        def save(key: int | None, draft: Any) -> None:
            work = partial(calls.add, draft)
            if key is not None:
                work = partial(calls.change, key, draft)
            self._save(dialog, work, key, _close(dialog) if is_first else again)

        def remove(key: int) -> None:
            self._remove(dialog, key, partial(calls.remove, key), again)

        self._attend(dialog, dialog.windowTitle())
        dialog.saved.connect(save)
        dialog.remove_wanted.connect(remove)
        dialog.open()

    def _again(
        self,
        dialog: RowsDialog,
        read: Callable[[], T],
        show: Callable[[T, int | None], None],
        chosen: int | None,
    ) -> None:
        """Read the things anew and show them, where the dialog is still there."""
        self._desk.read(
            read, lambda views: show(views, chosen) if isValid(dialog) else None
        )

    # -- for all of them ------------------------------------------------------------

    def _save(
        self,
        dialog: RowsDialog,
        work: Callable[[], Written],
        key: int | None,
        again: Callable[[int | None], None],
    ) -> None:
        def kept(done: Written) -> None:
            now = done.ids[0] if done.ids else key
            if isValid(dialog):
                dialog.stored(key, now)
                dialog.say(done.title)
            again(now)

        self._desk.write(work, kept, partial(_refuse, dialog))

    def _remove(
        self,
        dialog: RowsDialog,
        key: int,
        work: Callable[[], Written],
        again: Callable[[int | None], None],
    ) -> None:
        def removed(done: Written) -> None:
            if isValid(dialog):
                dialog.removed(key)
                dialog.say(done.title)
            again(None)

        self._desk.write(work, removed, partial(_refuse, dialog))

    def _attend(self, dialog: Framed, *of: object) -> None:
        self._drafts.attend((self._now.folder, *of), dialog)


def _close(dialog: RowsDialog) -> Callable[[int | None], None]:
    def close(_key: int | None) -> None:
        if isValid(dialog):
            dialog.reject()

    return close


def _refuse(dialog: RowsDialog, error: Exception) -> None:
    if isValid(dialog):
        dialog.refused(error)
