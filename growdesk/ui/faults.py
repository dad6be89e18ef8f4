"""Catch what nobody caught, write it to the log, and tell it once, in a dialog.

A fault may rise in a slot, a paint event, a model, a lane or a thread of Python's. It
is only noted where it rose; the dialog opens a turn of the events later, on the
window's thread. The same fault again is counted in a line, never shown again, so that
one in a paint event brings no storm. What fails in the dialog itself falls back to it.
"""

from __future__ import annotations

import sys
import threading
from datetime import UTC, datetime
from typing import TYPE_CHECKING

from msgspec import Struct
from PySide6.QtCore import QObject, Qt, QTimer, Signal
from PySide6.QtWidgets import QApplication
from shiboken6 import isValid

from growdesk.domain.errors import GrowdeskError
from growdesk.domain.speech import tr, trn
from growdesk.services import trail
from growdesk.services.log_file import log, place_of
from growdesk.store.trouble import worlds_fault
from growdesk.ui.field_words import BUG_LINE, plain_line

if TYPE_CHECKING:
    from types import TracebackType

    from growdesk.services.hard_ends import HardEnd
    from growdesk.ui.dialogs.fault import FaultDialog, Told
    from growdesk.ui.window import Window

_POPUP_MS = 200
_OWN = "growdesk/ui/dialogs/fault.py"


class Fault(Struct, frozen=True):
    """A fault by its kind and place, and the command that was asked for last."""

    place: str
    doing: str


class Faults(QObject):
    """Stands for as long as the application lives, whichever window is in sight."""

    _came = Signal(object)
    _refused = Signal(object)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._window: Window | None = None
        self._times: dict[str, int] = {}
        self._wrote: datetime | None = None
        self._dialog: FaultDialog | None = None
        self._before = sys.excepthook, threading.excepthook, sys.unraisablehook
        queued = Qt.ConnectionType.QueuedConnection
        self._came.connect(self._arrived, queued)
        self._refused.connect(self._tell_refused, queued)

    # -- catching -------------------------------------------------------------------

    def install(self) -> None:
        """Catch from now on whatever nobody caught."""
        sys.excepthook = self.caught
        threading.excepthook = self._caught_in_thread
        sys.unraisablehook = self._unraisable

    def remove(self) -> None:
        """Let others catch again, and tell nothing more."""
        self._window = None
        sys.excepthook, threading.excepthook, sys.unraisablehook = self._before

    def attend(self, window: Window) -> None:
        """Tell faults over this window from now on."""
        self._window = window
        window.tasks.broke.connect(self._broke)
        window.desk.wrote.connect(self._note_write)

    def caught(
        self,
        kind: type[BaseException],
        error: BaseException,
        trace: TracebackType | None,
    ) -> None:
        """Take an exception, on whichever thread and in whatever it rose."""
        if issubclass(kind, KeyboardInterrupt):
            window = self._here()
            if window is not None:
                window.close()
        elif isinstance(error, GrowdeskError):
            self._refused.emit(error)
        elif isinstance(error, OSError) and (told := worlds_fault(error)) is not None:
            log.warning("a disk failed", exc_info=(kind, error, trace))
            self._refused.emit(told)
        else:
            log.error("not caught", exc_info=(kind, error, trace))
            self._note(error, trace)

    def _caught_in_thread(self, given: threading.ExceptHookArgs) -> None:
        if given.exc_value is not None:
            self.caught(given.exc_type, given.exc_value, given.exc_traceback)

    def _unraisable(self, given: sys.UnraisableHookArgs) -> None:
        if given.exc_value is not None:
            self.caught(given.exc_type, given.exc_value, given.exc_traceback)

    def _broke(self, error: Exception) -> None:
        """Take what failed on a lane, where it is in the log already."""
        self._note(error, error.__traceback__)

    def _note(self, error: BaseException, trace: TracebackType | None) -> None:
        place = f"{type(error).__name__} {place_of(trace)}"
        self._came.emit(Fault(place, trail.doing()))

    def _note_write(self, _written: object) -> None:
        self._wrote = datetime.now(tz=UTC)

    # -- telling --------------------------------------------------------------------

    def tell_hard_end(self, end: HardEnd) -> None:
        """Say once that the program ended hard the last time."""
        from growdesk.ui.dialogs.fault import hard_end  # noqa: PLC0415 -- seldom

        self._show(hard_end(end.at), may_close=False)

    def _here(self) -> Window | None:
        window = self._window
        return window if window is not None and isValid(window) else None

    def _tell_refused(self, error: GrowdeskError) -> None:
        self._say(plain_line(error))

    def _arrived(self, fault: Fault) -> None:
        times = self._times[fault.place] = self._times.get(fault.place, 0) + 1
        if times > 1:
            if times == 2 or str(times).strip("0") == "1":
                self._say(_again(times))
        elif _OWN in fault.place:
            self._give_up()
        elif self._dialog is not None:
            self._dialog.one_more()
        else:
            from growdesk.ui.dialogs.fault import met  # noqa: PLC0415 -- seldom

            self._show(met(fault.doing, self._wrote))

    def _show(self, told: Told, *, may_close: bool = True) -> None:
        window = self._here()
        if window is None or not window.isVisible():
            return
        if QApplication.activePopupWidget() is not None:  # a menu is being read
            QTimer.singleShot(
                _POPUP_MS, self, lambda: self._show(told, may_close=may_close)
            )
            return
        from growdesk.ui.dialogs.fault import FaultDialog  # noqa: PLC0415 -- seldom

        try:
            over = QApplication.activeModalWidget() or window
            self._open(FaultDialog(over, told, may_close=may_close), window)
        except Exception:  # noqa: BLE001 -- a fault of telling faults must end here
            log.exception("the dialog of a fault failed")
            self._give_up()

    def _open(self, dialog: FaultDialog, window: Window) -> None:
        self._dialog = dialog
        dialog.finished.connect(self._closed)
        dialog.destroyed.connect(self._closed)
        dialog.report_wanted.connect(window.commands["report"].trigger)
        dialog.close_wanted.connect(window.close)
        dialog.open()

    def _give_up(self) -> None:
        """Leave the dialog, and tell the line in its place."""
        dialog, self._dialog = self._dialog, None
        if dialog is not None and isValid(dialog):
            dialog.reject()
        self._say(tr(BUG_LINE))

    def _closed(self, *_how: object) -> None:
        self._dialog = None

    def _say(self, line: str) -> None:
        window = self._here()
        if window is not None:
            window.desk.told.emit(line)


def _again(times: int) -> str:
    return trn(
        "The same fault came again, {count} time by now. Close growdesk and start it "
        "anew; what was saved is safe.",
        "The same fault came again, {count} times by now. Close growdesk and start it "
        "anew; what was saved is safe.",
        times,
    ).format(count=times)
