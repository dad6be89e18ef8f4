"""Show the kinds in a list, narrowed by a find line over it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QRect, QSize, Qt, Signal
from PySide6.QtWidgets import QListWidget, QListWidgetItem, QVBoxLayout, QWidget

from growdesk.domain.speech import tr
from growdesk.services.kind_views import matching
from growdesk.ui import kind_texts, sizes
from growdesk.ui.widgets.find_line import FindLine
from growdesk.ui.widgets.parts import label

if TYPE_CHECKING:
    from collections.abc import Sequence

    from growdesk.services.kind_values import KindView

KEY = Qt.ItemDataRole.UserRole
_WIDE_PX = 240
_AROUND_PX = 44
_ABOVE_PX = 12


class KindList(QWidget):
    """The left side of the browser."""

    chosen = Signal()
    narrowed = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.find_line = FindLine()
        self.find_line.setPlaceholderText(tr("Find: a genus, a name, Rlc."))
        self.find_line.setAccessibleName(tr("Find a kind"))
        self.rows = QListWidget()
        self.rows.setAccessibleName(tr("Kinds"))
        self.rows.setWordWrap(True)
        self.rows.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.count = label("", tone="muted")
        sizes.wide(self, _WIDE_PX)
        inner = QVBoxLayout(self)
        inner.setContentsMargins(0, 0, 0, 0)
        inner.setSpacing(6)
        inner.addWidget(self.find_line)
        inner.addWidget(self.rows, 1)
        inner.addWidget(self.count)
        self.find_line.textChanged.connect(lambda _text: self.narrowed.emit())
        self.find_line.entered.connect(self.rows.setFocus)
        self.find_line.left_empty.connect(self.rows.setFocus)
        self.rows.currentItemChanged.connect(lambda _now, _was: self.chosen.emit())

    @property
    def key(self) -> str:
        """Give the key of the kind chosen, or nothing where none is found."""
        row = self.rows.currentRow()
        return "" if row < 0 else str(self.rows.item(row).data(KEY))

    @property
    def is_narrowed(self) -> bool:
        """Tell whether anything is looked for."""
        return bool(self.find_line.text().strip())

    def show_kinds(self, views: Sequence[KindView], chosen: str) -> None:
        """Show the kinds that are looked for, one of them chosen; tell nobody."""
        found = matching(views, self.find_line.text())
        self.rows.blockSignals(True)  # noqa: FBT003 -- Qt's own signature
        self.rows.clear()
        for view in found:
            item = QListWidgetItem(kind_texts.row_title(view))
            item.setData(KEY, view.key)
            item.setSizeHint(self._room_for(item.text()))
            self.rows.addItem(item)
        if found:
            self.rows.setCurrentRow(0)
            self.choose(chosen)
        self.rows.blockSignals(False)  # noqa: FBT003 -- Qt's own signature
        few = len(found) < len(views)
        text = (
            tr("{found} of {total} kinds").format(found=len(found), total=len(views))
            if few
            else ""
        )
        self.count.setText(text if found else tr("No kind is called so."))

    def choose(self, key: str) -> None:
        """Choose a kind and bring it into sight, where it is in the list."""
        for row in range(self.rows.count()):
            if self.rows.item(row).data(KEY) == key:
                self.rows.setCurrentRow(row)
                self.rows.scrollToItem(self.rows.item(row))

    def _room_for(self, text: str) -> QSize:
        """Give what a row needs so that all of its text is seen."""
        wide = sizes.px(_WIDE_PX) - _AROUND_PX
        box = QRect(0, 0, wide, 10_000)
        wrapped = Qt.TextFlag.TextWordWrap
        high = self.rows.fontMetrics().boundingRect(box, wrapped, text).height()
        return QSize(wide, high + _ABOVE_PX)
