"""Keep the one window, and put another in its place when texts have to read otherwise.

The new window stands on the same collection, day, face and plant, and the preferences
stand open in it where they were.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QTimer

from growdesk.ui.instance import come_to_the_front

if TYPE_CHECKING:
    from collections.abc import Callable

    from PySide6.QtCore import SignalInstance
    from PySide6.QtWidgets import QApplication

    from growdesk.services.collection import Collection
    from growdesk.ui.window import Window


class Standing(QObject):
    """The window in sight. ``attend`` is called with each one before it is shown."""

    def __init__(
        self,
        app: QApplication,
        make: Callable[[Collection], Window],
        attend: Callable[[Window], object] = lambda _window: None,
    ) -> None:
        super().__init__()
        self._app = app
        self._make = make
        self._attend = attend
        self.window: Window | None = None

    def show(self, collection: Collection) -> Window:
        """Put up a window on a collection."""
        window = self._make(collection)
        self.window = window
        self._attend(window)
        window.anew_wanted.connect(self._wanted)
        window.show()
        return window

    def raise_window(self) -> None:
        """Bring the window to the front."""
        if self.window is not None:
            come_to_the_front(self.window)

    def _wanted(self, key: str) -> None:
        """Wait until the dialog that asked is done with its own signal."""
        QTimer.singleShot(0, self, partial(self._put_anew, key))

    def _put_anew(self, key: str) -> None:
        old = self.window
        if old is None:
            return
        quits = self._app.quitOnLastWindowClosed()
        self._app.setQuitOnLastWindowClosed(False)
        on, face, plant_id = old.desk.on, old.faces.shown, old.faces.chosen
        collection = old.hand_over()
        new = self.show(collection)
        if plant_id is not None:
            new.day_list.choose_next(plant_id)
            new.roster.choose_next(plant_id)
        new.desk.show_day(on)
        once(new.desk.day_arrived, partial(new.faces.go, face))
        new.preferences.open(key)
        old.deleteLater()
        self._app.setQuitOnLastWindowClosed(quits)


def once(signal: SignalInstance, call: Callable[[], object]) -> None:
    """Call once when a signal comes next."""

    def came(*_sent: object) -> None:
        signal.disconnect(came)
        call()

    signal.connect(came)
