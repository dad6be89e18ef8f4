"""A few sentences under a form that follow what is typed, each with its source."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtWidgets import QVBoxLayout

from growdesk.ui.widgets.parts import Page, clear, label

if TYPE_CHECKING:
    from growdesk.services.water_told import WaterTold

SOURCES = "Where this is from: {sources}"


class ToldLines(Page):
    """Sentences by weight: what is too much in the tone of what is wrong."""

    def __init__(self, name: str) -> None:
        super().__init__()
        self.setAccessibleName(name)
        self._lines = QVBoxLayout(self)
        self._lines.setContentsMargins(0, 0, 0, 0)
        self._lines.setSpacing(6)
        self._texts: list[str] = []

    def show_told(self, told: WaterTold) -> None:
        """Show what is told; nothing where there is nothing to say."""
        self._empty()
        for line in told.lines:
            self._put(line)
        for flag in told.flags:
            tone = "wrong" if flag.is_too_much else "" if flag.weight > 1 else "muted"
            self._put(flag.text, tone, flag.source)
        sources = " ".join(dict.fromkeys(flag.source for flag in told.flags))
        if sources:
            self._put(SOURCES.format(sources=sources), "muted")

    def show_problem(self, text: str) -> None:
        """Show quietly why there is no answer yet."""
        self._empty()
        self._put(text, "muted")

    def texts(self) -> list[str]:
        """Give the sentences that are shown."""
        return list(self._texts)

    def _put(self, text: str, tone: str = "", source: str = "") -> None:
        self._texts.append(text)
        made = label(text, tone=tone)
        if source:
            made.setToolTip(source)
            made.setAccessibleDescription(source)
        self._lines.addWidget(made)

    def _empty(self) -> None:
        self._texts.clear()
        clear(self._lines)
