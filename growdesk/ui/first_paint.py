"""Let the first list be seen before what only stands beside it is worked out."""

from __future__ import annotations

from functools import partial
from threading import Event
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QObject, QTimer
from typing_extensions import override

from growdesk.ui.tasks import Job, Lane

if TYPE_CHECKING:
    from collections.abc import Callable

    from PySide6.QtWidgets import QWidget

    from growdesk.ui.tasks import Tasks

_LONGEST_S = 0.2
"""What is waited for a window that does not come into sight, as a folded one."""


class FirstPaint(QObject):
    """Holds back what is asked for until the shown thing was painted once.

    Keys pressed meanwhile come first: it begins a turn of the events after the paint.
    """

    def __init__(self, shown: QWidget, tasks: Tasks) -> None:
        super().__init__(shown)
        self._shown = shown
        self._tasks = tasks
        self._painted: Event | None = None
        self._is_over = False

    def then(self, call: Callable[[], object]) -> None:
        """Call once it is painted with what it shows now; later on at once."""
        if self._is_over:
            call()
            return
        if self._painted is None:
            self._painted = Event()
            self._shown.installEventFilter(self)
            self._shown.update()
        wait = partial(self._painted.wait, _LONGEST_S)
        job = Job(wait, lambda _seen: self._over(call), lambda _error: self._over(call))
        self._tasks.ask(self, job, Lane.SIDE)

    def _over(self, call: Callable[[], object]) -> None:
        self._is_over = True
        self._shown.removeEventFilter(self)
        call()

    @override
    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.Paint and self._painted is not None:
            QTimer.singleShot(0, self, self._painted.set)
        return super().eventFilter(watched, event)
