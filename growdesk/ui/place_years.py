"""Open the year of a place, from the places or from a plant's season."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal

from growdesk.ui.chart_over import open_chart
from growdesk.ui.charts.asking import Wanted, Which
from growdesk.ui.dialogs.place_year import PlaceYearDialog

if TYPE_CHECKING:
    from datetime import date

    from PySide6.QtWidgets import QWidget

    from growdesk.ui.desk import Desk


class PlaceYears(QObject):
    """The years of the places of one window's collection."""

    save_wanted = Signal(object, object, object)

    def __init__(self, desk: Desk, window: QWidget) -> None:
        super().__init__(window)
        self._desk = desk
        self._window = window

    def open(self, place_id: int) -> None:
        """Open the year of a place, with the day shown in the window marked."""
        self.open_over(self._window, place_id, self._desk.on)

    def open_over(self, parent: QWidget, place_id: int, on: date) -> None:
        """Open the year of a place over a dialog."""
        wanted = Wanted(Which.PLACE, place_id, on)
        dialog = PlaceYearDialog(parent, wanted)
        open_chart(dialog, self._desk, self.save_wanted)
