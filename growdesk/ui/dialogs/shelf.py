"""Show what is on the shelf: on hand, used a week, until when, and what it costs."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QDialogButtonBox,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QVBoxLayout,
    QWidget,
)

from growdesk.domain.speech import mark, tr
from growdesk.domain.stocktaking import What
from growdesk.ui import sizes, stocktaking_texts, words
from growdesk.ui.dialogs.on_screen import OnScreen
from growdesk.ui.widgets.parts import button, label
from growdesk.ui.widgets.told_table import ToldTable

if TYPE_CHECKING:
    from growdesk.domain.stocktaking import Good
    from growdesk.services.stocktaking_values import ShelfRow, ShelfView

EMPTY = mark(
    "Nothing stands on the shelf yet. Tins and waters are put there by their own forms."
)
_CURRENCY_WIDE_PX = 90


class ShelfDialog(OnScreen):
    """All that stands on the shelf; counts and entries go out as wishes."""

    entry_wanted = Signal(object, object)
    entries_wanted = Signal(object)
    used_wanted = Signal()
    currency_given = Signal(str)

    def __init__(self, parent: QWidget | None) -> None:
        super().__init__(parent)
        self.setWindowTitle(tr("On the shelf"))
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.view: ShelfView | None = None
        self.heading = label("", scale=1.1)
        self.short = label("", tone="wrong")
        self.table = ToldTable(
            tr("What is on the shelf"),
            stocktaking_texts.COLUMNS,
            wide=(0,),
            numbers=(1, 2, 4, 5, 6),
        )
        self.detail = label("", tone="muted")
        self.costs = label("")
        self.currency = QLineEdit()
        self.currency.setAccessibleName(tr("Prices are in"))
        self.currency.setPlaceholderText(tr("say EUR"))
        self.currency.setMaxLength(12)
        sizes.wide(self.currency, _CURRENCY_WIDE_PX)
        self.currency.editingFinished.connect(self._give_currency)
        self.count_button = button(tr("&Count…"), lambda: self._enter(What.COUNTED))
        self.add_button = button(tr("&Add…"), lambda: self._enter(What.ADDED))
        self.entries_button = button(tr("&Entries…"), self._open_entries)
        self.used_button = button(tr("Feed &used by month…"), self.used_wanted.emit)
        self.message = label("", tone="muted")
        self.table.currentCellChanged.connect(lambda *_cells: self._offer())
        self.table.activated.connect(lambda _cell: self._enter(What.COUNTED))
        self._lay_out()
        self._offer()
        self.table.setFocus()

    def show_view(self, view: ShelfView) -> None:
        """Show the shelf as it stands."""
        self.view = view
        day = words.near_day(view.round_on)
        self.heading.setText(
            tr("The next round is {day}.").format(day=day) if view.rows else tr(EMPTY)
        )
        self.short.setText("\n".join(view.short))
        self.short.setVisible(bool(view.short))
        self.table.show_rows([stocktaking_texts.row_texts(row) for row in view.rows])
        self.costs.setText(stocktaking_texts.costs(view))
        if not self.currency.hasFocus():
            self.currency.setText(view.currency)
        self._offer()

    def choose(self, good: Good) -> None:
        """Put the cursor on a good."""
        rows = self.view.rows if self.view is not None else ()
        for number, row in enumerate(rows):
            if row.good == good:
                self.table.setCurrentCell(number, 0)

    def say(self, text: str) -> None:
        """Say what was done."""
        self.message.setText(text)

    def chosen(self) -> ShelfRow | None:
        """Give the good that the cursor is on."""
        rows = self.view.rows if self.view is not None else ()
        number = self.table.currentRow()
        return rows[number] if 0 <= number < len(rows) else None

    def _lay_out(self) -> None:
        foot = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
        foot.rejected.connect(self.accept)
        acts = QHBoxLayout()
        acts.setSpacing(8)
        for each in (
            self.count_button,
            self.add_button,
            self.entries_button,
            self.used_button,
        ):
            acts.addWidget(each)
        acts.addStretch(1)
        name = QLabel(tr("&Prices are in"))
        name.setBuddy(self.currency)
        money = QHBoxLayout()
        money.setSpacing(8)
        money.addWidget(self.costs, 1)
        money.addWidget(name, 0, Qt.AlignmentFlag.AlignTop)
        money.addWidget(self.currency, 0, Qt.AlignmentFlag.AlignTop)
        outer = QVBoxLayout(self)
        outer.setContentsMargins(18, 16, 18, 14)
        outer.setSpacing(10)
        outer.addWidget(self.heading)
        outer.addWidget(self.short)
        outer.addWidget(self.table, 1)
        outer.addWidget(self.detail)
        outer.addLayout(acts)
        outer.addLayout(money)
        outer.addWidget(self.message)
        outer.addWidget(foot)
        self.resize(sizes.area(940, 640))

    def _offer(self) -> None:
        row = self.chosen()
        self.detail.setText("" if row is None else stocktaking_texts.told(row))
        for each in (self.count_button, self.add_button, self.entries_button):
            each.setEnabled(row is not None)

    def _enter(self, what: What) -> None:
        row = self.chosen()
        if row is not None:
            self.say("")
            self.entry_wanted.emit(row, what)

    def _open_entries(self) -> None:
        row = self.chosen()
        if row is not None:
            self.say("")
            self.entries_wanted.emit(row)

    def _give_currency(self) -> None:
        typed = self.currency.text().strip()
        if self.view is not None and typed != self.view.currency:
            self.currency_given.emit(typed)
