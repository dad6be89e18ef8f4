"""Show what other computers write to a collection on a server, soon and by itself.

Asked every few seconds on the lane that alone talks to the collection, and at once when
the window is turned to. While the server is away that is told once; the next answer
shows all anew. A collection in a folder is never asked: nobody else can write there.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QTimer

from growdesk.domain.errors import StoreError
from growdesk.domain.speech import tr
from growdesk.services.values import Changed
from growdesk.services.whereabouts import OnServer
from growdesk.ui.field_words import plain_line
from growdesk.ui.tasks import Job

if TYPE_CHECKING:
    from growdesk.services.others import News, Others
    from growdesk.ui.desk import Desk

EVERY_MS = 5_000


class OthersAsking(QObject):
    """What others write to the collection of one window."""

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk)
        self._desk = desk
        self._others: Others | None = None
        self._is_asked = False
        self._is_away = False
        self._timer = QTimer(self)
        self._timer.setInterval(EVERY_MS)
        self._timer.timeout.connect(self.ask)
        desk.switched.connect(self._begin)
        self._begin()

    def ask(self) -> None:
        """Ask what is new, unless that is under way or there are no others."""
        others = self._others
        if others is None or self._is_asked:
            return
        self._is_asked = True
        job = Job(others.look, self._told, self._failed, "others")
        self._desk.tasks.ask(self, job)

    def _begin(self) -> None:
        """Begin anew on the collection that is open now."""
        self._timer.stop()
        self._others, self._is_asked, self._is_away = None, False, False
        self._desk.stands_on = None
        collection = self._desk.collection
        if isinstance(collection.where, OnServer):
            from growdesk.services.others import Others  # noqa: PLC0415 -- for a server

            self._others = Others(collection.ledger)
            self._timer.start()
            self.ask()

    def _told(self, news: News) -> None:
        self._is_asked = False
        if self._others is not None:
            self._desk.stands_on = self._others.seen
        if self._is_away:
            self._is_away = False
            self._desk.told.emit(tr("The server answers again."))
            self._desk.bus.tell(~Changed.NOTHING)
        elif news.changed is not Changed.NOTHING:
            self._desk.told.emit(news.line)
            self._desk.bus.tell(news.changed)

    def _failed(self, error: Exception) -> None:
        self._is_asked = False
        if self._is_away:
            return
        self._is_away = isinstance(error, StoreError)
        self._desk.told.emit(plain_line(error))
