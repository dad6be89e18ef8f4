"""Show the year of one place."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.speech import mark
from growdesk.services.chart_values import PlaceChart
from growdesk.ui.dialogs.chart import ChartDialog, ChartTexts

if TYPE_CHECKING:
    from PySide6.QtWidgets import QWidget

    from growdesk.ui.charts.asking import Wanted

WAITING = mark("Drawing the year of the place…")
FAILED = mark("The year could not be drawn: it could not be read.")
_TEXTS = ChartTexts(
    mark("The year of a place"), WAITING, FAILED, mark("The year in words")
)


class PlaceYearDialog(ChartDialog):
    """The year of a place."""

    def __init__(self, parent: QWidget | None, wanted: Wanted) -> None:
        super().__init__(parent, wanted, _TEXTS, PlaceChart)
