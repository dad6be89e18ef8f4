"""Open the backups, make, prove and compare them, and bring one back in this window.

A backup is laid and proved beside the collection while that is still open; only then
the window lets go of it, the two change places, and it stands on what came back. A
cancel, and every refusal, leaves all as it was.
"""

from __future__ import annotations

from contextlib import ExitStack
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

from msgspec import Struct
from PySide6.QtCore import QObject, Qt, QUrl
from PySide6.QtGui import QDesktopServices
from PySide6.QtWidgets import QFileDialog
from shiboken6 import isValid

from growdesk.domain.errors import GrowdeskError
from growdesk.domain.speech import mark, tr
from growdesk.services.backup_values import Why
from growdesk.services.whereabouts import home_of
from growdesk.ui import backup_words
from growdesk.ui.dialogs.backup_look import BackupLookDialog
from growdesk.ui.dialogs.backups import BackupsDialog, BringBackDialog
from growdesk.ui.field_words import plain_line
from growdesk.ui.long_work import FILES, Long
from growdesk.ui.tasks import Job, Lane, is_ending
from growdesk.ui.widgets.long_panel import LongPanel

if TYPE_CHECKING:
    from collections.abc import Callable
    from datetime import datetime

    from PySide6.QtWidgets import QWidget

    from growdesk.services.backup_look import Compared
    from growdesk.services.backup_values import Backable, BackupsView
    from growdesk.services.changing_places import Standing
    from growdesk.services.collection import Collection
    from growdesk.services.long_work import Step
    from growdesk.services.restoring import Ready, Restored
    from growdesk.services.whereabouts import Where
    from growdesk.ui.desk import Desk

T = TypeVar("T")
_STOPPED = mark("Cancelled: the collection is as it was.")
_NOT_ONTO_A_SERVER = mark(
    "A collection on a server is not replaced while others use it. Bring the backup"
    " back into a new folder with: growdesk restore --into DIR. The handbook says how"
    " it comes from there onto the server."
)
_KINDS = mark("Backups (*.zip *.sqlite manifest.json)")


class _Laid(Struct, frozen=True):
    """A backup that lies proved beside the collection, and what takes it away again."""

    ready: Ready
    leaving: ExitStack


class BackupForms(QObject):
    """The backups of one window's collection."""

    def __init__(self, desk: Desk, window: QWidget) -> None:
        super().__init__(window)
        self._desk = desk
        self._window = window

    @property
    def _folder(self) -> Path:
        return self._desk.collection.folder

    @property
    def _where(self) -> Where:
        return self._desk.collection.where

    def open(self) -> None:
        """Open the list of backups."""
        dialog = BackupsDialog(
            self._window, self._desk.today, LongPanel(self._desk.long)
        )
        dialog.make_wanted.connect(partial(self._make, dialog))
        dialog.look_wanted.connect(partial(self._look, dialog))
        dialog.prove_wanted.connect(partial(self._prove, dialog))
        dialog.back_wanted.connect(partial(self._ask, dialog))
        dialog.file_wanted.connect(partial(self._choose_file, dialog))
        dialog.second_wanted.connect(partial(self._choose_second, dialog))
        dialog.folder_wanted.connect(partial(self._open_folder, dialog))
        self.read(dialog)
        dialog.open()

    def read(self, dialog: BackupsDialog) -> None:
        """Read what there is, and show it."""

        def show(view: BackupsView) -> None:
            if isValid(dialog):
                dialog.show_view(view)

        work = partial(_overview, self._where, self._now())
        self._beside(work, show, dialog)

    # -- one of them ----------------------------------------------------------------

    def _look(self, dialog: BackupsDialog, entry: Backable) -> None:
        def show(found: tuple[Compared, ...]) -> None:
            if isValid(dialog):
                name = backup_words.when_text(entry.made_at, self._desk.today)
                BackupLookDialog(dialog, name, found).open()

        self._beside(partial(_compare, entry, self._where), show, dialog)

    def _prove(self, dialog: BackupsDialog, entry: Backable) -> None:
        when = backup_words.when_text(entry.made_at, self._desk.today)

        def done(problem: str) -> None:
            whole = tr("The backup is whole: {when}.").format(when=when)
            _say(dialog, problem or whole)

        work = partial(_proved, entry)
        self._begin(tr("Reading a backup through"), work, done, dialog)

    def _make(self, dialog: BackupsDialog) -> None:
        def done(problem: str) -> None:
            made = tr("The backup is made; it was read back.")
            _say(dialog, " ".join(each for each in (made, problem) if each))
            self._reread(dialog)

        work = partial(_made, self._where, self._now())
        self._begin(tr("Making a backup"), work, done, dialog)

    # -- bringing one back ----------------------------------------------------------

    def _choose_file(self, dialog: BackupsDialog) -> None:
        chooser = QFileDialog(
            dialog, tr("Bring a backup back"), str(Path.home()), tr(_KINDS)
        )
        chooser.setFileMode(QFileDialog.FileMode.ExistingFile)
        chooser.fileSelected.connect(lambda name: self.ask_file(dialog, Path(name)))
        _open(chooser)

    def ask_file(self, dialog: BackupsDialog, file: Path) -> None:
        """Ask whether a file is to be brought back."""
        self._question(dialog, None, str(file), file)

    def _ask(self, dialog: BackupsDialog, entry: Backable) -> None:
        when = backup_words.when_text(entry.made_at, self._desk.today)
        self._question(dialog, entry, when, entry.path)

    def _question(
        self, dialog: BackupsDialog, entry: Backable | None, name: str, path: Path
    ) -> None:
        if not isinstance(self._where, Path):
            _say(dialog, tr(_NOT_ONTO_A_SERVER))
            return

        def ask(plants: int) -> None:
            if isValid(dialog):
                beside = self._folder.resolve().parent
                text = backup_words.question(entry, name, plants, beside)
                question = BringBackDialog(dialog, text)
                question.agreed.connect(partial(self.bring_back, dialog, path))
                question.open()

        collection = self._desk.collection
        self._desk.read(partial(_plants, collection), ask, partial(_fail, dialog))

    def bring_back(self, dialog: BackupsDialog, path: Path) -> None:
        """Lay a backup beside the collection, then let the two change places."""
        line = self._desk.long.in_the_way
        if line:
            _say(dialog, line)
            return
        work = partial(_laid, path, self._folder, self._now())
        done = partial(self._change, dialog)
        self._begin(tr("Bringing a backup back"), work, done, dialog)

    def _change(self, dialog: BackupsDialog, laid: _Laid) -> None:
        """Change places on the lane that alone talks to the collection."""
        work = partial(_changed, self._desk.collection, laid)
        job = Job(work, partial(self._stand, dialog), partial(_fail, dialog))
        self._desk.tasks.ask(self, job)

    def _stand(self, dialog: BackupsDialog, changed: Standing[Restored]) -> None:
        """Stand on what is there now, and say what was done."""
        if changed.collection is not None:
            self._desk.switch(changed.collection)
        if changed.error is not None or changed.done is None:
            if changed.error is not None:
                _fail(dialog, changed.error)
            return
        if isValid(dialog):
            dialog.accept()
        self._desk.told.emit(backup_words.done_text(changed.done, self._desk.today))

    # -- places ---------------------------------------------------------------------

    def _choose_second(self, dialog: BackupsDialog) -> None:
        chooser = QFileDialog(
            dialog, tr("A second place for backups"), str(Path.home())
        )
        chooser.setFileMode(QFileDialog.FileMode.Directory)
        chooser.setOption(QFileDialog.Option.ShowDirsOnly)
        chooser.fileSelected.connect(
            lambda name: self.choose_second(dialog, Path(name))
        )
        _open(chooser)

    def choose_second(self, dialog: BackupsDialog, place: Path) -> None:
        """Let every backup go to a second place too, and the last one at once."""

        def done(_none: None) -> None:
            _say(dialog, tr("Every backup also goes to {place}.").format(place=place))
            self._reread(dialog)

        work = partial(_chosen, self._folder, place, self._now())
        self._begin(tr("Copying the last backup"), work, done, dialog)

    def _open_folder(self, dialog: BackupsDialog) -> None:
        folder = self._folder / "backups"
        shown = folder if folder.is_dir() else self._folder
        if not QDesktopServices.openUrl(QUrl.fromLocalFile(str(shown))):
            _say(dialog, tr("No program of this machine shows folders."))

    # -- inside ---------------------------------------------------------------------

    def _now(self) -> datetime:
        return self._desk.collection.clock.now()

    def _reread(self, dialog: BackupsDialog) -> None:
        if isValid(dialog):
            self.read(dialog)

    def _beside(
        self, work: Callable[[], T], done: Callable[[T], object], dialog: BackupsDialog
    ) -> None:
        job = Job(work, done, partial(_fail, dialog))
        self._desk.tasks.ask(dialog, job, Lane.SIDE)

    def _begin(
        self,
        title: str,
        work: Callable[[Step], T],
        done: Callable[[T], object],
        dialog: BackupsDialog,
    ) -> None:
        _say(dialog, "")
        stopped = partial(_say, dialog, tr(_STOPPED))
        failed = partial(_fail, dialog)
        self._desk.long.begin(Long(title, work, done, failed, stopped, FILES))


def _open(chooser: QFileDialog) -> None:
    chooser.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
    chooser.open()


def _say(dialog: BackupsDialog, line: str) -> None:
    if isValid(dialog):
        dialog.say(line)


def _fail(dialog: BackupsDialog, error: Exception) -> None:
    _say(dialog, plain_line(error))


def _overview(where: Where, now: datetime) -> BackupsView:
    from growdesk.services import backup_overview  # noqa: PLC0415 -- when asked

    return backup_overview.overview(where, now)


def _compare(entry: Backable, where: Where) -> tuple[Compared, ...]:
    from growdesk.services import backup_look  # noqa: PLC0415 -- when asked

    return backup_look.compare(entry, where)


def _proved(entry: Backable, step: Step) -> str:
    from growdesk.services import backup_overview  # noqa: PLC0415 -- when asked

    return backup_overview.prove(entry, step)


def _made(where: Where, now: datetime, step: Step) -> str:
    """Make a backup, and copy it to the second place; give why that would not."""
    from growdesk.services import backups, second_place  # noqa: PLC0415 -- when asked

    backups.make(where, Why.BY_HAND, now, step)
    try:
        second_place.copy_last(home_of(where), now, step)
    except GrowdeskError as error:
        return plain_line(error)
    return ""


def _chosen(folder: Path, place: Path, now: datetime, step: Step) -> None:
    from growdesk.services import second_place  # noqa: PLC0415 -- when asked

    second_place.choose(folder, place, now)
    second_place.copy_last(folder, now, step)


def _plants(collection: Collection) -> int:
    return len(collection.plants.all())


def _laid(path: Path, folder: Path, now: datetime, step: Step) -> _Laid:
    from growdesk.services.restoring import preparing  # noqa: PLC0415 -- when asked

    leaving = ExitStack()
    return _Laid(leaving.enter_context(preparing(path, folder, now, step)), leaving)


def _changed(old: Collection, laid: _Laid) -> Standing[Restored]:
    """Let go of a collection, change places, and open what is there then."""
    from growdesk.services import changing_places  # noqa: PLC0415 -- when asked

    def switch() -> Restored:
        with laid.leaving:
            return laid.ready.switch(old.clock.now())

    standing = changing_places.change(old, switch)
    if is_ending() and standing.collection is not None:
        standing.collection.close()  # the window is closing, and nobody else does
    return standing
