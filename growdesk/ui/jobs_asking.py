"""Ask what is overdue beside the round, once the day stands and without holding it up.

Asked again only after something was written, or on another day, on the lane that ranks
looks. While the calendar is in sight its own reading serves.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal

from growdesk.domain.speech import tr
from growdesk.ui.tasks import Job, Lane, give_way

if TYPE_CHECKING:
    from datetime import date

    from growdesk.services.calendar_values import JobLine
    from growdesk.services.collection import Collection
    from growdesk.ui.desk import Desk

    Lines = tuple[JobLine, ...]


class JobsAsking(QObject):
    """Keeps what the head says of the calendar in step with the collection."""

    arrived = Signal(object)

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk)
        self._desk = desk
        self._known: date | None = None
        self._running = False
        desk.bus.changed.connect(lambda _changed: self._forget())
        desk.switched.connect(self._switched)

    def ask(self) -> None:
        """Read the jobs up to today, unless they are known or being read."""
        if self._running or self._known == self._desk.today:
            return
        collection = self._desk.collection
        self._running, self._known = True, self._desk.today
        job = Job(
            partial(_read, collection),
            partial(self._arrived, collection),
            partial(self._failed, collection),
            tr("jobs beside the round"),
        )
        self._desk.tasks.ask(self, job, Lane.RANK)

    def take(self, lines: Lines) -> None:
        """Go by what the calendar has just read."""
        self._known = self._desk.today
        self.arrived.emit(lines)

    def _arrived(self, collection: Collection, lines: Lines) -> None:
        self._running = False
        is_new = collection is self._desk.collection and self._known is not None
        if is_new:
            self.arrived.emit(lines)
        else:
            self.ask()

    def _failed(self, collection: Collection, error: Exception) -> None:
        self._running = False
        if collection is self._desk.collection:
            self._desk.fail(error)
        else:
            self.ask()

    def _forget(self) -> None:
        self._known = None

    def _switched(self) -> None:
        self._known = None
        self.arrived.emit(())


def _read(collection: Collection) -> Lines:
    today = collection.clock.today()
    return collection.calendar.jobs(last=today, pause=give_way)
