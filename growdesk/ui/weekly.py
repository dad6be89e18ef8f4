"""Keep the week beside the day: ask for it, show it, and go from one to the other.

The week is judged once a day shown and once a write, after a short rest, so that ticks
and the cursor never wait for it; while its table is in sight it is asked for at once.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QTimer
from PySide6.QtWidgets import QApplication, QStackedWidget, QWidget
from shiboken6 import isValid

from growdesk.ui import actions, theme
from growdesk.ui.panes.week import WeekPane
from growdesk.ui.widgets.find_line import FindLine

if TYPE_CHECKING:
    from datetime import date

    from PySide6.QtWidgets import QSplitter

    from growdesk.services.week_values import WeekView
    from growdesk.ui.desk import Desk
    from growdesk.ui.folding import Folding
    from growdesk.ui.panes.day_list import DayListPane
    from growdesk.ui.panes.detail import DetailPane
    from growdesk.ui.widgets.head import DayHead
    from growdesk.ui.widgets.strip import Strip

REST_MS = 200
_DETAIL_PX = 350


class Pages(QStackedWidget):
    """The day's list and the week, of which one is in sight."""


@dataclass(frozen=True, slots=True)
class Parts:
    """What the week is shown in and goes along with."""

    head: DayHead
    day_list: DayListPane
    detail: DetailPane
    folding: Folding
    split: QSplitter
    pages: Pages
    strip: Strip


class Weekly(QObject):
    """The week of the day shown, and which of the two is in sight."""

    def __init__(self, desk: Desk, parts: Parts) -> None:
        super().__init__(desk)
        self._desk = desk
        self._parts = parts
        self._widths: list[int] = []
        self._had_mixing = False
        self._rest = QTimer(self)
        self._rest.setSingleShot(True)
        self._rest.setInterval(REST_MS)
        self._rest.timeout.connect(desk.show_week)
        self.week = WeekPane()
        for page in (parts.day_list, self.week):
            parts.pages.addWidget(page)
        desk.day_arrived.connect(self._day_arrived)
        desk.week_arrived.connect(self._week_arrived)
        desk.plant_arrived.connect(self._plant_arrived)
        desk.switched.connect(self._switched)
        self.week.plant_chosen.connect(parts.day_list.go_to)
        self.week.day_wanted.connect(self.open_day)
        parts.head.week_wanted.connect(self.turn)
        parts.head.day_wanted.connect(desk.show_day)
        theme.current().turned.connect(self.week.refresh_colours)
        application = QApplication.instance()
        if isinstance(application, QApplication):
            application.focusChanged.connect(self._focus_moved)

    @property
    def is_shown(self) -> bool:
        """Tell whether the week stands in place of the day's list."""
        return self._parts.pages.currentIndex() == 1

    def turn(self) -> None:
        """Show the week, or the day again."""
        if self.is_shown:
            self.show_day()
        elif self._desk.view is not None and self._desk.view.lines:
            self._show_week()

    def show_day(self) -> None:
        """Show the day's list, with the panes as wide as they were."""
        if not self.is_shown:
            return
        self._parts.pages.setCurrentIndex(0)
        self._parts.head.show_mode(is_week=False)
        if self._had_mixing and not self._parts.folding.is_open:
            self._parts.folding.open()
        self._parts.split.setSizes(self._widths)
        self._parts.day_list.focus_list()
        self._hint()

    def close(self) -> None:
        """Give the panes their widths back and ask for no week any more."""
        self._rest.stop()
        self.show_day()

    def open_day(self, on: date, plant_id: int) -> None:
        """Go to a day with the cursor on a plant."""
        self.show_day()
        self._parts.day_list.choose_next(plant_id)
        self._desk.show_day(on)

    def to_list(self) -> None:
        """Put the focus on what is in sight, the day's list or the week."""
        if self.is_shown:
            self.week.focus_table()
        else:
            self._parts.day_list.focus_list()

    def find(self) -> None:
        """Let the grower type into the filter that is in sight."""
        shown = self.week if self.is_shown else self._parts.day_list
        shown.focus_filter()

    def _show_week(self) -> None:
        parts = self._parts
        self._widths = parts.split.sizes()
        self._had_mixing = parts.folding.is_open
        self._parts.pages.setCurrentIndex(1)
        parts.head.show_mode(is_week=True)
        self._make_room()
        if parts.day_list.chosen is not None:
            self.week.go_to(parts.day_list.chosen)
        self.week.table.fit()
        self.week.focus_table()
        self._hint()
        if self.week.model.view is None:
            self._desk.show_week()

    def _make_room(self) -> None:
        """Give the table the width its days want; the mixing goes first for it.

        The plant keeps its reasons readable; what is still missing is scrolled to.
        """
        wanted = self.week.table.wanted_px() - self._parts.split.sizes()[0]
        if wanted <= 0:
            return
        if self._parts.folding.is_open:
            self._parts.folding.turn()
        whole = sum(self._widths)
        listed = min(self._widths[0] + wanted, whole - _DETAIL_PX)
        self._parts.split.setSizes([listed, whole - listed, 0])

    def _day_arrived(self) -> None:
        view = self._desk.view
        has_plants = view is not None and bool(view.lines)
        self._parts.head.allow_week(allowed=has_plants)
        if not has_plants:
            self.show_day()
        self._hint()
        self._parts.detail.forget_week()
        if self.is_shown:
            self._rest.stop()
            self._desk.show_week()
        else:
            self._rest.start()

    def _focus_moved(self, _before: QWidget | None, now: QWidget | None) -> None:
        """Let the foot follow where the keys go in this window, not in a dialog."""
        strip = self._parts.strip
        if now is not None and isValid(strip) and now.window() is strip.window():
            self._hint()

    def _hint(self) -> None:
        self._parts.strip.hint(self._hint_for(self._parts.strip.window().focusWidget()))

    def _hint_for(self, held: QWidget | None) -> str:
        """Give the keys of the part that has the focus, else of the list in sight."""
        day_list = self._parts.day_list
        if isinstance(held, FindLine):
            return actions.FIND_HINT
        if self.is_shown:
            return actions.WEEK_HINT
        if held is day_list.looks.view:
            return actions.LOOKS_HINT
        view = self._desk.view
        has_plants = view is not None and bool(view.lines)
        if has_plants and self._desk.on > self._desk.today:
            return actions.ahead_hint()
        return actions.strip_hint(has_plants=has_plants)

    def _plant_arrived(self) -> None:
        detail = self._desk.detail
        if detail is not None:
            self.week.go_to(detail.plant_id)

    def _week_arrived(self, view: WeekView) -> None:
        self.week.show_week(view)
        if self.is_shown:
            self._make_room()
        self._parts.detail.show_week(view)

    def _switched(self) -> None:
        self.week.show_week(None)
        self._parts.detail.show_week(None)
