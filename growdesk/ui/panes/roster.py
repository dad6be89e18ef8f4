"""Show all plants of the collection in one table: found, filtered, sorted, selected.

The pane knows lines and views and no service; what a person asks for goes out as
signals.
"""

from __future__ import annotations

from itertools import chain, groupby
from typing import TYPE_CHECKING

from msgspec.structs import replace
from PySide6.QtCore import (
    QItemSelection,
    QItemSelectionModel,
    QModelIndex,
    QPoint,
    QSignalBlocker,
    Qt,
    Signal,
)
from typing_extensions import override

from growdesk.services.view_starts import EVERYTHING, STARTS
from growdesk.ui import roster_words
from growdesk.ui.models.roster_model import ID_ROLE
from growdesk.ui.roster_arrangement import Arrangement
from growdesk.ui.widgets.roster_page import RosterPage

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence
    from datetime import date

    from PySide6.QtWidgets import QWidget

    from growdesk.domain.facts import Verdict
    from growdesk.services.roster_values import RosterLine, SavedView
    from growdesk.ui.roster_columns import Entry

_ROWS = QItemSelectionModel.SelectionFlag.Rows


class RosterPane(RosterPage):
    """The table of all plants with its view, its find and its filters."""

    plant_chosen = Signal(int)
    change_wanted = Signal()
    told = Signal(str)

    def __init__(self) -> None:
        super().__init__()
        self.views: tuple[SavedView, ...] = STARTS
        self.arrangement = Arrangement()
        self._chosen: int | None = None
        self._wanted: int | None = None
        self._is_read = False
        self._offer_views()
        self._connect()
        self.table.like(self.arrangement.liked.widths)
        self._arrange()

    # -- what the window asks -------------------------------------------------------

    @property
    def chosen(self) -> int | None:
        """Give the plant the cursor is on; none where the table shows none."""
        return self._chosen if self.model.row_of(self._chosen) >= 0 else None

    def picked(self) -> tuple[RosterLine, ...]:
        """Give the selected plants in the order they stand in."""
        return tuple(entry.line for entry in self.picked_entries())

    def picked_entries(self) -> tuple[Entry, ...]:
        """Give the selected rows in the order they stand in."""
        return tuple(map(self.model.entry, self._picked_rows()))

    def show_plants(
        self, lines: Sequence[RosterLine], verdicts: Mapping[int, Verdict], on: date
    ) -> None:
        """Show the plants of a day; cursor and selection stay on their plants."""
        kept = self._picked_ids()
        if self._wanted is not None:
            self._chosen, kept = self._wanted, [self._wanted]
        self.filters.show_lines(lines)
        is_other = self.model.show(lines, verdicts, on)
        if is_other or self._wanted is not None:
            self._after(kept)
        self._wanted = None
        self._is_read = True
        had_focus = self.table.hasFocus()
        self._tell()
        if had_focus and not self.model.rowCount():
            self.focus_table()

    def know_notes(self, noted: Mapping[int, str]) -> None:
        """Find in what was noted at looks too; cursor and selection stay."""
        kept = self._picked_ids()
        if self.model.know_notes(noted):
            self._after(kept)
        self._tell()

    def show_views(self, views: Sequence[SavedView]) -> None:
        """Offer the views; one that is gone gives way to all plants."""
        base = self.arrangement.base
        self.views = tuple(views)
        self._offer_views()
        now = next((each for each in views if _is_same(each, base)), None)
        if now is None:
            self.take(STARTS[0])
        elif now != base:
            self.take(now)
        else:
            self._show_chosen_view()

    def take(self, view: SavedView) -> None:
        """Show a view as it is kept."""
        if view.problem:
            self.told.emit(view.problem)
        self.arrangement.take(view)
        self._show_chosen_view()
        quiet = QSignalBlocker(self.find_line)
        self.find_line.setText(view.draft.find)
        quiet.unblock()
        self.filters.show_view(view.draft)
        self._arrange()

    def go_to(self, plant_id: int | None) -> None:
        """Put the cursor on a plant, where it is shown."""
        if self.model.row_of(plant_id) >= 0 and plant_id != self.chosen:
            self._chosen = plant_id
            self._after(() if plant_id is None else (plant_id,))

    def choose_next(self, plant_id: int) -> None:
        """Put the cursor on a plant when the plants are shown next."""
        self._wanted = plant_id

    def focus_table(self) -> None:
        """Put the focus on the table, or on what is in its place."""
        held: QWidget = self.table if self.model.rowCount() else self.find_line
        if not self.model.lines:
            held = self.first if self._is_read else self.table
        held.setFocus(Qt.FocusReason.ShortcutFocusReason)

    def focus_find(self) -> None:
        """Let the grower type into the find."""
        self.find_line.setFocus(Qt.FocusReason.ShortcutFocusReason)
        self.find_line.selectAll()

    @override
    def clear(self) -> None:
        """Take find and filters off, and go back to the table."""
        quiet = QSignalBlocker(self.find_line)
        self.find_line.clear()
        quiet.unblock()
        self.filters.show_view(EVERYTHING)
        view = self.filters.taken(self.arrangement.view)
        self.arrangement.view = replace(view, find="")
        self._arrange()
        self.focus_table()

    def lay_out_as(
        self, columns: Sequence[str], order: str, *, downwards: bool
    ) -> None:
        """Show other columns, sorted by one of them."""
        self.arrangement.lay_columns(columns)
        self.arrangement.sort_by(order, downwards=downwards)
        self._arrange()

    def sort_by(self, key: str) -> None:
        """Sort by a column; where it is sorted so already, the other way round."""
        if key:
            self.arrangement.sort_by(key)
            self._arrange()

    def refresh_colours(self) -> None:
        """Draw the table again in the scheme now in force."""
        self.table.viewport().update()

    # -- reacting -------------------------------------------------------------------

    def _connect(self) -> None:
        table = self.table
        table.typed.connect(self.find_line.begin)
        table.opened.connect(self.change_wanted)
        table.doubleClicked.connect(lambda _index: self.change_wanted.emit())
        table.cleared.connect(self.find_line.clear)
        table.sorted_by.connect(self.sort_by)
        table.reordered.connect(self._reordered)
        table.widened.connect(self.arrangement.widen)
        table.customContextMenuRequested.connect(self._show_menu)
        selection = table.selectionModel()
        selection.currentRowChanged.connect(self._current_changed)
        selection.selectionChanged.connect(lambda *_both: self._count())
        self.find_line.textChanged.connect(self._find_typed)
        self.find_line.entered.connect(self.focus_table)
        self.find_line.left_empty.connect(self.focus_table)
        self.filters.changed.connect(self._filters_changed)
        self.chooser.activated.connect(self._view_chosen)

    def _find_typed(self, typed: str) -> None:
        kept = self._picked_ids()
        now = self.arrangement
        now.view = replace(now.view, find=typed)
        self.model.find(now.effective())
        self._after(kept)
        self._tell()

    def _filters_changed(self) -> None:
        self.arrangement.view = self.filters.taken(self.arrangement.view)
        self._arrange()

    def _reordered(self, columns: tuple[str, ...]) -> None:
        self.arrangement.lay_columns(columns)
        self._arrange()

    def _view_chosen(self, row: int) -> None:
        self.take(self.views[self.chooser.itemData(row)])

    def _arrange(self) -> None:
        """Show the view as it stands now."""
        kept, now = self._picked_ids(), self.arrangement
        self.model.arrange(now.effective(), now.columns)
        order, downwards = now.order
        self.table.show_order(order, downwards=downwards)
        self.table.fit()
        self._after(kept)
        self._tell()

    def _after(self, kept: Sequence[int]) -> None:
        """Put cursor and selection back on their plants, else on the first."""
        if not self.model.rowCount():
            return
        here = max(self.model.row_of(self._chosen), 0)
        column = max(self.table.currentIndex().column(), 0)
        index = self.model.index(here, min(column, self.model.columnCount() - 1))
        selection, flag = self.table.selectionModel(), QItemSelectionModel.SelectionFlag
        selection.setCurrentIndex(index, flag.NoUpdate)
        rows = self.model.rows_of(kept)
        wanted = QItemSelection()
        for first, last in _runs(rows or [here]):
            wanted.select(self.model.index(first, 0), self.model.index(last, 0))
        selection.select(wanted, flag.ClearAndSelect | _ROWS)
        self.table.scrollTo(index)

    def _picked_rows(self) -> list[int]:
        """Give the selected rows by their ranges: Qt's own way asks for every cell."""
        held = self.table.selectionModel().selection()
        ranges = [held.at(number) for number in range(held.count())]
        rows = (range(each.top(), each.bottom() + 1) for each in ranges)
        return sorted(set(chain.from_iterable(rows)))

    def _picked_ids(self) -> list[int]:
        return [line.plant_id for line in self.picked()]

    def _tell(self) -> None:
        """Say what is shown, or why nothing is."""
        self._count()
        nothing = ""
        if self.model.lines and not self.model.rowCount():
            elsewhere, named = self.model.held_elsewhere(), self.filters.named()
            view = self.arrangement.view
            nothing = roster_words.nothing_line(view, named, elsewhere)
        has_plants = bool(self.model.lines) or not self._is_read
        self.show_part(has_plants=has_plants, nothing=nothing)

    def _count(self) -> None:
        model, picked = self.model, len(self._picked_rows())
        shown = model.rowCount()
        said = roster_words.count_line(shown, model.among, model.flowers, picked)
        self.count.setText(said)
        self.table.setAccessibleDescription(said)

    def _current_changed(self, now: QModelIndex, _before: QModelIndex) -> None:
        plant_id = now.data(ID_ROLE)
        if isinstance(plant_id, int) and plant_id != self._chosen:
            self._chosen = plant_id
            self.plant_chosen.emit(plant_id)

    def _show_menu(self, where: QPoint) -> None:
        if self.table.indexAt(where).isValid():
            self.menu.popup(self.table.viewport().mapToGlobal(where))

    def _offer_views(self) -> None:
        self.chooser.clear()
        for number, each in enumerate(self.views):
            if number == len(STARTS):
                self.chooser.insertSeparator(number)
            self.chooser.addItem(each.title, number)

    def _show_chosen_view(self) -> None:
        number = self.views.index(self.arrangement.base)
        self.chooser.setCurrentIndex(self.chooser.findData(number))


def _is_same(one: SavedView, other: SavedView) -> bool:
    if one.view_id is None:
        return one == other
    return one.view_id == other.view_id


def _runs(rows: Sequence[int]) -> Iterator[tuple[int, int]]:
    """Give rows that follow one another as the first and the last of them."""
    for _, run in groupby(enumerate(rows), key=lambda pair: pair[1] - pair[0]):
        standing = [row for _, row in run]
        yield standing[0], standing[-1]
