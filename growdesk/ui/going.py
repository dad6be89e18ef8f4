"""How far long work is, told on its thread and read on the window's; and its stop."""

from __future__ import annotations

from threading import Event

from growdesk.services.long_work import StoppedError
from growdesk.ui.tasks import give_way


class Going:
    """One piece of long work: the lane calls ``step``, the window reads and stops."""

    def __init__(self) -> None:
        self.done = 0
        self.of = 0
        self._over = Event()

    def step(self, done: int, of: int) -> None:
        """Note how far it is; end the work where it was stopped."""
        if self._over.is_set():
            raise StoppedError("Stopped.")
        self.done, self.of = done, of
        give_way()

    def stop(self) -> None:
        """Let the work end at its next step."""
        self._over.set()
