"""Show the year's jobs as an agenda, narrowed by sort, place and find.

The pane knows lines and no service; what a person asks for goes out as signals.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct
from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QVBoxLayout

from growdesk.domain.job_templates import SORTS
from growdesk.domain.speech import tr
from growdesk.ui import calendar_folds, calendar_words
from growdesk.ui.models.calendar_model import CalendarModel, Filter
from growdesk.ui.widgets.calendar_list import CalendarList
from growdesk.ui.widgets.find_line import FindLine
from growdesk.ui.widgets.fitted_combo import FittedCombo
from growdesk.ui.widgets.month_strip import MonthStrip
from growdesk.ui.widgets.parts import enlarge, label, short_label

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

    from growdesk.services.calendar_values import JobLine, JobRef


class Plant(Struct, frozen=True):
    """The plant of a job, as commands take it."""

    plant_id: int
    tag: str
    name: str


class CalendarPane(QFrame):
    """The agenda with its filters and the strip of weeks."""

    plant_chosen = Signal(int)
    plant_opened = Signal(int)
    tick_wanted = Signal(object)
    let_go_wanted = Signal(object)

    def __init__(self) -> None:
        super().__init__()
        self.setProperty("pane", "true")
        self.setAccessibleName(tr("The calendar"))
        self.model = CalendarModel()
        self.list = CalendarList(self.model)
        self.strip = MonthStrip()
        self.filter = FindLine()
        self.filter.setPlaceholderText(tr("Find by tag, name, place, job"))
        self.sorts = FittedCombo(6)
        self.sorts.setAccessibleName(tr("Sort of job"))
        self.places = FittedCombo(6)
        self.places.setAccessibleName(tr("Place"))
        self.title = short_label(tr("Calendar"))
        enlarge(self.title, 1.12, strong=True)
        self.told = short_label("", tone="muted")
        self.nothing = label(tr(calendar_words.READING), tone="muted")
        self._on: JobRef | None = None
        self._lay_out()
        self._fill_sorts()
        self._connect()

    def show_jobs(self, lines: Sequence[JobLine] | None, today: date) -> None:
        """Show the jobs as known today; the cursor stays on its job, or near it."""
        row = self.list.currentIndex().row()
        self.model.show(lines, today)
        self._fill_places()
        known = lines or ()
        self.strip.show_weeks(calendar_words.weeks(known, today))
        self.told.setText("" if lines is None else calendar_words.told(known, today))
        self._after(row)

    @property
    def chosen(self) -> int | None:
        """Give the plant of the job that the cursor is on."""
        line = self.list.line
        return None if line is None else line.plant_id

    def picked(self) -> tuple[Plant, ...]:
        """Give the plant of the job that the cursor is on, if it has one."""
        line = self.list.line
        if line is None or line.plant_id is None:
            return ()
        return (Plant(line.plant_id, line.tag, line.name),)

    def focus_list(self) -> None:
        """Put the focus on the agenda, or on the find where it hides all."""
        hides_all = self.filter.text() and not self.model.rows
        held = self.filter if hides_all else self.list
        held.setFocus(Qt.FocusReason.ShortcutFocusReason)
        if not hides_all and self.list.line is None:
            self.list.put_cursor(0)

    def focus_filter(self) -> None:
        """Let the grower type into the find."""
        self.filter.setFocus(Qt.FocusReason.ShortcutFocusReason)
        self.filter.selectAll()

    def refresh_colours(self) -> None:
        """Draw anew in the scheme now in force."""
        self.list.viewport().update()
        self.strip.update()

    def go_to_week(self, begins: date) -> None:
        """Put the cursor on the first job from a week on."""
        rows = enumerate(self.model.rows)
        found = (n for n, _row in rows if self._begins_from(n, begins))
        row = next(found, -1)
        if row >= 0:
            self.list.put_cursor(row)
            self.list.setFocus(Qt.FocusReason.OtherFocusReason)

    def _begins_from(self, row: int, begins: date) -> bool:
        line = self.model.line_at(row)
        return line is not None and not line.forecast and line.on >= begins

    def _lay_out(self) -> None:
        name = QLabel(tr("F&ind"))
        name.setBuddy(self.filter)
        top = QHBoxLayout()
        top.setContentsMargins(14, 10, 14, 2)
        top.setSpacing(10)
        top.addWidget(self.title)
        top.addWidget(self.told)
        top.addStretch(1)
        narrow = QHBoxLayout()
        narrow.setContentsMargins(14, 2, 14, 4)
        narrow.setSpacing(8)
        narrow.addWidget(self.sorts, 2)
        narrow.addWidget(self.places, 3)
        narrow.addWidget(name)
        narrow.addWidget(self.filter, 4)
        self.nothing.setContentsMargins(14, 14, 14, 0)
        outer = QVBoxLayout(self)
        outer.setContentsMargins(1, 0, 1, 8)
        outer.setSpacing(2)
        outer.addLayout(top)
        outer.addWidget(self.strip)
        outer.addLayout(narrow)
        outer.addWidget(self.nothing)
        outer.addWidget(self.list, 1)

    def _fill_sorts(self) -> None:
        self.sorts.addItem(tr(calendar_words.EVERY_SORT), None)
        for sort, word in SORTS.items():
            self.sorts.addItem(word, sort)

    def _fill_places(self) -> None:
        """Offer the places that have jobs; the one chosen stays offered."""
        chosen = self.places.currentData() or ""
        names = {line.place for line in self.model.lines or () if line.place}
        wanted = ["", *sorted({*names, *filter(None, (chosen,))}, key=str.casefold)]
        there = [self.places.itemData(n) for n in range(self.places.count())]
        if wanted == there:
            return
        self.places.blockSignals(True)  # noqa: FBT003 -- Qt's own
        self.places.clear()
        for name in wanted:
            self.places.addItem(name or tr(calendar_words.EVERY_PLACE), name)
        self.places.setCurrentIndex(wanted.index(chosen))
        self.places.blockSignals(False)  # noqa: FBT003 -- Qt's own

    def _connect(self) -> None:
        self.list.moved.connect(self._moved)
        self.list.opened.connect(self._opened)
        self.list.ticked.connect(self._ticked)
        self.list.let_go.connect(self._let_go)
        self.list.typed.connect(self.filter.begin)
        self.filter.textChanged.connect(self._narrow)
        self.filter.entered.connect(self.focus_list)
        self.filter.left_empty.connect(self.focus_list)
        self.sorts.currentIndexChanged.connect(self._narrow)
        self.places.currentIndexChanged.connect(self._narrow)
        self.strip.week_wanted.connect(self.go_to_week)

    def _narrow(self) -> None:
        row = self.list.currentIndex().row()
        self.model.narrow(
            Filter(
                self.sorts.currentData(),
                self.places.currentData() or "",
                self.filter.text(),
            )
        )
        self._after(row)

    def _after(self, row: int) -> None:
        """Say why nothing is in sight, or put the cursor back on its job."""
        is_empty = not self.model.rows
        self.nothing.setVisible(is_empty)
        self.list.setVisible(not is_empty)
        if is_empty:
            self.nothing.setText(self._why_empty())
            return
        found = self.model.row_of(self._on)
        self.list.put_cursor(found if found >= 0 else row)

    def _why_empty(self) -> str:
        if self.model.lines is None:
            return tr(calendar_words.READING)
        if not self.model.lines:
            return tr(calendar_words.NOTHING)
        if self.filter.text():
            return tr("No job has “{text}” in its line.").format(
                text=self.filter.text()
            )
        return tr("No job is of this sort at this place.")

    def _moved(self, line: JobLine) -> None:
        self._on = line.ref
        if line.plant_id is not None:
            self.plant_chosen.emit(line.plant_id)

    def _opened(self, line: JobLine) -> None:
        if line.plant_id is not None:
            self.plant_opened.emit(line.plant_id)
        else:
            self._unfold(line)

    def _ticked(self, line: JobLine) -> None:
        if not self._unfold(line):
            self.tick_wanted.emit(line)

    def _let_go(self, line: JobLine) -> None:
        if not self._unfold(line):
            self.let_go_wanted.emit(line)

    def _unfold(self, line: JobLine) -> bool:
        """Show each of the looks that a line stands for; tell whether it does."""
        if line.ref.key != calendar_folds.LOOKS:
            return False
        row = self.list.currentIndex().row()
        self.model.unfold(line.on)
        self.list.put_cursor(row)
        return True
