"""A table model over the readings of one place, newest first."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from msgspec import Struct
from PySide6.QtCore import QAbstractTableModel, QModelIndex, QPersistentModelIndex, Qt
from typing_extensions import override

from growdesk.domain.quantity_words import degrees_fixed, temperature_unit
from growdesk.domain.speech import fixed, mark, tr
from growdesk.ui import words

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from growdesk.domain.facts import Reading
    from growdesk.services.values import ReadingView

Index = QModelIndex | QPersistentModelIndex
_NO_PARENT = QModelIndex()


class Column(Struct, frozen=True):
    """One column: its title, its text, and how it is spoken."""

    title: str
    text: Callable[[Reading], str]
    spoken: str

    @property
    def heading(self) -> str:
        """Give the title with the unit of temperatures that is shown."""
        return tr(self.title).format(unit=temperature_unit())

    def say(self, text: str) -> str:
        """Give a cell as it is spoken."""
        return tr(self.spoken).format(text, unit=temperature_unit())


def _number(field: str, digits: int = 1) -> Callable[[Reading], str]:
    def text(reading: Reading) -> str:
        value = getattr(reading, field)
        return "" if value is None else f"{fixed(value, digits)}"

    return text


def _degrees(field: str) -> Callable[[Reading], str]:
    def text(reading: Reading) -> str:
        value = getattr(reading, field)
        return "" if value is None else degrees_fixed(value)

    return text


COLUMNS = (
    Column(mark("Day"), lambda reading: words.short_day(reading.on), "{}"),
    Column(mark("Mean {unit}"), _degrees("mean_c"), mark("mean {} {unit}")),
    Column(mark("Low {unit}"), _degrees("low_c"), mark("low {} {unit}")),
    Column(mark("High {unit}"), _degrees("high_c"), mark("high {} {unit}")),
    Column(mark("Light mol"), _number("light_mol_per_m2_d"), mark("light {} mol")),
    Column(mark("Humidity %"), _number("humidity_percent", 0), mark("humidity {} %")),
)


class ReadingModel(QAbstractTableModel):
    """Readings as rows; what was not read is empty."""

    def __init__(self) -> None:
        super().__init__()
        self.views: tuple[ReadingView, ...] = ()

    def show(self, views: Sequence[ReadingView]) -> None:
        """Take other readings."""
        self.beginResetModel()
        self.views = tuple(views)
        self.endResetModel()

    @override
    def rowCount(self, parent: Index = _NO_PARENT) -> int:
        return 0 if parent.isValid() else len(self.views)

    @override
    def columnCount(self, parent: Index = _NO_PARENT) -> int:
        return 0 if parent.isValid() else len(COLUMNS)

    @override
    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        if not index.isValid():
            return None
        reading = self.views[index.row()].reading
        if role == Qt.ItemDataRole.DisplayRole:
            return COLUMNS[index.column()].text(reading)
        if role == Qt.ItemDataRole.AccessibleTextRole:
            return spoken(reading)
        if role == Qt.ItemDataRole.TextAlignmentRole and index.column() > 0:
            return Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
        return None

    @override
    def headerData(
        self,
        section: int,
        orientation: Qt.Orientation,
        role: int = Qt.ItemDataRole.DisplayRole,
    ) -> Any:
        if orientation is not Qt.Orientation.Horizontal:
            return None
        if role == Qt.ItemDataRole.DisplayRole:
            return COLUMNS[section].heading
        if role == Qt.ItemDataRole.TextAlignmentRole and section > 0:
            return Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
        return None


def spoken(reading: Reading) -> str:
    """Give a day's readings as a screen reader should say them."""
    said = [(column, column.text(reading)) for column in COLUMNS]
    return ", ".join(column.say(text) for column, text in said if text)
