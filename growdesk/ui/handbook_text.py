"""Put the words and keys of commands into a page of the handbook, and set it.

Pages name commands by key alone, so that no menu's word and no shortcut is typed twice.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Final

from PySide6.QtGui import (
    QColor,
    QFont,
    QKeySequence,
    QTextBlockFormat,
    QTextCharFormat,
    QTextCursor,
    QTextDocument,
)

from growdesk.domain.speech import tr
from growdesk.services.handbook import escaped
from growdesk.ui import actions, theme
from growdesk.ui.shortcut_table import plain_text

if TYPE_CHECKING:
    from collections.abc import Iterator

    from PySide6.QtGui import QTextBlock

    from growdesk.ui.actions import Command

COMMAND: Final = "command:"
NAMED: Final = re.compile(r"\[[^\]]*\]\((?P<how>command|key):(?P<key>[a-z-]+)\)")
LINK: Final = re.compile(r"\[([^\]]*)\]\([^)]*\)")
_LINE_PER_CENT: Final = 128
_ABOVE_PX: Final = {0: 4, 1: 0, 2: 14, 3: 10}
_BELOW_PX: Final = {0: 6, 1: 10, 2: 4, 3: 2}
_IN_A_LIST_PX: Final = 3


def filled(text: str) -> str:
    """Put the words of the menus and the keys of this machine into a page.

    A command that opens a form is a link to it; any other is only named.
    """
    commands = {command.key: command for command in actions.declared()}

    def said(found: re.Match[str]) -> str:
        command = commands[found["key"]]
        if found["how"] == "key":
            return f"**{escaped(key_of(command))}**"
        words = escaped(plain_text(tr(command.text)))
        return f"[{words}]({COMMAND}{command.key})" if opens(command) else f"*{words}*"

    return NAMED.sub(said, text)


def opens(command: Command) -> bool:
    """Tell whether a command opens something and by itself changes nothing."""
    return command.text.endswith("…") or command.menu == "help"


def key_of(command: Command) -> str:
    """Give the first shortcut of a command as this machine writes it."""
    native = QKeySequence.SequenceFormat.NativeText
    return actions.first_keys(command)[0].toString(native)


def set_page(document: QTextDocument, text: str) -> None:
    """Set a page in the colours now in force: headings, lists, links, air between."""
    document.setMarkdown(text, QTextDocument.MarkdownFeature.MarkdownDialectGitHub)
    colours = theme.colours()
    cursor = QTextCursor(document)
    cursor.beginEditBlock()
    for block in _blocks(document):
        _space(cursor, block)
        if block.blockFormat().headingLevel() > 1:
            cursor.setPosition(block.position())
            cursor.movePosition(
                QTextCursor.MoveOperation.EndOfBlock, QTextCursor.MoveMode.KeepAnchor
            )
            tone = QTextCharFormat()
            tone.setForeground(QColor(colours.accent))
            tone.setFontWeight(QFont.Weight.DemiBold)
            cursor.mergeCharFormat(tone)
    for start, end in _links(document):
        cursor.setPosition(start)
        cursor.setPosition(end, QTextCursor.MoveMode.KeepAnchor)
        link = QTextCharFormat()
        link.setForeground(QColor(colours.accent))
        link.setFontUnderline(True)
        cursor.mergeCharFormat(link)
    cursor.endEditBlock()


def _space(cursor: QTextCursor, block: QTextBlock) -> None:
    """Give a block the air of its sort."""
    level = min(block.blockFormat().headingLevel(), 3)
    listed = block.textList() is not None
    form = QTextBlockFormat()
    form.setTopMargin(0 if listed else _ABOVE_PX[level])
    form.setBottomMargin(_IN_A_LIST_PX if listed else _BELOW_PX[level])
    kind = QTextBlockFormat.LineHeightTypes.ProportionalHeight
    form.setLineHeight(_LINE_PER_CENT, kind.value)
    cursor.setPosition(block.position())
    cursor.mergeBlockFormat(form)


def _blocks(document: QTextDocument) -> Iterator[QTextBlock]:
    block = document.begin()
    while block.isValid():
        yield block
        block = block.next()


def _links(document: QTextDocument) -> list[tuple[int, int]]:
    found = []
    for block in _blocks(document):
        each = block.begin()
        while not each.atEnd():
            fragment = each.fragment()
            if fragment.charFormat().isAnchor():
                start = fragment.position()
                found.append((start, start + fragment.length()))
            each += 1
    return found
