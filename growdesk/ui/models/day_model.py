"""Give the watering day's list to a view: group headers and lines, as roles.

Rows are frozen; a new day is a reset. Text for people comes from ``ui.words``. The
model never asks a service for anything and never writes: a click on a tick goes out
as a signal from the pane. What a find goes through is folded once a line, and the lines
are put in order once a day; a key typed is one pass over them.

While a day of many plants is being judged all stand as the round is walked, without
groups: nothing is said of what is judged so far as if it were all.
"""

from __future__ import annotations

from bisect import bisect_left
from typing import TYPE_CHECKING

from msgspec import Struct
from PySide6.QtCore import QAbstractTableModel, QModelIndex, QPersistentModelIndex, Qt
from typing_extensions import override

from growdesk.domain.speech import tr
from growdesk.services.finding import Finder
from growdesk.services.values import Unjudged
from growdesk.ui import words
from growdesk.ui.day_columns import (
    COLUMNS,
    Place,
    can_tick,
    folded,
    folded_before,
    spoken,
    unjudged,
)
from growdesk.ui.tips import as_typed

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence
    from typing import TypeAlias

    from growdesk.domain.facts import Verdict
    from growdesk.services.values import Line

    Row: TypeAlias = "Head | Line | Unjudged"

Index = QModelIndex | QPersistentModelIndex
ID_ROLE = Qt.ItemDataRole.UserRole + 1
LINE_ROLE = Qt.ItemDataRole.UserRole + 2
HEAD_ROLE = Qt.ItemDataRole.UserRole + 3
UNDER_ROLE = Qt.ItemDataRole.UserRole + 4
_ROOT = QModelIndex()


class Head(Struct, frozen=True):
    """A group's header row: the verdict, how many lines, how many of them done."""

    verdict: Verdict
    count: int
    done: int

    @property
    def text(self) -> str:
        """Give the header in words."""
        verdict, plants = words.VERDICT[self.verdict], words.plants(self.count)
        said = tr(
            "{verdict}, {plants}, {done} done" if self.done else "{verdict}, {plants}"
        )
        return said.format(verdict=verdict, plants=plants, done=self.done)


class DayModel(QAbstractTableModel):
    """The list of one watering day, grouped by verdict, filtered by typed words."""

    def __init__(self) -> None:
        super().__init__()
        self._lines: tuple[Line, ...] = ()
        self._filter = ""
        self._ordered: list[Line] = []
        self._texts: dict[int, tuple[Line, str]] = {}
        self._finder = Finder(())
        self._groups: list[tuple[Verdict, int]] = []
        self._rows: tuple[Row, ...] = ()
        self._heads: tuple[int, ...] = ()
        self._row_of: dict[int, int] = {}
        self._is_open = True
        self._begun: tuple[Line | Unjudged, ...] = ()
        self._is_folded = False

    # -- what the pane asks ---------------------------------------------------------

    @property
    def rows(self) -> tuple[Row, ...]:
        """Give the rows as shown."""
        return self._rows

    @property
    def lines(self) -> tuple[Line, ...]:
        """Give all lines of the day, shown or not."""
        return self._lines

    @property
    def stands(self) -> tuple[Line | Unjudged, ...]:
        """Give all plants of the day, shown or not, judged or not yet."""
        return self._begun or self._lines

    @property
    def is_begun(self) -> bool:
        """Tell whether plants of the day are still being judged."""
        return bool(self._begun)

    @property
    def is_open(self) -> bool:
        """Tell whether the day has come, so that its lines can be ticked."""
        return self._is_open

    def show(self, lines: Sequence[Line], *, is_open: bool = True) -> bool:
        """Take a day's lines; tell whether other rows stand there now.

        Where the same plants stand in the same order, only what differs is told.
        """
        same_day = is_open == self._is_open and not self._begun
        self._lines, self._begun = tuple(lines), ()
        self._is_folded = False
        self._order()
        rows = self._filtered()
        self._is_open = is_open
        before = self._rows
        same_rows = len(before) == len(rows) and all(
            old is new or _key(old) == _key(new)
            for old, new in zip(before, rows, strict=True)
        )
        if not (same_day and same_rows):
            self._reset(rows)
            return True
        self._rows = rows
        for row, (old, new) in enumerate(zip(before, rows, strict=True)):
            if old is not new and old != new:
                self._tell(row, row)
        return False

    def show_begun(self, lines: tuple[Line | Unjudged, ...]) -> bool:
        """Take a day of which not all are judged; tell whether other rows stand there.

        Nothing can be ticked until they are.
        """
        before, self._begun = self._begun, lines
        self._is_open = False
        ids = [each.plant_id for each in lines]
        if ids != [each.plant_id for each in before]:
            self._lines, self._groups, self._texts = (), [], {}
            self._is_folded = False
            self._reset(self._found_begun())
            return True
        old, self._rows = self._rows, self._found_begun()
        new = [at for at, row in enumerate(self._rows) if row is not old[at]]
        if new:
            self._tell(new[0], new[-1])
        return False

    def filter_by(self, typed: str) -> None:
        """Keep the lines that hold every typed word."""
        wanted = typed.casefold()
        if wanted != self._filter:
            self._filter = wanted
            self._reset(self._found_begun() if self._begun else self._filtered())

    def row_of(self, plant_id: int) -> int:
        """Give the row of a plant, or -1 where it is not shown."""
        return self._row_of.get(plant_id, -1)

    def lines_at(self, rows: Iterable[int]) -> tuple[Line | Unjudged, ...]:
        """Give the lines at some rows, headers left out."""
        entries = (self._rows[row] for row in sorted(set(rows)))
        return tuple(entry for entry in entries if not isinstance(entry, Head))

    def head_rows(self) -> tuple[int, ...]:
        """Give the rows that are group headers."""
        return self._heads

    def texts(self, line: Line | Unjudged, column: int) -> tuple[str, str]:
        """Give the text of a cell, and the smaller one under it."""
        if isinstance(line, Unjudged):
            return unjudged(line, column)
        if self._begun and column == Place.STRENGTH and line.done is None:
            return "", ""
        return COLUMNS[column].text(line), COLUMNS[column].under(line)

    # -- what Qt asks ---------------------------------------------------------------

    @override
    def rowCount(self, parent: Index = _ROOT) -> int:
        return 0 if parent.isValid() else len(self._rows)

    @override
    def columnCount(self, parent: Index = _ROOT) -> int:
        return 0 if parent.isValid() else len(COLUMNS)

    @override
    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        reader = _READERS.get(role)
        if reader is None or not index.isValid():
            return None
        entry = self._rows[index.row()]
        if isinstance(entry, Head):
            return _read_head(entry, index.column(), role)
        if isinstance(entry, Unjudged) or (self._begun and role in _SAID):
            return self._read_begun(entry, index.column(), role)
        if role == Qt.ItemDataRole.CheckStateRole and not self._is_open:
            return None
        return reader(entry, index.column())

    @override
    def headerData(
        self,
        section: int,
        orientation: Qt.Orientation,
        role: int = Qt.ItemDataRole.DisplayRole,
    ) -> object:
        if orientation is not Qt.Orientation.Horizontal:
            return None
        if role == Qt.ItemDataRole.DisplayRole:
            return tr(COLUMNS[section].title)
        return None

    @override
    def flags(self, index: Index) -> Qt.ItemFlag:
        if not index.isValid():
            return Qt.ItemFlag.NoItemFlags
        if isinstance(self._rows[index.row()], Head):
            return Qt.ItemFlag.NoItemFlags  # so that the arrow keys step over it
        plain = Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable
        return plain | Qt.ItemFlag.ItemNeverHasChildren

    def _read_begun(
        self, line: Line | Unjudged, column: int, role: int
    ) -> int | str | None:
        if role == ID_ROLE:
            return line.plant_id
        if role not in _TEXTS:
            return None
        upper, under = self.texts(line, column)
        if role == Qt.ItemDataRole.AccessibleTextRole and column == Place.PLANT:
            verdict, _ = self.texts(line, Place.VERDICT)
            said = line.tag, line.name, verdict, words.stands(line)
            return ", ".join(part for part in said if part)
        return under if role == UNDER_ROLE else upper

    def _tell(self, first: int, last: int) -> None:
        corner = self.index(last, len(COLUMNS) - 1)
        self.dataChanged.emit(self.index(first, 0), corner)

    def _found_begun(self) -> tuple[Line | Unjudged, ...]:
        """Give the plants of a day begun that hold what is typed."""
        typed = tuple(self._filter.split())
        if not typed:
            return self._begun
        if not self._is_folded:
            self._finder = Finder([folded_before(each) for each in self._begun])
            self._is_folded = True
        return tuple([self._begun[at] for at in self._finder.holding(typed)])

    def _order(self) -> None:
        """Put the lines in their order, and fold those that are new."""
        known = self._texts
        of: dict[Verdict, list[Line]] = {each: [] for each in words.VERDICT_ORDER}
        for line in self._lines:
            of[line.verdict].append(line)
        self._ordered, self._groups, self._texts = [], [], {}
        for verdict, group in of.items():
            if group:
                group.sort(key=words.turn)
                self._groups.append((verdict, len(self._ordered)))
                self._ordered += group
        for line in self._ordered:
            before = known.get(line.plant_id)
            if before is None or before[0] is not line:
                before = line, folded(line)
            self._texts[line.plant_id] = before
        self._finder = Finder([text for _, text in self._texts.values()])

    def _filtered(self) -> tuple[Head | Line, ...]:
        if not self._groups:
            return ()
        found = self._finder.holding(tuple(self._filter.split()))
        rows: list[Head | Line] = []
        starts = [start for _, start in self._groups]
        ends = [*starts, len(self._ordered)][1:]
        first = 0
        for (verdict, _start), end in zip(self._groups, ends, strict=True):
            last = bisect_left(found, end)
            if last > first:
                group = [self._ordered[at] for at in found[first:last]]
                done = sum([line.done is not None for line in group])
                rows += [Head(verdict, len(group), done), *group]
            first = last
        return tuple(rows)

    def _reset(self, rows: tuple[Row, ...]) -> None:
        self.beginResetModel()
        self._rows = rows
        self._heads = tuple(at for at, row in enumerate(rows) if isinstance(row, Head))
        self._row_of = {
            row.plant_id: at for at, row in enumerate(rows) if not isinstance(row, Head)
        }
        self.endResetModel()


def _key(entry: Row) -> Verdict | int:
    """Give what makes a row the same row: its group, or its plant."""
    return entry.verdict if isinstance(entry, Head) else entry.plant_id


def _read_head(head: Head, column: int, role: int) -> object:
    if role == HEAD_ROLE:
        return head
    texts = (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.AccessibleTextRole)
    return head.text if role in texts and column == 0 else None


def _check_state(line: Line, column: int) -> object:
    if column != Place.TICK or not (can_tick(line) or line.done):
        return None
    return Qt.CheckState.Unchecked if line.done is None else Qt.CheckState.Checked


_TEXTS = frozenset(
    {
        Qt.ItemDataRole.DisplayRole,
        UNDER_ROLE,
        Qt.ItemDataRole.AccessibleTextRole,
    }
)
_SAID = _TEXTS | {Qt.ItemDataRole.ToolTipRole}
_READERS: dict[int, Callable[[Line, int], object]] = {
    Qt.ItemDataRole.DisplayRole: lambda line, column: COLUMNS[column].text(line),
    UNDER_ROLE: lambda line, column: COLUMNS[column].under(line),
    ID_ROLE: lambda line, _column: line.plant_id,
    LINE_ROLE: lambda line, _column: line,
    HEAD_ROLE: lambda _line, _column: None,
    Qt.ItemDataRole.CheckStateRole: _check_state,
    Qt.ItemDataRole.ToolTipRole: lambda line, _column: as_typed(words.spoken(line)),
    Qt.ItemDataRole.AccessibleTextRole: spoken,
}
