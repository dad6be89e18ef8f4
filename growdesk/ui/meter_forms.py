"""Open the meter's form, its readings and their chart, and write what is entered."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from shiboken6 import isValid

from growdesk.domain.speech import tr
from growdesk.services.meter import jug_of
from growdesk.ui import words
from growdesk.ui.chart_over import open_chart
from growdesk.ui.charts.asking import Wanted, Which
from growdesk.ui.dialogs.meter import MeterDialog, MeterStart
from growdesk.ui.dialogs.meter_course import MeterCourseDialog
from growdesk.ui.dialogs.meter_readings import MeterReadingsDialog
from growdesk.ui.field_words import plain_line
from growdesk.ui.thing_forms import ThingForms

if TYPE_CHECKING:
    from collections.abc import Callable
    from datetime import date

    from PySide6.QtWidgets import QWidget

    from growdesk.services.meter_values import JugToRead, MeterDraft, MeterView
    from growdesk.services.values import Written


class MeterForms(ThingForms):
    """The meter readings of one window's collection."""

    save_wanted = Signal(object, object, object)

    def open(self, letter: str = "") -> None:
        """Ask what the meter reads in a jug of the day shown, of this one at first."""
        self._desk.load_units()
        on = min(self._desk.on, self._desk.today)
        work = partial(self._now.meter.jugs, on)
        self._desk.read(work, partial(self._ask, on, letter))

    def _ask(self, on: date, letter: str, jugs: tuple[JugToRead, ...]) -> None:
        if not jugs:
            day = words.short_day(on)
            self.readings(
                self._window,
                tr("No jug of feed is to be mixed on {day}.").format(day=day),
            )
            return
        first = sorted(jugs, key=partial(_after_the_named, letter))
        form = MeterDialog(self._window, MeterStart(on, tuple(first)))
        self._attend(form, "meter", on, letter)
        form.readings_wanted.connect(partial(self.readings, form))
        self._save_from(form, self._now.meter.write, lambda _done: None)

    def readings(self, parent: QWidget, first: str = "") -> None:
        """Open what the meter read in past jugs."""
        dialog = MeterReadingsDialog(parent, first)
        dialog.change_wanted.connect(partial(self._change, dialog))
        dialog.remove_wanted.connect(partial(self._remove_reading, dialog))
        dialog.chart_wanted.connect(partial(self.course, dialog))
        self._show(dialog)
        dialog.open()

    def course(self, parent: QWidget) -> None:
        """Open the EC predicted and read over time, over a dialog."""
        wanted = Wanted(Which.METER, 0, self._desk.today)
        dialog = MeterCourseDialog(parent, wanted)
        open_chart(dialog, self._desk, self.save_wanted)

    def _change(self, dialog: MeterReadingsDialog, view: MeterView) -> None:
        self._desk.load_units()
        start = MeterStart(view.draft.on, (jug_of(view),), view)
        form = MeterDialog(dialog, start)
        self._attend(form, "meter-reading", view.reading_id)
        self._save_from(
            form,
            partial(self._now.meter.change, view.reading_id),
            partial(self._told, dialog),
        )

    def _save_from(
        self,
        form: MeterDialog,
        write: Callable[[MeterDraft], Written],
        then: Callable[[Written], None],
    ) -> None:
        """Open a form whose draft is written, and do what follows once it is."""

        def kept(done: Written) -> None:
            form.close_saved()
            then(done)

        def save(draft: MeterDraft) -> None:
            self._desk.write(partial(write, draft), kept, form.refused)

        form.saved.connect(save)
        form.open()

    def _remove_reading(self, dialog: MeterReadingsDialog, reading_id: int) -> None:
        self._desk.write(
            partial(self._now.meter.remove, reading_id),
            partial(self._told, dialog),
            lambda error: dialog.say(plain_line(error)) if isValid(dialog) else None,
        )

    def _told(self, dialog: MeterReadingsDialog, done: Written) -> None:
        if isValid(dialog):
            dialog.say(done.title)
            self._show(dialog)

    def _show(self, dialog: MeterReadingsDialog) -> None:
        def show(views: tuple[MeterView, ...]) -> None:
            if isValid(dialog):
                dialog.show_readings(views)

        self._desk.read(self._now.meter.all, show)


def _after_the_named(letter: str, jug: JugToRead) -> tuple[bool, bool]:
    """Put the jug whose card was asked from first, dosed alone as its card has it."""
    return (jug.letter != letter, bool(jug.is_diluted)) if letter else (False, False)
