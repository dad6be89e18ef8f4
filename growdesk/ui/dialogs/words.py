"""What the trade's words mean: those in what is shown first, then all, with a find."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QDialogButtonBox,
    QHBoxLayout,
    QLineEdit,
    QListWidget,
    QListWidgetItem,
    QVBoxLayout,
    QWidget,
)

from growdesk.domain.speech import tr
from growdesk.services.glossary import glossary
from growdesk.ui import sizes
from growdesk.ui.dialogs.on_screen import OnScreen
from growdesk.ui.widgets.parts import label

if TYPE_CHECKING:
    from collections.abc import Sequence

    from growdesk.domain.glossary import Entry

_WIDE_PX, _TALL_PX = 620, 440
_LIST_PX = 200


class WordsDialog(OnScreen):
    """The list of words, and what the chosen one means."""

    def __init__(
        self, parent: QWidget | None, shown: Sequence[str] = (), first: str = ""
    ) -> None:
        super().__init__(parent)
        self.setWindowTitle(tr("What a word means"))
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self._shown = tuple(shown)
        self.sought = QLineEdit()
        self.sought.setPlaceholderText(tr("Find a word"))
        self.sought.setAccessibleName(tr("Find a word"))
        self.sought.setClearButtonEnabled(True)
        self.list = QListWidget()
        self.list.setAccessibleName(tr("Words"))
        sizes.wide(self.list, _LIST_PX)
        self.word = label(scale=1.28)
        self.meaning = label()
        self.meaning.setAlignment(Qt.AlignmentFlag.AlignTop)
        self.where = label(tone="muted")
        self._lay_out()
        self.sought.textChanged.connect(self._fill)
        self.list.currentItemChanged.connect(self._tell)
        self._fill()
        self._choose(first or next(iter(self._shown), ""))
        (self.list if first or self._shown else self.sought).setFocus()

    def _lay_out(self) -> None:
        told = QVBoxLayout()
        told.setSpacing(8)
        for each in (self.word, self.meaning, self.where):
            told.addWidget(each)
        told.addStretch(1)
        row = QHBoxLayout()
        row.setSpacing(16)
        row.addWidget(self.list)
        row.addLayout(told, 1)
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
        buttons.rejected.connect(self.reject)
        outer = QVBoxLayout(self)
        outer.setContentsMargins(18, 16, 18, 14)
        outer.setSpacing(12)
        outer.addWidget(self.sought)
        outer.addLayout(row, 1)
        outer.addWidget(buttons)
        self.resize(sizes.area(_WIDE_PX, _TALL_PX).boundedTo(self.room()))

    def _fill(self) -> None:
        """List the words in what is shown, then the others; a find goes through all."""
        self.list.clear()
        matching = glossary().matching(self.sought.text())
        by_key = {each.key: each for each in matching}
        near = [by_key[key] for key in self._shown if key in by_key]
        for title, entries in (
            (tr("In what is shown"), near),
            (tr("All words") if near else "", list(matching)),
        ):
            if entries and title:
                self._add_head(title)
            for entry in entries:
                item = QListWidgetItem(entry.word)
                item.setData(Qt.ItemDataRole.UserRole, entry.key)
                self.list.addItem(item)
        self._choose("")
        if not matching:
            self._say(None)

    def _add_head(self, title: str) -> None:
        head = QListWidgetItem(title)
        head.setFlags(Qt.ItemFlag.NoItemFlags)
        font = head.font()
        font.setBold(True)
        head.setFont(font)
        self.list.addItem(head)

    def _choose(self, key: str) -> None:
        """Choose a word, or the first that can be chosen."""
        for row in range(self.list.count()):
            found = self.list.item(row).data(Qt.ItemDataRole.UserRole)
            if found and key in ("", found):
                self.list.setCurrentRow(row)
                return

    def _tell(self, item: QListWidgetItem | None) -> None:
        key = "" if item is None else item.data(Qt.ItemDataRole.UserRole)
        self._say(glossary().entry(key) if key else None)

    def _say(self, entry: Entry | None) -> None:
        self.word.setText("" if entry is None else entry.word)
        nothing = tr("No word of that spelling stands here.")
        self.meaning.setText(nothing if entry is None else entry.text)
        also = [] if entry is None else _others(entry)
        said = tr("Also: {forms}.").format(forms=", ".join(also)) if also else ""
        self.where.setText(said)


def _others(entry: Entry) -> list[str]:
    """Give the forms that are not the word again in another number."""
    word = entry.word.casefold()
    return [form for form in entry.forms if word not in form.casefold()]
