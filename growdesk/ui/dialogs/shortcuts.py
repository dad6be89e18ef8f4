"""Show every key in groups, found as one types; to print, or to keep as PDF."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QFont
from PySide6.QtWidgets import (
    QDialogButtonBox,
    QHeaderView,
    QTreeWidget,
    QTreeWidgetItem,
    QVBoxLayout,
    QWidget,
)

from growdesk.domain.speech import tr
from growdesk.ui import shortcut_table
from growdesk.ui.dialogs.on_screen import OnScreen
from growdesk.ui.widgets.find_line import DialogFindLine
from growdesk.ui.widgets.parts import button, label

if TYPE_CHECKING:
    from collections.abc import Sequence

    from growdesk.ui.shortcut_table import Group

_WANTED = QSize(680, 660)
_ROW_PX = 8


class ShortcutsDialog(OnScreen):
    """All keys to read, the find line in focus."""

    preview_wanted = Signal()
    save_wanted = Signal()

    def __init__(self, parent: QWidget | None, groups: Sequence[Group]) -> None:
        super().__init__(parent)
        self.setWindowTitle(tr(shortcut_table.TITLE))
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self._groups = tuple(groups)
        self._shown: list[str] = []
        self.find_line = DialogFindLine()
        self.find_line.setPlaceholderText(tr("Find by what it does, or by the key"))
        self.find_line.setAccessibleName(tr("Find a shortcut"))
        self.find_line.textChanged.connect(self._narrow)
        self.list = QTreeWidget()
        self.find_line.entered.connect(self.list.setFocus)
        self.find_line.left_empty.connect(self.find_line.setFocus)
        self._dress()
        self._nothing = label(tr("No shortcut has these words."), tone="muted")
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
        role = QDialogButtonBox.ButtonRole.ActionRole
        for text, out in (
            (tr("&Print…"), self.preview_wanted),
            (tr("&Save as PDF…"), self.save_wanted),
        ):
            buttons.addButton(button(text, out.emit), role)
        buttons.rejected.connect(self.reject)
        outer = QVBoxLayout(self)
        outer.setContentsMargins(18, 16, 18, 14)
        outer.setSpacing(10)
        outer.addWidget(self.find_line)
        outer.addWidget(self._nothing)
        outer.addWidget(self.list, 1)
        outer.addWidget(buttons)
        self._narrow("")
        self.resize(_WANTED)
        self.find_line.setFocus()

    def shown(self) -> tuple[str, ...]:
        """Give what is in sight, a line a row."""
        return tuple(self._shown)

    def _dress(self) -> None:
        tree = self.list
        tree.setAccessibleName(tr(shortcut_table.TITLE))
        tree.setColumnCount(2)
        tree.setHeaderLabels([tr("What"), tr("Keys")])
        tree.setRootIsDecorated(False)
        tree.setItemsExpandable(False)
        tree.setIndentation(16)
        tree.setWordWrap(True)
        tree.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        header = tree.header()
        header.setStretchLastSection(False)
        header.setSectionResizeMode(0, QHeaderView.ResizeMode.Stretch)
        header.setSectionResizeMode(1, QHeaderView.ResizeMode.ResizeToContents)

    def _narrow(self, typed: str) -> None:
        tree = self.list
        tree.clear()
        strong = QFont(tree.font())
        strong.setWeight(QFont.Weight.DemiBold)
        high = QSize(0, tree.fontMetrics().height() + _ROW_PX)
        found = shortcut_table.found_in(self._groups, typed)
        self._shown = []
        for group in found:
            self._shown.append(group.title)
            head = QTreeWidgetItem([group.title])
            head.setFont(0, strong)
            head.setFlags(Qt.ItemFlag.ItemIsEnabled)
            rows = [QTreeWidgetItem([row.text, row.shown]) for row in group.rows]
            self._shown += [f"{row.text}: {row.shown}" for row in group.rows]
            head.addChildren(rows)
            for each in (head, *rows):
                each.setSizeHint(0, high)
            tree.addTopLevelItem(head)
            head.setFirstColumnSpanned(True)
            head.setExpanded(True)
            if group is found[0]:
                tree.setCurrentItem(rows[0])
        self._nothing.setVisible(not found)
