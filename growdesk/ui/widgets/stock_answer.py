"""Show what a wanted stock bottle comes to: to weigh, to use, or why it is refused."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtWidgets import QVBoxLayout, QWidget

from growdesk.domain.speech import mark, tr
from growdesk.ui import sizes, words
from growdesk.ui.widgets.parts import label

if TYPE_CHECKING:
    from growdesk.services.stock_values import StockAnswer


_WIDTH_PX = 270
_HINT = mark(
    "Say what goes in, how much of it, and how much the bottle holds: what to weigh, "
    "or why it would not stay clear, then stands here."
)


class StockAnswerBox(QWidget):
    """Lines of the answer; empty ones take no room."""

    def __init__(self) -> None:
        super().__init__()
        self._hint = label(tr(_HINT), tone="muted")
        self._refused = label("", tone="wrong")
        self._way_out = label("")
        self._weigh = label("", scale=1.12)
        self._use = label("")
        self._beware = label("")
        self._order = label("", tone="muted")
        self._held = label("", tone="muted")
        self._lines = (
            self._refused,
            self._way_out,
            self._weigh,
            self._use,
            self._beware,
            self._order,
            self._held,
        )
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(8)
        sizes.wide(self, _WIDTH_PX)
        column.addWidget(label(tr("What it comes to"), tone="head"))
        column.addWidget(self._hint)
        for line in self._lines:
            column.addWidget(line)
        column.addStretch(1)
        self.clear()

    def show_answer(self, answer: StockAnswer) -> None:
        """Show an answer; of a refused one no weights are shown."""
        self._hint.hide()
        texts = (
            (self._refused, answer.refused),
            (self._way_out, answer.way_out),
            (self._weigh, () if answer.refused else answer.weigh),
            (self._use, () if answer.refused else answer.use),
            (self._beware, answer.beware),
            (
                self._order,
                () if answer.refused or not answer.order else (answer.order,),
            ),
            (self._held, (answer.held_against,)),
        )
        for line, said in texts:
            line.setText(words.unbroken("\n".join(said), "g/L", "°C", "mL"))
            line.setVisible(bool(said))

    def clear(self) -> None:
        """Show what is still to be said."""
        self._hint.show()
        for line in self._lines:
            line.setText("")
            line.hide()

    def said(self) -> str:
        """Give all that is shown."""
        said = "\n".join(line.text() for line in self._lines if line.text())
        return said.replace("\N{NO-BREAK SPACE}", " ").replace("\N{WORD JOINER}", "")
