"""Show what the meter read in past jugs, the newest first, to be put right."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QSize, Signal

from growdesk.domain.speech import mark, tr
from growdesk.ui import meter_texts
from growdesk.ui.dialogs.entry_list import EntryList
from growdesk.ui.widgets.parts import button
from growdesk.ui.widgets.told_table import ToldTable

if TYPE_CHECKING:
    from collections.abc import Sequence

    from PySide6.QtWidgets import QWidget

    from growdesk.services.meter_values import MeterView

NOTHING = mark(
    "No meter reading is on record yet. Read a jug once it is mixed and stirred."
)
NOTE = mark("What was to be expected stays as it was on the day. EC in mS/cm.")
_SIZE = QSize(780, 420)


class MeterReadingsDialog(EntryList):
    """The meter readings of a collection."""

    chart_wanted = Signal()

    def __init__(self, parent: QWidget | None, first: str = "") -> None:
        table = ToldTable(
            tr("What the meter read, newest first"),
            meter_texts.COLUMNS,
            wide=(6,),
            numbers=(2, 3, 4),
        )
        super().__init__(parent, tr("Meter readings"), table, tr("Enter on a reading"))
        self.first.setText(first)
        self.first.setVisible(bool(first))
        self.chart_button = button(tr("&Over time…"), self.chart_wanted.emit)
        self.lay_out(_SIZE, tr(NOTHING), tr(NOTE), self.chart_button)

    def show_readings(self, views: Sequence[MeterView]) -> None:
        """Show the readings there are."""
        self.show_rows(
            {view.reading_id: view for view in views},
            [meter_texts.reading_texts(view) for view in views],
        )
