"""What a jug's water does to it, and what a blend is poured from."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from msgspec.structs import replace

from growdesk.domain.water_analysis import WaterAnalysis
from growdesk.domain.water_limits import feed_flags
from growdesk.domain.water_words import (
    flag_text,
    litres_text,
    unreached_text,
)
from growdesk.services.water_rows import water_analysis

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from growdesk.domain.kinds import Kind
    from growdesk.services.shelf import Shelf
    from growdesk.services.values import Jug, MixPlan, WaterView


def with_water_flags(mix: MixPlan, kinds: Mapping[str, Kind], shelf: Shelf) -> MixPlan:
    """Give a plan whose jugs say what their water does; ``kinds`` are by tag.

    A jug of a blend says the litres of its two waters, and so does the clear water.
    """
    return replace(
        mix,
        jugs=tuple(_flagged(jug, kinds, shelf) for jug in mix.jugs),
        remarks=(*mix.remarks, *_unreached(shelf)),
        clear_blend=_of_clear(mix, shelf),
    )


def _flagged(jug: Jug, kinds: Mapping[str, Kind], shelf: Shelf) -> Jug:
    view = shelf.water_view(jug.water_id)
    of_two = tuple(_of_two(jug, view))
    limits = (kinds[tag].pot_ec_limit_ms_per_cm for tag in jug.tags if tag in kinds)
    flags = feed_flags(
        WaterAnalysis() if view is None else water_analysis(view.draft, view.water_id),
        dict(jug.elements_mg_per_l),
        jug.ec_low_ms_per_cm,
        min(limits, default=None),
    )
    return replace(
        jug,
        warnings=(*jug.warnings, *(flag_text(flag) for flag in flags)),
        mixing=(*of_two, *jug.mixing),
        of_two=of_two,
    )


def _of_two(jug: Jug, view: WaterView | None) -> Iterator[str]:
    """Give the litres of a blend's two waters, for each size of mix of a jug."""
    if view is not None and view.blend is not None:
        volumes = [fill.volume_l for fill in jug.fills]
        for volume_l in dict.fromkeys(volumes or [jug.volume_l + jug.spare_l]):
            if volume_l > 0:
                yield litres_text(view.blend, volume_l)


def _of_clear(mix: MixPlan, shelf: Shelf) -> str:
    """Give the two waters of the clear water where a blend is in use, else nothing."""
    view = shelf.water_view(shelf.water_id)
    litres = math.fsum(need.into_blend_l for need in mix.waters)
    if view is None or view.blend is None or litres <= 0:
        return ""
    return litres_text(view.blend, litres)


def _unreached(shelf: Shelf) -> Iterator[str]:
    """Say that a blend in use does not come to its aim."""
    view = shelf.water_view(shelf.water_id)
    if view is not None and view.blend is not None and not view.blend.reached:
        yield unreached_text(view.blend)
