"""Offer to keep a newcomer apart: for as long as the house rules say, by one press.

Nothing is filled in before the press, and another press takes it back.
"""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

from growdesk.domain.errors import GrowdeskError
from growdesk.domain.holding import Status
from growdesk.domain.speech import tr
from growdesk.ui import typed, words
from growdesk.ui.dialogs.plant_record_tabs import iso
from growdesk.ui.widgets.parts import link_line

if TYPE_CHECKING:
    from datetime import date

    from growdesk.ui.dialogs.plant_record_tabs import (
        KeepingTab,
        OriginTab,
        StatusTab,
    )
    from growdesk.ui.dialogs.plant_start import PlantStart


class ApartOffer:
    """A line to press that sets the last day of a quarantine, where one is due.

    One is due for a plant that is new here, or came so lately that its days are not
    over; not for one that was taken from a plant of the collection.
    """

    def __init__(
        self, start: PlantStart, tabs: tuple[OriginTab, KeepingTab, StatusTab]
    ) -> None:
        self._start = start
        self._origin, self._keeping, self._status = tabs
        self._until: date | None = None
        self._pressed_for = ""
        self.line = link_line("", self._press)
        origin, keeping, status = tabs
        for each in (origin.acquired, origin.parent, keeping.quarantine):
            each.textChanged.connect(lambda _text: self.show())
        status.status.currentIndexChanged.connect(lambda _row: self.show())

    def show(self) -> None:
        """Say what a press would do now, or nothing."""
        written = self._keeping.quarantine.text().strip()
        self._until = self._due()
        taken = bool(written) and written == self._pressed_for
        self.line.setVisible(self._until is not None and (taken or not written))
        if self._until is None:
            return
        days = words.counted(self._start.quarantine_days, "day", "days")
        day = words.short_day(self._until)
        if taken:
            self.line.setText(
                tr("Apart until {short_day}: undo").format(
                    short_day=words.short_day(self._on(written))
                )
            )
        else:
            self.line.setText(
                tr("Keep it apart for {days}, until {day}").format(days=days, day=day)
            )
        self.line.setAccessibleName(self.line.text())

    def _due(self) -> date | None:
        start, today = self._start, self._start.today
        left = self._status.status.currentData() != Status.GROWING
        if today is None or not start.quarantine_days or left:
            return None
        if self._origin.parent.text().strip():
            return None
        came = self._on(self._origin.acquired.text())
        if came is None and start.plant_id is not None:
            return None
        until = (came or today) + timedelta(days=start.quarantine_days)
        return until if until >= today and (came or today) <= today else None

    def _press(self) -> None:
        field = self._keeping.quarantine
        if field.text().strip():
            self._pressed_for = ""
            field.clear()
        else:
            self._pressed_for = iso(self._until)
            field.setText(self._pressed_for)

    def _on(self, text: str) -> date | None:
        try:
            return typed.day(text, "acquired_on")
        except GrowdeskError:
            return None
