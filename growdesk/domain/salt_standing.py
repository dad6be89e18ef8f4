"""Where a plant's pot may stand between two readings of its runoff, and what washes it.

An estimate and told as one: a range that opens with the days, from the last reading of
the runoff, else from the last flush or repot. The shares assumed stand here, each with
its source; the balance itself is in ``salt_balance``.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from growdesk.domain.facts import CareKind, Look, Medium
from growdesk.domain.pouring import round_l
from growdesk.domain.salt_balance import (
    Assumed,
    Course,
    Ended,
    Watering,
    end_of,
    leach_l,
    poured,
    standing_ec,
)

if TYPE_CHECKING:
    from collections.abc import Iterator
    from datetime import date

    from growdesk.domain.case import Case
    from growdesk.domain.facts import Care

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
# Ours: a reading of the runoff is good to a tenth, and loosens with the days.
READ_DOUBT = 0.10
DOUBT_A_DAY = 0.0025
MOST_DOUBT = 0.20
MOST_DAYS = 365
RAIN_EC = 0.02
"""From memory: rain that falls on the plant itself reads 0.01 to 0.05 mS/cm."""
LEAST_POT_L = 0.01
MOST_POTS = 3.0
"""The most a flush pours at once, in pots; beyond it, it is done twice."""
WATERS = (CareKind.FEED, CareKind.CLEAR_WATER, CareKind.FLUSH, CareKind.RAIN)


class Start(StrEnum):
    """What an estimate begins with."""

    READING = "reading"
    FLUSH = "flush"
    REPOT = "repot"


@dataclass(frozen=True, slots=True)
class Standing:
    """Where the pot may stand, in mS/cm at 25 °C, with what that goes by.

    ``assumptions`` are keys: what was not on record and had to be taken for granted.
    """

    ec_ms_per_cm: float
    low: float
    high: float
    since: date
    start: Start
    waterings: int
    held_l: float
    read_ms_per_cm: float | None
    assumptions: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Flush:
    """The clear water that brings a pot halfway between its limit and that water."""

    volume_l: float
    goal_ms_per_cm: float
    twice: bool


def newest_reading(case: Case) -> Look | None:
    """Give the newest look at which the runoff was read."""
    read = (k for k in reversed(case.looks) if k.runoff_ec_ms_per_cm is not None)
    return next(read, None)


def standing(case: Case) -> Standing | None:
    """Give where the pot may stand, or nothing where there is nothing to go by."""
    found = _followed(case)
    if found is None:
        return None
    (since, start), course, ended = found
    doubt = min(MOST_DOUBT, READ_DOUBT + DOUBT_A_DAY * (case.on - since).days)
    waters = [each.water_ec for each in course.waterings]
    floor = min([ended.low, *waters, case.house.water_ec_ms_per_cm])
    return Standing(
        ec_ms_per_cm=ended.ec,
        low=max(ended.low * (1 - doubt), floor),
        high=ended.high * (1 + doubt),
        since=since,
        start=start,
        waterings=len(course.waterings) - (start is Start.FLUSH),
        held_l=course.capacity_l,
        read_ms_per_cm=course.starts[0] if start is Start.READING else None,
        assumptions=tuple(_assumptions(case, since, start)),
    )


def flush(case: Case) -> Flush | None:
    """Give the flush that a pot needs by its estimate: a pot's volume at the least.

    Nothing where there is no estimate, or where the water is no weaker than the limit.
    """
    pot_l = case.plant.pot_volume_l
    found = _followed(case)
    water_ec = case.house.water_ec_ms_per_cm
    if found is None or pot_l is None:
        return None
    _, course, ended = found
    goal = (water_ec + case.kind.pot_ec_limit_ms_per_cm) / 2
    wanted_l = leach_l(ended.store, water_ec, goal, course.usual.mixing)
    if wanted_l is None:
        return None
    most_l = MOST_POTS * pot_l
    return Flush(min(max(wanted_l, pot_l), most_l), goal, wanted_l > most_l)


def after_flush(case: Case, volume_l: float) -> float | None:
    """Give the EC that so much clear water should leave in the pot, in mS/cm."""
    found = _followed(case)
    if found is None:
        return None
    _, course, ended = found
    done = poured(ended.store, volume_l, course.water_ec, course.usual.mixing)
    return standing_ec(done.store, course.water_ec)


def mixing_range(medium: Medium) -> tuple[float, float]:
    """Give the least and most of what runs through that carries salts off."""
    usual = MIXING[medium]
    return usual * (1 - MIXING_DOUBT), usual * (1 + MIXING_DOUBT)


def _followed(case: Case) -> tuple[tuple[date, Start], Course, Ended] | None:
    pot_l = case.plant.pot_volume_l
    if pot_l is None or pot_l < LEAST_POT_L:
        return None
    if case.plant.mounted or case.plant.medium is Medium.NONE:
        return None
    begins = _begins(case)
    if begins is None:
        return None
    course = _course(case, pot_l, *begins)
    return begins, course, end_of(course)


def _begins(case: Case) -> tuple[date, Start] | None:
    """Give the latest reading of a year, or a later repot; else the last washing."""
    look, washed = newest_reading(case), case.last(CareKind.FLUSH)
    repotted = case.repotted_on

    def late_enough(day: date | None) -> date | None:
        return None if day is None or (case.on - day).days > MOST_DAYS else day

    read_on = late_enough(look.on if look else None)
    flushed = late_enough(washed.on if washed else None)
    repotted = late_enough(repotted)
    if read_on is not None and (repotted is None or read_on > repotted):
        return read_on, Start.READING
    if repotted is not None and (flushed is None or repotted >= flushed):
        return repotted, Start.REPOT
    return None if flushed is None else (flushed, Start.FLUSH)


def _course(case: Case, pot_l: float, since: date, start: Start) -> Course:
    medium = case.plant.medium or Medium.BARK
    mixing, (mixing_low, mixing_high) = MIXING[medium], mixing_range(medium)
    given = list(_given(case, since, start))
    days = [since, *(care.on for care in given)]
    return Course(
        capacity_l=pot_l * HELD_SHARE[medium],
        starts=_starts(case, start),
        waterings=tuple(
            _watering(case, care, (care.on - before).days)
            for before, care in zip(days, given, strict=False)
        ),
        idle_days=(case.on - days[-1]).days,
        water_ec=case.house.water_ec_ms_per_cm,
        usual=Assumed(**USUAL, mixing=mixing),
        gentle=Assumed(**GENTLE, mixing=mixing_high),
        harsh=Assumed(**HARSH, mixing=mixing_low),
    )


def _starts(case: Case, start: Start) -> tuple[float, float, float]:
    """Give low, usual and high EC at the start, in mS/cm.

    A pot about to be flushed is taken to stand at its limit, at half as much again at
    most; fresh medium between clear water and half the limit, for old roots go along.
    """
    look = newest_reading(case)
    if start is Start.READING and look is not None:
        ec = look.runoff_ec_ms_per_cm or 0.0
        return ec, ec, ec
    water = case.house.water_ec_ms_per_cm
    over = max(0.0, case.kind.pot_ec_limit_ms_per_cm - water)
    shares = (0.0, 1.0, 1.5) if start is Start.FLUSH else (0.0, 0.25, 0.5)
    low, usual, high = (water + over * share for share in shares)
    return low, usual, high


def _given(case: Case, since: date, start: Start) -> Iterator[Care]:
    """Give what was poured since the start; a flush of its own day comes after it."""
    with_its_day = start in (Start.READING, Start.FLUSH)
    for care in case.care:
        if care.what not in WATERS or care.on < since:
            continue
        if care.on > since or (with_its_day and care.what is CareKind.FLUSH):
            yield care


def _watering(case: Case, care: Care, days: int) -> Watering:
    house = case.house
    water_ec = RAIN_EC if care.what is CareKind.RAIN else house.water_ec_ms_per_cm
    if care.what is not CareKind.FEED:
        own = care.ec_ms_per_cm
        return Watering(days, _volume_l(case, care), water_ec if own is None else own)
    if care.ec_ms_per_cm is not None:
        base = min(water_ec, care.ec_ms_per_cm)
        feed_ec = care.ec_ms_per_cm - base
    else:
        ppm_n = care.strength_ppm_n
        ppm_n = usual_ppm_n(case) if ppm_n is None else ppm_n
        base, feed_ec = water_ec, house.ec_per_100_ppm_n_ms_per_cm * ppm_n / 100
    return Watering(days, _volume_l(case, care), base, feed_ec)


def usual_ppm_n(case: Case) -> float:
    """Give the strength a feed is taken at where none is on record, in ppm N."""
    return case.plant.full_strength_ppm_n or case.house.full_strength_ppm_n


def _volume_l(case: Case, care: Care) -> float:
    if care.volume_l is not None:
        return care.volume_l
    if care.what is CareKind.FLUSH:
        return case.plant.pot_volume_l or 0.0
    return round_l(case.plant, case.house) or 0.0


def _assumptions(case: Case, since: date, start: Start) -> Iterator[str]:
    given = list(_given(case, since, start))
    if case.plant.medium is None:
        yield "medium"
    if any(care.volume_l is None for care in given):
        yield "litres"
    feeds = [care for care in given if care.what is CareKind.FEED]
    if any(c.strength_ppm_n is None and c.ec_ms_per_cm is None for c in feeds):
        yield "strength"
    slow = case.plant.slow_release_until
    if slow is not None and slow >= since:
        yield "slow-release"
