"""Show the day in words with what to do first, and choose another day."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal, SignalInstance
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from growdesk.domain.speech import tr
from growdesk.ui import headline, icons, sizes, theme
from growdesk.ui.widgets.modes import FaceChoice, JobsBeside, MissedRound
from growdesk.ui.widgets.parts import button, enlarge, label, link

if TYPE_CHECKING:
    from collections.abc import Iterable
    from datetime import date

    from growdesk.services.values import DayView


class DayHead(QWidget):
    """The line across the top of the window."""

    previous_wanted = Signal()
    next_wanted = Signal()
    today_wanted = Signal()
    face_wanted = Signal(str)
    day_wanted = Signal(object)
    sum_wanted = Signal()

    def __init__(self) -> None:
        super().__init__()
        self._said = "", ""
        self._face = "day"
        self._is_today = False
        self._has_done = False
        self.title = label("")
        enlarge(self.title, 1.45, strong=True)
        self.first = label("", scale=1.1)
        self.first.setObjectName("what-first")
        self._previous = self._arrow(tr("Previous watering day"), self.previous_wanted)
        self._next = self._arrow(tr("Next watering day"), self.next_wanted)
        self._today = button(tr("Today"), self.today_wanted.emit)
        self.mixing = QPushButton(tr("Show the mixing"))
        self.mixing.setAutoDefault(False)
        self.mixing.setToolTip(tr("The jugs of the day, and the quick mix (F8)"))
        self.missed = MissedRound()
        self.missed.day_wanted.connect(self.day_wanted)
        self.jobs = JobsBeside()
        self.jobs.calendar_wanted.connect(lambda: self.face_wanted.emit("calendar"))
        self._jobs = ""
        self.modes = FaceChoice()
        self.modes.wanted.connect(self.face_wanted)
        row = QHBoxLayout()
        row.setSpacing(6)
        row.addWidget(self.title, 1)
        row.addWidget(self.mixing)
        row.addWidget(self.modes)
        row.addSpacing(6)
        for each in (self._previous, self._today, self._next):
            row.addWidget(each)
        self.sum_up = link(tr("The day summed up"), self.sum_wanted.emit)
        self.sum_up.setToolTip(tr("What was given, left and used, and the next (F12)"))
        said = QHBoxLayout()
        said.addWidget(self.first, 1)
        said.addWidget(self.sum_up, 0, Qt.AlignmentFlag.AlignTop)
        column = QVBoxLayout(self)
        column.setContentsMargins(6, 6, 6, 8)
        column.setSpacing(2)
        column.addLayout(row)
        column.addLayout(said)
        for line in (self.missed, self.jobs):
            column.addWidget(line)
        self.refresh_colours()

    def show_day(self, view: DayView, today: date) -> None:
        """Show a day in words."""
        self.title.setText(headline.day_title(view, today))
        self._said = headline.what_first(view, today), headline.for_day(view, today)
        self._is_today = view.is_today
        self._has_done = any(line.done is not None for line in view.lines)
        self._show_first()
        self._show_jobs()
        self._today.setEnabled(not view.is_today)
        self.missed.show_day(view)

    def show_mode(self, key: str) -> None:
        """Show which face of the first pane stands below."""
        self.modes.show_mode(key)
        self._face = key
        self._show_first()
        self._show_jobs()

    def tell_jobs(self, text: str) -> None:
        """Say over the list of today what is overdue beside the round."""
        self._jobs = text
        self._show_jobs()

    def _show_jobs(self) -> None:
        has_room = self._is_today and self._face != "calendar"
        self.jobs.show_told(self._jobs if has_room else "")

    def _show_first(self) -> None:
        """Say what is first, over a week with the day that it is said of."""
        day_said, week_said = self._said
        self.first.setText(week_said if self._face == "week" else day_said)
        self.sum_up.setVisible(self._has_done and self._face == "day")

    def allow_faces(self, keys: Iterable[str], *, allowed: bool) -> None:
        """Let faces be asked for, or not while there is no plant."""
        for key in keys:
            self.modes.buttons[key].setEnabled(allowed)

    def refresh_colours(self) -> None:
        """Draw the arrows in the scheme now in force."""
        ink = theme.colours().ink
        self._previous.setIcon(icons.icon("previous", ink))
        self._next.setIcon(icons.icon("next", ink))

    def _arrow(self, name: str, out: SignalInstance) -> QPushButton:
        made = QPushButton()
        made.setAccessibleName(name)
        made.setToolTip(name)
        sizes.picture(made, 18)
        sizes.least_wide(made, 40)
        made.clicked.connect(out)
        return made
