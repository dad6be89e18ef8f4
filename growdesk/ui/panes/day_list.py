"""Show the plants of the watering day, grouped by verdict, and take ticks.

The pane knows lines and nothing of services; what a person asks for goes out as
signals with plant ids.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QItemSelectionModel, QModelIndex, QPoint, Qt, Signal
from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QLabel,
    QMenu,
    QStackedLayout,
    QVBoxLayout,
    QWidget,
)
from typing_extensions import override

from growdesk.domain.speech import tr
from growdesk.services.values import Unjudged
from growdesk.ui.day_columns import Place, can_tick
from growdesk.ui.dropping import DropZone, Spot
from growdesk.ui.models.day_model import ID_ROLE, DayModel
from growdesk.ui.widgets import focus
from growdesk.ui.widgets.day_table import DayTable
from growdesk.ui.widgets.find_line import FindLine
from growdesk.ui.widgets.first_steps import FirstSteps, StepsLeft
from growdesk.ui.widgets.looks_first import LooksFirst
from growdesk.ui.widgets.parts import button, label, scrolled

if TYPE_CHECKING:
    from datetime import date

    from PySide6.QtGui import QResizeEvent

    from growdesk.services.values import DayBegun, DayView, Line


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
        self.setAccessibleName(tr("Plants of the watering day"))
        self.model = DayModel()
        self.menu = QMenu(self)
        self.table = DayTable(self.model)
        self.filter = FindLine()
        self.steps = FirstSteps()
        self.left = StepsLeft()
        self.looks = LooksFirst()
        self._nothing = label("", tone="muted")
        self._stack = QStackedLayout()
        self._chosen: int | None = None
        self.photos = DropZone(self.table.viewport(), self._drop_spot)
        self._wanted: int | None = None
        self._lay_out()
        self._connect()

    # -- what the window asks -------------------------------------------------------

    @property
    def chosen(self) -> int | None:
        """Give the plant the cursor is on."""
        return self._chosen

    def selected(self) -> tuple[Line | Unjudged, ...]:
        """Give the selected lines, or the line the cursor is on."""
        rows = [index.row() for index in self.table.selectionModel().selectedRows()]
        return self.model.lines_at(rows)

    def show_day(self, view: DayView, today: date) -> None:
        """Show a day; the cursor and the selection stay on their plants."""
        kept = [line.plant_id for line in self.selected()]
        if self._wanted is not None:
            kept = [self._wanted]
        is_reset = self.model.show(view.lines, is_open=view.on <= today)
        if is_reset or self._wanted is not None:
            self._after_reset(kept)
        if self._wanted is not None and self.model.row_of(self._wanted) >= 0:
            self._wanted = None
        self.table.fit_columns()
        had_steps = bool(self.steps.buttons)
        self._choose_page(is_empty=not view.lines)
        self.steps.show_steps(view.setup if not view.lines else ())
        self.left.show_steps(view.setup if view.lines else ())
        self.looks.expect(has_plants=bool(view.lines))
        looks = (self.looks.head, self.looks.view)
        focus.chain(
            [
                self.filter,
                *self.left.buttons,
                *looks,
                self.table,
                *self.steps.buttons,
            ]
        )
        if had_steps and view.lines:
            self.table.setFocus()

    def show_begun(self, begun: DayBegun) -> None:
        """Show a day of which not all plants are judged yet.

        The cursor is on no plant until the grower puts it there, so that the whole day
        begins at its top.
        """
        kept = [line.plant_id for line in self.selected()]
        if self.model.show_begun(begun.lines):
            self.table.fit_rows()
            self.table.fit_columns()
            wanted = self._wanted or (self._chosen if kept else None)
            if wanted is not None:
                self._after_reset(kept, current=wanted)
        self._choose_page(is_empty=False)

    def unjudged_in_sight(self) -> tuple[int, ...]:
        """Give the plants that are seen and not judged yet, the chosen one first."""
        lines = self.model.lines_at(self.table.in_sight())
        seen = [each.plant_id for each in lines if isinstance(each, Unjudged)]
        return tuple(seen if self._chosen is None else [self._chosen, *seen])

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

    def focus_list(self) -> None:
        """Put the focus on what is in sight: the list, the steps, or the filter."""
        if self.model.rows:
            self.table.setFocus(Qt.FocusReason.ShortcutFocusReason)
        elif self.model.stands:
            self.filter.setFocus(Qt.FocusReason.ShortcutFocusReason)
        else:
            self.steps.take_focus()

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.looks.grow_within(event.size().height())

    # -- building -------------------------------------------------------------------

    def _connect(self) -> None:
        table = self.table
        table.customContextMenuRequested.connect(self._show_menu)
        table.clicked.connect(self._clicked)
        table.doubleClicked.connect(lambda _index: self.look_wanted.emit())
        table.typed.connect(self.filter.begin)
        table.selectionModel().currentRowChanged.connect(self._current_changed)
        self.filter.textChanged.connect(self._filter_typed)
        self.filter.entered.connect(self.focus_list)
        self.filter.left_empty.connect(self.focus_list)
        self.steps.wanted.connect(self.step_wanted)
        self.left.wanted.connect(self.step_wanted)
        self.looks.plant_chosen.connect(self.go_to)
        self.looks.left.connect(self.focus_list)

    def _lay_out(self) -> None:
        name = QLabel(tr("F&ind"))
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
        inner.addWidget(button(tr("Clear the filter"), self._clear_filter))
        inner.addStretch(1)
        outer = QVBoxLayout(self)
        outer.setContentsMargins(1, 0, 1, 10)
        outer.setSpacing(0)
        outer.addLayout(top)
        outer.addWidget(self.left)
        outer.addWidget(self.looks)
        outer.addLayout(self._stack, 1)  # first: it shows what it is given
        for page in (self.table, scrolled(self.steps, tr("To begin with")), nothing):
            self._stack.addWidget(page)
        self._search_row = (name, self.filter)

    # -- reacting -------------------------------------------------------------------

    def _drop_spot(self, at: QPoint) -> Spot | None:
        """Give the plant whose line is under a point of the list."""
        index = self.table.indexAt(at)
        lines = self.model.lines_at([index.row()]) if index.isValid() else ()
        if not lines:
            return None
        (line,) = lines
        rect = self.table.visualRect(index)
        rect.setLeft(0)
        rect.setRight(self.table.viewport().width() - 1)
        return Spot(
            line.plant_id, tr("Add to the photos of {tag}").format(tag=line.tag), rect
        )

    def _choose_page(self, *, is_empty: bool) -> None:
        for part in self._search_row:
            part.setVisible(not is_empty)
        if is_empty:
            self._stack.setCurrentIndex(1)
        elif not self.model.rows:
            said = (
                tr(
                    "No plant has “{typed}” in its name, tag or place. Verdicts are "
                    "found once all are judged."
                )
                if self.model.is_begun
                else tr("No plant of this day has “{typed}” in its line.")
            )
            self._nothing.setText(said.format(typed=self.filter.text()))
            self._stack.setCurrentIndex(2)
        else:
            self._stack.setCurrentIndex(0)

    def _clear_filter(self) -> None:
        self.filter.clear()
        self.focus_list()

    def _filter_typed(self, typed: str) -> None:
        kept = [line.plant_id for line in self.selected()]
        self.model.filter_by(typed)
        self._after_reset(kept)
        self._choose_page(is_empty=not self.model.stands)

    def _after_reset(self, kept: list[int], current: int | None = None) -> None:
        """Size the rows, and put cursor and selection back."""
        self.table.fit_rows()
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
            if isinstance(line, Unjudged):
                continue
            if line.done is not None:
                self.untick_wanted.emit((line.plant_id,))
            elif can_tick(line) and self.model.is_open:
                self.tick_wanted.emit((line.plant_id,))

    def _show_menu(self, where: QPoint) -> None:
        if self.model.lines_at([self.table.indexAt(where).row()]):
            self.menu.popup(self.table.viewport().mapToGlobal(where))
