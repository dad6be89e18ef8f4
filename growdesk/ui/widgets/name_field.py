"""What stands beneath a name's field: the name as shown, its parts, and its doubts.

While a genus is typed, genera and their abbreviations are offered in a list under the
field: Down goes into it, Enter takes one, Escape leaves it. A proposal is taken by one
press and by nothing else; Ctrl+Z in the field brings back what was typed.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, QTimer
from PySide6.QtGui import QStandardItem, QStandardItemModel
from PySide6.QtWidgets import QCompleter, QListView, QVBoxLayout, QWidget
from typing_extensions import override

from growdesk.domain.speech import tr
from growdesk.services import names
from growdesk.ui.name_text import html_of
from growdesk.ui.widgets.parts import clear, label
from growdesk.ui.widgets.text_link import TextLink

if TYPE_CHECKING:
    from PySide6.QtWidgets import QLabel, QLineEdit

    from growdesk.services.name_values import DoubtView

_PAUSE_MS = 300
_MOST_DOUBTS = 3
_ROWS = 8


class NameUnder(QWidget):
    """Reads a field as a plant's name and says beneath it what was read."""

    def __init__(self, field: QLineEdit) -> None:
        super().__init__()
        self._field = field
        self._shown = _wrapped("name-shown")
        self._parts = _wrapped("name-parts", tone="muted")
        self._doubts = QVBoxLayout()
        self._doubts.setSpacing(2)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 4)
        column.setSpacing(2)
        column.addWidget(self._shown)
        column.addWidget(self._parts)
        column.addLayout(self._doubts)
        self.pause = QTimer(self)
        self.pause.setSingleShot(True)
        self.pause.setInterval(_PAUSE_MS)
        self.pause.timeout.connect(self.tell)
        self._offers = QStandardItemModel(self)
        self.completer = QCompleter(self._offers, self)
        self.completer.setCompletionMode(
            QCompleter.CompletionMode.UnfilteredPopupCompletion
        )
        self.completer.setCompletionRole(Qt.ItemDataRole.EditRole)
        self.completer.setMaxVisibleItems(_ROWS)
        popup = QListView()
        popup.setAccessibleName(tr("Genera that fit"))
        popup.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.completer.setPopup(popup)
        self.completer.activated.connect(self._settle)
        field.setCompleter(self.completer)
        field.textEdited.connect(self._offer)
        field.textChanged.connect(self._wait)
        self.tell()

    def tell(self) -> None:
        """Say how the name in the field is read."""
        self.pause.stop()
        view = names.told(self._field.text())
        self._shown.setText("" if view.name.is_plain else html_of(view.runs))
        self._shown.setAccessibleName(
            tr("Shown as {shown}").format(shown=view.shown) if view.text else ""
        )
        self._parts.setText(view.parts_line)
        clear(self._doubts)
        for doubt in view.doubts[:_MOST_DOUBTS]:
            self._add_doubt(doubt)
        for each in (self._shown, self._parts):
            each.setVisible(bool(each.text()))
        self.setVisible(bool(view.text))

    def take(self, proposal: str) -> None:
        """Put a proposal into the field, as if it had been typed."""
        self._field.selectAll()
        self._field.insert(proposal)
        self._field.setFocus(Qt.FocusReason.OtherFocusReason)
        self.tell()

    def _add_doubt(self, doubt: DoubtView) -> None:
        self._doubts.addWidget(label(f"{doubt.said} {doubt.settles}"))
        for proposal in doubt.proposals:
            use = TextLink(
                tr("Use this"), f": {proposal}", partial(self.take, proposal)
            )
            use.setObjectName(f"use {proposal}")
            self._doubts.addWidget(use)

    def _wait(self) -> None:
        """Read at once what is put in, and what is typed after a short pause."""
        if self._field.hasFocus():
            self.pause.start()
        else:
            self.tell()

    def _offer(self, text: str) -> None:
        """Offer genera for what is being typed at the end of the field."""
        self._offers.clear()
        if self._field.cursorPosition() != len(text):
            return
        for offer in names.offered(text, _ROWS):
            self._offers.appendRow(_Offered(offer.said, offer.line))

    def _settle(self, line: str) -> None:
        """Take what was chosen in the list as if it had been typed."""
        self._field.setText(line)
        self._offers.clear()
        self._field.textEdited.emit(line)
        self.tell()


class _Offered(QStandardItem):
    """A row that shows what is said of a genus and stands for the whole line."""

    def __init__(self, said: str, line: str) -> None:
        super().__init__(said)
        self._line = line

    @override
    def data(self, role: int = Qt.ItemDataRole.UserRole + 1) -> object:
        if role == Qt.ItemDataRole.EditRole:
            return self._line
        return super().data(role)


def _wrapped(name: str, *, tone: str = "") -> QLabel:
    made = label("", tone=tone)
    made.setObjectName(name)
    if not tone:
        made.setTextFormat(Qt.TextFormat.RichText)
    return made
