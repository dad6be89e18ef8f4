"""Lay out the table of all plants: view and find, filters, count, and what is below.

Below stands the table, or a line on why it is empty with the way out.
"""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QLabel,
    QMenu,
    QPushButton,
    QStackedLayout,
    QVBoxLayout,
    QWidget,
)

from growdesk.domain.speech import mark, tr
from growdesk.ui import roster_words
from growdesk.ui.looking import writes
from growdesk.ui.models.roster_model import RosterModel
from growdesk.ui.widgets.find_line import FindLine
from growdesk.ui.widgets.fitted_combo import FittedCombo
from growdesk.ui.widgets.parts import button, label, short_label
from growdesk.ui.widgets.roster_filters import RosterFilters
from growdesk.ui.widgets.roster_table import RosterTable

_LEAST_SIGNS = 4
_FIND = mark("Find by tag, name, place, notes, signs")


class RosterPage(QFrame):
    """The parts of the pane, each with its name and its place."""

    add_wanted = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.setProperty("pane", "true")
        self.setAccessibleName(tr("The collection"))
        self.model = RosterModel()
        self.table = RosterTable(self.model)
        self.find_line = FindLine()
        self.find_line.setPlaceholderText(tr(_FIND))
        self.find_line.setAccessibleName(tr("Find in the collection"))
        self.filters = RosterFilters()
        self.chooser = FittedCombo(_LEAST_SIGNS)
        self.chooser.setAccessibleName(tr("View of the collection"))
        self.more = QPushButton(tr("More…"))
        self.more.setAutoDefault(False)
        self.more.setAccessibleName(
            tr("More: keep the view, choose columns, save as CSV")
        )
        self.more.setMenu(QMenu(self.more))
        self.count = short_label("", tone="muted")
        self.count.setObjectName("roster-count")
        self.nothing = label("", tone="muted")
        self.clear_button = button(tr("Clear find and filters"), self.clear)
        self.first = writes(button(tr("Add a plant…"), self.add_wanted.emit))
        self.menu = QMenu(self)
        self._find_name = QLabel(tr("F&ind"))
        self._find_name.setBuddy(self.find_line)
        self._stack = QStackedLayout()
        self._lay_out()

    def clear(self) -> None:
        """Take find and filters off."""
        raise NotImplementedError

    def show_part(self, *, has_plants: bool, nothing: str = "") -> None:
        """Show the table, why it is empty, or what it will be for."""
        self._stack.setCurrentIndex(2 if not has_plants else 1 if nothing else 0)
        self.nothing.setText(nothing)
        parts: tuple[QWidget, ...] = (
            self.chooser,
            self._find_name,
            self.find_line,
            self.more,
            self.filters,
            self.count,
        )
        for part in parts:
            part.setVisible(has_plants)

    def _lay_out(self) -> None:
        top = QHBoxLayout()
        top.setContentsMargins(14, 10, 14, 0)
        top.setSpacing(8)
        top.addWidget(self.chooser, 2)
        top.addWidget(self._find_name)
        top.addWidget(self.find_line, 3)
        top.addWidget(self.more)
        under = QHBoxLayout()
        under.setContentsMargins(14, 0, 14, 0)
        under.setSpacing(12)
        under.addWidget(self.filters, 1)
        counted = QHBoxLayout()
        counted.setContentsMargins(16, 0, 14, 2)
        counted.addWidget(self.count)
        counted.addStretch(1)
        outer = QVBoxLayout(self)
        outer.setContentsMargins(1, 0, 1, 8)
        outer.setSpacing(6)
        outer.addLayout(top)
        outer.addLayout(under)
        outer.addLayout(counted)
        outer.addLayout(self._stack, 1)  # first: it shows what it is given
        for page in (
            self.table,
            _page(self.nothing, self.clear_button),
            _page(label(tr(roster_words.NO_PLANTS), tone="muted"), self.first),
        ):
            self._stack.addWidget(page)


def _page(said: QLabel, out: QPushButton) -> QWidget:
    page = QWidget()
    inner = QVBoxLayout(page)
    inner.setContentsMargins(18, 18, 18, 18)
    inner.addWidget(said)
    row = QHBoxLayout()
    row.addWidget(out)
    row.addStretch(1)
    inner.addLayout(row)
    inner.addStretch(1)
    return page
