"""Gives the house rules of a facts file, each held to the numbers that can be meant.

The ranges stand here once, with the unit in the rule's name; a rule that is left out
keeps its default. It does not know what a rule is used for.
"""

from __future__ import annotations

import re
from datetime import date
from typing import TYPE_CHECKING

from msgspec.structs import replace

from growdesk.domain.errors import InputError
from growdesk.domain.facts import House
from growdesk.domain.facts_fields import (
    Fields,
    Range,
    Shown,
    read_flag,
    read_number,
    read_whole,
)
from growdesk.domain.speech import tr

if TYPE_CHECKING:
    from collections.abc import Mapping

NUMBERS: Mapping[str, Range] = {
    "latitude": Range(-90, 90),
    "full_strength_ppm_n": Range(1, 1000),
    "strength_floor_ppm_n": Range(1, 400),
    "strength_step_ppm_n": Range(0, 100, above=True),
    "strength_ceiling_ppm_n": Range(1, 1000),
    "band_low": Range(0, 0.9),
    "band_high": Range(0, 1),
    "pot_share": Range(0, 1, above=True),
    "resume_root_mm": Range(0, 1000, above=True),
    "rooted_mm": Range(0, 1000, above=True),
    "glass_colder_c": Range(0, 20),
    "glass_hotter_c": Range(0, 30),
    "rain_waters_mm": Range(0, 100, above=True),
    "rain_flushes_mm": Range(1, 500),
    "runoff_ratio": Range(1, 10),
    "runoff_margin_ms_per_cm": Range(0, 10),
    "ec_per_100_ppm_n_ms_per_cm": Range(0, 5, above=True),
    "water_ec_ms_per_cm": Range(0, 10),
    "equatorial_band_deg": Range(0, 30),
    "feeder_light_share": Range(0, 2, above=True),
    "feeder_heavy_share": Range(0, 3, above=True),
    "seedling_share": Range(0, 1, above=True),
    "no_tips_share": Range(0, 1, above=True),
    "fresh_repot_share": Range(0, 1, above=True),
    "slow_release_share": Range(0, 1, above=True),
    "sphagnum_share": Range(0, 1, above=True),
    "idle_share": Range(0, 1, above=True),
    "full_radiation_mj_per_m2_d": Range(5, 60),
    "bright_from_fc": Range(0, 10_000),
    "low_light_under_fc": Range(0, 10_000),
    "half_light_bright": Range(0, 5, above=True),
    "half_light_medium": Range(0, 5, above=True),
    "half_light_low": Range(0, 5, above=True),
    "clear_sky_share": Range(0, 1),
    "clear_sky_share_winter": Range(0, 1),
    "performance_least": Range(0, 1),
    "performance_most_raise": Range(1, 5),
    "measure_off_share": Range(0, 0.5, above=True),
    "stock_share": Range(0.1, 1),
    "stock_coolest_c": Range(0, 45, above=True),
    "bark_years": Range(0, 20, above=True),
    "sphagnum_years": Range(0, 20, above=True),
    "mineral_years": Range(0, 20, above=True),
    "semi_hydro_years": Range(0, 20, above=True),
    "soil_years": Range(0, 20, above=True),
    "keiki_root_mm": Range(0, 300, above=True),
    "stake_spike_mm": Range(0, 1000),
    "nights_warm_c": Range(-5, 30),
    "nights_intermediate_c": Range(-5, 30),
    "nights_cool_c": Range(-5, 30),
    "nights_cool_out_c": Range(-5, 30),
}
WHOLE_NUMBERS: Mapping[str, Range] = {
    "look_limit_days": Range(1, 365),
    "least_interval_days": Range(1, 365),
    "feeds_before_flush": Range(1, 100),
    "feeds_before_flush_sphagnum": Range(1, 100),
    "settle_days": Range(0, 365),
    "quarantine_days": Range(0, 365),
    "idle_interval_days": Range(1, 365),
    "jugs": Range(1, 26),
    "stock_keep_months": Range(1, 60),
    "flush_before_rest_days": Range(0, 120),
    "cold_window_days": Range(2, 60),
    "stall_days": Range(2, 120),
    "measure_again_days": Range(0, 120),
    "hidden_roots_days": Range(1, 365),
    "fresh_repot_most_days": Range(0, 730),
    "light_window_days": Range(2, 60),
    "light_least_days": Range(1, 60),
    "temperature_window_days": Range(2, 60),
    "performance_window_days": Range(7, 120),
    "earlier_season_days": Range(60, 700),
    "nights_hold": Range(1, 30),
    "nights_below": Range(1, 30),
}
FLAGS = ("spike_draws_feed_always", "flush_by_estimate")
MONTH_DAYS = ("still_green_after", "no_nitrogen_from", "nitrogen_back_from")
WEEKDAYS = ("watering_weekdays",)

_MONTH_DAY = re.compile(r"([0-9]{2})-([0-9]{2})")
_LEAP_YEAR = 2000


def rule_names() -> tuple[str, ...]:
    """Give the names of all house rules."""
    return House.__struct_fields__


def read_house(value: object) -> House:
    """Give the house rules of a JSON object; what is not in it keeps its default."""
    if value is None:
        return House()
    read = Fields.of("house", value, tr("a house"), rule_names())
    changes = {
        name: read_rule(name, given)
        for name, given in read.items.items()
        if given is not None
    }
    return replace(House(), **changes)


def read_rule(name: str, value: object) -> object:
    """Give the value of one house rule, checked; unknown rules are refused."""
    at = tr("house, {name}").format(name=name)
    if name in NUMBERS:
        return read_number(at, value, NUMBERS[name])
    if name in WHOLE_NUMBERS:
        return read_whole(at, value, WHOLE_NUMBERS[name])
    if name in FLAGS:
        return read_flag(at, value)
    if name in MONTH_DAYS:
        return _month_day(at, value)
    if name in WEEKDAYS:
        return _weekdays(at, value)
    raise InputError(at, Shown(value), tr("is not a house rule"))


def _month_day(at: str, value: object) -> tuple[int, int]:
    match = _MONTH_DAY.fullmatch(value) if isinstance(value, str) else None
    hint = tr("Write month-day in quotes, for example 09-15.")
    if match is None:
        raise InputError(at, Shown(value), tr("is not a day of the year"), hint)
    month, day = int(match[1]), int(match[2])
    try:
        date(_LEAP_YEAR, month, day)
    except ValueError:
        raise InputError(
            at, Shown(value), tr("is not a day of the year that exists"), hint
        ) from None
    return month, day


def _weekdays(at: str, value: object) -> tuple[int, ...]:
    if not isinstance(value, list) or not value:
        hint = tr(
            "Give a list of weekdays, 0 for Monday to 6 for Sunday, at least one."
        )
        raise InputError(at, Shown(value), tr("is not a list of weekdays"), hint)
    return tuple(sorted({read_whole(at, day, Range(0, 6)) for day in value}))
