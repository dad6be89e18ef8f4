"""The head of a form: the plants that it is for, names in italics."""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt

from growdesk.ui.picking import Whom
from growdesk.ui.widgets.parts import label

if TYPE_CHECKING:
    from PySide6.QtWidgets import QLabel


def whom_head(whom: str) -> QLabel:
    """Give a head; a screen reader hears the plain text."""
    made = label(tone="head")
    made.setTextFormat(Qt.TextFormat.RichText)
    made.setText(whom.html if isinstance(whom, Whom) else escape(whom))
    made.setAccessibleName(str(whom))
    return made
