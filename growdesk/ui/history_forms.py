"""Open the history of changes and the bin, and do what is asked in them."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal
from shiboken6 import isValid

from growdesk.domain.speech import mark, tr
from growdesk.services import backups
from growdesk.services.whereabouts import OnServer
from growdesk.ui.dialogs.bin import BinDialog, EmptyBinDialog
from growdesk.ui.dialogs.history import HistoryDialog
from growdesk.ui.dialogs.undo_others import UndoOthersDialog
from growdesk.ui.field_words import plain_line
from growdesk.ui.long_work import Long

if TYPE_CHECKING:
    from PySide6.QtWidgets import QWidget

    from growdesk.services.bin_values import BinKey, BinView
    from growdesk.services.collection import Collection
    from growdesk.services.history_values import PastAction, PastAsk, PastPage
    from growdesk.services.long_work import Step
    from growdesk.services.values import HistoryView, Written
    from growdesk.ui.desk import Desk

_MANY = 20
"""From so many actions on the strip tells how far it is, and can stop it."""
STEPS = mark("{done} of {of} actions")


class HistoryForms(QObject):
    """Undo, redo, the history and the bin of one window's collection.

    ``moved`` tells the plants that undo or redo touched, for the face in sight.
    """

    moved = Signal(object)

    def __init__(self, desk: Desk, window: QWidget) -> None:
        super().__init__(window)
        self._desk = desk
        self._window = window

    @property
    def _now(self) -> Collection:
        return self._desk.collection

    # -- one step -------------------------------------------------------------------

    def undo(self) -> None:
        """Take the last deed back, and go to what it was done to.

        On a server it may be somebody else's; then that is asked first.
        """
        if isinstance(self._now.where, OnServer):
            self._desk.read(self._now.history.view, self._undo_on_server)
        else:
            self._desk.write(self._now.history.undo, self._moved)

    def _undo_on_server(self, last: HistoryView) -> None:
        undo = partial(self._now.history.undo, last)
        write = partial(self._desk.write, undo, self._moved)
        if not last.undo_by:
            write()
            return
        question = UndoOthersDialog(self._window, last.undo or "", last.undo_by)
        question.agreed.connect(write)
        question.open()

    def redo(self) -> None:
        """Do the last deed again, and go to what it was done to."""
        self._desk.write(self._now.history.redo, self._moved)

    # -- the history ----------------------------------------------------------------

    def history(self) -> None:
        """Open the history of everything."""
        self._open("")

    def of_plant(self, plant_id: int) -> None:
        """Open the history of one plant."""
        work = partial(self._now.plants.get, plant_id)
        self._desk.read(work, lambda draft: self._open(draft.tag))

    def _open(self, tag: str) -> None:
        dialog = HistoryDialog(self._window, tag)
        dialog.page_wanted.connect(partial(self._read, dialog))
        dialog.step_wanted.connect(partial(self._go, dialog))
        dialog.ask()
        dialog.open()

    def _read(self, dialog: HistoryDialog, ask: PastAsk) -> None:
        def show(page: PastPage) -> None:
            if isValid(dialog):
                dialog.show_page(ask, page)

        work = partial(self._now.history.page, ask)
        self._desk.read(work, show, partial(_say, dialog))

    def _go(self, dialog: HistoryDialog, action: PastAction) -> None:
        history = self._now.history
        walk = history.redo_to if action.undone else history.undo_to

        def done(written: Written) -> None:
            self._moved(written)
            if isValid(dialog):
                dialog.ask()
                dialog.say(". ".join((written.title, *written.problems)))

        failed = partial(_say, dialog)
        if action.steps < _MANY:
            self._desk.write(partial(walk, action.action_id), done, failed)
            return
        long: Long[Written] = Long(
            tr("Going through the history"),
            partial(walk, action.action_id),
            lambda written: self._desk.write(lambda: written, done),
            failed,
            lambda: _tell(dialog, tr("Stopped: nothing was changed.")),
            STEPS,
        )
        self._desk.long.begin(long)

    # -- the bin --------------------------------------------------------------------

    def show_bin(self) -> None:
        """Open the bin."""
        dialog = BinDialog(self._window)
        dialog.back_wanted.connect(partial(self._put_back, dialog))
        dialog.empty_wanted.connect(partial(self._ask, dialog))
        self._show(dialog)
        dialog.open()

    def _show(self, dialog: BinDialog) -> None:
        def show(view: BinView) -> None:
            if isValid(dialog):
                dialog.show_bin(view)

        self._desk.read(self._now.bin.view, show, partial(_say, dialog))

    def _put_back(self, dialog: BinDialog, key: BinKey) -> None:
        def done(written: Written) -> None:
            if isValid(dialog):
                dialog.say(written.title)
                self._show(dialog)

        work = partial(self._now.bin.put_back, key)
        self._desk.write(work, done, partial(_say, dialog))

    def _ask(self, dialog: BinDialog, view: BinView) -> None:
        folder = str(backups.folder_of(self._now.folder.resolve()))
        question = EmptyBinDialog(dialog, view, folder)
        question.agreed.connect(partial(self._empty, dialog))
        question.open()

    def _empty(self, dialog: BinDialog) -> None:
        if isValid(dialog):
            dialog.say(tr("Making a backup, then emptying the bin…"))

        def done(written: Written) -> None:
            if isValid(dialog):
                dialog.say(written.title)
                self._show(dialog)

        long: Long[Written] = Long(
            tr("Emptying the bin"),
            partial(_emptied, self._now),
            lambda written: self._desk.write(lambda: written, done),
            partial(_say, dialog),
            lambda: _tell(dialog, tr("Stopped: nothing was changed.")),
        )
        self._desk.long.begin(long)

    # -- inside ---------------------------------------------------------------------

    def _moved(self, written: Written) -> None:
        if written.ids:
            self.moved.emit(written.ids)


def _emptied(collection: Collection, step: Step) -> Written:
    from growdesk.services.emptying import empty  # noqa: PLC0415 -- once in a while

    return empty(collection, step).written


def _say(dialog: HistoryDialog | BinDialog, error: Exception) -> None:
    _tell(dialog, plain_line(error))


def _tell(dialog: HistoryDialog | BinDialog, line: str) -> None:
    if isValid(dialog):
        dialog.say(line)
