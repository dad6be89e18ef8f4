"""Light as meters and loggers read it, as PPFD at the leaf in µmol m-2 s-1.

Lux, foot-candles and W m-2 are taken as daylight. Under lamps lux and foot-candles
read otherwise: a cool white tube gives 0.146 and a sodium lamp 0.131 µmol m-2 s-1 per
foot-candle where daylight gives 0.200 (Apogee Instruments, conversion page).
"""

from __future__ import annotations

from enum import StrEnum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

# A foot-candle is a lumen per square foot, and a foot is 0.3048 m, both exactly.
LUX_PER_FC = 1 / 0.3048**2

# Sun and sky: Thimijan & Heins, HortScience 18:818, 1983.
LUX_PER_PPFD = 54.0

# Global radiation: 45 % of its energy is photosynthetic, at 4.48 µmol per joule (Faust
# & Logan, HortScience 53:1250, 2018). An earlier factor of the group is 2.9 % lower.
PPFD_PER_W_PER_M2 = 0.45 * 4.48


class LightUnit(StrEnum):
    """What a light column counts: one reading at one moment."""

    LUX = "lux"
    FC = "fc"
    PPFD = "ppfd"
    W_PER_M2 = "w_per_m2"


_PPFD_PER: Mapping[LightUnit, float] = {
    LightUnit.LUX: 1 / LUX_PER_PPFD,
    LightUnit.FC: LUX_PER_FC / LUX_PER_PPFD,
    LightUnit.PPFD: 1.0,
    LightUnit.W_PER_M2: PPFD_PER_W_PER_M2,
}


def ppfd(value: float, unit: LightUnit) -> float:
    """Give the PPFD in µmol m-2 s-1 of a reading of daylight."""
    return value * _PPFD_PER[unit]


def fahrenheit_as_c(value: float) -> float:
    """Give °C for °F: 32 °F is 0 °C and 180 steps make 100, by definition."""
    return (value - 32) / 1.8
