"""Show what the meter read in past jugs, the newest first, to be put right."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QDialogButtonBox, QVBoxLayout, QWidget

from growdesk.ui import meter_texts
from growdesk.ui.dialogs.on_screen import OnScreen
from growdesk.ui.widgets.parts import button, label
from growdesk.ui.widgets.told_table import ToldTable

if TYPE_CHECKING:
    from collections.abc import Sequence

    from growdesk.services.meter_values import MeterView

NOTHING = "No meter reading is on record yet. Read a jug once it is mixed and stirred."
NOTE = "What was to be expected stays as it was on the day. EC in mS/cm."


class MeterReadingsDialog(OnScreen):
    """The meter readings of a collection."""

    change_wanted = Signal(object)
    remove_wanted = Signal(int)
    chart_wanted = Signal()

    def __init__(self, parent: QWidget | None, first: str = "") -> None:
        super().__init__(parent)
        self.setWindowTitle("Meter readings")
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self._views: tuple[MeterView, ...] = ()
        self.first = label(first)
        self.first.setVisible(bool(first))
        self.note = label(NOTHING, tone="muted")
        self.table = ToldTable(
            "What the meter read, newest first",
            meter_texts.COLUMNS,
            wide=(6,),
            numbers=(2, 3, 4),
        )
        self.change_button = button("Change…", self._change, "Enter on a reading")
        self.remove_button = button("Remove", self._remove, "It comes back by Undo")
        self.chart_button = button("&Over time…", self.chart_wanted.emit)
        self.message = label("", tone="muted")
        self.table.doubleClicked.connect(lambda _cell: self._change())
        self.table.activated.connect(lambda _cell: self._change())
        self._lay_out()
        self._offer()

    def show_readings(self, views: Sequence[MeterView]) -> None:
        """Show the readings there are."""
        self._views = tuple(views)
        self.note.setText(NOTE if views else NOTHING)
        self.table.show_rows([meter_texts.reading_texts(view) for view in views])
        self._offer()

    def say(self, text: str) -> None:
        """Say what was done, or why it was not."""
        self.message.setText(text)

    def _lay_out(self) -> None:
        foot = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
        for each in (self.change_button, self.remove_button, self.chart_button):
            foot.addButton(each, QDialogButtonBox.ButtonRole.ActionRole)
        foot.rejected.connect(self.accept)
        outer = QVBoxLayout(self)
        outer.setContentsMargins(18, 16, 18, 14)
        outer.setSpacing(10)
        outer.addWidget(self.first)
        outer.addWidget(self.note)
        outer.addWidget(self.table, 1)
        outer.addWidget(self.message)
        outer.addWidget(foot)
        self.resize(780, 420)

    def _offer(self) -> None:
        for each in (self.change_button, self.remove_button, self.chart_button):
            each.setEnabled(bool(self._views))

    def _chosen(self) -> MeterView | None:
        row = self.table.currentRow()
        return self._views[row] if 0 <= row < len(self._views) else None

    def _change(self) -> None:
        view = self._chosen()
        if view is not None:
            self.say("")
            self.change_wanted.emit(view)

    def _remove(self) -> None:
        view = self._chosen()
        if view is not None:
            self.remove_wanted.emit(view.reading_id)
