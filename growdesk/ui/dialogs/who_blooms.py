"""Show who blooms when through the year, which may begin with any month."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QComboBox, QHBoxLayout, QLabel
from typing_extensions import override

from growdesk.domain.day_words import MONTHS
from growdesk.domain.speech import mark, tr
from growdesk.services.bloom_values import WhoBlooms
from growdesk.ui.charts.asking import Wanted, Which
from growdesk.ui.dialogs.chart import ChartDialog, ChartTexts
from growdesk.ui.preferences import kept_number, preferences
from growdesk.ui.widgets.form import choose

if TYPE_CHECKING:
    from datetime import date

    from PySide6.QtWidgets import QVBoxLayout, QWidget

BEGINS = "bloom-year-begins"
AS_HOUSE = 0
_TEXTS = ChartTexts(
    mark("Who blooms when"),
    mark("Drawing who blooms when…"),
    mark("Who blooms when could not be drawn: it could not be read."),
    mark("Who blooms when, in words"),
)


class WhoBloomsDialog(ChartDialog):
    """Who blooms when; the month that it begins with is kept."""

    again_wanted = Signal(object)

    def __init__(self, parent: QWidget | None, on: date) -> None:
        wanted = Wanted(Which.BLOOMS, _kept_month(), on)
        super().__init__(parent, wanted, _TEXTS, WhoBlooms)

    @override
    def add_head(self, outer: QVBoxLayout) -> None:
        self.begins = QComboBox()
        self.begins.setAccessibleName(tr("The year begins with"))
        self.begins.addItem(tr("as the house lies"), AS_HOUSE)
        for number, named in enumerate(MONTHS, 1):
            self.begins.addItem(named, number)
        choose(self.begins, _kept_month())
        name = QLabel(tr("The year &begins with"))
        name.setBuddy(self.begins)
        row = QHBoxLayout()
        row.addWidget(name)
        row.addWidget(self.begins)
        row.addStretch(1)
        outer.addLayout(row)
        self.begins.currentIndexChanged.connect(lambda _row: self._begin_anew())

    def _begin_anew(self) -> None:
        month = int(self.begins.currentData())
        preferences().setValue(BEGINS, month)
        self.wanted = Wanted(Which.BLOOMS, month, self.wanted.on)
        self.again_wanted.emit(self.wanted)


def _kept_month() -> int:
    """Give the month that was chosen last; 0 is as the house lies."""
    kept = kept_number(BEGINS, AS_HOUSE)
    return kept if kept <= 12 else AS_HOUSE
