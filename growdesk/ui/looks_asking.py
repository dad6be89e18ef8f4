"""Ask which plants to look at first, once the day stands and without holding it up.

Ranking runs on a lane of its own and gives way after every plant, so that the window
never waits for it. While one ranking runs no other is begun; the day that came
meanwhile is ranked after it.
"""

from __future__ import annotations

from functools import cached_property, partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal

from growdesk.ui.tasks import Job, Lane, give_way

if TYPE_CHECKING:
    from growdesk.services.look_values import Bench, WorthLine
    from growdesk.services.look_worth import Ranking
    from growdesk.ui.desk import Desk, Shown


class LooksAsking(QObject):
    """Keeps the plants to look at first in step with the day shown."""

    arrived = Signal(object)

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk)
        self._desk = desk
        self._running = False
        self._next: Bench | None = None

    @cached_property
    def _ranking(self) -> Ranking:
        from growdesk.services.look_worth import Ranking  # noqa: PLC0415 -- after the list

        return Ranking(give_way)

    @property
    def is_ranking(self) -> bool:
        """Tell whether it is not known yet which looks are worth taking."""
        return self._running

    def ask(self, shown: Shown) -> None:
        """Rank the day shown, now or after the ranking that runs."""
        self._next = shown.view.bench
        if not self._running:
            self._go_on()

    def _go_on(self) -> None:
        bench, self._next = self._next, None
        self._running = bench is not None
        if bench is not None:
            work = partial(self._ranking.rank, bench)
            job = Job(work, self._ranked, self._failed, "looks-first")
            self._desk.tasks.ask(self, job, Lane.RANK)

    def _ranked(self, lines: tuple[WorthLine, ...]) -> None:
        if self._next is None:
            self.arrived.emit(lines)
        self._go_on()

    def _failed(self, error: Exception) -> None:
        self._desk.fail(error)
        self._go_on()
