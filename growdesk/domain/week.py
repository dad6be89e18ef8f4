"""The week: the same judging walked forward over its watering days.

Exists because Saturday's verdict depends on what Wednesday's round gives. Each day's
planned care is taken as done and dated that day, then the next day is judged. It knows
no calendar of its own, no jugs and no words: the days and the strength each plant
is really served at are handed in.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct
from msgspec.structs import replace

from growdesk.domain.facts import Care, CareKind, Verdict
from growdesk.domain.judging import judge
from growdesk.domain.kinds import GENERAL_KEY
from growdesk.domain.pouring import pour_l

if TYPE_CHECKING:
    from collections.abc import Callable, Collection, Sequence
    from datetime import date

    from growdesk.domain.explain import Judgement
    from growdesk.domain.facts import House, Plant
    from growdesk.domain.kinds import Kind

    Served = Callable[[tuple[Judgement, ...]], Sequence[float | None]]

_PLANNED = {
    Verdict.FEED: CareKind.FEED,
    Verdict.CLEAR_WATER: CareKind.CLEAR_WATER,
    Verdict.FLUSH: CareKind.FLUSH,
}
OUTCOMES = frozenset({*_PLANNED.values(), CareKind.RAIN})
"""Care that settles a plant's round: what was planned, or rain."""


class Settled(Struct, frozen=True):
    """What is already settled of the days walked, besides the care on record.

    ``passed_by`` holds tag and day of plants passed by, still damp. On ``by_record``
    days nothing is taken as done beyond what the record says.
    """

    passed_by: Collection[tuple[str, date]] = ()
    by_record: Collection[date] = ()


class Round(Struct, frozen=True):
    """One day of the walk: the plants as they stand that morning, each judged.

    ``served_ppm_n`` is what each would be fed at from its jug, in mg N per litre.
    """

    on: date
    plants: tuple[Plant, ...]
    judged: tuple[Judgement, ...]
    served_ppm_n: tuple[float | None, ...]


def own_strengths(judged: tuple[Judgement, ...]) -> tuple[float | None, ...]:
    """Give each plant its own strength, as if every plant had a jug to itself."""
    return tuple(judgement.strength_ppm_n for judgement in judged)


def walk(
    plants: Sequence[Plant],
    kinds: Sequence[Kind],
    house: House,
    days: Sequence[date],
    *,
    served: Served = own_strengths,
    settled: Settled | None = None,
) -> tuple[tuple[Judgement, ...], ...]:
    """Judge every plant on every day in turn, the days before taken as done.

    ``kinds`` stand beside ``plants``. ``served`` gives the strength in mg N per litre
    that each judged plant gets from its jug. The plants handed in are not changed.
    """
    rounds = walk_rounds(plants, kinds, house, days, served=served, settled=settled)
    return tuple(each.judged for each in rounds)


def walk_rounds(
    plants: Sequence[Plant],
    kinds: Sequence[Kind],
    house: House,
    days: Sequence[date],
    *,
    served: Served = own_strengths,
    settled: Settled | None = None,
) -> tuple[Round, ...]:
    """Give the walk with the plants as they stand on each of its days."""
    known = settled or Settled()
    standing = tuple(plants)
    rounds: list[Round] = []
    for day in sorted(days):
        judged = tuple(
            judge(plant, kind, house, day, kind_known=kind.key != GENERAL_KEY)
            for plant, kind in zip(standing, kinds, strict=True)
        )
        strengths = tuple(served(judged))
        rounds.append(Round(day, standing, judged, strengths))
        standing = tuple(
            _afterwards(plant, judgement, strength, house, known)
            for plant, judgement, strength in zip(
                standing, judged, strengths, strict=True
            )
        )
    return tuple(rounds)


def _afterwards(
    plant: Plant,
    judgement: Judgement,
    strength_ppm_n: float | None,
    house: House,
    known: Settled,
) -> Plant:
    """Give the plant as it stands once the round is done as planned."""
    given = planned_care(judgement, strength_ppm_n)
    if given is None or _settled(plant, judgement, known):
        return plant
    volume_l = pour_l(
        plant, house, judgement.verdict, judgement.water, judgement.flush_l
    )
    return replace(plant, care=(*plant.care, replace(given, volume_l=volume_l)))


def planned_care(judgement: Judgement, strength_ppm_n: float | None) -> Care | None:
    """Give the care that a verdict plans; ``strength_ppm_n`` is what the jug holds."""
    planned = _PLANNED.get(judgement.verdict)
    if planned is None:
        return None
    return Care(
        on=judgement.on,
        what=planned,
        strength_ppm_n=strength_ppm_n if planned is CareKind.FEED else None,
    )


def _settled(plant: Plant, judgement: Judgement, known: Settled) -> bool:
    """Say whether the day's round is already settled for this plant."""
    day = judgement.on
    if day in known.by_record or (plant.tag, day) in known.passed_by:
        return True
    return any(care.on == day and care.what in OUTCOMES for care in plant.care)
