"""Give the frame of a dialog that keeps several things of one sort.

A list on the left, a form on the right; new, save, remove. The things come as rows of
key and text; what a form holds goes out as a draft with its key, or none for a new one.
What was typed and not saved stays with its row, marked, until it is saved or thrown
away.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QBoxLayout,
    QDialogButtonBox,
    QHBoxLayout,
    QListWidget,
    QListWidgetItem,
    QVBoxLayout,
)
from typing_extensions import override

from growdesk.domain import speech
from growdesk.domain.speech import tr
from growdesk.ui import sizes
from growdesk.ui.dialogs.frame import Framed
from growdesk.ui.dialogs.held import Held, hold
from growdesk.ui.widgets.parts import button, column, label

if TYPE_CHECKING:
    from PySide6.QtWidgets import QWidget

KEY = Qt.ItemDataRole.UserRole
_TEXT = Qt.ItemDataRole.UserRole + 1
_UNSAVED = speech.mark("{name}, not saved")

Drafts = dict[int | None, Held]


_ANY_WIDTH = (1 << 24) - 1
"""Qt's own word for a width without limit."""


class RowsDialog(Framed):
    """Several places, tins or waters, one of them in the form."""

    saved = Signal(object, object)
    remove_wanted = Signal(int)

    def __init__(self, parent: QWidget | None, title: str, new: str) -> None:
        super().__init__(parent, title, tr("Save"))
        self._new = new
        self._drafts: Drafts = {}
        self._shown: int | None = None
        self._is_filled = False
        self._sent: Held = {}
        self.list = QListWidget()
        self.list.setAccessibleName(title)
        sizes.wide(self.list, 230)
        self.list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.message = label("", tone="muted")
        self.new_button = button(new, self.start_new)
        self.save_button.clicked.connect(self.try_save)
        self.remove_button = button(
            tr("Remove"), self._remove, tr("It comes back by Undo")
        )
        self._lay_out_columns()
        self.list.currentItemChanged.connect(lambda now, _was: self._row_chosen(now))
        self.list.setFocus()

    # -- what a dialog of one sort gives --------------------------------------------

    def show_key(self, key: int | None) -> None:
        """Fill the form for a key, or empty it for a new thing."""
        raise NotImplementedError

    def is_of_row(self, field: str) -> bool:
        """Tell whether a field is written with the thing in the form."""
        return self.form.has(field)

    def put_page(self, page: QVBoxLayout) -> None:
        """Put the form and its buttons where they belong in the dialog."""
        self.body.addLayout(page)

    # -- Framed ---------------------------------------------------------------------

    @override
    def try_save(self) -> None:
        """Hand the draft out; a thing that was not changed is not written again."""
        if self.key is not None and not any(map(self.is_of_row, self.changes())):
            self.complain("")
            self.say(tr("There is nothing to save: nothing was changed."))
            return
        self.say("")
        super().try_save()

    @override
    def send(self, draft: object) -> None:
        self._sent = self.held()
        self.saved.emit(self.key, draft)

    @override
    def kept(self) -> Drafts:
        """Give what was typed and not saved, by key."""
        self._keep()
        return dict(self._drafts)

    @override
    def take_draft(self, kept: Drafts) -> None:
        """Take back what was typed and not saved when the dialog was left."""
        self._drafts.update(kept)
        self._is_filled = False
        self._show(self.key)

    @override
    def throw_away(self) -> None:
        super().throw_away()
        self._keep()

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
            item.setData(_TEXT, text)
            self.list.addItem(item)
            if key == chosen:
                self.list.setCurrentItem(item)
        if chosen is None and rows:
            self.list.setCurrentRow(0)
        self.list.blockSignals(False)  # noqa: FBT003 -- Qt's own signature
        self._show(self.key)

    def start_new(self) -> None:
        """Empty the form for a new thing, or go on with one that was begun."""
        self.list.setCurrentRow(-1)
        self.list.clearSelection()
        self._row_chosen(None)

    def stored(self, key: int | None, now: int | None) -> None:
        """Let go of what was written; what was typed since stays, under its key now."""
        self._drafts.pop(key, None)
        if not self._is_filled or self._shown != key:
            return
        since = {
            field: value
            for field, value in self.changes().items()
            if not self.is_of_row(field) or value != self._sent.get(field)
        }
        self._is_filled = False
        if since:
            self._drafts[now] = since

    def removed(self, key: int) -> None:
        """Let go of what was typed for a thing that is gone."""
        self._drafts.pop(key, None)
        self._is_filled = self._is_filled and self._shown != key

    def say(self, text: str) -> None:
        """Say what was done."""
        self.message.setText(text)

    @override
    def tab_stops(self) -> list[QWidget]:
        form = self.form.editors.values()
        return [
            self.list,
            self.new_button,
            *form,
            self.save_button,
            self.remove_button,
        ]

    # -- inside ---------------------------------------------------------------------

    @override
    def come_onto_screen(self) -> None:
        """Let the list have the whole width where it stands over the form."""
        super().come_onto_screen()
        if self.middle.direction() == QBoxLayout.Direction.TopToBottom:
            self.list.setMaximumWidth(_ANY_WIDTH)

    def _lay_out_columns(self) -> None:
        self.side = QVBoxLayout()
        self.side.addWidget(self.list, 1)
        self.side.addWidget(self.new_button)
        buttons = QHBoxLayout()
        buttons.addWidget(self.save_button)
        buttons.addWidget(self.remove_button)
        buttons.addStretch(1)
        page = column(spacing=10)
        page.addWidget(self.form)
        page.addLayout(buttons)
        self.put_page(page)
        self.body.addWidget(self.message)
        self.body.addStretch(1)
        self.middle.setSpacing(16)
        self.middle.insertLayout(0, self.side)
        self.buttons.addButton(QDialogButtonBox.StandardButton.Close)
        self.resize(sizes.area(680, 400))

    def _row_chosen(self, item: QListWidgetItem | None) -> None:
        self.say("")
        self._show(None if item is None else int(item.data(KEY)))

    def _show(self, key: int | None) -> None:
        """Keep what stands in the form, then fill it for a key, draft and all."""
        self._keep()
        self._shown = key
        self.complain("")
        for form in self.forms:
            form.clear_errors()
        self.remove_button.setEnabled(key is not None)
        self.show_key(key)
        self.begin()
        self._is_filled = True
        draft = self._drafts.get(key)
        if draft:
            hold(self.forms, draft)
        self.mark_draft(is_one=bool(draft))
        self._mark_rows()

    def _keep(self) -> None:
        if not self._is_filled:
            return
        changed = self.changes()
        if changed:
            self._drafts[self._shown] = changed
        else:
            self._drafts.pop(self._shown, None)
        self._mark_rows()

    def _mark_rows(self) -> None:
        """Mark the rows whose draft is not saved."""
        for row in range(self.list.count()):
            item = self.list.item(row)
            named = str(item.data(_TEXT))
            item.setText(_named(named, int(item.data(KEY)) in self._drafts))
        self.new_button.setText(_named(self._new, None in self._drafts))

    def _remove(self) -> None:
        key = self.key
        if key is not None:
            self.remove_wanted.emit(key)


def _named(text: str, is_unsaved: bool) -> str:  # noqa: FBT001 -- used here alone
    """Give a name, marked where what was typed is not saved."""
    return tr(_UNSAVED).format(name=text) if is_unsaved else text
