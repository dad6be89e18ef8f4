"""What a jug's water does to it, among the jug's own warnings."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from growdesk.domain.water_limits import feed_flags
from growdesk.domain.water_words import flag_text
from growdesk.services.water_rows import water_analysis

if TYPE_CHECKING:
    from collections.abc import Mapping

    from growdesk.domain.kinds import Kind
    from growdesk.domain.water_analysis import WaterAnalysis
    from growdesk.services.shelf import Shelf
    from growdesk.services.values import Jug, MixPlan


def with_water_flags(mix: MixPlan, kinds: Mapping[str, Kind], shelf: Shelf) -> MixPlan:
    """Give a plan whose jugs say what their water does; ``kinds`` are by tag."""
    return replace(mix, jugs=tuple(_flagged(jug, kinds, shelf) for jug in mix.jugs))


def _flagged(jug: Jug, kinds: Mapping[str, Kind], shelf: Shelf) -> Jug:
    limits = (kinds[tag].pot_ec_limit_ms_per_cm for tag in jug.tags if tag in kinds)
    flags = feed_flags(
        _water_of(jug, shelf),
        dict(jug.elements_mg_per_l),
        jug.ec_low_ms_per_cm,
        min(limits, default=None),
    )
    said = tuple(flag_text(flag) for flag in flags)
    return replace(jug, warnings=(*jug.warnings, *said)) if said else jug


def _water_of(jug: Jug, shelf: Shelf) -> WaterAnalysis:
    for view in shelf.waters:
        if view.water_id == jug.water_id:
            return water_analysis(view.draft, view.water_id)
    return shelf.water_analysis()
