"""Lead on from a damaged collection: ask which way, go it, and open what it gives.

It needs no window, so that it also serves the start; over a window it stands as one
dialog. The collection must not be open while it works, and is opened again after.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, TypeVar, cast

from PySide6.QtCore import QObject, QTimer, Signal
from shiboken6 import isValid

from growdesk.domain.speech import mark, tr
from growdesk.services.long_work import StoppedError
from growdesk.ui import damage_words
from growdesk.ui.dialogs.damaged import DamagedDialog
from growdesk.ui.dialogs.found import FoundDialog
from growdesk.ui.field_words import plain_line
from growdesk.ui.long_work import Long, LongWork
from growdesk.ui.tasks import Job, Lane, Tasks, is_ending
from growdesk.ui.widgets.long_panel import LongPanel

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from PySide6.QtWidgets import QApplication, QWidget

    from growdesk.services.changing_places import Standing
    from growdesk.services.clock import Clock
    from growdesk.services.collection import Collection
    from growdesk.services.long_work import Step
    from growdesk.services.rescue_values import Rescued
    from growdesk.services.restoring import Restored
    from growdesk.services.ways_out import WaysOut

T = TypeVar("T")
_FILE_NAME = "collection.sqlite"
_AS_IT_WAS = mark("Cancelled: the damaged collection is as it was.")


class LeadingOn(QObject):
    """One damaged collection and the way out of it.

    ``opened`` gives the collection that took its place, ``left`` says that it was
    closed without one and that nothing works on the folder any more. ``old`` is the
    damaged one where the window has it open: it is let go of before anything touches
    the folder, and whatever fails or is cancelled then, ``stood`` gives the one to go
    on with; the ways stay open.
    """

    opened = Signal(object)
    stood = Signal(object)
    left = Signal()

    def __init__(
        self,
        tasks: Tasks,
        long_work: LongWork,
        folder: Path,
        clock: Clock | None,
        over: QWidget | None = None,
        old: Collection | None = None,
    ) -> None:
        super().__init__(over)
        self._tasks = tasks
        self._long = long_work
        self._folder = folder
        self._clock = clock
        self._over = over
        self._old = old
        self._dialog: DamagedDialog | None = None
        self._is_going = False
        self._is_done = False
        self._is_left = False

    def begin(self) -> None:
        """Look for a whole backup, then show the ways."""
        work = partial(_ways, self._folder)
        job = Job(work, self._show, lambda _error: self.left.emit())
        self._tasks.ask(self, job, Lane.KEEPING)

    def _show(self, ways: WaysOut) -> None:
        dialog = DamagedDialog(self._over, ways, LongPanel(self._long))
        self._dialog = dialog
        dialog.back_wanted.connect(partial(self._bring_back, ways))
        dialog.rescue_wanted.connect(self._rescue)
        dialog.finished.connect(self._closed)
        dialog.open()

    def _bring_back(self, ways: WaysOut) -> None:
        work = partial(_bring_back, ways, self._clock)
        self._go(tr("Bringing the backup back"), work, self._came)

    def _rescue(self) -> None:
        work = partial(_rescue, self._folder, self._clock)
        self._go(tr("Saving what can be read"), work, self._rescued)

    def _go(
        self,
        title: str,
        work: Callable[[Step], T],
        done: Callable[[T, Collection], object],
    ) -> None:
        line = self._long.in_the_way
        if line:
            self._say(line)
            return
        if self._dialog is not None:
            self._dialog.begin()
        self._is_going = True
        long = Long(
            title,
            partial(_changed, self._folder, self._clock, self._old, work),
            partial(self._stand, done),
            self._failed,
            self._stopped,
        )
        if self._old is None:
            self._long.begin(long)
            return
        begin = partial(self._let_go, self._old, long)
        self._tasks.ask(self, Job(self._old.close, begin, begin))

    def _let_go(
        self, old: Collection, long: Long[Standing[T]], _closed: object
    ) -> None:
        """Begin, once the lane that alone talks to the collection has closed it."""
        if self._is_left:
            again = Job(partial(_again, old), self._given_up, self._failed)
            self._tasks.ask(self, again)
        else:
            self._long.begin(long)

    def _stand(
        self, done: Callable[[T, Collection], object], standing: Standing[T]
    ) -> None:
        if standing.error is None and standing.collection is not None:
            done(cast("T", standing.done), standing.collection)
            return
        self._stand_again(standing)
        if isinstance(standing.error, StoppedError):
            self._stopped()
        elif standing.error is not None:
            self._failed(standing.error)

    def _stand_again(self, standing: Standing[T]) -> None:
        if standing.collection is not None:
            self._old = standing.collection
            self.stood.emit(standing.collection)

    def _given_up(self, standing: Standing[None]) -> None:
        self._stand_again(standing)
        self._ended("")

    def _failed(self, error: Exception) -> None:
        self._ended(plain_line(error))

    def _stopped(self) -> None:
        self._ended(tr(_AS_IT_WAS))

    def _ended(self, line: str) -> None:
        """Say why it came to nothing, or leave where nobody is there to read it."""
        self._is_going = False
        if self._is_left:
            self.left.emit()
        else:
            self._say(line)

    def _say(self, line: str) -> None:
        if self._dialog is not None and isValid(self._dialog):
            self._dialog.failed(line)

    def _came(self, _done: object, collection: Collection) -> None:
        self._finish()
        self.opened.emit(collection)

    def _rescued(self, made: Rescued, collection: Collection) -> None:
        self._finish()
        shown = FoundDialog(
            self._over,
            tr("What was saved"),
            damage_words.rescue_heads(made),
            "\n".join(made.lines),
        )
        if self._over is None:  # the window is made once this has been read
            shown.finished.connect(lambda _result: self.opened.emit(collection))
        else:
            self.opened.emit(collection)
        shown.open()

    def _finish(self) -> None:
        self._is_done = True
        if self._dialog is not None and isValid(self._dialog):
            self._dialog.accept()

    def _closed(self, _result: int) -> None:
        if self._is_done:
            return
        self._is_left = True
        if self._is_going:
            self._long.cancel()
        else:
            self.left.emit()


def has_file(folder: Path) -> bool:
    """Tell whether there is a file that something could be saved of."""
    return (folder / _FILE_NAME).is_file()


def lead_on(app: QApplication, folder: Path) -> Collection | None:
    """Show the ways out before there is a window; give what was opened, or nothing."""
    if not has_file(folder):
        return None
    got: list[Collection] = []
    quits = app.quitOnLastWindowClosed()
    app.setQuitOnLastWindowClosed(False)
    tasks = Tasks()
    long_work = LongWork(tasks)
    leading = LeadingOn(tasks, long_work, folder, None)
    leading.opened.connect(got.append)
    leading.opened.connect(app.quit)
    leading.left.connect(app.quit)
    QTimer.singleShot(0, leading, leading.begin)
    app.exec()
    long_work.close()
    tasks.stop()
    app.setQuitOnLastWindowClosed(quits)
    return got[0] if got else None


def _ways(folder: Path) -> WaysOut:
    from growdesk.services.ways_out import ways_out  # noqa: PLC0415 -- for damage only

    return ways_out(folder)


def _bring_back(ways: WaysOut, clock: Clock | None, step: Step) -> Restored:
    from growdesk.services import ways_out  # noqa: PLC0415 -- for damage only

    return ways_out.bring_back(ways, _clock(clock).now(), step)


def _rescue(folder: Path, clock: Clock | None, step: Step) -> Rescued:
    from growdesk.services import ways_out  # noqa: PLC0415 -- for damage only

    return ways_out.rescue_in_place(folder, _clock(clock).now(), step)


def _changed(
    folder: Path,
    clock: Clock | None,
    old: Collection | None,
    work: Callable[[Step], T],
    step: Step,
) -> Standing[T]:
    from growdesk.services import changing_places  # noqa: PLC0415 -- for damage only
    from growdesk.services.collection import Collection  # noqa: PLC0415 -- ditto

    if old is not None:
        standing = changing_places.change(old, partial(work, step))
        if is_ending() and standing.collection is not None:
            standing.collection.close()  # the window is closing, and nobody else does
        return standing
    done = work(step)
    opened = Collection.open_again(folder, _clock(clock))
    return changing_places.Standing(opened, done)


def _again(old: Collection) -> Standing[None]:
    from growdesk.services import changing_places  # noqa: PLC0415 -- for damage only

    return changing_places.change(old, lambda: None)


def _clock(clock: Clock | None) -> Clock:
    from growdesk.services.clock import SystemClock  # noqa: PLC0415 -- for damage only

    return clock or SystemClock()
