"""Tool tips that say a text as it was typed; Qt takes one with tags in for markup."""

from __future__ import annotations

from html import escape

from PySide6.QtGui import Qt


def as_typed(text: str) -> str:
    """Give a text for a tool tip that shows every sign of it."""
    if not Qt.mightBeRichText(text):
        return text
    return f"<p>{escape(text).replace(chr(10), '<br>')}</p>"
