"""How far long work is, told on its thread and read on the window's; and its stop."""

from __future__ import annotations

import time
from threading import Event

from growdesk.domain.speech import tr
from growdesk.services.long_work import StoppedError
from growdesk.ui.tasks import give_way

_GIVE_WAY_EACH_S = 0.004


class Going:
    """One piece of long work: the lane calls ``step``, the window reads and stops."""

    def __init__(self) -> None:
        self.done = 0
        self.of = 0
        self._gave_way_at = 0.0
        self._over = Event()

    @property
    def is_stopped(self) -> bool:
        """Tell whether it is to end at its next step."""
        return self._over.is_set()

    def step(self, done: int, of: int) -> None:
        """Note how far it is; end the work where it was stopped.

        The window goes first, but not more often than it can use.
        """
        if self._over.is_set():
            raise StoppedError(tr("Stopped."))
        self.done, self.of = done, of
        if time.monotonic() - self._gave_way_at > _GIVE_WAY_EACH_S:
            give_way()
            self._gave_way_at = time.monotonic()

    def stop(self) -> None:
        """Let the work end at its next step."""
        self._over.set()
