"""Make the day's backup while the window stands open, and say where one lacks.

Some seconds after the day stands, and again now and then, so that a new day is noticed
over midnight and a stick when it is plugged in. It has a lane of its own: nothing that
is asked for waits for it. Only what goes wrong, or takes long, is told.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QTimer, Signal

from growdesk.domain.speech import tr
from growdesk.ui.tasks import Job, Lane, give_way

if TYPE_CHECKING:
    from collections.abc import Callable
    from datetime import date

    from growdesk.services.collection import Collection
    from growdesk.services.daily_backup import Daily
    from growdesk.ui.desk import Desk

SOON_MS = 4_000
"""So long after the day stands, when the window has settled."""
OFTEN_MS = 20 * 60_000
LONG_MS = 10_000


class KeepingBackups(QObject):
    """Keeps the backups of the open collection up with its days.

    ``stands`` says in a line what is wrong with them, or nothing.
    """

    stands = Signal(str)

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk)
        self._desk = desk
        self._day: date | None = None
        self._running = False
        self._told: set[str] = set()
        self._is_long = False
        self._soon = self._timer(SOON_MS, self.ask, once=True)
        self._slow = self._timer(LONG_MS, self._tell_long, once=True)
        self._often = self._timer(OFTEN_MS, self.ask, once=False)
        self._often.start()
        desk.day_arrived.connect(lambda _shown: self._day_stands())
        desk.switched.connect(self._switched)

    def ask(self) -> None:
        """Make the day's backup where it is due, unless that is under way."""
        collection = self._desk.collection
        if self._running or collection.looking:
            return
        self._running, self._day = True, self._desk.today
        self._is_long = False
        self._slow.start()
        job = Job(
            partial(_keep, collection),
            partial(self._kept, collection),
            self._failed,
            "backup of the day",
        )
        self._desk.tasks.ask(self, job, Lane.KEEPING)

    def _day_stands(self) -> None:
        if self._day != self._desk.today and not self._soon.isActive():
            self._soon.start()

    def _kept(self, collection: Collection, daily: Daily) -> None:
        self._over()
        if collection is not self._desk.collection:
            return
        for line in daily.problems:
            if line not in self._told:
                self._told.add(line)
                self._desk.told.emit(line)
        if self._is_long and daily.made is not None:
            self._desk.told.emit(tr("Today's backup is made."))
        self.stands.emit(next(iter((*daily.problems, daily.waiting)), ""))

    def _failed(self, error: Exception) -> None:
        self._over()
        self._desk.fail(error)

    def _over(self) -> None:
        self._running = False
        self._slow.stop()

    def _tell_long(self) -> None:
        self._is_long = True
        self._desk.told.emit(tr("Today's backup is being made; go on as usual."))

    def _switched(self) -> None:
        self._day = None
        self._told.clear()
        self.stands.emit("")

    def _timer(self, wait_ms: int, call: Callable[[], object], *, once: bool) -> QTimer:
        made = QTimer(self)
        made.setSingleShot(once)
        made.setInterval(wait_ms)
        made.timeout.connect(call)
        return made


def _keep(collection: Collection) -> Daily:
    from growdesk.services.daily_backup import keep  # noqa: PLC0415 -- not for start

    return keep(collection.where, collection.clock.now(), _giving_way)


def _giving_way(_done: int, _of: int) -> None:
    """Let the window go first; end where it is closing."""
    give_way()
