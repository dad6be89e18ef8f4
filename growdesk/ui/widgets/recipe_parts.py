"""Choose the tins of a recipe, with the parts by weight of each."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QCheckBox, QGridLayout, QLineEdit, QSizePolicy, QWidget
from typing_extensions import override

from growdesk.domain.errors import InputError
from growdesk.domain.speech import mark, tr
from growdesk.services.recipe_values import PartDraft
from growdesk.ui import sizes, typed
from growdesk.ui.tips import as_typed
from growdesk.ui.widgets.parts import clear, label
from growdesk.ui.words import number

if TYPE_CHECKING:
    from collections.abc import Sequence

    from PySide6.QtGui import QFocusEvent, QResizeEvent

_SHARE_PX = 70
_BOX_PX = 150
_MARK_PX = 36
NO_TINS = mark("No tin is on the shelf yet; add one under Tins.")


class _CutBox(QCheckBox):
    """A box whose words are cut to the room there is, whole in its tip and name."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self._whole = text
        self.setToolTip(as_typed(text))
        self.setAccessibleName(text)
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        sizes.least_wide(self, _BOX_PX)

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        room = self.width() - _MARK_PX
        end = Qt.TextElideMode.ElideRight
        cut = self.fontMetrics().elidedText(self._whole, end, room)
        self.setText(cut.replace("&", "&&"))


class PartsEditor(QWidget):
    """A line for each tin: taken or not, and its parts where they are fixed."""

    changed = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.setAccessibleName(tr("Tins of the recipe"))
        self.setFocusPolicy(Qt.FocusPolicy.ClickFocus)
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setVerticalSpacing(2)
        self._grid.setColumnStretch(0, 1)
        self.boxes: dict[int, QCheckBox] = {}
        self.lines: dict[int, QLineEdit] = {}
        self._is_solved = False

    def offer(self, tins: Sequence[tuple[int, str]]) -> None:
        """Offer tins by number and words; what is chosen is begun anew."""
        clear(self._grid)
        self.boxes, self.lines = {}, {}
        for row, (tin_id, text) in enumerate(tins):
            box, line = _CutBox(text), QLineEdit()
            line.setAccessibleName(tr("Parts by weight of {text}").format(text=text))
            line.setPlaceholderText(tr("parts"))
            sizes.wide(line, _SHARE_PX)
            box.toggled.connect(lambda _on: self._tell())
            line.textChanged.connect(lambda _text: self.changed.emit())
            self._grid.addWidget(box, row, 0)
            self._grid.addWidget(line, row, 1)
            self.boxes[tin_id], self.lines[tin_id] = box, line
        if not tins:
            self._grid.addWidget(label(tr(NO_TINS), tone="muted"), 0, 0)
        self._tell()

    def set_solved(self, *, solved: bool) -> None:
        """Ask for no parts where they are solved for."""
        self._is_solved = solved
        self._tell()

    def parts(self) -> tuple[PartDraft, ...]:
        """Give the tins chosen; raises ``InputError`` on a slip in their parts."""
        return tuple(
            PartDraft(tin_id, None if self._is_solved else self._share(tin_id))
            for tin_id, box in self.boxes.items()
            if box.isChecked()
        )

    def put(self, parts: Sequence[PartDraft]) -> None:
        """Show the tins of a recipe."""
        shares = {part.tin_id: part.share for part in parts}
        for tin_id, box in self.boxes.items():
            self.lines[tin_id].setText(number(shares.get(tin_id), 4))
            box.setChecked(tin_id in shares)

    def held(self) -> dict[int, str]:
        """Give what a kept draft needs: the parts as typed, by tin."""
        return {i: self.lines[i].text() for i, b in self.boxes.items() if b.isChecked()}

    def hold(self, value: dict[int, str]) -> None:
        """Put back what a kept draft had."""
        for tin_id, box in self.boxes.items():
            self.lines[tin_id].setText(value.get(tin_id, ""))
            box.setChecked(tin_id in value)

    def stops(self) -> list[QWidget]:
        """Give what the Tab key comes to, line by line."""
        return [each for i in self.boxes for each in (self.boxes[i], self.lines[i])]

    @override
    def focusInEvent(self, event: QFocusEvent) -> None:
        """Hand the focus on to the first tin; a proxy would catch the Tab key."""
        super().focusInEvent(event)
        first = next(iter(self.boxes.values()), None)
        if first is not None:
            first.setFocus(event.reason())

    def _share(self, tin_id: int) -> float:
        text = self.lines[tin_id].text().strip()
        found = typed.number(text, "parts", "2")
        if found is None:
            name = self.boxes[tin_id].accessibleName()
            hint = tr("Give its parts by weight, for instance 2 beside 1 of another.")
            raise InputError("parts", name, tr("has no parts"), hint)
        return found

    def _tell(self) -> None:
        for tin_id, box in self.boxes.items():
            line = self.lines[tin_id]
            line.setVisible(not self._is_solved)
            line.setEnabled(box.isChecked() and not self._is_solved)
        self.changed.emit()
