"""Give the frame of a dialog that keeps several things of one sort.

A list on the left, a form on the right; new, save, remove. The things come as rows of
key and text; what a form holds goes out as a draft with its key, or none for a new one.
"""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QDialog,
    QDialogButtonBox,
    QHBoxLayout,
    QListWidget,
    QListWidgetItem,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from growdesk.domain.errors import GrowdeskError
from growdesk.ui.widgets.form import Form
from growdesk.ui.widgets.parts import button, label

KEY = Qt.ItemDataRole.UserRole


class RowsDialog(QDialog):
    """Several places, tins or waters, one of them in the form."""

    saved = Signal(object, object)
    remove_wanted = Signal(int)

    def __init__(self, parent: QWidget | None, title: str, thing: str) -> None:
        super().__init__(parent)
        self.setWindowTitle(title)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self._thing = thing
        self.list = QListWidget()
        self.list.setAccessibleName(title)
        self.list.setFixedWidth(230)
        self.list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.form = Form()
        self.message = label("", tone="muted")
        self.right = QVBoxLayout()
        self.new_button = button(f"New {thing}", self.start_new)
        self.save_button = QPushButton("Save")
        self.save_button.setDefault(True)
        self.save_button.clicked.connect(self.try_save)
        self.remove_button = button("Remove", self._remove, "It comes back by Undo")
        self._lay_out()
        self.list.currentItemChanged.connect(lambda now, _was: self._row_chosen(now))

    # -- what a dialog of one sort gives --------------------------------------------

    def draft(self) -> object:
        """Give what the form holds; raises ``InputError`` on a slip."""
        raise NotImplementedError

    def show_key(self, key: int | None) -> None:
        """Fill the form for a key, or empty it for a new thing."""
        raise NotImplementedError

    # -- what the window asks -------------------------------------------------------

    @property
    def key(self) -> int | None:
        """Give the key of the thing in the form; none for a new one."""
        row = self.list.currentRow()
        return None if row < 0 else int(self.list.item(row).data(KEY))

    def show_rows(self, rows: list[tuple[int, str]], chosen: int | None) -> None:
        """Show the things there are, one of them chosen."""
        self.list.blockSignals(True)  # noqa: FBT003 -- Qt's own signature
        self.list.clear()
        for key, text in rows:
            item = QListWidgetItem(text)
            item.setData(KEY, key)
            self.list.addItem(item)
            if key == chosen:
                self.list.setCurrentItem(item)
        if chosen is None and rows:
            self.list.setCurrentRow(0)
        self.list.blockSignals(False)  # noqa: FBT003 -- Qt's own signature
        self._row_chosen(self.list.currentItem())

    def start_new(self) -> None:
        """Empty the form for a new thing."""
        self.list.setCurrentRow(-1)
        self.list.clearSelection()
        self._row_chosen(None)

    def try_save(self) -> None:
        """Hand the draft out, or tell the slip beside its field."""
        self.form.clear_errors()
        try:
            draft = self.draft()
        except GrowdeskError as error:
            self.refused(error)
            return
        self.saved.emit(self.key, draft)

    def refused(self, error: Exception) -> None:
        """Tell why it was not written; what was entered stays."""
        self.message.setText("")
        self.form.show_error(error)

    def say(self, text: str) -> None:
        """Say what was done."""
        self.message.setText(text)

    # -- inside ---------------------------------------------------------------------

    def _lay_out(self) -> None:
        left = QVBoxLayout()
        left.addWidget(self.list, 1)
        left.addWidget(self.new_button)
        buttons = QHBoxLayout()
        buttons.addWidget(self.save_button)
        buttons.addWidget(self.remove_button)
        buttons.addStretch(1)
        self.right.addWidget(self.form)
        self.right.addLayout(buttons)
        self.right.addWidget(self.message)
        self.right.addStretch(1)
        columns = QHBoxLayout()
        columns.setSpacing(16)
        columns.addLayout(left)
        columns.addLayout(self.right, 1)
        close = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
        close.rejected.connect(self.accept)
        outer = QVBoxLayout(self)
        outer.setContentsMargins(18, 16, 18, 14)
        outer.setSpacing(12)
        outer.addLayout(columns, 1)
        outer.addWidget(close)
        self.resize(680, 400)

    def _row_chosen(self, item: QListWidgetItem | None) -> None:
        self.form.clear_errors()
        self.message.setText("")
        self.remove_button.setEnabled(item is not None)
        self.save_button.setText(
            "Save" if item is not None else f"Add the {self._thing}"
        )
        self.show_key(None if item is None else int(item.data(KEY)))

    def _remove(self) -> None:
        key = self.key
        if key is not None:
            self.remove_wanted.emit(key)
