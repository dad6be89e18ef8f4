"""Show the feed used by month."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.speech import mark
from growdesk.services.chart_values import UsedChart
from growdesk.ui.dialogs.chart import ChartDialog, ChartTexts

if TYPE_CHECKING:
    from PySide6.QtWidgets import QWidget

    from growdesk.ui.charts.asking import Wanted

_TEXTS = ChartTexts(
    mark("Feed used by month"),
    mark("Drawing the feed used by month…"),
    mark("The feed used could not be drawn: it could not be read."),
    mark("The feed used in words"),
)


class FeedUsedDialog(ChartDialog):
    """The feed used by month."""

    def __init__(self, parent: QWidget | None, wanted: Wanted) -> None:
        super().__init__(parent, wanted, _TEXTS, UsedChart)
