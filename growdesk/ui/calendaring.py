"""Keep the calendar as a face of the first pane: read it when it is in sight."""

from __future__ import annotations

from functools import cached_property, partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal

from growdesk.domain.speech import tr, trn
from growdesk.ui import actions, sizes, theme
from growdesk.ui.faces import DAY, Face
from growdesk.ui.tasks import Job

if TYPE_CHECKING:
    from pathlib import Path

    from growdesk.services.calendar_values import JobLine
    from growdesk.services.collection import Collection
    from growdesk.services.long_work import Step
    from growdesk.ui.desk import Desk
    from growdesk.ui.faces import Faces, Parts
    from growdesk.ui.files import Files
    from growdesk.ui.panes.calendar import CalendarPane

CALENDAR = "calendar"
WANTED_PX = 760


class Calendaring(QObject):
    """The calendar of the collection that is open, as known today."""

    was_read = Signal(object)

    def __init__(self, desk: Desk, parts: Parts, faces: Faces) -> None:
        super().__init__(desk)
        self._desk = desk
        self._parts = parts
        self._faces = faces
        self._was_shown = False
        faces.add(CALENDAR, self._face)
        desk.day_arrived.connect(self._day_arrived)
        desk.switched.connect(self._switched)
        faces.turned.connect(self._turned)

    @cached_property
    def pane(self) -> CalendarPane:
        """Give the calendar's pane, made when it is first wanted."""
        from growdesk.ui.panes.calendar import CalendarPane  # noqa: PLC0415 -- ditto

        pane = CalendarPane()
        pane.plant_chosen.connect(self._choose)
        pane.plant_opened.connect(self._open)
        pane.tick_wanted.connect(self._tick)
        pane.let_go_wanted.connect(self._let_go)
        theme.current().turned.connect(pane.refresh_colours)
        return pane

    def _face(self) -> Face:
        pane = self.pane
        return Face(
            pane,
            pane.focus_list,
            pane.focus_filter,
            tr(actions.CALENDAR_HINT),
            lambda: sizes.px(WANTED_PX),
            self._shown,
            picked=pane.picked,
            chosen=lambda: pane.chosen,
        )

    def save(self, files: Files) -> None:
        """Choose a name and save the open jobs as a calendar file."""
        files.save_calendar(partial(_save, self._desk.collection))

    @property
    def is_shown(self) -> bool:
        """Tell whether the calendar stands in place of the day's list."""
        return self._faces.shown == CALENDAR

    def _shown(self) -> None:
        self._ask()

    def _choose(self, plant_id: int) -> None:
        """Show the plant of the job that the cursor came to, while it is in sight."""
        if self.is_shown:
            self._desk.show_plant(plant_id)

    def _turned(self, key: str) -> None:
        """Let the day's list go to the plant that was looked at here."""
        was_shown, self._was_shown = self._was_shown, key == CALENDAR
        if not was_shown or self._was_shown:
            return
        day_list, chosen = self._parts.day_list, self.pane.chosen
        if chosen is not None and day_list.model.row_of(chosen) >= 0:
            day_list.go_to(chosen)
        if key == DAY and day_list.chosen is not None:
            self._desk.show_plant(day_list.chosen)

    def _day_arrived(self) -> None:
        if self.is_shown:
            self._ask()

    def _ask(self) -> None:
        work = self._desk.collection.calendar.jobs
        job = Job(work, self._arrived, self._desk.fail, CALENDAR)
        self._desk.tasks.ask(self, job)

    def _arrived(self, lines: tuple[JobLine, ...]) -> None:
        self.pane.show_jobs(lines, self._desk.today)
        self.was_read.emit(lines)
        chosen = self.pane.chosen
        if self.is_shown and chosen is not None:
            self._desk.show_plant(chosen)

    def _open(self, plant_id: int) -> None:
        """Go to the plant in the day's list."""
        self._faces.show_day()
        self._parts.day_list.go_to(plant_id)
        self._parts.day_list.focus_list()

    def _tick(self, line: JobLine) -> None:
        calendar = self._desk.collection.calendar
        again = line.closed is not None
        self._desk.write(partial(calendar.reopen if again else calendar.done, line))

    def _let_go(self, line: JobLine) -> None:
        calendar = self._desk.collection.calendar
        again = line.closed is not None
        self._desk.write(partial(calendar.reopen if again else calendar.let_go, line))

    def _switched(self) -> None:
        if "pane" in self.__dict__:
            self.pane.show_jobs(None, self._desk.today)


def _save(collection: Collection, file: Path, step: Step) -> str:
    from growdesk.services import calendar_file  # noqa: PLC0415 -- only for a file

    count = calendar_file.save(collection, file, step=step)
    return trn(
        "Saved {count} job of the year to {file}",
        "Saved {count} jobs of the year to {file}",
        count,
    ).format(count=count, file=file)
