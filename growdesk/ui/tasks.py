"""Run work off the window's thread and bring each answer back to it.

Six lanes: the *desk* lane is one thread that alone talks to the collection, in order;
the *side* lane does what needs no collection (unit parsing, reading a file); the
*photos* lane decodes pictures; the *rank* lane reckons over values already read,
however long that takes; the *long* lane is ``growdesk.ui.long_work``'s alone; the
*keeping* lane makes backups, and looks copies of the collection through.
Each request has a ticket. An answer whose owner is gone, or whose topic has been asked
anew since, is dropped, and work that is stale before its turn comes is not done at all:
of many changes in a row all is read anew once. This module knows nothing of plants.

A widget must not be destroyed on another thread than the window's, and Python lets go
of things wherever their last reference falls. So a lane is handed the work alone, never
who asked; ``growdesk.ui.collecting`` sees to the rest.
"""

from __future__ import annotations

import logging
import time
from enum import Enum
from functools import partial
from queue import SimpleQueue
from typing import TYPE_CHECKING, Generic, TypeVar

from msgspec import Struct
from PySide6.QtCore import QObject, Qt, QThread, Signal  # noqa: TID251 -- the one place
from shiboken6 import isValid
from typing_extensions import override

from growdesk.domain.errors import DamagedError, GrowdeskError
from growdesk.services.log_file import Key
from growdesk.services.long_work import StoppedError
from growdesk.store.trouble import worlds_fault

if TYPE_CHECKING:
    from collections.abc import Callable

T = TypeVar("T")
log = logging.getLogger(__name__)
_GIVE_WAY_S = 0.001


class Lane(Enum):
    """Which thread does the work."""

    DESK = "desk"
    SIDE = "side"
    RANK = "rank"
    PHOTOS = "photos"
    LONG = "long"
    KEEPING = "keeping"


class Job(Struct, Generic[T], frozen=True):
    """A piece of work, what to do with its answer, and what with its failure.

    ``topic`` makes an earlier request of the same owner and topic stale.
    """

    work: Callable[[], T]
    done: Callable[[T], object]
    failed: Callable[[Exception], object]
    topic: str = ""


class _Request(Struct, frozen=True):
    owner: QObject
    job: Job[object]


class _Work(Struct, frozen=True):
    """What a lane is handed."""

    ticket: int
    work: Callable[[], object]
    topic: str
    doubted: Callable[[], GrowdeskError | None]
    is_stale: Callable[[], bool]


class _Answer(Struct, frozen=True):
    ticket: int
    value: object
    error: Exception | None


class _Worker(QThread):
    """One thread that takes requests from its queue until it is told to stop."""

    answered = Signal(object)

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self.queue: SimpleQueue[_Work | None] = SimpleQueue()

    @override
    def run(self) -> None:
        while (given := self.queue.get()) is not None:
            self.answered.emit(_attempt(given))


def give_way() -> None:
    """Let the window's thread go first; for long reckoning, between its parts.

    Where the window is closing it ends the work instead.
    """
    if QThread.currentThread().isInterruptionRequested():
        raise StoppedError("Stopped.")
    time.sleep(_GIVE_WAY_S)


def is_ending() -> bool:
    """Tell on a lane whether its window is closing, so that no answer is taken."""
    return QThread.currentThread().isInterruptionRequested()


def _is_stale(newest: dict[tuple[int, str], int], of: tuple[int, str], n: int) -> bool:
    """Tell on a lane whether the same has been asked anew since."""
    return newest.get(of, n) != n


def _attempt(given: _Work) -> _Answer:
    if given.is_stale():
        return _Answer(given.ticket, None, None)
    try:
        value = given.work()
    except GrowdeskError as error:
        return _Answer(given.ticket, None, error)
    except OSError as error:
        log.exception("work met a disk: %s", Key(given.topic or "no topic"))
        return _Answer(given.ticket, None, worlds_fault(error) or error)
    except Exception as error:
        log.exception("work failed: %s", Key(given.topic or "no topic"))
        return _Answer(given.ticket, None, given.doubted() or error)
    return _Answer(given.ticket, value, None)


def _undoubted() -> GrowdeskError | None:
    """Take a fault for one of ours."""
    return None


class Tasks(QObject):
    """Hands work to the lanes and gives answers out on the window's thread."""

    busy_changed = Signal(bool)
    broke = Signal(object)
    hurt = Signal(object)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._ticket = 0
        self._newest: dict[tuple[int, str], int] = {}
        self._requests: dict[int, _Request] = {}
        self._open = 0
        self._workers: dict[Lane, _Worker] = {}
        self._stopped = False
        self.doubted: Callable[[], GrowdeskError | None] = _undoubted
        """Asked on the lane where a fault rose, what else may be behind it."""

    @property
    def is_busy(self) -> bool:
        """Tell whether any answer is still outstanding."""
        return self._open > 0

    def ask(self, owner: QObject, job: Job[T], lane: Lane = Lane.DESK) -> int:
        """Queue the work and give its ticket; once stopped, nothing is queued."""
        self._ticket += 1
        if self._stopped:
            return self._ticket
        if job.topic:
            self._newest[id(owner), job.topic] = self._ticket
        self._requests[self._ticket] = _Request(owner, job)  # type: ignore[arg-type]
        self._open += 1
        if self._open == 1:
            self.busy_changed.emit(True)  # noqa: FBT003 -- a signal's argument
        of = id(owner), job.topic
        stale = partial(_is_stale, self._newest if job.topic else {}, of, self._ticket)
        work = _Work(self._ticket, job.work, job.topic, self.doubted, stale)
        self._worker(lane).queue.put(work)
        return self._ticket

    def stop(self) -> None:
        """Let queued work finish, end the threads, and drop what comes back.

        What gives way between its parts ends at the next of them.
        What is asked for later is dropped too: a thread begun after this would
        outlive its window, and Qt ends the program for that.
        """
        self._stopped = True
        for worker in self._workers.values():
            worker.answered.disconnect(self._deliver)
            worker.requestInterruption()
            worker.queue.put(None)
        for worker in self._workers.values():
            worker.wait()
        self._workers.clear()
        self._requests.clear()
        self._open = 0

    def end(self, lane: Lane) -> None:
        """Wait until what was asked of a lane has been done; no more is asked of it."""
        worker = self._workers.pop(lane, None)
        if worker is not None:
            worker.answered.disconnect(self._deliver)
            worker.requestInterruption()
            worker.queue.put(None)
            worker.wait()

    def _worker(self, lane: Lane) -> _Worker:
        if lane not in self._workers:
            worker = _Worker(self)
            worker.answered.connect(self._deliver, Qt.ConnectionType.QueuedConnection)
            worker.start()
            self._workers[lane] = worker
        return self._workers[lane]

    def _deliver(self, answer: _Answer) -> None:
        request = self._requests.pop(answer.ticket, None)
        if request is None:
            return  # stopped meanwhile
        self._open -= 1
        if answer.error is not None and not isinstance(answer.error, GrowdeskError):
            self.broke.emit(answer.error)
        if isinstance(answer.error, DamagedError):
            self.hurt.emit(answer.error)
        try:
            if self._wanted(answer.ticket, request):
                if answer.error is None:
                    request.job.done(answer.value)
                else:
                    request.job.failed(answer.error)
        finally:
            if self._open == 0:
                self.busy_changed.emit(False)  # noqa: FBT003 -- a signal's argument

    def _wanted(self, ticket: int, request: _Request) -> bool:
        if not isValid(request.owner):
            return False
        if not request.job.topic:
            return True
        key = (id(request.owner), request.job.topic)
        return self._newest.get(key) == ticket
