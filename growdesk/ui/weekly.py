"""Keep the week beside the day: ask for it, and show it as a face of the first pane.

The week is judged once a day shown and once a write, after a short rest, so that ticks
and the cursor never wait for it; while its table is in sight it is asked for at once.
"""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QTimer, Signal

from growdesk.domain.speech import tr
from growdesk.ui import actions, theme
from growdesk.ui.faces import Face

if TYPE_CHECKING:
    from datetime import date

    from growdesk.services.week_values import WeekView
    from growdesk.ui.desk import Desk
    from growdesk.ui.faces import Faces, Parts
    from growdesk.ui.panes.week import WeekPane

REST_MS = 200
WEEK = "week"


class Weekly(QObject):
    """The week of the day shown, told once it has come, forgotten with its day."""

    told = Signal(object)
    forgotten = Signal()

    def __init__(self, desk: Desk, parts: Parts, faces: Faces) -> None:
        super().__init__(desk)
        self._desk = desk
        self._parts = parts
        self._faces = faces
        self._rest = QTimer(self)
        self._rest.setSingleShot(True)
        self._rest.setInterval(REST_MS)
        self._rest.timeout.connect(desk.show_week)
        self._view: WeekView | None = None
        self.view: WeekView | None = None
        faces.add(WEEK, self._face)
        desk.day_arrived.connect(self._day_arrived)
        desk.week_arrived.connect(self._week_arrived)
        desk.plant_arrived.connect(self._plant_arrived)
        desk.switched.connect(self._switched)
        parts.head.day_wanted.connect(desk.show_day)

    @cached_property
    def week(self) -> WeekPane:
        """Give the week's pane, made when it is first wanted."""
        from growdesk.ui.panes.week import WeekPane  # noqa: PLC0415 -- when wanted

        week = WeekPane()
        week.plant_chosen.connect(self._parts.day_list.go_to)
        week.day_wanted.connect(self.open_day)
        theme.current().turned.connect(week.refresh_colours)
        week.show_week(self._view)
        return week

    def _face(self) -> Face:
        week = self.week
        return Face(
            week,
            week.focus_table,
            week.focus_filter,
            tr(actions.WEEK_HINT),
            week.table.wanted_px,
            self._shown,
        )

    @property
    def _is_made(self) -> bool:
        return "week" in self.__dict__

    @property
    def is_shown(self) -> bool:
        """Tell whether the week stands in place of the day's list."""
        return self._faces.shown == WEEK

    def turn(self) -> None:
        """Show the week, or the day again."""
        self._faces.turn(WEEK)

    def close(self) -> None:
        """Give the panes their widths back and ask for no week any more."""
        self._rest.stop()
        self._faces.show_day()

    def open_day(self, on: date, plant_id: int) -> None:
        """Go to a day with the cursor on a plant."""
        self._faces.show_day()
        self._parts.day_list.choose_next(plant_id)
        self._desk.show_day(on)

    def _shown(self) -> None:
        chosen = self._parts.day_list.chosen
        if chosen is not None:
            self.week.go_to(chosen)
        self.week.table.fit()
        if self.week.model.view is None:
            self._desk.show_week()

    def _day_arrived(self) -> None:
        self.view = None
        self.forgotten.emit()
        if self.is_shown:
            self._rest.stop()
            self._desk.show_week()
        else:
            self._rest.start()

    def _plant_arrived(self) -> None:
        detail = self._desk.detail
        if detail is not None and self._is_made:
            self.week.go_to(detail.plant_id)

    def _week_arrived(self, view: WeekView) -> None:
        self._show_week(view)
        if self.is_shown:
            self._faces.make_room()
        self._tell(view)

    def _switched(self) -> None:
        self._show_week(None)
        self._tell(None)

    def _tell(self, view: WeekView | None) -> None:
        self.view = view
        self.told.emit(view)

    def _show_week(self, view: WeekView | None) -> None:
        self._view = view
        if self._is_made:
            self.week.show_week(view)
