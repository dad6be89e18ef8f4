"""The sun on one day at one latitude: day length and radiation above the air.

Radiation and the geometric day length follow FAO Irrigation & Drainage Paper 56
(Allen, Pereira, Raes and Smith, 1998), equations 21 to 25 and 34. Almanacs count the
day from the first to the last edge of the sun, lifted by the air, which is longer; that
length is computed here on its own. No weather, no horizon and no longitude is known:
the sun's place is taken at Greenwich, which is good to seconds away from the poles.
"""

from __future__ import annotations

from datetime import date
from math import acos, asin, cos, isfinite, pi, radians, sin

from msgspec import Struct

from growdesk.domain.errors import InputError
from growdesk.domain.speech import tr

SOLAR_CONSTANT_MJ_PER_M2_MIN = 0.0820
UPPER_LIMB_ALTITUDE_DEG = -0.833
_J2000 = date(2000, 1, 1).toordinal()


class Sun(Struct, frozen=True):
    """Day length by FAO 56 eq. 34, as almanacs print it, and Ra in MJ m-2 d-1."""

    day_length_h: float
    sunrise_to_sunset_h: float
    ra_mj_per_m2_d: float


def _latitude_rad(latitude: float) -> float:
    if not isfinite(latitude) or not -90 <= latitude <= 90:
        hint = tr("A latitude lies between -90 (south) and 90 (north).")
        raise InputError("latitude", latitude, tr("is no latitude"), hint)
    return radians(latitude)


def _half_day_rad(cosine: float) -> float:
    """Give the hour angle of sunset: pi in the polar day, 0 in the polar night."""
    return acos(max(-1.0, min(1.0, cosine)))


def _year_angle_rad(on: date) -> float:
    return 2 * pi * on.timetuple().tm_yday / 365


def declination_rad(on: date) -> float:
    """Give the sun's declination by FAO 56 eq. 24."""
    return 0.409 * sin(_year_angle_rad(on) - 1.39)


def inverse_distance(on: date) -> float:
    """Give the inverse relative distance from earth to sun by FAO 56 eq. 23."""
    return 1 + 0.033 * cos(_year_angle_rad(on))


def _sunset_rad(phi: float, delta: float) -> float:
    """Give the sunset hour angle by FAO 56 eq. 25, for polar days and nights too."""
    return _half_day_rad(-sin(phi) * sin(delta) / (cos(phi) * cos(delta)))


def sunset_hour_angle_rad(latitude: float, on: date) -> float:
    """Give the sunset hour angle by FAO 56 eq. 25."""
    return _sunset_rad(_latitude_rad(latitude), declination_rad(on))


def day_length_h(latitude: float, on: date) -> float:
    """Give the hours of daylight by FAO 56 eq. 34."""
    return 24 / pi * sunset_hour_angle_rad(latitude, on)


def ra_mj_per_m2_d(latitude: float, on: date) -> float:
    """Give the day's radiation above the air by FAO 56 eq. 21."""
    phi, delta = _latitude_rad(latitude), declination_rad(on)
    omega = _sunset_rad(phi, delta)
    beam = omega * sin(phi) * sin(delta) + cos(phi) * cos(delta) * sin(omega)
    per_day = 24 * 60 / pi * SOLAR_CONSTANT_MJ_PER_M2_MIN * inverse_distance(on)
    return max(0.0, per_day * beam)


def _true_declination_rad(days: float) -> float:
    """Give the declination, good to 0.01 degrees, from days since noon on 1.1.2000.

    The short form of the sun's place that the Astronomical Almanac gives.
    """
    mean_longitude = radians((280.460 + 0.9856474 * days) % 360)
    anomaly = radians((357.528 + 0.9856003 * days) % 360)
    centre = radians(1.915 * sin(anomaly) + 0.020 * sin(2 * anomaly))
    obliquity = radians(23.439 - 0.0000004 * days)
    return asin(sin(obliquity) * sin(mean_longitude + centre))


def _half_day_h(phi: float, noon_days: float, side: int) -> float:
    """Give the hours between noon and sunrise (side -1) or sunset (side 1).

    The declination is taken at the event itself, so the answer is found by repeating.
    """
    altitude = radians(UPPER_LIMB_ALTITUDE_DEG)
    hours = 6.0
    for _ in range(8):
        delta = _true_declination_rad(noon_days + side * hours / 24)
        cosine = (sin(altitude) - sin(phi) * sin(delta)) / (cos(phi) * cos(delta))
        hours = 12 / pi * _half_day_rad(cosine)
    return hours


def day_length_almanac_h(latitude: float, on: date) -> float:
    """Give the hours from sunrise to sunset as almanacs print them.

    Upper edge of the sun, level horizon, lifted by the air: altitude -0.833 degrees.
    """
    phi, noon_days = _latitude_rad(latitude), float(on.toordinal() - _J2000)
    return _half_day_h(phi, noon_days, -1) + _half_day_h(phi, noon_days, 1)


def sun(latitude: float, on: date) -> Sun:
    """Give the sun of one day; 24 hours in the polar day, 0 in the polar night."""
    return Sun(
        day_length_h=day_length_h(latitude, on),
        sunrise_to_sunset_h=day_length_almanac_h(latitude, on),
        ra_mj_per_m2_d=ra_mj_per_m2_d(latitude, on),
    )


def dli_mol_per_m2(ppfd: float, hours: float) -> float:
    """Give a day's light in mol m-2 from lamps of ``ppfd`` in µmol m-2 s-1."""
    if not isfinite(ppfd) or ppfd < 0:
        raise InputError("ppfd", ppfd, tr("is no light in µmol m-2 s-1"))
    if not isfinite(hours) or not 0 <= hours <= 24:
        raise InputError("hours", hours, tr("is no number of hours in a day"))
    return ppfd * hours * 3600 / 1_000_000
