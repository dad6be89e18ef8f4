"""Show the day in words with what to do first, and choose another day."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QSize, Qt, Signal, SignalInstance
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QVBoxLayout, QWidget
from typing_extensions import override

from growdesk.domain.speech import tr
from growdesk.ui import headline, icons, sizes, theme
from growdesk.ui.widgets.file_lines import ClockLine, LookingLine, NoticeLine
from growdesk.ui.widgets.modes import BackupsAmiss, FaceChoice, JobsBeside, MissedRound
from growdesk.ui.widgets.parts import button, enlarge, label, link

if TYPE_CHECKING:
    from collections.abc import Iterable
    from datetime import date

    from PySide6.QtGui import QResizeEvent

    from growdesk.services.values import DayBegun, DayView


_TITLE_PX = 330
_SIDE_PX, _GAP_PX = 6, 6


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
        self._said: tuple[str, str] = ("", "")
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
        self.backups = BackupsAmiss()
        self.looking, self.notice = LookingLine(), NoticeLine()
        self.clock = ClockLine()
        self.modes = FaceChoice()
        self.modes.wanted.connect(self.face_wanted)
        self._row, self._under = QHBoxLayout(), QHBoxLayout()
        self._row.addWidget(self.title, 1)
        for each in (self.mixing, self.modes):
            self._row.addWidget(each)
        self._row.addSpacing(_GAP_PX)
        for each in self._turners:
            self._row.addWidget(each)
        for row in (self._row, self._under):
            row.setSpacing(_GAP_PX)
        self.sum_up = link(tr("The day summed up"), self.sum_wanted.emit)
        self.sum_up.setToolTip(tr("What was given, left and used, and the next (F12)"))
        said = QHBoxLayout()
        said.addWidget(self.first, 1)
        said.addWidget(self.sum_up, 0, Qt.AlignmentFlag.AlignTop)
        column = QVBoxLayout(self)
        column.setContentsMargins(_SIDE_PX, 6, _SIDE_PX, 8)
        column.setSpacing(2)
        column.addLayout(self._row)
        column.addLayout(self._under)
        column.addLayout(said)
        lines = self.looking, self.notice, self.clock, self.missed
        for line in (*lines, self.jobs, self.backups):
            column.addWidget(line)
        self.refresh_colours()

    def show_begun(self, begun: DayBegun, today: date) -> None:
        """Show a day of which not all plants are judged yet."""
        self.title.setText(headline.day_title(begun, today))
        self._said = (headline.judging(begun),) * 2
        self._is_today, self._has_done = begun.is_today, False
        self._show_first()
        self._today.setEnabled(not begun.is_today)

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

    def tell_file(self, *, looking: str, notice: str) -> None:
        """Say that the collection is only looked at, and what its file met."""
        self.looking.show_reason(looking)
        self.notice.show_notice(notice)

    def tell_jobs(self, text: str) -> None:
        """Say over the list of today what is overdue beside the round."""
        self._jobs = text
        self._show_jobs()

    def tell_backups(self, text: str) -> None:
        """Say what is wrong with the backups, while anything is."""
        self.backups.show_told(text)

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

    @property
    def _turners(self) -> tuple[QPushButton, ...]:
        return self._previous, self._today, self._next

    @override
    def minimumSizeHint(self) -> QSize:
        """Ask for no more width than the buttons need in two rows."""
        held = super().minimumSizeHint()
        turners = _wide(*self._turners)
        needed = max(
            self.title.minimumSizeHint().width() + turners + 3 * _GAP_PX,
            _wide(self.modes, self.mixing) + _GAP_PX,
        )
        return QSize(min(held.width(), needed + 2 * _SIDE_PX), held.height())

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._share_rows()

    def _share_rows(self) -> None:
        """Put the faces under the title where one row has no room for both."""
        asked = _wide(*self._turners, self.modes, self.mixing) + 6 * _GAP_PX
        has_room = sizes.px(_TITLE_PX) + asked <= self.width() - 2 * _SIDE_PX
        if has_room is (self._under.count() == 0):
            return
        if has_room:
            self._under.takeAt(self._under.count() - 1)
            for at, each in enumerate((self.mixing, self.modes), start=1):
                self._row.insertWidget(at, each)
        else:
            for each in (self.modes, self.mixing):
                self._under.addWidget(each)
            self._under.addStretch(1)

    def _arrow(self, name: str, out: SignalInstance) -> QPushButton:
        made = QPushButton()
        made.setAccessibleName(name)
        made.setToolTip(name)
        sizes.picture(made, 18)
        sizes.least_wide(made, 40)
        made.clicked.connect(out)
        return made


def _wide(*widgets: QWidget) -> int:
    return sum(each.sizeHint().width() for each in widgets)
