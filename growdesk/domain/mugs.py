"""A volume in the grower's own measure: mugs, to a quarter or a third of one.

A mug is filled by eye, so that its fractions are those an eye can see. Where the
nearest one is a fair bit off it is called *about*; where it is far off, or where nobody
would count mugs, nothing is said.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Final

from growdesk.domain.speech import mark, tr, trn
from growdesk.domain.vessels import VesselKind

if TYPE_CHECKING:
    from collections.abc import Iterable

    from growdesk.domain.vessels import Vessel

LEAST_MUGS: Final = 0.25
MOST_MUGS: Final = 10.0
"""Fewer than this nobody sees, more nobody counts; ours."""
ABOUT_FROM: Final = 0.04
"""From this share off on it is *about*; how well an eye fills a mug, from memory."""
SILENT_ABOVE: Final = 0.10
"""From this share off on nothing is said; ours."""
_FRACTIONS: Final = (
    (0.0, ""),
    (1 / 4, "¼"),
    (1 / 3, "⅓"),
    (1 / 2, "½"),
    (2 / 3, "⅔"),
    (3 / 4, "¾"),
    (1.0, ""),
)
_DUST: Final = 1e-9
ABOUT: Final = mark("about {mugs}")
"""How a number of mugs is told that is a fair bit off."""


def the_mug(vessels: Iterable[Vessel]) -> Vessel | None:
    """Give the mug the grower pours with: the first one; None without any."""
    return next((v for v in vessels if v.kind is VesselKind.MUG), None)


def in_mugs(volume_l: float, mug: Vessel | None) -> str:
    """Give a volume as "2½ mugs" or "about ⅓ mug"; empty where that would be silly.

    Silent below a quarter and above ten mugs, and where no fraction comes within a
    tenth of the volume.
    """
    if mug is None or mug.volume_l <= 0 or not math.isfinite(volume_l):
        return ""
    mugs = volume_l / mug.volume_l
    if not LEAST_MUGS - _DUST <= mugs <= MOST_MUGS + _DUST:
        return ""
    whole = math.floor(mugs + _DUST)
    part, sign = min(_FRACTIONS, key=lambda each: abs(mugs - whole - each[0]))
    off = abs(mugs - whole - part) / mugs
    if off > SILENT_ABOVE:
        return ""
    if part == 1:
        whole, part = whole + 1, 0.0
    count = f"{whole or ''}{sign}"
    mugs_told = trn("{count} mug", "{count} mugs", 1 if whole + part <= 1 else 2)
    told = mugs_told.format(count=count)
    return tr(ABOUT).format(mugs=told) if off > ABOUT_FROM else told
