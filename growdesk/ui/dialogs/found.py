"""Show what a look through a collection, or a rescue, found: a head and plain lines."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import (
    QDialogButtonBox,
    QListWidget,
    QListWidgetItem,
    QPlainTextEdit,
    QVBoxLayout,
)

from growdesk.domain.speech import tr
from growdesk.ui import sizes
from growdesk.ui.dialogs.on_screen import OnScreen
from growdesk.ui.widgets.parts import button, label

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from PySide6.QtWidgets import QPushButton, QWidget

Way = tuple[str, "Callable[[], object]"]


class FoundDialog(OnScreen):
    """Heads in short sentences, the list as text, and the ways that lead on.

    With ``ticks``, lines to choose among, the first way works on ``chosen``.
    """

    def __init__(
        self,
        parent: QWidget | None,
        title: str,
        heads: Sequence[str],
        text: str,
        ways: Sequence[Way] = (),
        ticks: Sequence[str] = (),
    ) -> None:
        super().__init__(parent)
        self.setWindowTitle(title)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.chosen: tuple[int, ...] = tuple(range(len(ticks)))
        """The lines that are ticked, by their places."""
        self.list = _ticked(ticks)
        self.list.setParent(self)  # with nothing to tick it stands nowhere
        self.list.setVisible(bool(ticks))
        self.list.itemChanged.connect(lambda _item: self._choose())
        self.first_way: QPushButton | None = None
        """The way that works on what is ticked, where anything is."""
        self.text = QPlainTextEdit(text)
        self.text.setReadOnly(True)
        self.text.setTabChangesFocus(True)
        self.text.setAccessibleName(tr("What was found"))
        outer = QVBoxLayout(self)
        outer.setContentsMargins(18, 16, 18, 14)
        outer.setSpacing(10)
        outer.addWidget(label(title, scale=1.3))
        for head in heads:
            outer.addWidget(label(head))
        if ticks:
            outer.addWidget(
                label(
                    tr("Can be set back; take the tick off what is right"), tone="head"
                )
            )
            outer.addWidget(self.list, 1)
            if text:
                outer.addWidget(label(tr("All that was found"), tone="head"))
        outer.addWidget(self.text, 1)
        self.text.setVisible(bool(text))
        if not text:
            outer.addStretch(1)
        outer.addWidget(self._buttons(ways, has_text=bool(text)))
        self.resize(sizes.area(640, 560 if ticks else 460 if text else 180))

    def _buttons(self, ways: Sequence[Way], *, has_text: bool) -> QDialogButtonBox:
        box = QDialogButtonBox()
        for said, way in ways:
            made = button(said, self._leading(way))
            box.addButton(made, QDialogButtonBox.ButtonRole.ActionRole)
            self.first_way = self.first_way or made
        if has_text:
            copy = button(tr("Cop&y"), self._copy)
            box.addButton(copy, QDialogButtonBox.ButtonRole.ActionRole)
        close = box.addButton(QDialogButtonBox.StandardButton.Close)
        close.setDefault(True)
        box.rejected.connect(self.reject)
        return box

    def _choose(self) -> None:
        """Take in which lines are ticked; with none there is nothing to set back."""
        rows = range(self.list.count())
        ticked = Qt.CheckState.Checked
        self.chosen = tuple(r for r in rows if self.list.item(r).checkState() == ticked)
        if self.first_way is not None:
            self.first_way.setEnabled(bool(self.chosen))

    def _leading(self, way: Callable[[], object]) -> Callable[[], None]:
        def go() -> None:
            self.accept()
            way()

        return go

    def _copy(self) -> None:
        QGuiApplication.clipboard().setText(self.text.toPlainText())


def _ticked(lines: Sequence[str]) -> QListWidget:
    """Give a list of lines, each with its tick."""
    made = QListWidget()
    made.setAccessibleName(tr("What can be set back"))
    made.setWordWrap(True)
    for line in lines:
        item = QListWidgetItem(line, made)
        item.setFlags(item.flags() | Qt.ItemFlag.ItemIsUserCheckable)
        item.setCheckState(Qt.CheckState.Checked)
    if lines:
        made.setCurrentRow(0)
    return made
