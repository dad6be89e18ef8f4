"""The day's light at a leaf close behind a window, on an open side or under a roof.

Sun and sky over one day, hour angle by hour angle: the clear day's beam and sky light
by Appendix D of the ASCE-EWRI reference evapotranspiration equation (2005; a sharpening
of FAO 56 annex 3; read in public code that quotes both), the dull day's by FAO 56
equation 35, which lets through a quarter of the radiation above the air, all of it from
the sky. With half of the possible hours clear, as the house has it for midsummer, a
high sun gives the half that equation 35 does. A low sun has more air to pass and loses
more; a temperate winter has fewer clear hours too.

The leaf stands at the pane and sees half of an evenly bright sky. Nothing is known of
eaves, houses and trees, of the ground's light, of frost on the pane: what they take
away is the place's ``shaded``. A house estimate, no measurement.
"""

from __future__ import annotations

from functools import lru_cache
from math import cos, exp, pi, radians, sin
from typing import TYPE_CHECKING, NamedTuple

from growdesk.domain.facts import Facing, Glass
from growdesk.domain.sun import (
    SOLAR_CONSTANT_MJ_PER_M2_MIN,
    declination_rad,
    inverse_distance,
    sunset_hour_angle_rad,
)

if TYPE_CHECKING:
    from datetime import date

    from growdesk.domain.facts import House, Place

DULL_PASSED = 0.25
SEA_LEVEL_KPA = 101.3
WATER_IN_AIR_MM = 14.0
SKY_SEEN = 0.5
MOST_DECLINATION_RAD = 0.409
SEASONS_FULL_DEG = 30.0

# 0.45 of the radiation is light for plants, at 4.48 µmol per J: 2.016 mol per MJ (Faust
# and Logan, HortScience 53:1250, 2018); 1.96 by the same group's earlier figure.
MOL_PER_MJ = 2.0

# What clean glass lets through in practice, frame left out; from memory, no source.
PASSED = {
    Glass.NONE: 1.0,
    Glass.SINGLE: 0.85,
    Glass.DOUBLE: 0.75,
    Glass.TRIPLE: 0.65,
    Glass.PLASTIC: 0.8,
}
USUAL_GLASS = Glass.DOUBLE
"""What a place indoors is taken to have where its glass is not recorded."""

AZIMUTH_DEG = {
    Facing.NORTH: 0.0,
    Facing.NORTH_EAST: 45.0,
    Facing.EAST: 90.0,
    Facing.SOUTH_EAST: 135.0,
    Facing.SOUTH: 180.0,
    Facing.SOUTH_WEST: 225.0,
    Facing.WEST: 270.0,
    Facing.NORTH_WEST: 315.0,
}
_SLICES = 48


class Daylight(NamedTuple):
    """A day's radiation in MJ m-2: the sun's on a plane, the sky's on the level."""

    beam_mj_per_m2_d: float
    sky_mj_per_m2_d: float


def at_place(place: Place, house: House, on: date) -> float | None:
    """Give the daylight at the leaf in mol m-2 d-1; nothing without a facing."""
    if place.facing is None:
        return None
    clear = clear_share(house, on)
    outside = outside_mol_per_m2_d(place.facing, house.latitude, on, clear)
    return outside * PASSED[glass_of(place)] * (1 - (place.shaded or 0.0))


def clear_share(house: House, on: date) -> float:
    """Give the share of the possible sunshine on a day, between winter's and summer's.

    It follows the sun's declination; from 30 degrees towards the equator the winter
    counts ever less, and at the equator not at all.
    """
    summer, winter = house.clear_sky_share, house.clear_sky_share_winter
    high = declination_rad(on) / MOST_DECLINATION_RAD
    seasonal = max(-1.0, min(1.0, house.latitude / SEASONS_FULL_DEG))
    wintry = (abs(seasonal) - seasonal * high) / 2
    return summer + (winter - summer) * wintry


def glass_of(place: Place) -> Glass:
    """Give what the light comes through: nothing outdoors, else two panes as usual."""
    if place.outdoors:
        return Glass.NONE
    return USUAL_GLASS if place.glass is None else place.glass


@lru_cache(maxsize=1024)
def outside_mol_per_m2_d(
    facing: Facing, latitude: float, on: date, clear_share: float
) -> float:
    """Give the light outside the pane in mol m-2 d-1, clear for a share of the day."""
    light = daylight(facing, latitude, on, clear_share)
    seen = 1.0 if facing is Facing.OVERHEAD else SKY_SEEN
    return MOL_PER_MJ * (light.beam_mj_per_m2_d + seen * light.sky_mj_per_m2_d)


def daylight(facing: Facing, latitude: float, on: date, clear_share: float) -> Daylight:
    """Give an average day's sun on a plane that faces so, and its sky on the level.

    The day from sunrise to sunset (FAO 56 eq. 25) is cut into slices of one width, each
    taken at its middle; the polar night gives nothing.
    """
    sunset = sunset_hour_angle_rad(latitude, on)
    up, turned = _cosines(facing, radians(latitude), declination_rad(on))
    width = 2 * sunset / _SLICES
    beam = sky = 0.0
    for number in range(_SLICES):
        hour = (number + 0.5) * width - sunset
        height = up.at(hour)
        if height <= 0:
            continue
        clear = _beam_passed(height)
        beam += clear_share * clear * max(0.0, turned.at(hour))
        dull = (1 - clear_share) * DULL_PASSED
        sky += height * (clear_share * sky_passed(clear) + dull)
    per_slice = width * 12 * 60 / pi * SOLAR_CONSTANT_MJ_PER_M2_MIN
    above = per_slice * inverse_distance(on)
    return Daylight(beam * above, sky * above)


class _Cosine(NamedTuple):
    """The cosine between the sun and a direction, by hour angle."""

    steady: float
    by_cosine: float
    by_sine: float

    def at(self, hour: float) -> float:
        return self.steady + self.by_cosine * cos(hour) + self.by_sine * sin(hour)


def _cosines(facing: Facing, phi: float, delta: float) -> tuple[_Cosine, _Cosine]:
    """Give the sun's height, as a sine, and its cosine to what a plane faces."""
    up = _Cosine(sin(phi) * sin(delta), cos(phi) * cos(delta), 0.0)
    if facing is Facing.OVERHEAD:
        return up, up
    azimuth = radians(AZIMUTH_DEG[facing])
    north = cos(azimuth)
    return up, _Cosine(
        north * cos(phi) * sin(delta),
        -north * sin(phi) * cos(delta),
        -sin(azimuth) * cos(delta),
    )


def _beam_passed(height: float) -> float:
    """Give the share of a clear day's beam that reaches the ground (ASCE eq. D.2)."""
    air = 0.00146 * SEA_LEVEL_KPA / height
    water = 0.075 * (WATER_IN_AIR_MM / height) ** 0.4
    return 0.98 * exp(-air - water)


def sky_passed(beam: float) -> float:
    """Give the share that comes from a clear sky (ASCE eq. D.4; Allen et al. 2006)."""
    if beam >= 0.15:
        return 0.35 - 0.36 * beam
    if beam > 0.065:
        return 0.18 + 0.82 * beam
    return 0.10 + 2.08 * beam
