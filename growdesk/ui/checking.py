"""Look the open collection through: when asked, weekly, and where damage was met.

The weekly look runs on a lane of its own over a copy, so that nothing waits for it; it
says nothing where all is whole. Damage is told once.
"""

from __future__ import annotations

from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QTimer
from PySide6.QtWidgets import QApplication

from growdesk.domain.speech import tr
from growdesk.ui.long_work import Long
from growdesk.ui.tasks import Job, Lane, give_way

if TYPE_CHECKING:
    from collections.abc import Callable

    from PySide6.QtWidgets import QWidget

    from growdesk.services.check_values import Damage, FullCheck
    from growdesk.services.collection import Collection
    from growdesk.services.long_work import Step
    from growdesk.services.values import Written
    from growdesk.services.whereabouts import Where
    from growdesk.ui.desk import Desk
    from growdesk.ui.dialogs.found import FoundDialog, Way

_QUIET_MS = 20_000
"""The weekly look begins once the first things have been read and shown."""


class CheckForms(QObject):
    """The looks through one window's collection."""

    def __init__(
        self, desk: Desk, window: QWidget, backups: Callable[[], object]
    ) -> None:
        super().__init__(window)
        self._desk = desk
        self._window = window
        self._backups = backups
        self._told: set[Path] = set()
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.setInterval(_QUIET_MS)
        self._timer.timeout.connect(self.look_quietly)
        desk.day_arrived.connect(self._wait_a_while)
        desk.tasks.hurt.connect(self._hurt)

    # -- asked ----------------------------------------------------------------------

    def open(self) -> None:
        """Look it all through and show what was found, whole or not."""
        where = self._desk.collection.where
        self._desk.long.begin(
            Long(
                tr("Looking the collection through"),
                partial(_look_through, where),
                partial(self._show, self._desk.collection),
                self._desk.fail,
                self._stopped,
            )
        )

    def _stopped(self) -> None:
        self._desk.told.emit(tr("Cancelled: it was not looked through."))

    # -- unasked --------------------------------------------------------------------

    def look_quietly(self) -> None:
        """Look it through beside all else; tell only what is damaged."""
        collection = self._desk.collection
        self._ask_beside(collection, partial(self._looked, collection))

    def _wait_a_while(self, _shown: object) -> None:
        collection = self._desk.collection
        if collection.folder in self._told or self._timer.isActive():
            return
        if collection.full_check_due:
            self._timer.start()

    def _hurt(self, _error: object) -> None:
        """Find out whether it is the collection's file that a reading met damaged."""
        collection = self._desk.collection
        if collection.folder in self._told:
            return
        self._told.add(collection.folder)
        self._ask_beside(collection, partial(self._met, collection))

    def _ask_beside(self, collection: Collection, done: object) -> None:
        work = partial(_look_through, collection.where, _giving_way)
        job: Job[FullCheck] = Job(work, done, lambda _error: None, "check")  # type: ignore[arg-type]
        self._desk.tasks.ask(self, job, Lane.KEEPING)

    def _looked(self, collection: Collection, found: FullCheck) -> None:
        if collection is not self._desk.collection:
            return
        if not found.damage:
            collection.note_full_check()
            return
        self._told.add(collection.folder)
        self._tell(collection, found)

    def _met(self, collection: Collection, found: FullCheck) -> None:
        if collection is not self._desk.collection or not found.damage:
            return
        is_free = QApplication.activeModalWidget() is None
        has_file = isinstance(collection.where, Path)
        if is_free and has_file and _is_of_file(found):
            self._lead_on()
        else:
            self._tell(collection, found)

    def _tell(self, collection: Collection, found: FullCheck) -> None:
        """Open what was found, or say it in a line where a form stands in the way."""
        if QApplication.activeModalWidget() is None:
            self._show(collection, found)
            return
        self._desk.told.emit(
            tr("The collection is damaged: File, Look the collection through.")
        )

    # -- what was found -------------------------------------------------------------

    def _show(self, collection: Collection, found: FullCheck) -> None:
        if collection is not self._desk.collection:
            return
        from growdesk.ui import damage_words  # noqa: PLC0415 -- for what was found
        from growdesk.ui.dialogs.found import FoundDialog  # noqa: PLC0415 -- ditto

        if not found.damage:
            collection.note_full_check()
        mends = () if collection.looking else found.mendable
        ways: list[Way] = []
        if mends:
            ways.append((tr("&Set back"), lambda: self._set_back(dialog, mends)))
        if found.photos_kept and not collection.looking:
            ways.append((tr("&Put photos back"), partial(self._put_photos_back, found)))
        if isinstance(collection.where, Path) and _is_of_file(found):
            ways.append((tr("&Ways out…"), self._lead_on))
        if found.damage:
            ways.append((tr("&Backups…"), self._backups))
        dialog = FoundDialog(
            self._window,
            tr("The collection looked through"),
            damage_words.check_heads(found),
            damage_words.check_text(found.damage),
            ways,
            [each.sentence for each in mends],
        )
        dialog.open()

    def _set_back(self, dialog: FoundDialog, mends: tuple[Damage, ...]) -> None:
        chosen = tuple(mends[at] for at in dialog.chosen)
        self._desk.write(partial(_set_back, self._desk.collection, chosen))

    def _put_photos_back(self, found: FullCheck) -> None:
        work = partial(_put_photos_back, self._desk.collection.folder, found)
        self._desk.write(work)

    def _lead_on(self) -> None:
        from growdesk.ui.damage import LeadingOn  # noqa: PLC0415 -- for damage

        desk = self._desk
        collection = desk.collection
        collection.note_damage()
        leading = LeadingOn(
            desk.tasks,
            desk.long,
            collection.folder,
            collection.clock,
            self._window,
            collection,
        )
        leading.opened.connect(self._took_its_place)
        leading.stood.connect(desk.switch)
        leading.begin()

    def _took_its_place(self, collection: Collection) -> None:
        self._told.discard(collection.folder)
        self._desk.switch(collection)


def _is_of_file(found: FullCheck) -> bool:
    from growdesk.services.check_values import Sort  # noqa: PLC0415 -- ditto

    return any(each.sort is Sort.FILE for each in found.damage)


def _giving_way(_done: int, _of: int) -> None:
    give_way()


def _look_through(where: Where, step: Step) -> FullCheck:
    from growdesk.services.full_check import look_through  # noqa: PLC0415 -- seldom

    return look_through(where, step, is_open=True)


def _set_back(collection: Collection, mends: tuple[Damage, ...]) -> Written:
    from growdesk.services.mending import set_back  # noqa: PLC0415 -- seldom

    return set_back(collection.ledger, mends)


def _put_photos_back(folder: Path, found: FullCheck) -> Written:
    from growdesk.services.photos_back import put_back  # noqa: PLC0415 -- seldom

    return put_back(folder, found.photos_kept)
