"""Show the plants of the watering day, grouped by verdict, and take ticks.

The pane knows lines and nothing of services; what a person asks for goes out as
signals with plant ids.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QItemSelectionModel, QModelIndex, QPoint, Qt, Signal
from PySide6.QtWidgets import (
    QAbstractItemView,
    QFrame,
    QHBoxLayout,
    QHeaderView,
    QLabel,
    QLineEdit,
    QMenu,
    QStackedLayout,
    QTableView,
    QVBoxLayout,
    QWidget,
)
from typing_extensions import override

from growdesk.ui.models.day_model import ID_ROLE, DayModel, Place, can_tick
from growdesk.ui.widgets.day_delegate import DayDelegate
from growdesk.ui.widgets.parts import button, label

if TYPE_CHECKING:
    from PySide6.QtGui import QResizeEvent

    from growdesk.services.values import DayView, Line, SetupStep

_STEP_BUTTON = {
    "latitude": "Set the latitude…",
    "water": "Say which water…",
    "tin": "Say what is in the tin…",
    "plant": "Add the first plant…",
}


class DayListPane(QFrame):
    """The list with its filter, or what to do first where it is empty."""

    plant_chosen = Signal(int)
    tick_wanted = Signal(object)
    untick_wanted = Signal(object)
    look_wanted = Signal()
    step_wanted = Signal(str)

    def __init__(self) -> None:
        super().__init__()
        self.setProperty("pane", "true")
        self.setAccessibleName("Plants of the watering day")
        self.model = DayModel()
        self.menu = QMenu(self)
        self.table = self._make_table()
        self.filter = QLineEdit()
        self._setup = QWidget()
        self._setup_column = QVBoxLayout(self._setup)
        self._nothing = label("", tone="muted")
        self._stack = QStackedLayout()
        self._chosen: int | None = None
        self._wanted: int | None = None
        self._lay_out()

    # -- what the window asks -------------------------------------------------------

    @property
    def chosen(self) -> int | None:
        """Give the plant the cursor is on."""
        return self._chosen

    def selected(self) -> tuple[Line, ...]:
        """Give the selected lines, or the line the cursor is on."""
        rows = [index.row() for index in self.table.selectionModel().selectedRows()]
        return self.model.lines_at(rows)

    def show_day(self, view: DayView) -> None:
        """Show a day; the cursor and the selection stay on their plants."""
        kept = [line.plant_id for line in self.selected()]
        if self._wanted is not None:
            kept = [self._wanted]
        self.model.show(view.lines)
        self._after_reset(kept)
        if self._wanted is not None and self.model.row_of(self._wanted) >= 0:
            self._wanted = None
        self._show_steps(view.setup if not view.lines else ())
        self._choose_page()

    def choose_next(self, plant_id: int) -> None:
        """Put the cursor on a plant when the next day is shown."""
        self._chosen = plant_id
        self._wanted = plant_id
        if self.model.row_of(plant_id) >= 0:
            self.go_to(plant_id)

    def go_to(self, plant_id: int) -> None:
        """Put the cursor on a plant; a filter that hides it is cleared."""
        if self.model.row_of(plant_id) < 0:
            self.filter.clear()
        self._after_reset([plant_id], current=plant_id)

    def focus_filter(self) -> None:
        """Let the grower type into the filter."""
        self.filter.setFocus(Qt.FocusReason.ShortcutFocusReason)
        self.filter.selectAll()

    # -- building -------------------------------------------------------------------

    def _make_table(self) -> QTableView:
        table = QTableView()
        table.setModel(self.model)
        table.setItemDelegate(DayDelegate(table))
        table.setAccessibleName("Plants of the watering day, grouped by verdict")
        table.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        table.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
        table.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        table.setShowGrid(False)
        table.setTabKeyNavigation(False)
        table.setWordWrap(False)
        table.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        table.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        table.verticalHeader().hide()
        table.horizontalHeader().hide()
        header = table.horizontalHeader()
        header.setMinimumSectionSize(30)
        header.setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        table.setContextMenuPolicy(Qt.ContextMenuPolicy.CustomContextMenu)
        table.customContextMenuRequested.connect(self._show_menu)
        table.clicked.connect(self._clicked)
        table.doubleClicked.connect(lambda _index: self.look_wanted.emit())
        selection = table.selectionModel()
        selection.currentRowChanged.connect(self._current_changed)
        return table

    def _lay_out(self) -> None:
        self.filter.setPlaceholderText("Find by tag, name, place, verdict")
        self.filter.setClearButtonEnabled(True)
        self.filter.setAccessibleName("Find in the list")
        self.filter.textChanged.connect(self._filter_typed)
        self.filter.returnPressed.connect(self.table.setFocus)
        name = QLabel("F&ind")
        name.setBuddy(self.filter)
        top = QHBoxLayout()
        top.setContentsMargins(14, 10, 14, 6)
        top.setSpacing(10)
        top.addWidget(name)
        top.addWidget(self.filter, 1)
        nothing = QWidget()
        inner = QVBoxLayout(nothing)
        inner.setContentsMargins(18, 18, 18, 18)
        inner.addWidget(self._nothing)
        inner.addWidget(button("Clear the filter", self.filter.clear))
        inner.addStretch(1)
        self._setup_column.setContentsMargins(22, 22, 22, 22)
        self._setup_column.setSpacing(10)
        for page in (self.table, self._setup, nothing):
            self._stack.addWidget(page)
        outer = QVBoxLayout(self)
        outer.setContentsMargins(1, 0, 1, 10)
        outer.setSpacing(0)
        outer.addLayout(top)
        outer.addLayout(self._stack, 1)
        self._search_row = (name, self.filter)

    def _show_steps(self, steps: tuple[SetupStep, ...]) -> None:
        while (item := self._setup_column.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None:
                widget.deleteLater()
        if not steps:
            return
        self._setup_column.addWidget(label("To begin with", scale=1.35))
        self._setup_column.addWidget(
            label("Four short things, then the first watering day stands here.")
        )
        default = True
        for step in steps:
            if step.done:
                self._setup_column.addWidget(label(f"✓  {step.text}", tone="muted"))
                continue
            self._setup_column.addWidget(label(step.text))
            text = _STEP_BUTTON.get(step.key, step.text)
            made = button(text, partial(self.step_wanted.emit, step.key))
            made.setAutoDefault(default)
            made.setDefault(default)
            self._setup_column.addWidget(made, 0, Qt.AlignmentFlag.AlignLeft)
            default = False
        self._setup_column.addStretch(1)

    # -- reacting -------------------------------------------------------------------

    def _choose_page(self) -> None:
        for part in self._search_row:
            part.setVisible(bool(self.model.lines))
        if not self.model.lines:
            self._stack.setCurrentIndex(1)
        elif not self.model.rows:
            typed = self.filter.text()
            self._nothing.setText(f"No plant of this day has “{typed}” in its line.")
            self._stack.setCurrentIndex(2)
        else:
            self._stack.setCurrentIndex(0)

    def _filter_typed(self, typed: str) -> None:
        kept = [line.plant_id for line in self.selected()]
        self.model.filter_by(typed)
        self._after_reset(kept)
        self._choose_page()

    def _after_reset(self, kept: list[int], current: int | None = None) -> None:
        """Span the headers, size the rows, and put cursor and selection back."""
        self._size_rows()
        wanted = current if current is not None else self._chosen
        row = self.model.row_of(wanted) if wanted is not None else -1
        if row < 0:
            row = next(iter(self._line_rows()), -1)
        if row < 0:
            return
        selection = self.table.selectionModel()
        rows = QItemSelectionModel.SelectionFlag.Rows
        flag = QItemSelectionModel.SelectionFlag.ClearAndSelect | rows
        index = self.model.index(row, Place.PLANT)
        selection.setCurrentIndex(index, flag)
        for plant_id in kept:
            other = self.model.row_of(plant_id)
            if other >= 0:
                selection.select(
                    self.model.index(other, 0),
                    QItemSelectionModel.SelectionFlag.Select | rows,
                )
        self.table.scrollTo(index)

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._size_columns()

    def _size_columns(self) -> None:
        """Give the names what room there is, the verdict a third of it."""
        unit = self.table.fontMetrics().horizontalAdvance("0")
        bar = self.table.verticalScrollBar().sizeHint().width()
        narrow = {Place.TICK: 40, Place.TAG: unit * 5 + 4, Place.STRENGTH: unit * 14}
        room = max(self.width() - bar - 2 - sum(narrow.values()), 240)
        verdict = min(max(round(room * 0.45), unit * 18), unit * 30)
        wide = {Place.VERDICT: verdict, Place.PLANT: room - verdict}
        for place, width in (narrow | wide).items():
            self.table.setColumnWidth(place, width)

    def _size_rows(self) -> None:
        self.table.clearSpans()
        height = self.table.fontMetrics().height()
        header = self.table.verticalHeader()
        header.setDefaultSectionSize(2 * height + 14)
        for row in self.model.head_rows():
            self.table.setSpan(row, 0, 1, self.model.columnCount())
            self.table.setRowHeight(row, height + 24)

    def _line_rows(self) -> list[int]:
        heads = set(self.model.head_rows())
        return [row for row in range(self.model.rowCount()) if row not in heads]

    def _current_changed(self, now: QModelIndex, _before: QModelIndex) -> None:
        plant_id = now.data(ID_ROLE)
        if isinstance(plant_id, int):
            self._chosen = plant_id
            self.plant_chosen.emit(plant_id)

    def _clicked(self, index: QModelIndex) -> None:
        if index.column() != Place.TICK:
            return
        for line in self.model.lines_at([index.row()]):
            if line.done is not None:
                self.untick_wanted.emit((line.plant_id,))
            elif can_tick(line):
                self.tick_wanted.emit((line.plant_id,))

    def _show_menu(self, where: QPoint) -> None:
        if self.model.lines_at([self.table.indexAt(where).row()]):
            self.menu.popup(self.table.viewport().mapToGlobal(where))
