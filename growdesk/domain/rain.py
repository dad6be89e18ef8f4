"""What rain does to a pot outdoors: too little, a watering, or a flush.

A millimetre of rain is a litre a square metre. A pot is taken to be as wide as high,
and to catch what falls on its own mouth; leaves that shed rain past it are not reckoned
with. Where nobody wrote down how much fell it counts as a watering. The two limits are
house rules, ours.
"""

from __future__ import annotations

from math import cbrt, pi
from typing import TYPE_CHECKING

from growdesk.domain.facts import CareKind

if TYPE_CHECKING:
    from growdesk.domain.facts import Care, House


def waters(care: Care, house: House) -> bool:
    """Tell whether rain wetted the pot through, as clear water does."""
    if care.what is not CareKind.RAIN:
        return False
    return care.rain_mm is None or care.rain_mm >= house.rain_waters_mm


def flushes(care: Care, house: House) -> bool:
    """Tell whether rain was heavy enough to carry salts out."""
    if care.what is not CareKind.RAIN or care.rain_mm is None:
        return False
    return care.rain_mm >= house.rain_flushes_mm


def washes(care: Care, house: House) -> bool:
    """Tell whether care was a flush, poured or rained."""
    return care.what is CareKind.FLUSH or flushes(care, house)


def caught_l(pot_l: float, rain_mm: float) -> float:
    """Give the litres that fall into a pot as wide as high, of ``pot_l`` litres."""
    across_dm = cbrt(4 * pot_l / pi)
    return rain_mm * pi * across_dm**2 / 400
