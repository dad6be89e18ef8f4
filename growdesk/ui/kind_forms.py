"""Open the browser of kinds, and write the corrections it hands out."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from msgspec.structs import replace
from PySide6.QtCore import QObject
from shiboken6 import isValid

from growdesk.ui.dialogs.kind_asks import KindsShown
from growdesk.ui.dialogs.kinds import KindsDialog
from growdesk.ui.drafts import Drafts
from growdesk.ui.tasks import Job

if TYPE_CHECKING:
    from PySide6.QtWidgets import QWidget

    from growdesk.services.collection import Collection
    from growdesk.services.kind_values import KindEffect
    from growdesk.services.values import Written
    from growdesk.ui.desk import Desk
    from growdesk.ui.dialogs.kind_asks import Correction, Restoring


class KindForms(QObject):
    """The browser of kinds of one window."""

    def __init__(self, desk: Desk, window: QWidget) -> None:
        super().__init__(window)
        self._desk = desk
        self._window = window
        self._drafts = Drafts.of(window)

    def browse(self, plant_id: int | None = None) -> None:
        """Open the kinds, at that of the plant chosen, which is offered too."""
        self._desk.read(partial(_read, self._desk.collection, plant_id), self._open)

    def of_plant(self, plant_id: int) -> None:
        """Open the kinds at that of one plant, to be corrected for it alone."""

        def open_it(shown: KindsShown) -> None:
            self._open(replace(shown, for_plant=True))

        self._desk.read(partial(_read, self._desk.collection, plant_id), open_it)

    def _open(self, shown: KindsShown) -> None:
        dialog = KindsDialog(self._window, shown)
        plant_id = None if shown.plant is None else shown.plant.plant_id
        again = partial(self._again, dialog, plant_id)
        dialog.saved.connect(partial(self._save, dialog, again))
        dialog.restore_wanted.connect(partial(self._restore, dialog, again))
        dialog.effect_wanted.connect(partial(self._effect, dialog))
        self._drafts.attend((self._desk.collection.folder, "kinds"), dialog)
        dialog.open()
        dialog.kinds.find_line.setFocus()

    def _again(self, dialog: KindsDialog, plant_id: int | None) -> None:
        def show(shown: KindsShown) -> None:
            if isValid(dialog):
                dialog.show_kinds(shown)

        self._desk.read(partial(_read, self._desk.collection, plant_id), show)

    def _save(
        self, dialog: KindsDialog, again: partial[None], asked: Correction
    ) -> None:
        kinds = self._desk.collection.kinds
        work = partial(kinds.correct, asked.kind_key, asked.cells, asked.note)
        if asked.plant_id is not None:
            work = partial(
                kinds.correct_for_plant, asked.plant_id, asked.cells, asked.note
            )

        def kept(done: Written) -> None:
            if isValid(dialog):
                dialog.kept_correction(asked, done.title)
            again()

        self._desk.write(work, kept, partial(_refuse, dialog))

    def _restore(
        self, dialog: KindsDialog, again: partial[None], asked: Restoring
    ) -> None:
        kinds = self._desk.collection.kinds
        work = partial(kinds.restore, asked.kind_key, *asked.names)
        if asked.plant_id is not None:
            work = partial(kinds.restore_for_plant, asked.plant_id, *asked.names)

        def gone(done: Written) -> None:
            if isValid(dialog):
                dialog.say(done.title)
            again()

        self._desk.write(work, gone, partial(_refuse, dialog))

    def _effect(self, dialog: KindsDialog, asked: Correction) -> None:
        kinds = self._desk.collection.kinds
        work = partial(kinds.effect, asked.kind_key, asked.cells)
        if asked.plant_id is not None:
            work = partial(kinds.effect_for_plant, asked.plant_id, asked.cells)

        def show(effect: KindEffect) -> None:
            if isValid(dialog):
                dialog.show_effect(asked, effect)

        self._desk.tasks.ask(dialog, Job(work, show, _only_half_typed, "kind-effect"))


def _only_half_typed(_error: Exception) -> None:
    """Say nothing: what does not fit yet is told when it is to be kept."""


def _refuse(dialog: KindsDialog, error: Exception) -> None:
    if isValid(dialog):
        dialog.refused(error)


def _read(collection: Collection, plant_id: int | None) -> KindsShown:
    kinds = collection.kinds
    plant = None if plant_id is None else kinds.of_plant(plant_id)
    return KindsShown(kinds.all(), plant, kinds.problems())
