"""Try and open what the dialog of a server asks for, beside the window."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, TypeVar

from PySide6.QtCore import QObject, Signal
from shiboken6 import isValid

from growdesk.domain.speech import tr
from growdesk.ui.dialogs.server import ServerDialog
from growdesk.ui.tasks import Job, Lane

if TYPE_CHECKING:
    from PySide6.QtWidgets import QWidget

    from growdesk.services.clock import Clock
    from growdesk.services.collection import Collection
    from growdesk.services.whereabouts import OnServer
    from growdesk.ui.dialogs.server import ServerDraft
    from growdesk.ui.tasks import Tasks


T = TypeVar("T")


class ServerAsking(QObject):
    """One dialog of a server, and what is opened by it."""

    opened = Signal(object)

    def __init__(self, tasks: Tasks, clock: Clock | None, parent: QObject) -> None:
        super().__init__(parent)
        self._tasks = tasks
        self._clock = clock

    def open(
        self,
        over: QWidget | None,
        known: OnServer | None,
        *,
        line: str = "",
        at_start: bool = False,
        back: bool = False,
    ) -> ServerDialog:
        """Open the dialog; ``opened`` gives the collection, and it is closed then."""
        dialog = ServerDialog(
            over, known, line=line, at_start=at_start, back=back, next_start=True
        )
        dialog.try_wanted.connect(partial(self._try, dialog))
        dialog.saved.connect(partial(self._open, dialog))
        dialog.open()
        return dialog

    def _try(self, dialog: ServerDialog, draft: ServerDraft) -> None:
        def done(line: str) -> None:
            if isValid(dialog):
                dialog.say(line)

        self._ask(dialog, Job(partial(_tried, draft), done, partial(_fail, dialog)))

    def _open(self, dialog: ServerDialog, draft: ServerDraft) -> None:
        def done(collection: Collection) -> None:
            if not isValid(dialog):
                collection.close()
                return
            dialog.close_saved()
            self.opened.emit(collection)

        work = partial(_opened, draft, self._clock)
        self._ask(dialog, Job(work, done, partial(_fail, dialog)))

    def _ask(self, dialog: ServerDialog, job: Job[T]) -> None:
        dialog.complain(tr("Asking the server…"))
        self._tasks.ask(self, job, Lane.SIDE)


def _fail(dialog: ServerDialog, error: Exception) -> None:
    if isValid(dialog):
        dialog.refused(error)


def _tried(draft: ServerDraft) -> str:
    """Give in a line what is there."""
    from growdesk.services.server_copy import holds_collection  # noqa: PLC0415 -- seldom

    if holds_collection(_server(draft)):
        return tr("The server answers, and a collection is there.")
    return tr("The server answers, and its database is empty.")


def _opened(draft: ServerDraft, clock: Clock | None) -> Collection:
    from growdesk.services import servers_known  # noqa: PLC0415 -- seldom
    from growdesk.services.collection import Collection  # noqa: PLC0415 -- ditto

    where = _server(draft)
    collection = Collection.open(where, clock, create=draft.create)
    servers_known.remember(where, next_start=draft.next_start)
    return collection


def _server(draft: ServerDraft) -> OnServer:
    from growdesk.services.servers import at  # noqa: PLC0415 -- seldom

    return at(draft.address, draft.photos)
