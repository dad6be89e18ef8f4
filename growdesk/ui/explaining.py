"""Open what the words mean: of the control in focus, of the plant shown, then all."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtWidgets import QAbstractButton, QApplication, QLabel, QWidget

from growdesk.services.glossary import glossary
from growdesk.ui.dialogs.words import WordsDialog

if TYPE_CHECKING:
    from growdesk.ui.panes.detail import DetailPane

_MOST_OF_A_CONTROL = 8


def explain(window: QWidget, detail: DetailPane, first: str = "") -> None:
    """Show the words of what is in sight, at one of them where it is named."""
    focused = QApplication.focusWidget()
    near = () if focused is None else _words_of(focused)
    shown = dict.fromkeys((*near, *detail.words))
    WordsDialog(window, tuple(shown), first).open()


def _words_of(widget: QWidget) -> tuple[str, ...]:
    """Give the words in the name, the text and the label of a control."""
    parts = [widget.accessibleName(), widget.toolTip()]
    if isinstance(widget, (QLabel, QAbstractButton)):
        parts.append(widget.text().replace("&", ""))
    found = glossary().found("\n".join(parts), most=_MOST_OF_A_CONTROL)
    return tuple(each.entry.key for each in found)
