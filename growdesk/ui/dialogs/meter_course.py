"""Show the EC predicted against what the meter read over a year."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.speech import mark
from growdesk.services.meter_values import MeterChart
from growdesk.ui.dialogs.chart import ChartDialog, ChartTexts

if TYPE_CHECKING:
    from PySide6.QtWidgets import QWidget

    from growdesk.ui.charts.asking import Wanted

_TEXTS = ChartTexts(
    mark("EC predicted and read"),
    mark("Drawing the meter readings…"),
    mark("The meter readings could not be drawn: they could not be read."),
    mark("The meter readings in words"),
)


class MeterCourseDialog(ChartDialog):
    """The EC predicted and read over a year."""

    def __init__(self, parent: QWidget | None, wanted: Wanted) -> None:
        super().__init__(parent, wanted, _TEXTS, MeterChart)
