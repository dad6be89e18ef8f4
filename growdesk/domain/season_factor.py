"""What the season of an uncontrolled place leaves of full strength.

Light at the leaf, as read or by lamps and window, held against what the kind wants, or
else the sun's radiation (FAO Irrigation & Drainage Paper 56); times temperature by the
place's readings; or, where the lead or the roots were measured, the plant's own
performance instead of both. The curves are the house's, not laws of nature.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain import mean_read, performance
from growdesk.domain.sun import ra_mj_per_m2_d

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from growdesk.domain.case import Case
    from growdesk.domain.facts import House
    from growdesk.domain.kinds import Kind

# A midday foot-candle of daylight is 0.2 µmol m-2 s-1 (Apogee Instruments, conversion
# page); a 12 h day shaped like half a sine wave holds 2/pi of its peak.
MOL_PER_FC_DAY = 0.2 * 12 * 3600 / 1e6 * 0.6366

Factor = tuple[str, float, "Mapping[str, object]"]


def light_class(kind: Kind, house: House) -> str:
    """Give ``bright``, ``medium`` or ``low``, by the middle of the light range."""
    if kind.light_mid_fc >= house.bright_from_fc:
        return "bright"
    return "low" if kind.light_mid_fc < house.low_light_under_fc else "medium"


def half_light(wanted: str, house: House) -> float:
    """Give how bent the light curve is for plants that want so much light."""
    if wanted == "bright":
        return house.half_light_bright
    return house.half_light_low if wanted == "low" else house.half_light_medium


def light_factor(relative_light: float, half: float) -> float:
    """Give the share of full strength for light from 0 to 1, by the curve's bend."""
    light = min(max(relative_light, 0.0), 1.0)
    return light * (1 + half) / (light + half)


def temperature_factor(kind: Kind, mean_c: float) -> float:
    """Give 0 at the kind's base, 1 across its best range, 0 at its upper stop."""
    if mean_c <= kind.best_low_c:
        return max(0.0, (mean_c - kind.base_c) / (kind.best_low_c - kind.base_c))
    if mean_c <= kind.best_high_c:
        return 1.0
    return max(0.0, (kind.stop_c - mean_c) / (kind.stop_c - kind.best_high_c))


def factors(case: Case) -> Iterator[Factor]:
    """Give the season's factors for a plant, each with what it went by."""
    if case.plant.place.controlled:
        yield "season-controlled", 1.0, {}
        return
    calendar = case.place_day.for_kind(
        case.kind, lambda: (_light(case), *_temperature(case))
    )
    measured = performance.measured(case)
    if measured is None:
        yield from calendar
        return
    season = 1.0
    for _, factor, _ in calendar:
        season *= factor
    yield performance.factor(case, measured, season)


def _light(case: Case) -> Factor:
    house = case.house
    wanted = light_class(case.kind, house)
    half = half_light(wanted, house)
    light = case.place_day.light
    if light is not None:
        full = case.kind.light_mid_fc * MOL_PER_FC_DAY
        shown = {"dli": light.mol_per_m2_d, "full_dli": full, "light": wanted}
        factor = light_factor(light.mol_per_m2_d / full, half)
        return light.key, factor, {**shown, **light.values}
    ra = ra_mj_per_m2_d(house.latitude, case.on)
    values = {"ra": ra, "latitude": house.latitude, "light": wanted}
    by_season = light_factor(ra / house.full_radiation_mj_per_m2_d, half)
    return "season-light", by_season, values


def _temperature(case: Case) -> Iterator[Factor]:
    days = case.house.temperature_window_days
    mean_c = case.mean_c(days)
    if mean_c is None:
        return
    how, values = mean_read.told(case, days)
    key = f"season-temperature{how}"
    yield key, temperature_factor(case.kind, mean_c), values
