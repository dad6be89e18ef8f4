"""Show what was entered of one good, the newest first, to be put right or removed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QDialogButtonBox, QVBoxLayout, QWidget

from growdesk.ui import stock_texts
from growdesk.ui.dialogs.on_screen import OnScreen
from growdesk.ui.widgets.parts import button, label
from growdesk.ui.widgets.told_table import ToldTable

if TYPE_CHECKING:
    from collections.abc import Sequence

    from growdesk.services.stocktaking_values import EntryView

NOTHING = "Nothing was entered yet. Count it, or write down what came in."
NOTE = (
    "The newest count holds; what came in after it and the rounds since are reckoned."
)


class EntriesDialog(OnScreen):
    """The entries of one good."""

    change_wanted = Signal(object)
    remove_wanted = Signal(int)

    def __init__(self, parent: QWidget | None, name: str, unit: str) -> None:
        super().__init__(parent)
        self.setWindowTitle(f"Entries: {name}")
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self._unit = unit
        self._views: tuple[EntryView, ...] = ()
        self.note = label(NOTHING, tone="muted")
        self.table = ToldTable(
            f"What was entered of {name}, newest first",
            stock_texts.ENTRY_COLUMNS,
            wide=(4,),
            numbers=(2, 3),
        )
        self.change_button = button("Change…", self._change, "Enter on an entry")
        self.remove_button = button("Remove", self._remove, "It comes back by Undo")
        self.message = label("", tone="muted")
        self.table.doubleClicked.connect(lambda _cell: self._change())
        self.table.activated.connect(lambda _cell: self._change())
        self._lay_out()
        self._offer()

    def show_entries(self, views: Sequence[EntryView]) -> None:
        """Show the entries there are."""
        self._views = tuple(views)
        self.note.setText(NOTE if views else NOTHING)
        self.table.show_rows([stock_texts.entry_texts(v, self._unit) for v in views])
        self._offer()

    def say(self, text: str) -> None:
        """Say what was done, or why it was not."""
        self.message.setText(text)

    def _lay_out(self) -> None:
        foot = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
        for each in (self.change_button, self.remove_button):
            foot.addButton(each, QDialogButtonBox.ButtonRole.ActionRole)
        foot.rejected.connect(self.accept)
        outer = QVBoxLayout(self)
        outer.setContentsMargins(18, 16, 18, 14)
        outer.setSpacing(10)
        outer.addWidget(self.note)
        outer.addWidget(self.table, 1)
        outer.addWidget(self.message)
        outer.addWidget(foot)
        self.resize(640, 380)

    def _offer(self) -> None:
        for each in (self.change_button, self.remove_button):
            each.setEnabled(bool(self._views))

    def _chosen(self) -> EntryView | None:
        row = self.table.currentRow()
        return self._views[row] if 0 <= row < len(self._views) else None

    def _change(self) -> None:
        view = self._chosen()
        if view is not None:
            self.say("")
            self.change_wanted.emit(view)

    def _remove(self) -> None:
        view = self._chosen()
        if view is not None:
            self.remove_wanted.emit(view.entry_id)
