"""Choose the columns of the table of all plants, their order, and what it is sorted by.

All by keyboard: Space shows a column or not, Alt with an arrow moves it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct
from PySide6.QtCore import QEvent, QObject, QSize, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QCheckBox,
    QHBoxLayout,
    QListWidget,
    QListWidgetItem,
    QVBoxLayout,
)
from typing_extensions import override

from growdesk.domain.errors import InputError
from growdesk.domain.speech import tr
from growdesk.ui import sizes
from growdesk.ui.dialogs.base import FormDialog
from growdesk.ui.roster_columns import BY_KEY, COLUMNS, USUAL
from growdesk.ui.widgets.form import choose
from growdesk.ui.widgets.parts import button, label

if TYPE_CHECKING:
    from collections.abc import Sequence

    from PySide6.QtWidgets import QWidget

_KEY = Qt.ItemDataRole.UserRole
_STEPS = {Qt.Key.Key_Up: -1, Qt.Key.Key_Down: 1}


class Laid(Struct, frozen=True):
    """How the table is laid out: columns in their order, and what it is sorted by."""

    columns: tuple[str, ...]
    order: str
    downwards: bool


class ColumnsDialog(FormDialog):
    """The columns of the table."""

    def __init__(self, parent: QWidget | None, laid: Laid) -> None:
        super().__init__(parent, tr("Columns of the table"), tr("Show these"))
        self.list = QListWidget()
        self.list.setAccessibleName(tr("Columns in their order"))
        self.list.setAccessibleDescription(
            tr("Space shows or hides a column, Alt with an arrow moves it")
        )
        sizes.least_high(self.list, 250)
        self.list.installEventFilter(self)
        self.order = self.form.combo(
            "order", tr("&Sorted by"), [(each.key, each.title) for each in COLUMNS]
        )
        self.downwards = QCheckBox(tr("The &other way round: Z first, newest first"))
        choose(self.order, laid.order)
        self.downwards.setChecked(laid.downwards)
        self._fill(laid.columns)
        self._lay_out()
        sizes.least_wide(self, 440)
        self.begin()
        self.list.setFocus()

    def keys(self) -> tuple[str, ...]:
        """Give the columns that are shown, in their order."""
        return tuple(
            str(item.data(_KEY))
            for item in self._items()
            if item.checkState() is Qt.CheckState.Checked
        )

    @override
    def draft(self) -> Laid:
        keys = self.keys()
        if not keys:
            hint = tr("Show one at least, such as Tag.")
            raise InputError("columns", "", tr("are all hidden"), hint)
        return Laid(keys, self.order.currentData(), self.downwards.isChecked())

    @override
    def enter(self, focused: QWidget | None) -> None:
        """Take Enter in the list as the wish to see it."""
        if focused is self.list:
            self.try_save()
        else:
            super().enter(focused)

    def step(self, by: int) -> None:
        """Move the column under the cursor up (-1) or down (1)."""
        row = self.list.currentRow()
        if not 0 <= row + by < self.list.count() or row < 0:
            return
        self.list.insertItem(row + by, self.list.takeItem(row))
        self.list.setCurrentRow(row + by)

    def _items(self) -> list[QListWidgetItem]:
        return [self.list.item(row) for row in range(self.list.count())]

    def _fill(self, shown: Sequence[str]) -> None:
        self.list.clear()
        hidden = [each.key for each in COLUMNS if each.key not in shown]
        for key in (*shown, *hidden):
            item = QListWidgetItem(BY_KEY[key].title)
            item.setData(_KEY, key)
            item.setSizeHint(QSize(0, self.list.fontMetrics().height() + 10))
            item.setFlags(item.flags() | Qt.ItemFlag.ItemIsUserCheckable)
            state = Qt.CheckState.Checked if key in shown else Qt.CheckState.Unchecked
            item.setCheckState(state)
            self.list.addItem(item)
        self.list.setCurrentRow(0)

    def _lay_out(self) -> None:
        self.body.addWidget(
            label(
                tr("Space shows a column or not; Alt with ↑ or ↓ moves it."),
                tone="muted",
            )
        )
        beside = QVBoxLayout()
        beside.addWidget(button(tr("Move &up"), lambda: self.step(-1), "Alt+Up"))
        beside.addWidget(button(tr("Move &down"), lambda: self.step(1), "Alt+Down"))
        beside.addWidget(button(tr("Usual &columns"), lambda: self._fill(USUAL)))
        beside.addStretch(1)
        row = QHBoxLayout()
        row.addWidget(self.list, 1)
        row.addLayout(beside)
        self.body.addLayout(row, 1)
        self.form.end()
        self.body.addWidget(self.form)
        self.body.addWidget(self.downwards)

    @override
    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if (
            watched is self.list
            and event.type() == QEvent.Type.KeyPress
            and isinstance(event, QKeyEvent)
            and event.modifiers() & Qt.KeyboardModifier.AltModifier
            and Qt.Key(event.key()) in _STEPS
        ):
            self.step(_STEPS[Qt.Key(event.key())])
            return True
        return super().eventFilter(watched, event)
