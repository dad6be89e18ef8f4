"""Keep a day in sum as a face of the first pane: read it when it is in sight."""

from __future__ import annotations

from functools import cached_property, partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal

from growdesk.domain.speech import mark, tr
from growdesk.ui.faces import Face
from growdesk.ui.tasks import Job

if TYPE_CHECKING:
    from datetime import date

    from PySide6.QtWidgets import QWidget

    from growdesk.services.collection import Collection
    from growdesk.services.day_sum import DaySum
    from growdesk.ui.desk import Desk
    from growdesk.ui.faces import Faces, Parts
    from growdesk.ui.panes.day_sum import DaySumPane

SUM = "day-summary"
WANTED_PX = 420
HINT = mark(
    "F12 goes back to the list, Alt+PgDown sums the next watering day up, F4 shows the "
    "looks worth taking."
)


class Summing(QObject):
    """The day shown, in sum."""

    looks_wanted = Signal()

    def __init__(self, desk: Desk, parts: Parts, faces: Faces, window: QWidget) -> None:
        super().__init__(desk)
        self._desk = desk
        self._faces = faces
        self._window = window
        faces.add(SUM, self._face, needs_plants=False, sums_up=True)
        desk.day_arrived.connect(self._day_arrived)
        parts.head.sum_wanted.connect(partial(faces.go, SUM))

    @cached_property
    def pane(self) -> DaySumPane:
        """Give the pane of the sum, made when it is first wanted."""
        from growdesk.ui.panes.day_sum import DaySumPane  # noqa: PLC0415 -- when wanted

        pane = DaySumPane()
        pane.back_wanted.connect(self._faces.show_day)
        pane.print_wanted.connect(self._preview)
        pane.looks_wanted.connect(self.looks_wanted)
        pane.told.connect(self._desk.told)
        return pane

    def _face(self) -> Face:
        pane = self.pane
        return Face(
            pane, pane.focus, pane.focus, tr(HINT), lambda: WANTED_PX, self._ask
        )

    @property
    def is_shown(self) -> bool:
        """Tell whether the sum stands in place of the day's list."""
        return self._faces.shown == SUM

    def _day_arrived(self) -> None:
        if self.is_shown:
            self._ask()

    def _ask(self) -> None:
        work = partial(_read, self._desk.collection, self._desk.on)
        job = Job(work, self.pane.show_sum, self._desk.fail, SUM)
        self._desk.tasks.ask(self, job)

    def _preview(self) -> None:
        from growdesk.ui import day_sum_words  # noqa: PLC0415 -- ditto
        from growdesk.ui.dialogs.pages import PagesPreview  # noqa: PLC0415 -- ditto
        from growdesk.ui.preview_over import open_preview  # noqa: PLC0415 -- ditto
        from growdesk.ui.printing.day_sum import lay_out_sum  # noqa: PLC0415 -- printing

        summed = self.pane.summed
        if summed is None:
            return
        preview = PagesPreview(
            day_sum_words.title(summed),
            partial(lay_out_sum, summed),
            tr("the day in sum"),
            self._window,
        )
        open_preview(preview, self._desk)


def _read(collection: Collection, on: date) -> DaySum:
    from growdesk.services.day_sum import day_sum  # noqa: PLC0415 -- only when asked

    return day_sum(collection.ledger, on)
