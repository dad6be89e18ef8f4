"""Where in its year a demo plant stands on a day, and what that phase holds.

A plant with a fixed day of its course stands there on the day the demo is opened, in
any season; one without goes by the calendar.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from datetime import date

YEAR_DAYS = 365

Data = dict[str, Any]


def day_of_year(day: date) -> int:
    """Give the day of the year from 0; 31 December of a leap year is 364 too."""
    return min(day.timetuple().tm_yday - 1, YEAR_DAYS - 1)


class Course:
    """The phases of a plant's year, and where in them a day stands."""

    def __init__(self, phases: list[Data], now: int | None, on: date) -> None:
        self.phases = phases
        self.now = now
        self.on = on

    def at(self, day: date) -> tuple[Data, float]:
        """Give the phase a day falls in, and how far it has gone, from 0 to 1."""
        stands = self._stands(day)
        start = 0
        for phase in self.phases:
            if stands < phase["until"]:
                return phase, (stands - start) / (phase["until"] - start)
            start = phase["until"]
        message = f"the course ends before its day {stands}"
        raise ValueError(message)

    def _stands(self, day: date) -> int:
        if self.now is None:
            return day_of_year(day)
        return (self.now - (self.on - day).days) % YEAR_DAYS
