"""Take tables in: choose or drop a file, match its columns, try it, take it.

The file is surveyed on the side lane; trials and writing are the desk's. An answer for
a dialog that was closed is dropped.
"""

from __future__ import annotations

from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Qt
from PySide6.QtWidgets import QFileDialog
from shiboken6 import isValid

from growdesk.domain.errors import StoreError
from growdesk.domain.speech import mark, tr
from growdesk.services import bad_rows, intake_survey, intake_taking
from growdesk.ui import take_in_memory, take_in_texts
from growdesk.ui.dialogs.take_in import TakeInDialog
from growdesk.ui.dialogs.told import ToldDialog
from growdesk.ui.field_words import plain_line
from growdesk.ui.tasks import Job, Lane

if TYPE_CHECKING:
    from collections.abc import Callable

    from PySide6.QtCore import QMimeData
    from PySide6.QtGui import QDragEnterEvent, QDropEvent
    from PySide6.QtWidgets import QWidget

    from growdesk.services.intake_values import Choices, DryRun, Survey
    from growdesk.services.values import Written
    from growdesk.ui.desk import Desk

_KINDS = mark("Tables (*.csv *.tsv *.txt);;All files (*)")
_TITLE = mark("Take a table in")
_ENDINGS = {".csv", ".tsv"}


class TakeIn(QObject):
    """Tables over one window's collection."""

    def __init__(self, desk: Desk, window: QWidget) -> None:
        super().__init__(window)
        self._desk = desk
        self._window = window

    def open(self) -> None:
        """Choose a file and open what it holds."""
        self._choose(self._window, self.read_first)

    def read_first(self, path: Path) -> None:
        """Survey a file and open the dialog on it; what is no table is told."""

        def refused(error: Exception) -> None:
            way = (tr("Another &file…"), self.open)
            ToldDialog(self._window, tr(_TITLE), plain_line(error), way).open()

        self._survey(self, path, self._open, refused)

    def _open(self, survey: Survey) -> None:
        dialog = TakeInDialog(self._window)
        dialog.file_wanted.connect(
            lambda: self._choose(dialog, partial(self.read_next, dialog))
        )
        dialog.try_wanted.connect(partial(self._try, dialog))
        dialog.take_wanted.connect(partial(self._take, dialog))
        dialog.save_wanted.connect(partial(self._choose_where, dialog))
        dialog.open()
        dialog.show_file(survey, take_in_memory.recall(survey))

    def read_next(self, dialog: TakeInDialog, path: Path) -> None:
        """Show another file in a dialog; a refusal leaves the one that it shows."""

        def show(survey: Survey) -> None:
            dialog.show_file(survey, take_in_memory.recall(survey))

        self._survey(dialog, path, show, dialog.refused)

    def _survey(
        self,
        owner: QObject,
        path: Path,
        done: Callable[[Survey], object],
        failed: Callable[[Exception], object],
    ) -> None:
        job = Job(partial(intake_survey.survey, path), done, failed, "survey")
        self._desk.tasks.ask(owner, job, Lane.SIDE)

    def _try(self, dialog: TakeInDialog, choices: Choices) -> None:
        if dialog.survey is None:
            return
        ledger, going = self._desk.collection.ledger, dialog.begin()
        work = partial(
            intake_taking.dry_run, ledger, dialog.survey, choices, going.step
        )
        done = partial(dialog.show_found, choices)
        self._desk.tasks.ask(dialog, Job(work, done, dialog.refused, "try"))

    def _take(self, dialog: TakeInDialog, choices: Choices) -> None:
        survey, found = dialog.survey, dialog.found
        if survey is None or found is None:
            return
        ledger, going = self._desk.collection.ledger, dialog.begin()

        def work() -> Written | None:
            taken = intake_taking.take(ledger, survey, choices, going.step)
            if taken.written is None:
                hint = tr("Try it again to see what is in the way now.")
                raise StoreError(tr("The collection changed since it was tried."), hint)
            return taken.written

        def taken(_done: Written) -> None:
            take_in_memory.keep(survey, choices)
            self._desk.told.emit(take_in_texts.taken(found))
            if isValid(dialog):
                dialog.accept()

        def refused(error: Exception) -> None:
            if isValid(dialog):
                dialog.refused(error)

        self._desk.write(work, taken, refused)

    # -- bad rows -------------------------------------------------------------------

    def _choose_where(self, dialog: TakeInDialog, found: DryRun) -> None:
        chooser = QFileDialog(
            dialog, tr("Save the bad rows"), take_in_memory.folder(), tr("CSV (*.csv)")
        )
        chooser.setAcceptMode(QFileDialog.AcceptMode.AcceptSave)
        chooser.setDefaultSuffix("csv")
        chooser.selectFile(
            tr("bad rows of {stem}.csv").format(stem=Path(found.source).stem)
        )
        chooser.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        chooser.fileSelected.connect(lambda name: self.save_bad(found, Path(name)))
        chooser.open()

    def save_bad(self, found: DryRun, path: Path) -> None:
        """Save the bad rows of a trial, all of them, as a table."""

        def done(_none: None) -> None:
            self._desk.told.emit(tr("The bad rows are in {path}").format(path=path))

        job = Job(partial(bad_rows.save, found, path), done, self._desk.fail)
        self._desk.tasks.ask(self, job, Lane.SIDE)

    # -- choosing and dropping ------------------------------------------------------

    def _choose(self, parent: QWidget, use: Callable[[Path], object]) -> None:
        dialog = QFileDialog(parent, tr(_TITLE), take_in_memory.folder(), tr(_KINDS))
        dialog.setFileMode(QFileDialog.FileMode.ExistingFile)
        dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        dialog.fileSelected.connect(lambda name: use(Path(name)))
        dialog.fileSelected.connect(take_in_memory.keep_folder)
        dialog.open()

    def let_in(self, event: QDragEnterEvent) -> None:
        """Say whether what is dragged over the window may be dropped there."""
        if _table_in(event.mimeData()):
            event.acceptProposedAction()

    def take_dropped(self, event: QDropEvent) -> None:
        """Read a table that was dropped on the window."""
        path = _table_in(event.mimeData())
        if path is not None:
            event.acceptProposedAction()
            self.read_first(path)


def _table_in(data: QMimeData) -> Path | None:
    """Give the one table that is dragged, if it is one."""
    files = [Path(url.toLocalFile()) for url in data.urls() if url.isLocalFile()]
    is_table = len(files) == 1 and files[0].suffix.lower() in _ENDINGS
    return files[0] if is_table else None
