"""A line of text in which the trade's words explain themselves.

Words of the glossary have a dotted line under them; pointed at, each says what it
means, and followed it opens the list of words. By key the list is a command.
"""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QCursor
from PySide6.QtWidgets import QSizePolicy, QToolTip
from typing_extensions import override

from growdesk.services.glossary import glossary
from growdesk.ui import theme
from growdesk.ui.widgets.parts import Label, enlarge

if TYPE_CHECKING:
    from collections.abc import Collection

    from growdesk.domain.glossary import Found


class Glossed(Label):
    """A wrapping line of plain text with its words explained."""

    word_wanted = Signal(str)

    def __init__(
        self,
        text: str,
        told: Collection[str] = (),
        names: Collection[str] = (),
        *,
        tone: str = "",
        scale: float = 1.0,
    ) -> None:
        self._told, self._names = frozenset(told), tuple(names)
        self.keys: tuple[str, ...] = ()
        self._plain = ""
        super().__init__(text)
        self.setTextFormat(Qt.TextFormat.RichText)
        self.setWordWrap(True)
        self.setProperty("tone", tone)
        if scale != 1.0:
            enlarge(self, scale)
        policy = QSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)
        self.setTextInteractionFlags(Qt.TextInteractionFlag.LinksAccessibleByMouse)
        self.linkHovered.connect(_explain)
        self.linkActivated.connect(self.word_wanted)

    @override
    def setText(self, text: str) -> None:
        found = glossary().found(text, self._told, self._names)
        self.keys = tuple(each.entry.key for each in found)
        self._plain = text
        super().setText(_marked(text, found))
        self.setAccessibleName(text)

    @override
    def text(self) -> str:
        """Give the text without its marks."""
        return self._plain


def _marked(text: str, found: Collection[Found]) -> str:
    """Give a text as markup, what was typed in it escaped."""
    style = f"text-underline-style: dotted; color: {theme.colours().ink};"
    parts, at = [], 0
    for each in found:
        word = escape(text[each.start : each.end])
        parts.append(escape(text[at : each.start]))
        parts.append(f'<a href="{each.entry.key}" style="{style}">{word}</a>')
        at = each.end
    parts.append(escape(text[at:]))
    return "".join(parts).replace("\n", "<br>")


def _explain(key: str) -> None:
    entry = glossary().entry(key) if key else None
    if entry is None:
        QToolTip.hideText()
        return
    told = f"<p><b>{escape(entry.word)}</b>: {escape(entry.text)}</p>"
    QToolTip.showText(QCursor.pos(), told)
