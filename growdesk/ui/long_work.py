"""Do the long work of one window: one after another, each told how far it is.

Long work has a lane of its own, so that what is read and mixed meanwhile never waits
for it. What is begun while another runs waits for its turn. A cancel is told with what
it leaves; closing the window cancels all and asks nothing.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, Generic, TypeVar

from msgspec import Struct
from PySide6.QtCore import QObject, Signal

from growdesk.domain.speech import mark, tr, trn
from growdesk.services.long_work import StoppedError
from growdesk.ui.going import Going
from growdesk.ui.tasks import Job, Lane

if TYPE_CHECKING:
    from collections.abc import Callable

    from growdesk.services.long_work import Step
    from growdesk.ui.tasks import Tasks

T = TypeVar("T")

PARTS = mark("{done} of {of} parts")
PHOTOS = mark("{done} of {of} photos")
FILES = mark("{done} of {of} files")
ROWS = mark("{done} of {of} rows")
_IN_THE_WAY = mark(
    "Still under way: {title}. Wait for it, or cancel it, then choose again."
)
NOTHING_WRITTEN = mark("Cancelled: nothing was written.")


class Long(Struct, Generic[T], frozen=True):
    """A piece of long work.

    ``counted`` is a text with ``{done}`` and ``{of}``. ``stopped`` is called where it
    was cancelled, and once more of use: where the window closes over it, after the
    work has ended, so that what is to stay can still be written.
    """

    title: str
    work: Callable[[Step], T]
    done: Callable[[T], object]
    failed: Callable[[Exception], object]
    stopped: Callable[[], object]
    counted: str = PARTS


class Turn(Struct, frozen=True):
    """A piece of long work whose turn has come, and how far it is."""

    long: Long[object]
    going: Going

    @property
    def title(self) -> str:
        """Give what is being done."""
        return self.long.title

    @property
    def told(self) -> str:
        """Say how far it is; nothing where that is not known yet."""
        if self.going.is_stopped:
            return tr("Stopping…")
        if not self.going.of:
            return ""
        return tr(self.long.counted).format(done=self.going.done, of=self.going.of)


class LongWork(QObject):
    """The long work of one window."""

    turned = Signal()

    def __init__(self, tasks: Tasks, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._tasks = tasks
        self._waiting: list[Long[object]] = []
        self.now: Turn | None = None
        self.is_closed = False
        """Whether the window has closed over it: nothing is to be opened any more."""

    @property
    def waiting(self) -> str:
        """Say what waits for its turn; nothing where nothing does."""
        if not self._waiting:
            return ""
        many = len(self._waiting) - 1
        first = self._waiting[0].title
        if not many:
            return tr("Then: {title}").format(title=first)
        return trn(
            "Then: {title}, and {count} more", "Then: {title}, and {count} more", many
        ).format(title=first, count=many)

    @property
    def in_the_way(self) -> str:
        """Say what must end before its collection or window goes; nothing if free."""
        if self.now is None:
            return ""
        return tr(_IN_THE_WAY).format(title=self.now.title)

    def begin(self, long: Long[T]) -> None:
        """Begin a piece of work, now or after the one that runs."""
        self._waiting.append(long)  # type: ignore[arg-type]
        if self.now is None:
            self._next()
        else:
            self.turned.emit()

    def cancel(self) -> None:
        """Stop the work that runs at its next step."""
        if self.now is not None:
            self.now.going.stop()
            self.turned.emit()

    def close(self) -> None:
        """Stop all, wait for the step in hand, and let what is to stay be kept."""
        now, self.now = self.now, None
        self.is_closed = True
        self._waiting.clear()
        if now is None:
            return
        now.going.stop()
        self._tasks.end(Lane.LONG)
        now.long.stopped()

    def _next(self) -> None:
        if not self._waiting:
            self.turned.emit()
            return
        self.now = Turn(self._waiting.pop(0), Going())
        long, going = self.now.long, self.now.going
        job = Job(
            partial(long.work, going.step),
            partial(self._ended, long.done),
            partial(self._broke, long),
        )
        self.turned.emit()
        self._tasks.ask(self, job, Lane.LONG)

    def _broke(self, long: Long[object], error: Exception) -> None:
        if isinstance(error, StoppedError):
            self._ended(lambda _none: long.stopped(), None)
        else:
            self._ended(long.failed, error)

    def _ended(self, use: Callable[[T], object], value: T) -> None:
        if self.now is None:
            return  # the window is closing
        self.now = None
        try:
            use(value)
        finally:
            if self.now is None:
                self._next()
