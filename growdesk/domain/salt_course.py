"""What a pot was given since its salts were last known, as a course to follow.

It begins with the last reading of the runoff, else with the last flush or repot. It is
made of what was seen and done, and followed only when asked: one course costs as much
as a judgement.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from functools import cached_property
from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.domain import rain
from growdesk.domain.facts import CareKind, Medium
from growdesk.domain.pouring import round_l
from growdesk.domain.salt_balance import (
    Assumed,
    Course,
    Ended,
    Store,
    Watering,
    end_of,
    usual_end,
)

if TYPE_CHECKING:
    from datetime import date

    from growdesk.domain.facts import Care, House, Look, Plant
    from growdesk.domain.kinds import Kind

HELD_SHARE = {
    # Water held by the pot's volume: bark a quarter, moss a third, potting soil a third
    # to a half ("How to water when you have no drainage holes", house plant journal,
    # copy read at recetaklia.com); mineral media and pebbles with their reservoir from
    # memory.
    Medium.BARK: 0.25,
    Medium.SPHAGNUM: 0.33,
    Medium.SOIL: 0.4,
    Medium.MINERAL: 0.25,
    Medium.SEMI_HYDRO: 0.4,
}
MIXING = {
    # How much of what runs through takes salts along: common practice, no source, but
    # for the order (moss holds salts and is hard to flush: "Fertilize Weakly Weekly",
    # American Orchid Society, July 2023).
    Medium.BARK: 0.6,
    Medium.SPHAGNUM: 0.4,
    Medium.SOIL: 0.5,
    Medium.MINERAL: 0.7,
    Medium.SEMI_HYDRO: 0.7,
}
MIXING_DOUBT = 0.25
# From memory: a pot is watered when about half of what it holds is gone.
USUAL = {"drying": 0.06, "driest": 0.55, "uptake": 0.2}
GENTLE = {"drying": 0.045, "driest": 0.45, "uptake": 0.3}
HARSH = {"drying": 0.075, "driest": 0.65, "uptake": 0.1}
MOST_DAYS = 365
"""So long a reading, a flush or a repot says anything about a pot."""
RAIN_EC = 0.02
"""From memory: rain that falls on the plant itself reads 0.01 to 0.05 mS/cm."""
LEAST_POT_L = 0.01
WATERS = (CareKind.FEED, CareKind.CLEAR_WATER, CareKind.FLUSH, CareKind.RAIN)


class Start(StrEnum):
    """What an estimate begins with."""

    READING = "reading"
    FLUSH = "flush"
    REPOT = "repot"


class Known(Struct, frozen=True):
    """What is known of a pot on a day: care and reading up to it, oldest first."""

    plant: Plant
    kind: Kind
    house: House
    on: date
    care: tuple[Care, ...]
    reading: Look | None
    flushed_on: date | None
    repotted_on: date | None


@dataclass(frozen=True)
class Salts:
    """A pot's course since its salts were known, followed once and when asked."""

    since: date
    start: Start
    given: tuple[Care, ...]
    course: Course

    @cached_property
    def usual(self) -> Store:
        """Give the pot as usually assumed, at the end of the course."""
        return usual_end(self.course)

    @cached_property
    def ended(self) -> Ended:
        """Give where the course ends under every set of assumptions."""
        return end_of(self.course)


def salts_of(known: Known) -> Salts | None:
    """Give the course of a pot's salts, or nothing where there is nothing to go by."""
    pot_l, medium = known.plant.pot_volume_l, known.plant.medium
    if pot_l is None or pot_l < LEAST_POT_L:
        return None
    if known.plant.mounted or medium is Medium.NONE:
        return None
    begins = _begins(known)
    if begins is None:
        return None
    given = _given(known, *begins)
    return Salts(*begins, given, _course(known, pot_l, begins, given))


def mixing_range(medium: Medium) -> tuple[float, float]:
    """Give the least and most of what runs through that carries salts off."""
    usual = MIXING[medium]
    return usual * (1 - MIXING_DOUBT), usual * (1 + MIXING_DOUBT)


def usual_ppm_n(plant: Plant, house: House) -> float:
    """Give the strength a feed is taken at where none is on record, in ppm N."""
    return plant.full_strength_ppm_n or house.full_strength_ppm_n


def _begins(known: Known) -> tuple[date, Start] | None:
    """Give the latest reading of a year, or a later repot; else the last washing."""
    look = known.reading

    def late_enough(day: date | None) -> date | None:
        return None if day is None or (known.on - day).days > MOST_DAYS else day

    read_on = late_enough(look.on if look else None)
    flushed = late_enough(known.flushed_on)
    repotted = late_enough(known.repotted_on)
    if read_on is not None and (repotted is None or read_on > repotted):
        return read_on, Start.READING
    if repotted is not None and (flushed is None or repotted >= flushed):
        return repotted, Start.REPOT
    return None if flushed is None else (flushed, Start.FLUSH)


def _given(known: Known, since: date, start: Start) -> tuple[Care, ...]:
    """Give what was poured since the start; a flush of its own day comes after it."""
    with_its_day = start in (Start.READING, Start.FLUSH)
    given: list[Care] = []
    for care in reversed(known.care):
        if care.on < since:
            break
        is_flush = rain.washes(care, known.house)
        after = care.on > since or (with_its_day and is_flush)
        if after and care.what in WATERS:
            given.append(care)
    return tuple(reversed(given))


def _course(
    known: Known, pot_l: float, begins: tuple[date, Start], given: tuple[Care, ...]
) -> Course:
    since, start = begins
    medium = known.plant.medium or Medium.BARK
    mixing, (mixing_low, mixing_high) = MIXING[medium], mixing_range(medium)
    days = [since, *(care.on for care in given)]
    return Course(
        capacity_l=pot_l * HELD_SHARE[medium],
        starts=_starts(known, start),
        waterings=tuple(
            _watering(known, care, (care.on - before).days)
            for before, care in zip(days, given, strict=False)
        ),
        idle_days=(known.on - days[-1]).days,
        water_ec=known.house.water_ec_ms_per_cm,
        usual=Assumed(**USUAL, mixing=mixing),
        gentle=Assumed(**GENTLE, mixing=mixing_high),
        harsh=Assumed(**HARSH, mixing=mixing_low),
    )


def _starts(known: Known, start: Start) -> tuple[float, float, float]:
    """Give low, usual and high EC at the start, in mS/cm.

    A pot about to be flushed is taken to stand at its limit, at half as much again at
    most; fresh medium between clear water and half the limit, for old roots go along.
    """
    if start is Start.READING and known.reading is not None:
        ec = known.reading.runoff_ec_ms_per_cm or 0.0
        return ec, ec, ec
    water = known.house.water_ec_ms_per_cm
    over = max(0.0, known.kind.pot_ec_limit_ms_per_cm - water)
    shares = (0.0, 1.0, 1.5) if start is Start.FLUSH else (0.0, 0.25, 0.5)
    low, usual, high = (water + over * share for share in shares)
    return low, usual, high


def _watering(known: Known, care: Care, days: int) -> Watering:
    house = known.house
    water_ec = RAIN_EC if care.what is CareKind.RAIN else house.water_ec_ms_per_cm
    volume_l = _volume_l(known, care)
    if care.what is not CareKind.FEED:
        own = care.ec_ms_per_cm
        return Watering(days, volume_l, water_ec if own is None else own)
    if care.ec_ms_per_cm is not None:
        base = min(water_ec, care.ec_ms_per_cm)
        return Watering(days, volume_l, base, care.ec_ms_per_cm - base)
    ppm_n = care.strength_ppm_n
    ppm_n = usual_ppm_n(known.plant, house) if ppm_n is None else ppm_n
    feed_ec = house.ec_per_100_ppm_n_ms_per_cm * ppm_n / 100
    return Watering(days, volume_l, water_ec, feed_ec)


def _volume_l(known: Known, care: Care) -> float:
    if care.volume_l is not None:
        return care.volume_l
    pot_l = known.plant.pot_volume_l
    if care.rain_mm is not None and pot_l is not None:
        return rain.caught_l(pot_l, care.rain_mm)
    if care.what is CareKind.FLUSH:
        return known.plant.pot_volume_l or 0.0
    return round_l(known.plant, known.house) or 0.0
