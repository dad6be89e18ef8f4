"""Give the table of all plants to a view: a plant a row, the columns that were chosen.

What a column sorts by, what a find goes through and what a filter leaves are made once
for the plants shown; a key typed is one pass over texts that were folded before, and
one reset. The model asks no service for anything.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QPersistentModelIndex, Qt
from typing_extensions import override

from growdesk.domain.speech import tr
from growdesk.services.finding import Finder, folded
from growdesk.services.roster_filter import IN_FLOWER, kept, of
from growdesk.services.view_starts import EVERYTHING
from growdesk.ui import roster_columns, words
from growdesk.ui.roster_columns import BY_KEY, Entry, Orders
from growdesk.ui.tips import as_typed

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence
    from datetime import date

    from growdesk.domain.facts import Verdict
    from growdesk.services.roster_values import RosterLine, ViewDraft
    from growdesk.ui.roster_columns import Column

Index = QModelIndex | QPersistentModelIndex
ID_ROLE = Qt.ItemDataRole.UserRole + 1
_Known = tuple[Entry, str, bool]
"""A plant's row, what is said of its verdict for a find, and whether it flowers."""
_ROOT = QModelIndex()
_FEW = 3
"""So many plants are sought one by one among the rows, more by going through them."""
_SAID = frozenset(
    {
        ID_ROLE,
        Qt.ItemDataRole.DisplayRole,
        Qt.ItemDataRole.ToolTipRole,
        Qt.ItemDataRole.AccessibleTextRole,
        Qt.ItemDataRole.TextAlignmentRole,
    }
)


class RosterModel(QAbstractTableModel):
    """All plants on record, as one view shows them.

    Plants are known by their place among the entries, which stand as they are walked:
    ``_left`` are those that the filters leave, ``_order`` the same as they are sorted,
    ``_found`` what a find leaves of ``_left``, by place in it, ``_shown`` all that in
    the order of the rows.
    """

    def __init__(self) -> None:
        super().__init__()
        self.lines: tuple[RosterLine, ...] = ()
        self.view: ViewDraft = EVERYTHING
        self.columns: tuple[Column, ...] = roster_columns.chosen(roster_columns.USUAL)
        self.finder = Finder(())
        self.among = 0
        """How many plants the view is about before filters and find."""
        self.flowers = 0
        """How many of the rows are in flower."""
        self._on: date | None = None
        self._verdicts: Mapping[int, Verdict] = {}
        self._noted: Mapping[int, str] = {}
        self._entries: list[Entry] = []
        self._texts: list[str] = []
        self._known: dict[int, _Known] = {}
        self._in_flower: list[bool] = []
        self._orders = Orders(())
        self._everywhere: Finder | None = None
        self._filtered_by: object = None
        self._left: list[int] = []
        self._order: list[int] = []
        self._found: tuple[int, ...] = ()
        self._shown: list[int] = []
        self._at: dict[int, int] = {}

    # -- what the pane asks ---------------------------------------------------------

    @property
    def rows(self) -> tuple[Entry, ...]:
        """Give the rows as shown."""
        return tuple(map(self._entries.__getitem__, self._shown))

    def entry(self, row: int) -> Entry:
        """Give the plant of a row."""
        return self._entries[self._shown[row]]

    def show(
        self, lines: Sequence[RosterLine], verdicts: Mapping[int, Verdict], on: date
    ) -> bool:
        """Take the plants of a day; tell whether other rows stand there now."""
        before = self.rows
        self.lines, self._verdicts, self._on = tuple(lines), verdicts, on
        self._entries = roster_columns.walked(map(self._entry_of, self.lines))
        self._orders = Orders(self._entries)
        self._known = {e.line.plant_id: self._known_of(e) for e in self._entries}
        self._in_flower = [flowers for _, _, flowers in self._known.values()]
        self._at = {plant_id: at for at, plant_id in enumerate(self._known)}
        self._gather_texts()
        return self._arrange(before=before)

    def know_notes(self, noted: Mapping[int, str]) -> bool:
        """Take what was noted at looks, by plant; tell whether other rows stand."""
        if noted == self._noted:
            return False
        self._noted = noted
        self._gather_texts()
        return self._arrange()

    def arrange(self, view: ViewDraft, columns: Sequence[str]) -> None:
        """Take a view with its columns."""
        self.view = view
        self._arrange(roster_columns.chosen(columns))

    def find(self, view: ViewDraft) -> None:
        """Take a view that differs in its find alone."""
        self.view = view
        found = self.finder.find(view.find)
        if found != self._found:
            self._found = found
            self._reset(self._in_order(), self.columns)

    def row_of(self, plant_id: int | None) -> int:
        """Give the row of a plant, or -1 where it is not shown."""
        at = None if plant_id is None else self._at.get(plant_id)
        return -1 if at is None else self._row_at(at)

    def rows_of(self, plant_ids: Iterable[int]) -> list[int]:
        """Give the rows of those of some plants that are shown, from the top."""
        wanted = {at for each in plant_ids if (at := self._at.get(each)) is not None}
        if len(wanted) > _FEW:
            return [row for row, at in enumerate(self._shown) if at in wanted]
        return sorted(row for at in wanted if (row := self._row_at(at)) >= 0)

    def held_elsewhere(self) -> int:
        """Count the plants on record that hold the words and are not of the view."""
        if self._everywhere is None:
            self._everywhere = Finder(*self._found_in(range(len(self._entries))))
        holding = self._everywhere.find(self.view.find)
        return len(set(holding).difference(self._shown))

    # -- what Qt asks ---------------------------------------------------------------

    @override
    def rowCount(self, parent: Index = _ROOT) -> int:
        return 0 if parent.isValid() else len(self._shown)

    @override
    def columnCount(self, parent: Index = _ROOT) -> int:
        return 0 if parent.isValid() else len(self.columns)

    @override
    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        if role not in _SAID or not 0 <= index.row() < len(self._shown):
            return None
        entry, column = self.entry(index.row()), self.columns[index.column()]
        if role == Qt.ItemDataRole.TextAlignmentRole:
            return _side(column)
        if role == ID_ROLE:
            return entry.line.plant_id
        text = column.text(entry)
        if role == Qt.ItemDataRole.ToolTipRole:
            return as_typed(text)
        if role == Qt.ItemDataRole.AccessibleTextRole:
            return f"{column.title}: {text or tr(words.NOT_RECORDED)}"
        return text

    @override
    def headerData(
        self,
        section: int,
        orientation: Qt.Orientation,
        role: int = Qt.ItemDataRole.DisplayRole,
    ) -> object:
        if orientation is not Qt.Orientation.Horizontal:
            return None
        if not 0 <= section < len(self.columns):
            return None
        column = self.columns[section]
        if role == Qt.ItemDataRole.DisplayRole:
            return column.title
        if role == Qt.ItemDataRole.TextAlignmentRole:
            return _side(column)
        return None

    # -- what stands where ----------------------------------------------------------

    def _entry_of(self, line: RosterLine) -> Entry:
        """Give a plant's row: the very one of before where nothing of it differs."""
        verdict, known = (
            self._verdicts.get(line.plant_id),
            self._known.get(line.plant_id),
        )
        if known is not None:
            entry = known[0]
            if entry.line is line and entry.verdict is verdict:
                return entry
        return Entry(line, verdict)

    def _known_of(self, entry: Entry) -> _Known:
        known = self._known.get(entry.line.plant_id)
        if known is not None and known[0] is entry:
            return known
        said = folded(BY_KEY["verdict"].text(entry))
        return entry, said, entry.line.flowering in IN_FLOWER

    def _gather_texts(self) -> None:
        """Put together what a find goes through: a plant's own text and its notes."""
        noted = self._noted
        self._filtered_by = self._everywhere = None
        self._texts = [each.line.found_by for each in self._entries]
        if not noted:
            return
        for at, each in enumerate(self._entries):
            if notes := noted.get(each.line.plant_id):
                self._texts[at] = f"{each.line.found_by}\n{notes}"

    def _arrange(
        self,
        columns: tuple[Column, ...] | None = None,
        before: tuple[Entry, ...] | None = None,
    ) -> bool:
        """Filter, sort and find anew; tell whether other rows stand there now.

        ``before`` are the rows as they were where the plants were read anew.
        """
        view, wanted = self.view, columns or self.columns
        if self._on is None:
            self._reset([], wanted)
            return False
        self._filter(self._on)
        self._order = self._orders.by(view.order, self._left, downwards=view.downwards)
        self._found = self.finder.find(view.find)
        shown = self._in_order()
        if before is None:
            is_other = shown != self._shown
        else:
            is_other = [self._entries[at].line.plant_id for at in shown] != [
                each.line.plant_id for each in before
            ]
        if is_other or wanted != self.columns:
            self._reset(shown, wanted)
        else:
            self._shown = shown
            self._tell_apart(before or ())
        return is_other

    def _found_in(self, places: Sequence[int]) -> tuple[list[str], list[str]]:
        """Give what a find goes through for some entries, and what is said of each."""
        texts, known, entries = self._texts, self._known, self._entries
        said = [known[entries[at].line.plant_id][1] for at in places]
        return [texts[at] for at in places], said

    def _filter(self, on: date) -> None:
        view = self.view
        by = view.whose, view.place, view.kind, view.verdict, view.only
        if by == self._filtered_by:
            return
        left = {each.plant_id for each in kept(self.lines, view, on, self._verdicts)}
        self._left = [
            at for at, e in enumerate(self._entries) if e.line.plant_id in left
        ]
        self.finder = Finder(*self._found_in(self._left))
        self.among = len(of(self.lines, view.whose))
        self._filtered_by = by

    def _in_order(self) -> list[int]:
        """Give what a find leaves, in the order of the view."""
        if len(self._found) == len(self._order):
            return self._order
        left = {self._left[place] for place in self._found}
        return [at for at in self._order if at in left]

    def _tell_apart(self, before: tuple[Entry, ...]) -> None:
        """Tell which rows of the same plants differ from before."""
        self._count_flowers()
        last = len(self.columns) - 1
        for row, (old, new) in enumerate(zip(before, self.rows, strict=False)):
            if old is not new and old != new:
                self.dataChanged.emit(self.index(row, 0), self.index(row, last))

    def _reset(self, shown: list[int], columns: tuple[Column, ...]) -> None:
        self.beginResetModel()
        self.columns, self._shown = columns, shown
        self._count_flowers()
        self.endResetModel()

    def _row_at(self, at: int) -> int:
        try:
            return self._shown.index(at)
        except ValueError:
            return -1

    def _count_flowers(self) -> None:
        flowering, left = self._in_flower, self._left
        self.flowers = sum([flowering[left[place]] for place in self._found])


def _side(column: Column) -> Qt.AlignmentFlag:
    """Give how a column is set: numbers to the right."""
    across = (
        Qt.AlignmentFlag.AlignRight if column.is_number else Qt.AlignmentFlag.AlignLeft
    )
    return across | Qt.AlignmentFlag.AlignVCenter
