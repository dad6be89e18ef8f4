"""Say in words what the meter read against what was predicted."""

from __future__ import annotations

from statistics import median
from typing import TYPE_CHECKING

from growdesk.domain.meter import Standing
from growdesk.ui import meter_texts, words

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from growdesk.services.meter_values import MeterChart, MeterView

NOTHING = (
    "No meter reading is on record in this year. Each that is written down is drawn "
    "here beside what was predicted."
)
_LEAN_FROM = 3
_LEAN_SHARE = 0.03


def meter_title(chart: MeterChart) -> str:
    """Give the name of the chart."""
    since, on = words.short_day(chart.since), words.short_day(chart.on)
    return f"EC predicted and read, {since} to {on}"


def meter(chart: MeterChart) -> Iterator[str]:
    """Give the chart in a few sentences."""
    if not chart.readings:
        yield NOTHING
        return
    held = [view for view in chart.readings if view.standing is not None]
    right = sum(1 for view in held if view.standing is Standing.IN_BAND)
    many = words.counted(len(chart.readings), "reading", "readings")
    if not held:
        yield f"{many}; nothing was predicted to hold against."
    elif right == len(held):
        yield f"{many}, each as predicted."
    else:
        yield f"{many}, {right} of {len(held)} as predicted."
    yield from _lean(held)
    for view in held:
        if view.standing is not Standing.IN_BAND:
            yield _off(view)


def _lean(held: Sequence[MeterView]) -> Iterator[str]:
    """Say whether readings lie to one side, which points at the meter or the water."""
    shares = [view.ec_ms_per_cm / middle - 1 for view in held if (middle := _mid(view))]
    if len(shares) < _LEAN_FROM:
        return
    lean = median(shares)
    if abs(lean) < _LEAN_SHARE:
        yield "They lie about the middle of what was predicted."
        return
    side = "above" if lean > 0 else "below"
    yield (
        f"They lie {100 * abs(lean):.0f} % {side} the middle of what was predicted; "
        "if that stays, check the meter in its standard and read the water alone."
    )


def _mid(view: MeterView) -> float:
    low, high = view.draft.expected_low_ms_per_cm, view.draft.expected_high_ms_per_cm
    return 0.0 if low is None or high is None else (low + high) / 2


def _off(view: MeterView) -> str:
    draft = view.draft
    note = f" ({draft.note.rstrip('.')})" if draft.note else ""
    return (
        f"{words.short_day(draft.on)}, jug {draft.letter} of {draft.strength_ppm_n} "
        f"ppm N: {view.ec_ms_per_cm:.2f} mS/cm, "
        f"{meter_texts.standing_text(view)}{note}."
    )
