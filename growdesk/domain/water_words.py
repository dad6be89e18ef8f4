"""A water, its flags and its blends in plain sentences."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Final

from growdesk.domain.day_words import weekday
from growdesk.domain.phrases import listed
from growdesk.domain.speech import mark, tr
from growdesk.domain.volume_words import volume_text
from growdesk.domain.water_analysis import KINDS
from growdesk.domain.water_blend import Aim, pour, reach
from growdesk.domain.water_ready import rounded_up_l
from growdesk.domain.water_templates import (
    ANY_WATER,
    BLENDS,
    FILLS,
    FLAGS,
    READY,
    SPOKEN,
    USES,
    VESSELS,
)
from growdesk.domain.wording import number_text

if TYPE_CHECKING:
    from collections.abc import Iterator

    from growdesk.domain.water_analysis import WaterAnalysis
    from growdesk.domain.water_blend import Blend
    from growdesk.domain.water_limits import Flag
    from growdesk.domain.water_ready import WaterNeed, WaterWeek

_DUST: Final = 1e-6
_OF_EC: Final = frozenset(
    {
        *("ec-severe", "ec-over", "no-pure-rain", "no-pure-ro"),
        *("water-over-kind", "feed-over-kind", "ec-too-small", "ec-too-large"),
    }
)
_OF_CHARGE: Final = frozenset({"alkalinity-alone", "charges-differ"})
"""Flags whose numbers are of mS/cm, and of meq/L."""
_HELD: Final = (
    ("EC", "ec_ms_per_cm", "mS/cm"),
    (mark("alkalinity"), "alkalinity_mg_per_l", "mg/L CaCO3"),
    (mark("hardness"), "hardness_mg_per_l", "mg/L CaCO3"),
    (mark("sodium"), "na_mg_per_l", "mg/L"),
    (mark("chloride"), "cl_mg_per_l", "mg/L"),
)


def flag_text(flag: Flag) -> str:
    """Give one flag as a sentence or two."""
    return FLAGS[flag.key].format(
        **{name: _shown(flag.key, name, value) for name, value in flag.values.items()}
    )


def holds_text(water: WaterAnalysis) -> str:
    """Give what a grower asks first of a water: EC, alkalinity, hardness, Na, Cl."""
    said = [
        f"{tr(name)} {_number(amount)} {unit}"
        for name, field, unit in _HELD
        if (amount := getattr(water, field)) is not None
    ]
    return ", ".join(said)


def blend_lines(made: Blend, volume_l: float) -> Iterator[str]:
    """Give a blend in words: whether it is reached, the litres, what it then holds."""
    if not made.reached:
        yield unreached_text(made)
    yield litres_text(made, volume_l)
    holds = holds_text(made.water)
    if holds:
        yield BLENDS["holds"].format(holds=holds)
    if made.ec_is_straight:
        yield BLENDS["straight"]


def litres_text(made: Blend, volume_l: float) -> str:
    """Give the litres of each water for a volume."""
    poured = pour(volume_l, made.first_share)
    volume = volume_text(volume_l)
    first, second = _two(made)
    for share, alone in ((poured.first_l, first), (poured.second_l, second)):
        if share >= volume_l:
            return BLENDS["all-of"].format(volume=volume, alone=alone)
    return BLENDS["litres"].format(
        volume=volume,
        first_l=volume_text(poured.first_l),
        first=first,
        second_l=volume_text(poured.second_l),
        second=second,
    )


def spoken(name: str, kind: str) -> str:
    """Give a water as it is spoken of: "rain water", "tap water (Garden)", "Soft".

    A name is only needed where there are several of a kind.
    """
    known = SPOKEN.get(kind.casefold())
    if known is None:
        return name or KINDS.get(kind.casefold(), kind)
    return f"{known} ({name})" if name else known


def short_name(name: str, kind: str) -> str:
    """Give the kind of a water that is of a usual one, else what it is called."""
    if kind.casefold() in SPOKEN:
        return KINDS[kind.casefold()]
    return name or KINDS.get(kind.casefold(), kind)


def ready_text(week: WaterWeek) -> str:
    """Give what to have ready of one water over some days, against what stands there.

    "31 L of rain water for Wednesday and Saturday; 24 L in the barrel: fill it, or
    take 7 L of tap water."
    """
    need, stand = week.need, week.stand
    kind = need.kind.casefold()
    kind = kind if kind in VESSELS else ANY_WATER
    key = "plain"
    if stand.there_l is not None:
        key = "fill-or-take" if week.instead else "fill"
        key = key if week.short_l > 0 else "lasts"
    elif stand.capacity_l is not None and week.volume_l > stand.capacity_l:
        key = "too-big"
    return READY[key].format(
        volume=volume_text(week.volume_l),
        water=spoken(need.name, need.kind),
        days=listed([weekday(on) for on in week.days]),
        there=level_text(stand.there_l or 0.0),
        capacity=volume_text(stand.capacity_l or 0.0),
        vessel=VESSELS[kind],
        fill=FILLS[kind],
        short=volume_text(week.short_l),
        instead=week.instead,
    )


def level_text(volume_l: float) -> str:
    """Give what stands in a barrel as one sees it: in whole litres from ten on."""
    step = 1.0 if volume_l >= 10 else 0.1
    return volume_text(math.floor(volume_l / step + _DUST) * step)


def shares_text(need: WaterNeed) -> str:
    """Say what the litres of one water are for."""
    parts = uses(need, *USES)
    return READY["for"].format(parts=listed(parts)) if len(parts) > 1 else ""


def uses(need: WaterNeed, *fields: str) -> list[str]:
    """Give what some of the litres of one water are for: "1.2 L for clear water"."""
    return [
        USES[field].format(volume=volume_text(volume_l))
        for field in fields
        if (volume_l := getattr(need, field)) > 0
    ]


def have_ready(need: WaterNeed) -> str:
    """Say how much of one water a round takes, and what it is for."""
    said = READY["have"].format(
        volume=volume_text(rounded_up_l(need.volume_l)),
        water=spoken(need.name, need.kind),
    )
    return " ".join(part for part in (said, shares_text(need)) if part)


def _two(made: Blend) -> tuple[str, str]:
    """Give both waters as they are spoken of, by name where they are of one kind."""
    first, second = made.first, made.second
    if first.kind.casefold() == second.kind.casefold():
        return spoken(first.name, first.kind), spoken(second.name, second.kind)
    return (
        spoken("" if first.kind.casefold() in SPOKEN else first.name, first.kind),
        spoken("" if second.kind.casefold() in SPOKEN else second.name, second.kind),
    )


def unreached_text(made: Blend) -> str:
    """Say that an aim cannot be had of two waters, and what comes nearest."""
    low, high = reach(made.first, made.second, made.aim)
    key = "unreached-ec" if made.aim is Aim.EC else "unreached-alkalinity"
    first, second = _two(made)
    return BLENDS[key].format(
        wanted=_number(made.aim_value),
        low=_number(low),
        high=_number(high),
        nearest=first if made.first_share >= 1 else second,
    )


def _shown(key: str, name: str, value: float | str) -> str:
    if isinstance(value, str):
        return value
    if key in _OF_EC:
        return number_text(value, 2)
    if key in _OF_CHARGE or name == "nitrogen":
        return number_text(value)
    return _number(value)


def _number(value: float) -> str:
    """Give an amount no finer than it is known: two digits below 10, none above."""
    return number_text(value, 2 if value < 1 else 1 if value < 10 else 0)
