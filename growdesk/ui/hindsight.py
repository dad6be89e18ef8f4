"""Open hindsight: a plant's past decisions to mark, and all marks counted."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal
from shiboken6 import isValid

from growdesk.domain.facts_house import FLAGS
from growdesk.domain.rule_book import gate_pages
from growdesk.domain.speech import tr
from growdesk.ui.dialogs.hindsight import HindsightDialog
from growdesk.ui.dialogs.marks import MarksDialog
from growdesk.ui.drafts import Drafts
from growdesk.ui.field_words import plain_line

if TYPE_CHECKING:
    from datetime import date

    from PySide6.QtWidgets import QWidget

    from growdesk.domain.facts import Verdict
    from growdesk.services.collection import Collection
    from growdesk.services.hindsight_values import HindsightTable, PastDay
    from growdesk.services.values import PlantDraft, Written
    from growdesk.ui.desk import Desk


class HindsightForms(QObject):
    """Hindsight over one window's collection."""

    rule_wanted = Signal(str)
    house_wanted = Signal(str)

    def __init__(self, desk: Desk, window: QWidget) -> None:
        super().__init__(window)
        self._desk = desk
        self._window = window

    @property
    def _now(self) -> Collection:
        return self._desk.collection

    def open(self, plant_id: int) -> None:
        """Open the past watering days of a plant."""
        self._desk.read(
            partial(self._now.plants.get, plant_id), partial(self._open, plant_id)
        )

    def _open(self, plant_id: int, plant: PlantDraft) -> None:
        dialog = HindsightDialog(self._window, f"{plant.tag} {plant.name}".strip())
        dialog.mark_wanted.connect(partial(self._mark, dialog, plant_id))
        dialog.unmark_wanted.connect(partial(self._unmark, dialog, plant_id))
        dialog.table_wanted.connect(self.open_table)
        drafts = Drafts.of(self._window)
        drafts.attend((self._now.folder, "hindsight", plant_id), dialog)
        today = self._desk.today
        self._desk.read(
            partial(self._now.hindsight.past, plant_id, today),
            partial(_show, dialog, today),
        )
        dialog.open()

    def open_table(self) -> None:
        """Open all marks, counted by rule and kind."""
        self._desk.read(self._now.hindsight.table, self._open_table)

    def _open_table(self, table: HindsightTable) -> None:
        pages = gate_pages()
        titles = {page.rule: tr(page.title) for page in pages}
        numbers = {
            page.rule: next((n for n in page.house_rules() if n not in FLAGS), "")
            for page in pages
        }
        dialog = MarksDialog(self._window, table, titles, numbers)
        dialog.rule_wanted.connect(self.rule_wanted)
        dialog.house_wanted.connect(self.house_wanted)
        dialog.open()

    def _mark(
        self,
        dialog: HindsightDialog,
        plant_id: int,
        day: date,
        better: Verdict,
        note: str,
    ) -> None:
        self._write(
            partial(self._now.hindsight.mark, plant_id, day, better, note),
            dialog,
            partial(_show_mark, dialog, day, better, note),
        )

    def _unmark(self, dialog: HindsightDialog, plant_id: int, day: date) -> None:
        self._write(
            partial(self._now.hindsight.unmark, plant_id, day),
            dialog,
            partial(_show_mark, dialog, day, None, ""),
        )

    def _write(
        self,
        work: partial[Written],
        dialog: HindsightDialog,
        done: partial[None],
    ) -> None:
        self._desk.write(work, lambda _written: done(), partial(_complain, dialog))


def _show(dialog: HindsightDialog, today: date, days: tuple[PastDay, ...]) -> None:
    """Show the days that are past; today only once something is written on it."""
    if isValid(dialog):
        dialog.show_days([day for day in days if day.on < today or _is_written(day)])


def _is_written(day: PastDay) -> bool:
    return day.done is not None or day.passed_by or day.better is not None


def _show_mark(
    dialog: HindsightDialog, day: date, better: Verdict | None, note: str
) -> None:
    if isValid(dialog):
        dialog.show_mark(day, better, note)


def _complain(dialog: HindsightDialog, error: Exception) -> None:
    if isValid(dialog):
        dialog.complain(plain_line(error))
