"""Open a sample collection in a window of its own, beside the grower's own.

It is the demo: a program of its own on a copy that is thrown away when it is closed, so
that nothing tried there touches what is open here.
"""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QProcess

from growdesk.domain.speech import mark, tr

if TYPE_CHECKING:
    from PySide6.QtWidgets import QWidget

    from growdesk.ui.desk import Desk

OPENING = mark(
    "A sample collection opens in a window of its own; it is thrown away at the end."
)
FAILED = mark("The sample could not be opened: {program} does not start.")


class Sample(QObject):
    """The sample of one window; it outlives the window that asked for it."""

    def __init__(self, desk: Desk, window: QWidget) -> None:
        super().__init__(window)
        self._desk = desk

    def open(self) -> None:
        """Start the program once more, on the sample."""
        program, *arguments = command()
        is_started, _number = QProcess.startDetached(program, arguments)
        said = tr(OPENING) if is_started else tr(FAILED).format(program=program)
        self._desk.told.emit(said)


def command() -> tuple[str, ...]:
    """Give how this program is started on its sample: frozen, or by its Python."""
    if getattr(sys, "frozen", False):
        return sys.executable, "--demo"
    return sys.executable, "-m", "growdesk", "--demo"
