"""Show the elements of a litre of a recipe beside what was wanted."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.speech import mark
from growdesk.services.recipe_values import MixChart
from growdesk.ui.dialogs.chart import ChartDialog, ChartTexts

if TYPE_CHECKING:
    from PySide6.QtWidgets import QWidget

    from growdesk.ui.charts.asking import Wanted

_TEXTS = ChartTexts(
    mark("What a litre holds"),
    mark("Drawing what a litre holds…"),
    mark("What a litre holds could not be drawn."),
    mark("What a litre holds in words"),
)


class MixChartDialog(ChartDialog):
    """The elements of a litre of feed."""

    def __init__(self, parent: QWidget | None, wanted: Wanted) -> None:
        super().__init__(parent, wanted, _TEXTS, MixChart)
