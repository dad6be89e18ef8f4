"""Tips and titles that say what was typed: Qt reads signs of its own there."""

from __future__ import annotations

from html import escape

from PySide6.QtGui import Qt


def as_typed(text: str) -> str:
    """Give a text for a tool tip that shows every sign of it."""
    if not Qt.mightBeRichText(text):
        return text
    return f"<p>{escape(text).replace(chr(10), '<br>')}</p>"


def titled(text: str) -> str:
    """Give a text for a window's title; there Qt takes a [*] for a mark of changes."""
    return text.replace("[*]", "[*][*]")


def unmarked(text: str) -> str:
    """Give a title as it is read, without the sign that marks its letter."""
    return text.replace("&&", "\0").replace("&", "").replace("\0", "&")
