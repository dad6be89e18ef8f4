"""Where a plant's pot may stand between two readings of its runoff, and what washes it.

An estimate and told as one: a range that opens with the days, from the last reading of
the runoff, else from the last flush or repot. What was given since, and the shares
assumed, stand in ``salt_course``; the balance itself is in ``salt_balance``.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.domain.facts import CareKind
from growdesk.domain.salt_balance import leach_l, poured, standing_ec
from growdesk.domain.salt_course import Start

if TYPE_CHECKING:
    from collections.abc import Iterator
    from datetime import date

    from growdesk.domain.case import Case
    from growdesk.domain.salt_course import Salts

# Ours: a reading of the runoff is good to a tenth, and loosens with the days.
READ_DOUBT = 0.10
DOUBT_A_DAY = 0.0025
MOST_DOUBT = 0.20
MOST_POTS = 3.0
"""The most a flush pours at once, in pots; beyond it, it is done twice."""


class Standing(Struct, frozen=True):
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


class Flush(Struct, frozen=True):
    """The clear water that brings a pot halfway between its limit and that water."""

    volume_l: float
    goal_ms_per_cm: float
    twice: bool


def standing(case: Case) -> Standing | None:
    """Give where the pot may stand, or nothing where there is nothing to go by."""
    salts = case.salts
    if salts is None:
        return None
    course, ended, since = salts.course, salts.ended, salts.since
    doubt = min(MOST_DOUBT, READ_DOUBT + DOUBT_A_DAY * (case.on - since).days)
    waters = [each.water_ec for each in course.waterings]
    floor = min([ended.low, *waters, case.house.water_ec_ms_per_cm])
    return Standing(
        ec_ms_per_cm=ended.ec,
        low=max(ended.low * (1 - doubt), floor),
        high=ended.high * (1 + doubt),
        since=since,
        start=salts.start,
        waterings=len(course.waterings) - (salts.start is Start.FLUSH),
        held_l=course.capacity_l,
        read_ms_per_cm=course.starts[0] if salts.start is Start.READING else None,
        assumptions=tuple(_assumptions(case, salts)),
    )


def flush(case: Case) -> Flush | None:
    """Give the flush that a pot needs by its estimate: a pot's volume at the least.

    Nothing where there is no estimate, or where the water is no weaker than the limit.
    """
    pot_l, salts = case.plant.pot_volume_l, case.salts
    if salts is None or pot_l is None or water_too_salty(case):
        return None
    water_ec = case.house.water_ec_ms_per_cm
    goal = (water_ec + case.kind.pot_ec_limit_ms_per_cm) / 2
    wanted_l = leach_l(salts.usual, water_ec, goal, salts.course.usual.mixing)
    if wanted_l is None:
        return None
    most_l = MOST_POTS * pot_l
    return Flush(min(max(wanted_l, pot_l), most_l), goal, wanted_l > most_l)


def water_too_salty(case: Case) -> bool:
    """Tell whether the water in use is itself no weaker than the kind's limit."""
    return case.house.water_ec_ms_per_cm >= case.kind.pot_ec_limit_ms_per_cm


def after_flush(case: Case, volume_l: float) -> float | None:
    """Give the EC that so much clear water should leave in the pot, in mS/cm."""
    salts = case.salts
    if salts is None:
        return None
    course = salts.course
    done = poured(salts.usual, volume_l, course.water_ec, course.usual.mixing)
    return standing_ec(done.store, course.water_ec)


def _assumptions(case: Case, salts: Salts) -> Iterator[str]:
    if case.plant.medium is None:
        yield "medium"
    if any(care.volume_l is None for care in salts.given):
        yield "litres"
    feeds = [care for care in salts.given if care.what is CareKind.FEED]
    if any(c.strength_ppm_n is None and c.ec_ms_per_cm is None for c in feeds):
        yield "strength"
    slow = case.plant.slow_release_until
    if slow is not None and slow >= salts.since:
        yield "slow-release"
