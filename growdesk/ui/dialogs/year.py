"""Choose the year to look back on: a calendar year, or twelve months to a day."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtWidgets import QDialogButtonBox
from typing_extensions import override

from growdesk.domain.day_words import figures
from growdesk.domain.speech import tr
from growdesk.services.year_review import calendar_year, twelve_months
from growdesk.ui import sizes, typed
from growdesk.ui.dialogs.base import FormDialog
from growdesk.ui.widgets.parts import button

if TYPE_CHECKING:
    from collections.abc import Callable
    from datetime import date

    from PySide6.QtWidgets import QWidget

    from growdesk.ui.dialogs.held import Held

CALENDAR, MONTHS = "calendar", "months"
_FIELD_PX = 300


class YearDialog(FormDialog):
    """The days of a review."""

    def __init__(self, parent: QWidget | None, today: date) -> None:
        super().__init__(parent, tr("A year in review"), tr("Preview"))
        self._today = today
        choices = [
            (CALENDAR, tr("A calendar year")),
            (MONTHS, tr("Twelve months to a day")),
        ]
        self.which = self.form.combo("which", tr("&Days"), choices)
        self.year = self.form.line("year", tr("&Year"), str(today.year))
        self.year.setText(str(today.year))
        self.until = self.form.line("until", tr("&Up to"), figures(today))
        self.until.setText(figures(today))
        self.form.end()
        self.form.keep_narrow(_FIELD_PX)
        self.body.addWidget(self.form)
        self.body.addStretch(1)
        sizes.least_wide(self, 460)
        self.which.currentIndexChanged.connect(self._follow)
        self._follow()
        self.which.setFocus()
        self.begin()

    @override
    def draft(self) -> tuple[date, date]:
        """Give the days chosen, both included; raises ``InputError`` on a slip."""
        if self.which.currentData() == MONTHS:
            until = typed.needed_day(self.until.text(), "until")
            return twelve_months(until, self._today, "until")
        year = typed.whole(self.year.text(), "year", str(self._today.year))
        return calendar_year(year or 0, self._today, "year")

    @override
    def kept(self) -> Held:
        """Keep nothing: a year is chosen anew in a moment."""
        return {}

    def add_way(self, text: str, pressed: Callable[[], object]) -> None:
        """Add another button at the foot."""
        role = QDialogButtonBox.ButtonRole.ActionRole
        self.buttons.addButton(button(text, pressed), role)

    def _follow(self) -> None:
        by_day = self.which.currentData() == MONTHS
        self.form.show_field("year", shown=not by_day)
        self.form.show_field("until", shown=by_day)
