"""Take a table in: what its columns are, a trial that names bad rows, then all of it.

The dialog asks for a trial and for taking what the trial showed; reading and writing
are its owner's. Any change of a choice makes the trial void. What was chosen stays
through every refusal.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QSignalBlocker, Qt, Signal
from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QDialogButtonBox,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from growdesk.domain.errors import InputError
from growdesk.domain.speech import tr
from growdesk.services.intake_fields import FIELDS, Sort
from growdesk.services.intake_reading import asks_order, understood
from growdesk.services.intake_values import Choices
from growdesk.services.logger_times import DayOrder
from growdesk.services.logger_words import dates
from growdesk.services.long_work import StoppedError
from growdesk.ui import sizes
from growdesk.ui import take_in_texts as texts
from growdesk.ui.dialogs.on_screen import OnScreen
from growdesk.ui.field_words import plain_line
from growdesk.ui.going import Going
from growdesk.ui.long_work import ROWS
from growdesk.ui.widgets.focus import chain
from growdesk.ui.widgets.form import choose
from growdesk.ui.widgets.match_table import MatchTable
from growdesk.ui.widgets.parts import button, enlarge, label, short_label
from growdesk.ui.widgets.progress import Progress
from growdesk.ui.widgets.told_table import ToldTable

if TYPE_CHECKING:
    from growdesk.services.intake_values import DryRun, Survey

BAD_SHOWN, _PREVIEWED = 200, 20


class TakeInDialog(OnScreen):
    """One table, read into the collection."""

    file_wanted = Signal()
    try_wanted = Signal(object)
    take_wanted = Signal(object)
    save_wanted = Signal(object)

    def __init__(self, parent: QWidget | None) -> None:
        super().__init__(parent)
        self.setWindowTitle(tr("Take a table in"))
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.survey: Survey | None = None
        self.found: DryRun | None = None
        self._going = Going()
        self.finished.connect(lambda _code: self._going.stop())
        self.headline = label("")
        enlarge(self.headline, 1.15, strong=True)
        self.how = label("", tone="muted")
        self.file_button = button(tr("Another &file…"), self.file_wanted.emit)
        self.sort = QComboBox()
        self.sort.setAccessibleName(tr("What the rows are"))
        for sort, words in texts.SORTS.items():
            self.sort.addItem(words, sort)
        self.sort.currentIndexChanged.connect(lambda _index: self._turn_sort())
        self.order = QComboBox()
        self.order.setAccessibleName(tr("How the dates are written"))
        self.order.currentIndexChanged.connect(lambda _index: self._void())
        self.decimal = QComboBox()
        self.decimal.setAccessibleName(tr("What a comma or point in a number is"))
        self.decimal.currentIndexChanged.connect(lambda _index: self._void())
        self.changes = QCheckBox(tr("Also &change plants that are there"))
        self.changes.setToolTip(tr("An empty cell changes nothing"))
        self.changes.toggled.connect(lambda _on: self._void())
        self.match = MatchTable()
        self.match.changed.connect(self._void)
        self.try_button = button(tr("T&ry it"), self.try_it)
        self.progress = Progress(tr("How far the file is read"), ROWS)
        self.stop_button = button(tr("&Stop"), self._stop)
        self.outcome = label("")
        self.notices = label("", tone="muted")
        self.message = label("", tone="wrong")
        self.bad_head = label("", tone="wrong")
        self.bad = ToldTable(
            tr("Rows that cannot be taken"), texts.BAD_COLUMNS, wide=(3, 4)
        )
        self.changed = ToldTable(
            tr("Plants that would change"), (tr("Would change"),), wide=(0,)
        )
        for table in (self.bad, self.changed):
            table.only_tell()
            sizes.least_high(table, 110)
        self.save_button = button(tr("Sa&ve the bad rows…"), self._save)
        self.take_button = QPushButton(texts.take(None))
        self.take_button.clicked.connect(self._take)
        self._lay_out()

    # -- the file -------------------------------------------------------------------

    def show_file(self, survey: Survey, remembered: Choices | None) -> None:
        """Show a file, as it was read last where it is known."""
        self.survey = survey
        chosen = remembered or survey.choices
        self.headline.setText(texts.headline(survey))
        self.how.setText(texts.how_read(survey))
        self._offer_orders(survey, chosen)
        self._offer_decimals(survey, chosen)
        with QSignalBlocker(self.sort):
            choose(self.sort, chosen.sort)
        self._show_columns(chosen.keys)
        self.try_button.setFocus(Qt.FocusReason.OtherFocusReason)

    def _offer_orders(self, survey: Survey, chosen: Choices) -> None:
        open_columns = [each for each in survey.columns if len(each.orders) > 1]
        with QSignalBlocker(self.order):
            self.order.clear()
            if open_columns:
                self.order.addItem(tr("choose how the dates are written"), None)
                for each in open_columns[0].orders:
                    self.order.addItem(dates(each), each.order)
            choose(self.order, chosen.day_order)
        for shown in (self.order, self._order_name):
            shown.setVisible(bool(open_columns))

    def _offer_decimals(self, survey: Survey, chosen: Choices) -> None:
        unsure = [column for column in survey.columns if not column.decimal]
        commas = any("," in text for column in unsure for text in column.samples)
        sign, other = (",", ".") if commas or not unsure else (".", ",")
        number = f"1{sign}250"
        with QSignalBlocker(self.decimal):
            self.decimal.clear()
            for text, answer in (
                (tr("choose what {number} is"), ""),
                (tr("{number} is one and a quarter"), sign),
                (tr("{number} is over a thousand"), other),
            ):
                self.decimal.addItem(text.format(number=number), answer)
            choose(self.decimal, chosen.decimal)
        for shown in (self.decimal, self._decimal_name):
            shown.setVisible(bool(unsure))

    def _turn_sort(self) -> None:
        if self.survey is not None:
            self._show_columns(self.survey.matched[Sort(self.sort.currentData())])

    def _show_columns(self, keys: tuple[str, ...]) -> None:
        assert self.survey is not None  # noqa: S101 -- shown with a file only
        sort = Sort(self.sort.currentData())
        self.changes.setVisible(sort is Sort.PLANTS)
        self.match.show_columns(self.survey.columns, FIELDS[sort], keys)
        head = self.file_button, self.sort, self.order, self.decimal, self.changes
        chain((*head, *self.match.choosers, self.try_button))
        self._void()

    @property
    def choices(self) -> Choices:
        """Give what is chosen now."""
        order, sort = self.order.currentData(), Sort(self.sort.currentData())
        return Choices(
            sort=sort,
            keys=self.match.keys,
            day_order=DayOrder(order) if order else None,
            decimal=str(self.decimal.currentData()),
            changes=sort is Sort.PLANTS and self.changes.isChecked(),
        )

    # -- trying and taking ----------------------------------------------------------

    def try_it(self) -> None:
        """Ask for a trial of what is chosen, or say what is still to choose."""
        if self.survey is None:
            return
        self._void()
        asked = asks_order(self.survey, self.choices)
        if asked:
            line = tr("Choose how the dates of {asked} are written.").format(
                asked=asked[0]
            )
            self._ask(self.order, line)
        elif self.decimal.isVisible() and not self.decimal.currentData():
            self._ask(self.decimal, tr("Choose what a comma in a number is."))
        else:
            self.outcome.setText(tr("Trying every row…"))
            self.try_wanted.emit(self.choices)

    def begin(self) -> Going:
        """Give the work that begins now; the one before is stopped."""
        self._going.stop()
        self._going = Going()
        self._follow(self._going)
        return self._going

    def show_found(self, choices: Choices, found: DryRun) -> None:
        """Show what the table would bring, unless other choices were made since."""
        self._follow(None)
        if choices != self.choices:
            return
        self.found = found
        titles = {key: field.title for key, field in FIELDS[found.sort].items()}
        self.outcome.setText("" if found.bad else texts.outcome(found))
        self.bad.show_rows(
            [texts.bad_row(bad, titles) for bad in found.bad[:BAD_SHOWN]]
        )
        self.bad_head.setText(texts.bad_head(found, BAD_SHOWN) if found.bad else "")
        for shown in (self.bad, self.bad_head, self.save_button):
            shown.setVisible(bool(found.bad))
        self.changed.show_rows([(line,) for line in found.changed])
        self.changed.setVisible(bool(found.changed) and not found.bad)
        survey = self.survey.notices if self.survey is not None else ()
        self._say((*survey, *found.notices))
        self.take_button.setText(texts.take(found))
        self.take_button.setEnabled(found.would_write)
        if found.would_write:
            self.take_button.setDefault(True)
            self.take_button.setFocus(Qt.FocusReason.OtherFocusReason)

    def refused(self, error: Exception) -> None:
        """Tell why it was not read or taken; all choices stay."""
        self._follow(None)
        self.outcome.setText("")
        if isinstance(error, StoppedError):
            self.outcome.setText(tr("Stopped. Nothing was written."))
            return
        self.take_button.setEnabled(self.found is not None)
        choosers = self.match.choosers
        is_columns = isinstance(error, InputError) and error.field == "row 1"
        at = choosers[0] if is_columns and choosers else self.try_button
        self._ask(at, plain_line(error))

    def _ask(self, at: QWidget, text: str) -> None:
        self.message.setText(text)
        self.message.setVisible(True)
        at.setFocus(Qt.FocusReason.OtherFocusReason)

    def _take(self) -> None:
        if self.found is not None and self.found.would_write:
            self.take_button.setEnabled(False)
            self.take_wanted.emit(self.choices)

    def _save(self) -> None:
        if self.found is not None:
            self.save_wanted.emit(self.found)

    def _stop(self) -> None:
        self._going.stop()

    def _follow(self, going: Going | None) -> None:
        self.progress.follow(going)
        for shown in (self.progress, self.stop_button):
            shown.setVisible(going is not None)
        self.try_button.setEnabled(going is None)

    def _void(self) -> None:
        """Forget the trial: what it showed no longer stands for what is chosen."""
        self._going.stop()
        self._follow(None)
        self.found = None
        self.outcome.setText("")
        self.message.hide()
        self.take_button.setEnabled(False)
        self.take_button.setText(texts.take(None))
        self.try_button.setDefault(True)
        for each in (self.bad, self.bad_head, self.save_button, self.changed):
            each.hide()
        if self.survey is not None:
            rows = understood(self.survey, self.choices, _PREVIEWED)
            self.match.show_understood(rows)
            self._say(self.survey.notices)

    def _say(self, notices: tuple[str, ...]) -> None:
        several = tuple(dict.fromkeys(notices))
        more = (
            tr("\n… and {count} more").format(count=len(several) - 6)
            if len(several) > 6
            else ""
        )
        self.notices.setText("\n".join(several[:6]) + more)
        self.notices.setVisible(bool(several))

    # -- building -------------------------------------------------------------------

    def _lay_out(self) -> None:
        outer = QVBoxLayout(self)
        outer.setContentsMargins(18, 16, 18, 14)
        outer.setSpacing(8)
        top = QHBoxLayout()
        top.addWidget(self.headline, 1)
        top.addWidget(self.file_button)
        outer.addLayout(top)
        outer.addWidget(self.how)
        outer.addLayout(self._choosers())
        outer.addWidget(self.match, 3)
        outer.addWidget(self.notices)
        outer.addWidget(self.message)
        outer.addLayout(self._trial())
        outer.addWidget(self.bad_head)
        outer.addWidget(self.bad, 2)
        outer.addWidget(self.changed, 2)
        foot = QDialogButtonBox(QDialogButtonBox.StandardButton.Cancel)
        foot.addButton(self.save_button, QDialogButtonBox.ButtonRole.ActionRole)
        foot.addButton(self.take_button, QDialogButtonBox.ButtonRole.ActionRole)
        foot.rejected.connect(self.reject)
        outer.addWidget(foot)
        self.resize(sizes.area(980, 660))

    def _trial(self) -> QHBoxLayout:
        line = QHBoxLayout()
        line.addWidget(self.try_button)
        line.addWidget(self.progress)
        line.addWidget(self.stop_button)
        line.addWidget(self.outcome, 1)
        return line

    def _choosers(self) -> QHBoxLayout:
        line = QHBoxLayout()
        line.setSpacing(10)
        rows = QLabel(tr("The rows &are"))
        rows.setBuddy(self.sort)
        self._order_name = short_label(tr("&Dates"))
        self._order_name.setBuddy(self.order)
        self._decimal_name = short_label(tr("Nu&mbers"))
        self._decimal_name.setBuddy(self.decimal)
        parts: tuple[QWidget, ...] = (
            *(rows, self.sort, self._order_name, self.order),
            *(self._decimal_name, self.decimal, self.changes),
        )
        for each in parts:
            line.addWidget(each)
        line.addStretch()
        return line
