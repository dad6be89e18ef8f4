"""Read a logger's file for a place: choose it, try it, take its days.

The file is read on the side lane, off the window's thread; the collection is asked on
the desk's. An answer for a dialog that was closed is dropped.
"""

from __future__ import annotations

from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtWidgets import QFileDialog
from shiboken6 import isValid

from growdesk.domain.speech import mark, tr
from growdesk.services import logger_reading, logger_survey
from growdesk.ui import logger_memory
from growdesk.ui.dialogs.logger import LoggerDialog
from growdesk.ui.dialogs.told import ToldDialog
from growdesk.ui.field_words import plain_line
from growdesk.ui.tasks import Job, Lane

if TYPE_CHECKING:
    from collections.abc import Callable

    from PySide6.QtWidgets import QWidget

    from growdesk.services.collection import Collection
    from growdesk.services.logger_values import Choices, FileRead, Report, Survey
    from growdesk.services.values import PlaceView, Written
    from growdesk.ui.desk import Desk

_KINDS = mark("Tables of a logger (*.csv *.txt *.tsv *.dat);;All files (*)")
_TITLE = mark("A logger's file")
_NO_PLACE = mark(
    "There is no place yet that a logger could stand in. Add the place first, then read"
    " its logger's file."
)


class LoggerForms(QObject):
    """Loggers' files over one window's collection."""

    places_wanted = Signal()
    taken = Signal()

    def __init__(
        self, desk: Desk, window: QWidget, place_id: int | None = None
    ) -> None:
        super().__init__(window)
        self._place_id = place_id
        self._desk = desk
        self._window = window

    @property
    def _now(self) -> Collection:
        return self._desk.collection

    def open(self) -> None:
        """Choose a file and open what it holds."""
        self._desk.read(self._now.places.all, self._with_places)

    def _with_places(self, places: tuple[PlaceView, ...]) -> None:
        if not places:
            way = (tr("&Places…"), self.places_wanted.emit)
            ToldDialog(self._window, tr(_TITLE), tr(_NO_PLACE), way).open()
            return
        self._choose(self._window, partial(self.read_first, places))

    def read_first(self, places: tuple[PlaceView, ...], path: Path) -> None:
        """Read a file and open the dialog on it; what is no such file is told."""

        def refused(error: Exception) -> None:
            again = partial(
                self._choose, self._window, partial(self.read_first, places)
            )
            way = (tr("Another &file…"), again)
            ToldDialog(self._window, tr(_TITLE), plain_line(error), way).open()

        self._survey(self, path, partial(self._open, places, path), refused)

    def _open(self, places: tuple[PlaceView, ...], path: Path, survey: Survey) -> None:
        dialog = LoggerDialog(self._window, places, self._place_id)
        next_file = partial(self.read_next, dialog)
        dialog.file_wanted.connect(lambda: self._choose(dialog, next_file))
        dialog.try_wanted.connect(partial(self._try, dialog))
        dialog.take_wanted.connect(partial(self._take, dialog))
        dialog.open()
        dialog.show_file(path, survey, logger_memory.recall(survey))

    def read_next(self, dialog: LoggerDialog, path: Path) -> None:
        """Show another file in a dialog; a refusal leaves the one that it shows."""

        def show(survey: Survey) -> None:
            dialog.show_file(path, survey, logger_memory.recall(survey))

        self._survey(dialog, path, show, dialog.refused)

    def _survey(
        self,
        owner: QObject,
        path: Path,
        done: Callable[[Survey], object],
        failed: Callable[[Exception], object],
    ) -> None:
        job = Job(partial(logger_survey.survey, path), done, failed, "survey")
        self._desk.tasks.ask(owner, job, Lane.SIDE)

    def _try(self, dialog: LoggerDialog, choices: Choices, place_id: int) -> None:
        """Read the days, then hold them against the record."""
        tasks, ledger = self._desk.tasks, self._now.ledger
        path, going = dialog.path, dialog.begin()

        def compare(file: FileRead) -> None:
            work = partial(logger_reading.compare, ledger, file, place_id)
            done = partial(dialog.show_report, choices)
            tasks.ask(dialog, Job(work, done, dialog.refused, "try"))

        today = self._desk.today
        read = partial(logger_reading.read_days, path, choices, today, going.step)
        tasks.ask(dialog, Job(read, compare, dialog.refused, "try"), Lane.SIDE)

    def _take(self, dialog: LoggerDialog, report: Report) -> None:
        survey, choices = dialog.survey, dialog.choices

        def taken(_done: Written) -> None:
            if survey is not None:
                logger_memory.keep(survey, choices, report.place)
            if isValid(dialog):
                dialog.accept()
            if isValid(self):
                self.taken.emit()

        def refused(error: Exception) -> None:
            if isValid(dialog):
                dialog.refused(error)

        work = partial(logger_reading.take, self._now.ledger, report)
        self._desk.write(work, taken, refused)

    def _choose(self, parent: QWidget, use: Callable[[Path], object]) -> None:
        dialog = QFileDialog(
            parent, "A logger's file", logger_memory.folder(), tr(_KINDS)
        )
        dialog.setFileMode(QFileDialog.FileMode.ExistingFile)
        dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        dialog.fileSelected.connect(lambda name: use(Path(name)))
        dialog.fileSelected.connect(logger_memory.keep_folder)
        dialog.open()
