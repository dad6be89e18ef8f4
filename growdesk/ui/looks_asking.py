"""Ask which plants to look at first, once the day stands and without holding it up.

The bench is read on the desk's thread and ranked on one of its own. While one ranking
runs no other is begun; what changed meanwhile is ranked after it.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal

from growdesk.services.look_worth import Ranking
from growdesk.ui.tasks import Job, Lane

if TYPE_CHECKING:
    from growdesk.services.look_worth import Bench, WorthLine
    from growdesk.ui.desk import Desk


class LooksAsking(QObject):
    """Keeps the plants to look at first in step with the day shown."""

    arrived = Signal(object)

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk)
        self._desk = desk
        self._ranking = Ranking()
        self._running = False
        self._again = False

    def ask(self) -> None:
        """Rank the day shown, now or after the ranking that runs."""
        if self._running:
            self._again = True
            return
        self._running, self._again = True, False
        read = partial(self._desk.collection.day.bench, self._desk.on)
        self._desk.tasks.ask(self, Job(read, self._rank, self._failed, "looks-bench"))

    def _rank(self, bench: Bench) -> None:
        work = partial(self._ranking.rank, bench)
        job = Job(work, partial(self._ranked, bench), self._failed, "looks-rank")
        self._desk.tasks.ask(self, job, Lane.RANK)

    def _ranked(self, bench: Bench, lines: tuple[WorthLine, ...]) -> None:
        self._running = False
        if self._again or bench.on != self._desk.on:
            self.ask()
        else:
            self.arrived.emit(lines)

    def _failed(self, error: Exception) -> None:
        self._running = False
        self._desk.fail(error)
