"""Whether the collection may only be looked at, for all that would write it.

What writes is given to ``writes`` where it is made: it can be pressed while the
collection may be written, and not while it may only be looked at.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeVar

from PySide6.QtCore import QObject, Signal

if TYPE_CHECKING:
    from PySide6.QtWidgets import QWidget

    W = TypeVar("W", bound=QWidget)


class Looking(QObject):
    """Why the collection may only be looked at; empty where it may be written."""

    writable = Signal(bool)

    def __init__(self) -> None:
        super().__init__()
        self.reason = ""

    def take(self, reason: str) -> None:
        """Take the word of the collection that is shown now."""
        self.reason = reason
        self.writable.emit(not reason)


_current: list[Looking] = []


def current() -> Looking:
    """Give the one in force, made on first use."""
    if not _current:
        _current.append(Looking())
    return _current[0]


def writes(widget: W) -> W:
    """Let a button or chooser be used only while the collection may be written."""
    looking = current()
    widget.setEnabled(not looking.reason)
    looking.writable.connect(widget.setEnabled)
    return widget
