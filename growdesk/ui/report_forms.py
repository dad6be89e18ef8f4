"""Make a report of a fault, show it whole, and keep it where the person chooses."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, qVersion
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QApplication

from growdesk.domain.speech import tr
from growdesk.ui import sizes
from growdesk.ui.dialogs.report import ReportDialog
from growdesk.ui.field_words import plain_line
from growdesk.ui.preferences import preferences
from growdesk.ui.tasks import Job, Lane

if TYPE_CHECKING:
    from datetime import datetime
    from pathlib import Path

    from PySide6.QtWidgets import QWidget

    from growdesk.services.whereabouts import Where
    from growdesk.ui.desk import Desk
    from growdesk.ui.files import Files

_HARMLESS = ("light", "motion", "text-size")
_REGIONAL = "regional/"


class ReportForms(QObject):
    """The report of one window; it is read beside the lane that may be stuck."""

    def __init__(self, desk: Desk, window: QWidget, files: Files) -> None:
        super().__init__(window)
        self._desk = desk
        self._window = window
        self._files = files

    def open(self) -> None:
        """Make the report and show it over whatever is open."""
        collection = self._desk.collection
        work = partial(
            _report, collection.where, collection.clock.now(), around(self._window)
        )
        self._desk.tasks.ask(
            self, Job(work, self._show, self._desk.fail, "report"), Lane.SIDE
        )

    def _show(self, text: str) -> None:
        over = QApplication.activeModalWidget() or self._window
        dialog = ReportDialog(over, text)
        dialog.save_wanted.connect(partial(self._choose, dialog))
        dialog.open()

    def _choose(self, dialog: ReportDialog, text: str) -> None:
        name = f"growdesk-report-{self._desk.today.isoformat()}.txt"
        use = partial(self._save, dialog, text)
        self._files.choose_to_save(
            tr("Save the report"), name, tr("Texts (*.txt)"), use, dialog
        )

    def _save(self, dialog: ReportDialog, text: str, file: Path) -> None:
        def done(_none: None) -> None:
            dialog.say(tr("Saved {file}").format(file=file))

        def failed(error: Exception) -> None:
            dialog.say(plain_line(error))

        job = Job(partial(_keep, text, file), done, failed)
        self._desk.tasks.ask(dialog, job, Lane.SIDE)


def around(window: QWidget) -> tuple[str, ...]:
    """Tell of screens, sizes and harmless preferences, for whoever mends it."""
    app = QGuiApplication
    screens = (
        f"screen: {each.size().width()} x {each.size().height()}, scale "
        f"{each.devicePixelRatio():g}, {each.logicalDotsPerInch():.0f} dots per inch"
        for each in app.screens()
    )
    kept = preferences()
    chosen = (
        f"{key}: {kept.value(key)}"
        for key in sorted(kept.allKeys())
        if key in _HARMLESS or key.startswith(_REGIONAL)
    )
    return (
        f"Qt {qVersion()} on {app.platformName()}",
        *screens,
        f"window: {window.width()} x {window.height()}",
        f"text at: {sizes.current().per_cent} %",
        *chosen,
    )


def _report(where: Where, at: datetime, told: tuple[str, ...]) -> str:
    from growdesk.services import bug_report  # noqa: PLC0415 -- seldom asked

    return bug_report.report(where, at, told)


def _keep(text: str, file: Path) -> None:
    from growdesk.services import bug_report  # noqa: PLC0415 -- seldom asked

    bug_report.save(text, file)
