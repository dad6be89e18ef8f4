"""Show the year of one place."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.services.chart_values import PlaceChart
from growdesk.ui.dialogs.chart import ChartDialog, ChartTexts

if TYPE_CHECKING:
    from PySide6.QtWidgets import QWidget

    from growdesk.ui.charts.asking import Wanted

WAITING = "Drawing the year of the place…"
FAILED = "The year could not be drawn: it could not be read."
_TEXTS = ChartTexts("The year of a place", WAITING, FAILED, "The year in words")


class PlaceYearDialog(ChartDialog):
    """The year of a place."""

    def __init__(self, parent: QWidget | None, wanted: Wanted) -> None:
        super().__init__(parent, wanted, _TEXTS, PlaceChart)
