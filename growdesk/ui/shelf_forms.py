"""Open the forms for places, tins, waters and house rules, and write their drafts."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, Any, TypeVar

from msgspec import Struct
from shiboken6 import isValid

from growdesk.ui.dialogs.settings import SettingsDialog
from growdesk.ui.dialogs.tin import TinsDialog
from growdesk.ui.dialogs.water import WatersDialog
from growdesk.ui.measure_forms import MeasureForms
from growdesk.ui.meter_forms import MeterForms
from growdesk.ui.place_forms import PlaceForms
from growdesk.ui.place_years import PlaceYears
from growdesk.ui.recipe_forms import RecipeForms
from growdesk.ui.stock_forms import StockForms
from growdesk.ui.stocktaking_forms import StocktakingForms
from growdesk.ui.tasks import Job
from growdesk.ui.thing_forms import ThingForms
from growdesk.ui.weather_forms import WeatherForms

if TYPE_CHECKING:
    from collections.abc import Callable

    from PySide6.QtWidgets import QWidget

    from growdesk.domain.facts import House
    from growdesk.services.collection import Collection
    from growdesk.services.values import TinView, WaterView, Written
    from growdesk.ui.desk import Desk
    from growdesk.ui.dialogs.plant import PlantDialog
    from growdesk.ui.dialogs.rows import RowsDialog


T = TypeVar("T")

_ASKED_FIRST = frozenset({"latitude"})
"""Rules that the first steps ask for; a default kept there is the grower's word."""


class _Calls(Struct, frozen=True):
    """What adds, changes and removes one sort of thing on the shelf."""

    add: Callable[[Any], Written]
    change: Callable[[int, Any], Written]
    remove: Callable[[int], Written]


class ShelfForms(ThingForms):
    """The forms of all that is no plant."""

    def __init__(self, desk: Desk, window: QWidget) -> None:
        super().__init__(desk, window)
        self.years = PlaceYears(desk, window)
        self.stocktaking = StocktakingForms(desk, window)
        self._place_forms = PlaceForms(desk, window, self.years)
        self.measures = MeasureForms(desk, window).open
        self.stock_forms = StockForms(desk, window)
        self.stocks = self.stock_forms.open
        self.recipe_forms = RecipeForms(desk, window)
        self.meter = MeterForms(desk, window)
        self.weather = WeatherForms(desk, window)

    # -- house rules ----------------------------------------------------------------

    def settings(self, first: str = "") -> None:
        """Open the house rules, at one of them where it is named."""
        work = partial(_house_and_unsaid, self._now, first)
        self._desk.read(work, partial(self._open_settings, first))

    def _open_settings(self, first: str, read: tuple[House, bool]) -> None:
        house, unsaid = read
        declared = self._now.settings.declared()
        dialog = SettingsDialog(self._window, declared, house, first, unsaid=unsaid)
        self._attend(dialog, "house")
        given = (first,) if unsaid else ()
        dialog.saved.connect(partial(self._save_settings, dialog, given))
        dialog.effect_wanted.connect(partial(self._ask_effect, dialog))
        dialog.open()
        if first:
            dialog.go_to(first)

    def _ask_effect(self, dialog: SettingsDialog, house: House) -> None:
        """Judge all plants under other rules, on the day shown."""
        job = Job(
            partial(self._now.rule_effects.of, house, self._desk.on),
            partial(dialog.show_effect, house),
            partial(dialog.effect_refused, house),
            "effect",
        )
        self._desk.tasks.ask(dialog, job)

    def _save_settings(
        self, dialog: SettingsDialog, given: tuple[str, ...], house: House
    ) -> None:
        self._desk.write(
            partial(self._now.settings.save_house, house, given),
            lambda _done: dialog.close_saved(),
            dialog.refused,
        )

    # -- places ---------------------------------------------------------------------

    def places(self, for_plant: PlantDialog | None = None) -> None:
        """Open the places; a new one goes to the plant form it was asked from."""
        self._place_forms.places(for_plant)

    # -- what is on hand -------------------------------------------------------------

    def on_shelf(self) -> None:
        """Open what is on the shelf."""
        self.stocktaking.open()

    # -- recipes --------------------------------------------------------------------

    def recipes(self) -> None:
        """Open the recipes."""
        self.recipe_forms.recipes()

    # -- tins and waters ------------------------------------------------------------

    def tins(self) -> None:
        """Open the tins."""
        self._desk.load_units()
        self._desk.read(self._now.mixing.tins, self._open_tins)

    def _open_tins(self, views: tuple[TinView, ...]) -> None:
        dialog = TinsDialog(self._window)
        mixing = self._now.mixing
        dialog.show_tins(views, None)
        self.stocktaking.attend_tins(dialog)
        self._open_shelf(
            dialog,
            _Calls(mixing.add_tin, mixing.change_tin, mixing.remove_tin),
            partial(self._again, dialog, mixing.tins, partial(self._show_tins, dialog)),
            is_first=not views,
        )

    def _show_tins(
        self, dialog: TinsDialog, views: tuple[TinView, ...], chosen: int | None
    ) -> None:
        dialog.show_tins(views, chosen)
        self.stocktaking.tell_tins(dialog)

    def waters(self) -> None:
        """Open the waters; the units load beside it, so that typing never waits."""
        self._desk.load_units()
        self._desk.read(self._now.waters.all, self._open_waters)

    def _open_waters(self, views: tuple[WaterView, ...]) -> None:
        dialog = WatersDialog(self._window)
        waters = self._now.waters
        dialog.show_waters(views, None)
        self._open_shelf(
            dialog,
            _Calls(waters.add, waters.change, waters.remove),
            partial(self._again, dialog, waters.all, dialog.show_waters),
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


def _close(dialog: RowsDialog) -> Callable[[int | None], None]:
    def close(_key: int | None) -> None:
        if isValid(dialog):
            dialog.reject()

    return close


def _house_and_unsaid(collection: Collection, first: str) -> tuple[House, bool]:
    """Give the house, and whether the rule asked for is one never yet said."""
    unsaid = first in _ASKED_FIRST and not collection.settings.is_set(first)
    return collection.settings.house(), unsaid
