"""Where today comes from: a fact that is handed in, never asked for while judging."""

from __future__ import annotations

from datetime import UTC, date, datetime, time
from typing import Protocol

from msgspec import Struct


class Clock(Protocol):
    """What a collection asks for the day on the wall and the instant of a write."""

    def today(self) -> date:
        """Give the day where the grower stands."""
        ...

    def now(self) -> datetime:
        """Give the instant, in UTC."""
        ...


class SystemClock:
    """The machine's own clock in its own zone."""

    def today(self) -> date:
        """Give the day where the machine stands."""
        return datetime.now(tz=UTC).astimezone().date()

    def now(self) -> datetime:
        """Give the instant, in UTC."""
        return datetime.now(tz=UTC)


class FixedClock(Struct):
    """A clock that stands where it is put: for tests, the demo, and ``--on``."""

    day: date

    def today(self) -> date:
        """Give the day it was put to."""
        return self.day

    def now(self) -> datetime:
        """Give noon UTC of that day."""
        return datetime.combine(self.day, time(12), tzinfo=UTC)
