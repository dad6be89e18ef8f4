"""Say in words what the meter read against what was predicted."""

from __future__ import annotations

from statistics import median
from typing import TYPE_CHECKING

from growdesk.domain.meter import Standing
from growdesk.domain.speech import fixed, mark, tr
from growdesk.ui import meter_texts, words

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from growdesk.services.meter_values import MeterChart, MeterView

NOTHING = mark(
    "No meter reading is on record in this year. Each that is written down is drawn "
    "here beside what was predicted."
)
_LEAN_FROM = 3
_LEAN_SHARE = 0.03


def meter_title(chart: MeterChart) -> str:
    """Give the name of the chart."""
    since, on = words.short_day(chart.since), words.short_day(chart.on)
    return tr("EC predicted and read, {since} to {on}").format(since=since, on=on)


def meter(chart: MeterChart) -> Iterator[str]:
    """Give the chart in a few sentences."""
    if not chart.readings:
        yield tr(NOTHING)
        return
    held = [view for view in chart.readings if view.standing is not None]
    right = sum(1 for view in held if view.standing is Standing.IN_BAND)
    many = words.counted(len(chart.readings), "reading", "readings")
    if not held:
        yield tr("{many}; nothing was predicted to hold against.").format(many=many)
    elif right == len(held):
        yield tr("{many}, each as predicted.").format(many=many)
    else:
        yield tr("{many}, {right} of {count} as predicted.").format(
            many=many, right=right, count=len(held)
        )
    yield _range(chart.readings)
    yield from _lean(held)
    for view in held:
        if view.standing is not Standing.IN_BAND:
            yield _off(view)


def _range(readings: Sequence[MeterView]) -> str:
    """Say between what the meter read, and what it read last."""
    newest = max(readings, key=lambda view: view.draft.on)
    found = [view.ec_ms_per_cm for view in readings]
    low, high, day = min(found), max(found), words.short_day(newest.draft.on)
    if len(found) == 1:
        return tr("It read {ec} mS/cm on {day}.").format(ec=fixed(low, 2), day=day)
    if fixed(low, 2) == fixed(high, 2):
        return tr("Each read {ec} mS/cm, the last on {day}.").format(
            ec=fixed(low, 2), day=day
        )
    return tr("Read between {low} and {high} mS/cm, last {last} on {day}.").format(
        low=fixed(low, 2),
        high=fixed(high, 2),
        last=fixed(newest.ec_ms_per_cm, 2),
        day=day,
    )


def _lean(held: Sequence[MeterView]) -> Iterator[str]:
    """Say whether readings lie to one side, which points at the meter or the water."""
    shares = [view.ec_ms_per_cm / middle - 1 for view in held if (middle := _mid(view))]
    if len(shares) < _LEAN_FROM:
        return
    lean = median(shares)
    if abs(lean) < _LEAN_SHARE:
        yield tr("They lie about the middle of what was predicted.")
        return
    told = (
        tr(
            "They lie {percent} % above the middle of what was predicted; if that "
            "stays, check the meter in its standard and read the water alone."
        )
        if lean > 0
        else tr(
            "They lie {percent} % below the middle of what was predicted; if that "
            "stays, check the meter in its standard and read the water alone."
        )
    )
    yield told.format(percent=fixed(100 * abs(lean), 0))


def _mid(view: MeterView) -> float:
    low, high = view.draft.expected_low_ms_per_cm, view.draft.expected_high_ms_per_cm
    return 0.0 if low is None or high is None else (low + high) / 2


def _off(view: MeterView) -> str:
    draft = view.draft
    note = f" ({draft.note.rstrip('.')})" if draft.note else ""
    return tr(
        "{short_day}, jug {letter} of {strength_ppm_n} ppm N: "
        "{ec_ms_per_cm} mS/cm, {standing}{note}."
    ).format(
        short_day=words.short_day(draft.on),
        letter=draft.letter,
        strength_ppm_n=draft.strength_ppm_n,
        ec_ms_per_cm=fixed(view.ec_ms_per_cm, 2),
        standing=meter_texts.standing_text(view),
        note=note,
    )
