"""Which jug, can or cylinder measures a volume of water, and how finely.

The vessel that needs the fewest fills goes first, then the finer scale. A bottle keeps
feed and a mug is only a word for litres unless it has a scale of its own.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Final

from msgspec import Struct

from growdesk.domain.measuring import MOST_LOADS, ToolKind
from growdesk.domain.volume_words import STEP_ML

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from growdesk.domain.measuring import Tool
    from growdesk.domain.vessels import Vessel

UNKNOWN_STEP_ML: Final = float(STEP_ML)
"""What volumes are told in where nothing with a scale is recorded."""
_OF_WATER = (ToolKind.CYLINDER, ToolKind.SYRINGE)
_DUST = 1e-9


class WaterMeasure(Struct, frozen=True):
    """What measures a volume: its name, its step in mL, and how often it is filled."""

    name: str
    step_ml: float
    fills: int


def water_measure(
    volume_l: float, vessels: Sequence[Vessel], tools: Sequence[Tool]
) -> WaterMeasure | None:
    """Give what measures a volume best; None where nothing recorded does.

    Nothing that needs more than ``MOST_LOADS`` fills is offered, and nothing whose step
    is more than the volume.
    """
    ml = volume_l * 1000
    if ml <= 0:
        return None
    found = [
        measure
        for measure in _measures(ml, vessels, tools)
        if measure.fills <= MOST_LOADS and measure.step_ml <= ml + _DUST
    ]
    return min(found, key=lambda each: (each.fills, each.step_ml), default=None)


def finest_measure(
    volume_l: float, vessels: Sequence[Vessel], tools: Sequence[Tool]
) -> WaterMeasure | None:
    """Give what measures a volume with the least error, where care is worth its fills.

    Each fill may be off by half a step.
    """
    ml = volume_l * 1000
    if ml <= 0:
        return None
    found = [
        measure
        for measure in _measures(ml, vessels, tools)
        if measure.fills <= MOST_LOADS and measure.step_ml <= ml + _DUST
    ]
    return min(
        found, key=lambda each: (each.fills * each.step_ml, each.fills), default=None
    )


def volume_step_ml(
    volume_l: float, vessels: Sequence[Vessel] = (), tools: Sequence[Tool] = ()
) -> float:
    """Give the step in mL with which a volume is measured; 10 mL where not recorded."""
    found = water_measure(volume_l, vessels, tools)
    return UNKNOWN_STEP_ML if found is None else found.step_ml


def _measures(
    ml: float, vessels: Sequence[Vessel], tools: Sequence[Tool]
) -> Iterator[WaterMeasure]:
    for vessel in vessels:
        if vessel.step_ml and vessel.volume_l > 0:
            fills = _fills(ml, vessel.volume_l * 1000)
            yield WaterMeasure(vessel.name, vessel.step_ml, fills)
    for tool in tools:
        if tool.kind in _OF_WATER and tool.step > 0 and tool.holds > 0:
            yield WaterMeasure(tool.name, tool.step, _fills(ml, tool.holds))


def _fills(ml: float, holds_ml: float) -> int:
    return max(1, math.ceil(ml / holds_ml - _DUST))
