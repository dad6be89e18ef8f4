"""Jugs and readings for the window's tests."""

from __future__ import annotations

from datetime import date, timedelta

from growdesk.domain.expected_ec import ExpectedEc
from growdesk.domain.meter import Standing
from growdesk.services.meter_values import (
    JugToRead,
    MeterChart,
    MeterDraft,
    MeterView,
)
from growdesk.ui.dialogs.meter import MeterStart

ON = date(2026, 5, 20)
WHY = "This EC is reckoned from the ions of the salts."
KNOWN = JugToRead(
    "A", 150, 1.7, "Salts", None, 150.0, ExpectedEc(1.14, 1.26, 1.2, WHY, (), 0.2)
)
UNKNOWN = JugToRead("B", 90, 0.8, "", None, None, None)


def meter_start() -> MeterStart:
    """Give two jugs, one of which nothing is known."""
    return MeterStart(ON, (KNOWN, UNKNOWN))


def meter_view(days_ago: int, ec: float, standing: Standing | None) -> MeterView:
    """Give one reading of jug A against 1.14 to 1.26 mS/cm."""
    ends = (None, None) if standing is None else (1.14, 1.26)
    draft = MeterDraft(
        ON - timedelta(days=days_ago), "A", 150, ec, None, ends[0], ends[1]
    )
    off = ec - 1.26 if standing is Standing.ABOVE else 0.0
    return MeterView(days_ago + 1, draft, ec, "Salts", standing, off)


def meter_views() -> tuple[MeterView, ...]:
    """Give four readings, the newest first."""
    return (
        meter_view(0, 1.20, Standing.IN_BAND),
        meter_view(7, 1.30, Standing.ABOVE),
        meter_view(30, 1.16, Standing.IN_BAND),
        meter_view(60, 0.90, None),
    )


def meter_chart(*views: MeterView) -> MeterChart:
    """Give a chart of readings, oldest first."""
    return MeterChart(ON - timedelta(days=365), ON, tuple(reversed(views)))
