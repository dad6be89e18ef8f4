"""Clocks that are set wrong, and computers that stand in another zone."""

from __future__ import annotations

import os
import time
from contextlib import contextmanager
from datetime import UTC, date, datetime
from typing import TYPE_CHECKING

from msgspec import Struct

if TYPE_CHECKING:
    from collections.abc import Iterator


class WallClock(Struct):
    """A machine's clock that shows what it is set to, in the zone the machine has."""

    at: datetime

    def today(self) -> date:
        """Give the day where the machine stands."""
        return self.at.astimezone().date()

    def now(self) -> datetime:
        """Give the instant, in UTC."""
        return self.at.astimezone(UTC)


@contextmanager
def zone(name: str) -> Iterator[None]:
    """Let the machine stand in a zone."""
    before = os.environ.get("TZ")
    os.environ["TZ"] = name
    time.tzset()
    try:
        yield
    finally:
        if before is None:
            del os.environ["TZ"]
        else:
            os.environ["TZ"] = before
        time.tzset()
