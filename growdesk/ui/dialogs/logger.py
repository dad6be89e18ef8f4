"""Take in a logger's file: what its columns hold, a trial, and then its days.

The dialog asks for a trial and for taking what the trial showed; reading and writing
are its owner's. Any change of a choice makes the trial void. What was chosen stays
through every refusal.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QComboBox,
    QDialogButtonBox,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from growdesk.domain.errors import InputError
from growdesk.domain.quantity_words import temperature_unit
from growdesk.domain.speech import Lines, tr
from growdesk.services import logger_words
from growdesk.services.logger_times import DayOrder
from growdesk.services.logger_values import Choices
from growdesk.services.long_work import StoppedError
from growdesk.ui import sizes
from growdesk.ui.dialogs.on_screen import OnScreen
from growdesk.ui.field_words import plain_line
from growdesk.ui.going import Going
from growdesk.ui.long_work import ROWS
from growdesk.ui.widgets.focus import chain
from growdesk.ui.widgets.form import choose
from growdesk.ui.widgets.logger_preview import LoggerPreview
from growdesk.ui.widgets.parts import button, enlarge, label, short_label
from growdesk.ui.widgets.progress import Progress
from growdesk.ui.widgets.told_table import ToldTable

if TYPE_CHECKING:
    from collections.abc import Sequence

    from growdesk.services.logger_values import (
        DayOnRecord,
        LoggedDay,
        Report,
        Survey,
    )
    from growdesk.services.values import PlaceView
    from growdesk.ui.logger_memory import Remembered

_ASKED_PX, _TRIED_PX = 340, 680
_RIGHT = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
_DAY_COLUMNS = Lines(
    "Day",
    "Mean {unit}",
    "Low",
    "High",
    "Humidity %",
    "Light mol m-2",
    "Hours read",
    "Record",
)


class LoggerDialog(OnScreen):
    """One file of a logger, read for one place."""

    file_wanted = Signal()
    try_wanted = Signal(object, int)
    take_wanted = Signal(object)

    def __init__(
        self,
        parent: QWidget | None,
        places: Sequence[PlaceView],
        place_id: int | None = None,
    ) -> None:
        super().__init__(parent)
        self.setWindowTitle(tr("A logger's file"))
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.path = Path()
        self._going = Going()
        self.finished.connect(lambda _code: self._going.stop())
        self.survey: Survey | None = None
        self.report: Report | None = None
        self.headline = label("", scale=1.15)
        enlarge(self.headline, 1.0, strong=True)
        self.file_button = button(tr("Another &file…"), self.file_wanted.emit)
        self.preview = LoggerPreview()
        self.preview.changed.connect(self._void)
        self.order = QComboBox()
        self.order.setAccessibleName(tr("How the dates are written"))
        self.order.currentIndexChanged.connect(lambda _index: self._void())
        self.place = QComboBox()
        self.place.setAccessibleName(tr("Place"))
        if len(places) > 1:
            self.place.addItem(tr("choose the place"), None)
        for view in places:
            self.place.addItem(view.draft.name, view.place_id)
        if place_id is not None:
            choose(self.place, place_id)
        self._is_given = place_id is not None
        self.place.currentIndexChanged.connect(lambda _index: self._void())
        self.try_button = button(tr("T&ry it"), self.try_it)
        self.progress = Progress(tr("How far the file is read"), ROWS)
        self.stop_button = button(tr("&Stop"), self._stop)
        self.outcome = label("")
        self.days_table = ToldTable(
            tr("Days in the file"),
            [name.format(unit=temperature_unit()) for name in _DAY_COLUMNS],
            wide=(7,),
            numbers=(1, 2, 3, 4, 5, 6),
        )
        for column in range(1, 7):
            head = self.days_table.horizontalHeaderItem(column)
            if head is not None:
                head.setTextAlignment(_RIGHT)
        sizes.least_high(self.days_table, 90)
        self.left_out = ToldTable(tr("Lines left out"), (tr("Left out"),), wide=(0,))
        self.left_out.wrap_lines()
        for table in (self.days_table, self.left_out):
            table.only_tell()
        self.left_out.horizontalHeader().hide()
        sizes.least_high(self.left_out, 44)
        sizes.most_high(self.left_out, 130)
        self.notices = label("", tone="muted")
        self.message = label("", tone="wrong")
        self.take_button = QPushButton(tr("&Take the days"))
        self.take_button.clicked.connect(self._take)
        self._lay_out()

    # -- the file -------------------------------------------------------------------

    def show_file(
        self, path: Path, survey: Survey, remembered: Remembered | None
    ) -> None:
        """Show another file; one that is known is tried at once."""
        self.path, self.survey = path, survey
        self.headline.setText(logger_words.file_headline(survey))
        suggested = survey.choices if remembered is None else remembered.choices
        self.preview.show_columns(survey.columns, suggested.roles)
        foot = self.order, self.place, self.try_button
        chain((self.file_button, *self.preview.choosers, *foot))
        self._offer_orders(survey, suggested)
        place = -1 if remembered is None else self.place.findText(remembered.place)
        if place >= 0 and not self._is_given:
            self.place.setCurrentIndex(place)
        self._asks.setText(logger_words.asks(survey, is_known=remembered is not None))
        self._void()
        if place >= 0 and (self.order.currentData() or not survey.orders):
            self.try_it()
        if not self.days_table.isVisible() and (laid := self.layout()) is not None:
            laid.activate()
            self.resize(self.width(), _ASKED_PX)
        self._stand_on_what_is_open()

    def _stand_on_what_is_open(self) -> None:
        """Put the focus on the place, or on what is to be said next."""
        at: QWidget = self.try_button
        if self.place.currentData() is None:
            at = self.place
        elif self.order.count() and self.order.currentData() is None:
            at = self.order
        at.setFocus(Qt.FocusReason.OtherFocusReason)

    def _offer_orders(self, survey: Survey, suggested: Choices) -> None:
        self.order.clear()
        if len(survey.orders) > 1:
            self.order.addItem(tr("choose how the dates are written"), None)
        for each in survey.orders:
            self.order.addItem(logger_words.dates(each), each.order)
        choose(self.order, suggested.day_order)
        for shown in (self.order, self._order_name):
            shown.setVisible(len(survey.orders) > 1)

    # -- trying and taking ----------------------------------------------------------

    @property
    def choices(self) -> Choices:
        """Give what is chosen now."""
        order = self.order.currentData()
        return Choices(self.preview.roles, DayOrder(order) if order else None)

    def try_it(self) -> None:
        """Ask for a trial of what is chosen, or say what is still to choose."""
        self._void()
        if self.order.count() and self.order.currentData() is None:
            self._ask(self.order, tr("Choose how the dates are written."))
        elif self.place.currentData() is None:
            self._ask(self.place, tr("Choose the place where the logger stood."))
        else:
            self.outcome.setText(tr("Reading the file…"))
            self.try_wanted.emit(self.choices, self.place.currentData())

    def begin(self) -> Going:
        """Give the trial that begins now; the one before is stopped."""
        self._going.stop()
        self._going = Going()
        self._follow(self._going)
        return self._going

    def _stop(self) -> None:
        self._going.stop()

    def _follow(self, going: Going | None) -> None:
        self.progress.follow(going)
        for shown in (self.progress, self.stop_button):
            shown.setVisible(going is not None)
        self.try_button.setEnabled(going is None)

    def show_report(self, choices: Choices, report: Report) -> None:
        """Show what the file would change, unless other choices were made since."""
        self._follow(None)
        if (choices, report.place_id) != (self.choices, self.place.currentData()):
            return
        self.report = report
        file = report.file
        self.outcome.setText(logger_words.outcome(report))
        self.days_table.show_rows(
            [
                *map(_day_row, report.days),
                *(_part_row(part) for part in file.part_days),
            ]
        )
        self.days_table.setVisible(self.days_table.rowCount() > 0)
        lines = [(logger_words.left_out(entry),) for entry in file.left_out]
        self.left_out.show_rows(lines)
        self.left_out.setVisible(bool(lines))
        self._left_out_head.setVisible(bool(lines))
        self._left_out_head.setText(
            logger_words.left_out_count(file.left_out_count, len(lines))
        )
        self._say([*self._survey_notices(), *file.notices])
        self.resize(self.width(), max(self.height(), _TRIED_PX))
        count = len(report.to_write)
        self.take_button.setEnabled(count > 0)
        self.take_button.setText(
            tr("&Take {days}").format(days=logger_words.days(count))
        )
        if count:
            self.take_button.setDefault(True)
            self.take_button.setFocus(Qt.FocusReason.OtherFocusReason)

    def refused(self, error: Exception) -> None:
        """Tell why it was not read or taken; all choices stay."""
        self._follow(None)
        self.outcome.setText("")
        if isinstance(error, StoppedError):
            self.outcome.setText(tr("Stopped. Nothing was written."))
            return
        self.take_button.setEnabled(self.report is not None)
        field = error.field if isinstance(error, InputError) else ""
        choosers = self.preview.choosers
        at_columns = field == "columns" and choosers
        self._ask(choosers[0] if at_columns else self.try_button, plain_line(error))

    def _ask(self, at: QWidget, text: str) -> None:
        self.message.setText(text)
        self.message.setVisible(True)
        at.setFocus(Qt.FocusReason.OtherFocusReason)

    def _take(self) -> None:
        if self.report is not None:
            self.take_button.setEnabled(False)
            self.take_wanted.emit(self.report)

    def _void(self) -> None:
        """Forget the trial: what it showed no longer stands for what is chosen."""
        self._going.stop()
        self._follow(None)
        self.report = None
        self.outcome.setText("")
        self.message.hide()
        self.take_button.setEnabled(False)
        self.take_button.setText(tr("&Take the days"))
        self.try_button.setDefault(True)
        for each in (self.days_table, self.left_out, self._left_out_head):
            each.hide()
        self._say(self._survey_notices())

    def _survey_notices(self) -> list[str]:
        return [] if self.survey is None else list(self.survey.notices)

    def _say(self, notices: Sequence[str]) -> None:
        self.notices.setText("\n".join(dict.fromkeys(notices)))
        self.notices.setVisible(bool(notices))

    # -- building -------------------------------------------------------------------

    def _lay_out(self) -> None:
        outer = QVBoxLayout(self)
        outer.setContentsMargins(18, 16, 18, 14)
        outer.setSpacing(8)
        top = QHBoxLayout()
        top.addWidget(self.headline, 1)
        top.addWidget(self.file_button)
        outer.addLayout(top)
        self._asks = label("", tone="muted")
        outer.addWidget(self._asks)
        outer.addWidget(self.preview)
        outer.addLayout(self._choosers())
        outer.addWidget(self.message)
        trial = QHBoxLayout()
        trial.addWidget(self.progress)
        trial.addWidget(self.stop_button)
        trial.addWidget(self.outcome, 1)
        outer.addLayout(trial)
        outer.addWidget(self.days_table, 3)
        self._left_out_head = short_label("", tone="head")
        outer.addWidget(self._left_out_head)
        outer.addWidget(self.left_out, 1)
        outer.addWidget(self.notices)
        outer.addStretch()
        foot = QDialogButtonBox(QDialogButtonBox.StandardButton.Cancel)
        foot.addButton(self.take_button, QDialogButtonBox.ButtonRole.ActionRole)
        foot.rejected.connect(self.reject)
        outer.addWidget(foot)
        self.resize(960, _ASKED_PX)

    def _choosers(self) -> QGridLayout:
        grid = QGridLayout()
        grid.setHorizontalSpacing(10)
        grid.setVerticalSpacing(6)
        self._order_name = QLabel(tr("&Dates"))
        self._order_name.setBuddy(self.order)
        name = QLabel(tr("&Place"))
        name.setBuddy(self.place)
        sizes.least_wide(self.place, 260)
        grid.addWidget(self._order_name, 0, 0)
        grid.addWidget(self.order, 0, 1)
        grid.addWidget(name, 1, 0)
        grid.addWidget(self.place, 1, 1)
        grid.addWidget(self.try_button, 1, 2)
        grid.setColumnStretch(3, 1)
        return grid


def _day_row(found: DayOnRecord) -> tuple[str, ...]:
    numbers = logger_words.numbers(found.day)
    return (logger_words.day(found.day.on), *numbers, logger_words.on_record(found))


def _part_row(part: LoggedDay) -> tuple[str, ...]:
    said = logger_words.remarks(part) if part.too_bright else tr("too few hours read")
    return (logger_words.day(part.on), *logger_words.numbers(part), said)
