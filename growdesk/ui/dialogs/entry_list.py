"""Show entries of one sort as a table, the newest first, to be put right or removed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtWidgets import QDialogButtonBox, QPushButton, QVBoxLayout, QWidget

from growdesk.domain.speech import tr
from growdesk.ui.dialogs.on_screen import OnScreen
from growdesk.ui.widgets.parts import button, label

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from growdesk.ui.widgets.told_table import ToldTable


class EntryList(OnScreen):
    """Entries by number; ``nothing`` is said while there are none, else ``note``.

    ``enters`` is the hint on the key that changes one.
    """

    change_wanted = Signal(object)
    remove_wanted = Signal(int)

    def __init__(
        self, parent: QWidget | None, title: str, table: ToldTable, enters: str
    ) -> None:
        super().__init__(parent)
        self.setWindowTitle(title)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self._entries: list[tuple[int, object]] = []
        self._texts = ("", "")
        self.table = table
        self.first = label("")
        self.first.hide()
        self.note = label("", tone="muted")
        self.change_button = button(tr("Change…"), self._change, enters)
        self.remove_button = button(
            tr("Remove"), self._remove, tr("It comes back by Undo")
        )
        self.message = label("", tone="muted")
        table.doubleClicked.connect(lambda _cell: self._change())
        table.activated.connect(lambda _cell: self._change())

    def say(self, text: str) -> None:
        """Say what was done, or why it was not."""
        self.message.setText(text)

    def lay_out(self, size: QSize, nothing: str, note: str, *more: QPushButton) -> None:
        """Put all in its place, with buttons of its own after the usual ones."""
        self._texts = (nothing, note)
        self._buttons = (self.change_button, self.remove_button, *more)
        foot = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
        for each in self._buttons:
            foot.addButton(each, QDialogButtonBox.ButtonRole.ActionRole)
        foot.rejected.connect(self.accept)
        outer = QVBoxLayout(self)
        outer.setContentsMargins(18, 16, 18, 14)
        outer.setSpacing(10)
        for above in (self.first, self.note):
            outer.addWidget(above)
        outer.addWidget(self.table, 1)
        outer.addWidget(self.message)
        outer.addWidget(foot)
        self.resize(size)
        self._offer()

    def show_rows(
        self, entries: Mapping[int, object], rows: Sequence[Sequence[str]]
    ) -> None:
        """Show entries by their numbers, each with its row."""
        self._entries = list(entries.items())
        self.table.show_rows(rows)
        self._offer()

    def _offer(self) -> None:
        nothing, note = self._texts
        self.note.setText(note if self._entries else nothing)
        for each in self._buttons:
            each.setEnabled(bool(self._entries))

    def _chosen(self) -> tuple[int, object] | None:
        row = self.table.currentRow()
        return self._entries[row] if 0 <= row < len(self._entries) else None

    def _change(self) -> None:
        chosen = self._chosen()
        if chosen is not None:
            self.say("")
            self.change_wanted.emit(chosen[1])

    def _remove(self) -> None:
        chosen = self._chosen()
        if chosen is not None:
            self.remove_wanted.emit(chosen[0])
