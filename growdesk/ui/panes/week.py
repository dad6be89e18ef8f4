"""Show the week: every plant on every watering day, and let a cell be opened.

The pane knows a ``WeekView`` and nothing of services; what a person asks for goes out
as signals.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QItemSelectionModel, QModelIndex, Qt, Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QVBoxLayout
from typing_extensions import override

from growdesk.domain.speech import tr
from growdesk.ui import week_words
from growdesk.ui.models.week_model import WeekModel
from growdesk.ui.widgets.find_line import FindLine
from growdesk.ui.widgets.parts import enlarge, label, out_of_sight
from growdesk.ui.widgets.week_table import WeekTable

if TYPE_CHECKING:
    from PySide6.QtGui import QShowEvent

    from growdesk.services.week_values import WeekView


class WeekPane(QFrame):
    """The week's table with its filter."""

    plant_chosen = Signal(int)
    day_wanted = Signal(object, int)

    def __init__(self) -> None:
        super().__init__()
        self.setProperty("pane", "true")
        self.setAccessibleName(tr("The week"))
        self.model = WeekModel()
        self.table = WeekTable(self.model)
        self.filter = FindLine()
        self.title = label("")
        enlarge(self.title, 1.12, strong=True)
        self._nothing = label("", tone="muted")
        self._chosen: int | None = None
        self._later: list[WeekView | None] = []
        self._lay_out()
        self._connect()

    def show_week(self, view: WeekView | None) -> None:
        """Show a week; the cursor stays on its plant and its day.

        Out of sight it is kept until the pane is shown.
        """
        if out_of_sight(self):
            self._later = [view]
            return
        self._later = []
        column = self.table.currentIndex().column()
        self.model.show(view)
        self.title.setText("" if view is None else week_words.title(view))
        self._after(column)

    def go_to(self, plant_id: int) -> None:
        """Put the cursor on a plant, in the column it stands in, else today's."""
        self._chosen = plant_id
        row = self.model.row_of(plant_id)
        if row >= 0 and row != self.table.currentIndex().row():
            self._put_cursor(row, self.table.currentIndex().column())

    def focus_table(self) -> None:
        """Put the focus on the table, or on the filter where it hides all."""
        hides_all = self.filter.text() and not self.model.rows
        held = self.filter if hides_all else self.table
        held.setFocus(Qt.FocusReason.ShortcutFocusReason)

    def focus_filter(self) -> None:
        """Let the grower type into the filter."""
        self.filter.setFocus(Qt.FocusReason.ShortcutFocusReason)
        self.filter.selectAll()

    def refresh_colours(self) -> None:
        """Draw the table again in the scheme now in force."""
        for each in (
            self.table,
            self.table.verticalHeader(),
            self.table.horizontalHeader(),
        ):
            each.viewport().update()

    @override
    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        for view in self._later:
            self.show_week(view)

    def _lay_out(self) -> None:
        name = QLabel(tr("F&ind"))
        name.setBuddy(self.filter)
        top = QHBoxLayout()
        top.setContentsMargins(14, 10, 14, 6)
        top.setSpacing(10)
        top.addWidget(self.title)
        top.addSpacing(8)
        top.addWidget(name)
        top.addWidget(self.filter, 1)
        self._nothing.setContentsMargins(14, 14, 14, 0)
        outer = QVBoxLayout(self)
        outer.setContentsMargins(1, 0, 1, 8)
        outer.setSpacing(0)
        outer.addLayout(top)
        outer.addWidget(self._nothing)
        outer.addWidget(self.table, 1)

    def _connect(self) -> None:
        self.table.selectionModel().currentChanged.connect(self._current_changed)
        self.table.opened.connect(self._open)
        self.table.verticalHeader().sectionClicked.connect(self._row_clicked)
        self.table.typed.connect(self.filter.begin)
        self.filter.textChanged.connect(self._filter_typed)
        self.filter.entered.connect(self.focus_table)
        self.filter.left_empty.connect(self.focus_table)

    def _filter_typed(self, typed: str) -> None:
        column = self.table.currentIndex().column()
        self.model.filter_by(typed)
        self._after(column)

    def _after(self, column: int) -> None:
        """Size the rows and put the cursor back on its plant."""
        self.table.fit()
        is_empty = not self.model.rows
        self._nothing.setVisible(is_empty)
        self._nothing.setText(
            tr("No plant of this week has “{text}” in its line.").format(
                text=self.filter.text()
            )
            if self.filter.text()
            else tr("The week is being judged…")
        )
        row = -1 if self._chosen is None else self.model.row_of(self._chosen)
        if row >= 0 and not self.table.currentIndex().isValid():
            self._put_cursor(row, column)

    def _put_cursor(self, row: int, column: int) -> None:
        count = len(self.model.days)
        if not 0 <= column < count:
            near = (n for n, day in enumerate(self.model.days) if not day.is_past)
            column = next(near, count - 1)
        index = self.model.index(row, column)
        flag = QItemSelectionModel.SelectionFlag.ClearAndSelect
        self.table.selectionModel().setCurrentIndex(index, flag)
        self.table.scrollTo(index)

    def _row_clicked(self, row: int) -> None:
        if self.model.line_at(row) is not None:
            self._put_cursor(row, self.table.currentIndex().column())

    def _current_changed(self, now: QModelIndex, _before: QModelIndex) -> None:
        line = self.model.line_at(now.row())
        if line is None or line.plant_id == self._chosen:
            return  # the cursor only follows the plant that is shown already
        self._chosen = line.plant_id
        self.plant_chosen.emit(line.plant_id)

    def _open(self, index: QModelIndex) -> None:
        line, cell = self.model.line_at(index.row()), self.model.cell_at(index)
        if line is not None and cell is not None:
            self.day_wanted.emit(cell.on, line.plant_id)
