"""Give a line for each tin: the grams of it in one level spoon, as weighed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QLabel, QLineEdit, QWidget
from typing_extensions import override

from growdesk.domain.errors import InputError
from growdesk.domain.measure_words import WEIGH_THE_SPOON
from growdesk.domain.speech import mark, tr
from growdesk.ui import sizes, typed, words
from growdesk.ui.widgets.parts import clear, label

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from PySide6.QtGui import QFocusEvent

    from growdesk.services.values import TinView

_LINE_PX = 120
_NO_TIN = mark(
    "No tin is on the shelf yet; add one there first, then weigh a spoon of it."
)


class SpoonTable(QWidget):
    """The weights of one spoon, tin by tin; an empty line is not weighed."""

    def __init__(self) -> None:
        super().__init__()
        self.setFocusPolicy(Qt.FocusPolicy.ClickFocus)
        self.lines: dict[int, QLineEdit] = {}
        self._names: dict[int, str] = {}
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 2, 0, 0)
        self._grid.setHorizontalSpacing(10)
        self._grid.setVerticalSpacing(4)
        self._grid.setColumnStretch(0, 1)

    def show_tins(self, tins: Sequence[TinView]) -> None:
        """Give a line to each tin there is."""
        clear(self._grid)
        self.lines, self._names = {}, {}
        if not tins:
            self._grid.addWidget(label(tr(_NO_TIN), tone="muted"), 0, 0, 1, 2)
            return
        for row, view in enumerate(tins):
            self._add_line(row, view.tin_id, view.draft.name)
        note = label(tr(WEIGH_THE_SPOON), tone="muted")
        self._grid.addWidget(note, len(tins), 0, 1, 2)

    def show_weights(self, weights: Mapping[int, float]) -> None:
        """Show what the spoon was weighed with."""
        for tin_id, line in self.lines.items():
            grams = weights.get(tin_id)
            line.setText("" if grams is None else f"{words.number(grams, 3)} g")

    def weights(self) -> tuple[tuple[int, float], ...]:
        """Give the grams in a level spoon by tin; raises ``InputError`` on a slip."""
        found = []
        for tin_id, line in self.lines.items():
            grams = self._grams(tin_id, line.text())
            if grams is not None:
                found.append((tin_id, grams))
        return tuple(found)

    def held(self) -> dict[int, str]:
        """Give what stands in the lines, as typed."""
        return {tin_id: line.text() for tin_id, line in self.lines.items()}

    def hold(self, value: Mapping[int, str]) -> None:
        """Put back what stood in the lines."""
        for tin_id, text in value.items():
            if tin_id in self.lines:
                self.lines[tin_id].setText(text)

    @override
    def focusInEvent(self, event: QFocusEvent) -> None:
        """Hand the focus on to the first line."""
        super().focusInEvent(event)
        first = next(iter(self.lines.values()), None)
        if first is not None:
            first.setFocus(event.reason())

    def _grams(self, tin_id: int, text: str) -> float | None:
        try:
            return typed.mass_g(text, "g_per_level")
        except InputError as error:
            problem = tr("for {names} {problem}").format(
                names=self._names[tin_id], problem=error.problem
            )
            raise InputError("g_per_level", text, problem, error.hint) from None

    def _add_line(self, row: int, tin_id: int, name: str) -> None:
        line = QLineEdit()
        line.setPlaceholderText(tr("not weighed"))
        line.setAccessibleName(
            tr("Grams of {name} in one level spoon").format(name=name)
        )
        line.setToolTip(tr("say 4.1 g, or 41/10 for ten spoons of 41 g"))
        sizes.wide(line, _LINE_PX)
        said = QLabel(name.replace("&", "&&"))
        said.setTextFormat(Qt.TextFormat.PlainText)
        said.setBuddy(line)
        self._grid.addWidget(said, row, 0)
        self._grid.addWidget(line, row, 1)
        self.lines[tin_id] = line
        self._names[tin_id] = name
