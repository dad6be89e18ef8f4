"""Choose the second place of backups among the preferences.

The folder is looked for and made beside the window: a stick may be slow to answer.
"""

from __future__ import annotations

from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtWidgets import QFileDialog
from shiboken6 import isValid

from growdesk.domain.speech import tr
from growdesk.ui.dialogs.preferences import Row
from growdesk.ui.field_words import plain_line
from growdesk.ui.tasks import Job, Lane

if TYPE_CHECKING:
    from datetime import datetime

    from growdesk.services.second_place import SecondPlace
    from growdesk.ui.desk import Desk
    from growdesk.ui.dialogs.preferences import PreferencesDialog

ALSO_IN = "backups-also-in"
NOWHERE, CHOOSE = "", "choose"


class BackupPlaceForms(QObject):
    """The preference of where backups also go; ``chosen`` tells that it was set."""

    chosen = Signal()

    def __init__(self, desk: Desk, parent: QObject) -> None:
        super().__init__(parent)
        self._desk = desk

    def rows(self) -> tuple[Row, ...]:
        """Give the preference as it stands; ``look`` adds whether it is plugged in."""
        choices, now = _choices(_place(self._desk.collection.folder), is_there=True)
        title = tr("&Backups also in")
        note = tr(
            "The day's backup is kept with the collection, and copied to a stick or "
            "another disk when that is there."
        )
        return (Row(tr("Backups"), ALSO_IN, title, choices, now, note),)

    def look(self, dialog: PreferencesDialog) -> None:
        """Look beside the window for the place, and say where it is not there."""
        place = _place(self._desk.collection.folder)

        def done(*, is_there: bool) -> None:
            if not is_there and isValid(dialog):
                dialog.offer(ALSO_IN, *_choices(place, is_there=False))

        if place is not None:
            job = Job(
                partial(_is_there, place),
                lambda is_there: done(is_there=is_there),
                self._desk.fail,
                ALSO_IN,
            )
            self._desk.tasks.ask(self, job, Lane.SIDE)

    def take(self, dialog: PreferencesDialog, key: str, value: str) -> bool:
        """Put a choice into force; tell whether it is of this preference."""
        if key != ALSO_IN:
            return False
        if value == CHOOSE:
            self._ask(dialog)
        elif value == NOWHERE:
            self._set(dialog, None)
        return True

    def _ask(self, dialog: PreferencesDialog) -> None:
        title = tr("Backups also in")
        chooser = QFileDialog(dialog, title, str(Path.home()))
        chooser.setFileMode(QFileDialog.FileMode.Directory)
        chooser.setOption(QFileDialog.Option.ShowDirsOnly)
        chooser.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        chooser.fileSelected.connect(lambda name: self._set(dialog, Path(name)))
        chooser.rejected.connect(partial(self._show, dialog))
        chooser.open()

    def _set(self, dialog: PreferencesDialog, folder: Path | None) -> None:
        collection = self._desk.collection
        now = collection.clock.now()
        work = partial(_chosen, collection.folder, folder, now)

        def done(_place: SecondPlace | None) -> None:
            self._show(dialog)
            self.chosen.emit()

        def failed(error: Exception) -> None:
            self._show(dialog)
            if isValid(dialog):
                dialog.refuse(ALSO_IN, plain_line(error))

        self._desk.tasks.ask(self, Job(work, done, failed), Lane.SIDE)

    def _show(self, dialog: PreferencesDialog) -> None:
        if isValid(dialog):
            place = _place(self._desk.collection.folder)
            dialog.offer(ALSO_IN, *_choices(place, is_there=True))
            self.look(dialog)


def _place(folder: Path) -> SecondPlace | None:
    from growdesk.services.second_place import second_place  # noqa: PLC0415 -- asked

    return second_place(folder)


def _chosen(folder: Path, place: Path | None, now: datetime) -> SecondPlace | None:
    from growdesk.services.second_place import choose  # noqa: PLC0415 -- when asked

    return choose(folder, place, now)


def _is_there(place: SecondPlace) -> bool:
    return place.is_there


def _choices(
    place: SecondPlace | None, *, is_there: bool
) -> tuple[tuple[tuple[str, str], ...], str]:
    """Give what can be chosen, and which of it is."""
    choices = [(NOWHERE, tr("No other place"))]
    if place is not None:
        said = "{folder}" if is_there else tr("{folder} (not plugged in)")
        choices.append((str(place.chosen), said.format(folder=place.chosen)))
    choices.append((CHOOSE, tr("Choose a folder…")))
    return tuple(choices), NOWHERE if place is None else str(place.chosen)
