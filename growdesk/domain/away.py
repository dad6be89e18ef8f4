"""What a helper gives while the grower is away: clear water or nothing, never a choice.

The days before leaving are walked as planned. From then on nothing is fed: a plant
that would be fed gets clear water instead, one that is due a flush one plain watering,
since both can wait and clear water hurts nothing that drinks. What is kept dry stays
dry. What is watered only if its pot is light is a choice, and a helper has none: it is
watered when ``SPARE_DAYS`` have passed since its last water, since a plant that hardly
moves bears a dry week better than a wet one. That is ours; common practice, no source.

One water is used for all: where one pot wants purer water than is in use, and such
water is on the shelf, all get that.

A look that is in date on the first day away stays so until the grower is back: nobody
looks, and a plant does not stop drinking for it. An older look withholds as ever.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from msgspec import Struct
from msgspec.structs import replace

from growdesk.domain import rain
from growdesk.domain.case import Case
from growdesk.domain.facts import Care, CareKind, Flowering, Leaves, Verdict, Water
from growdesk.domain.judging import judge
from growdesk.domain.kinds import GENERAL_KEY, Rest
from growdesk.domain.pouring import pour_l
from growdesk.domain.rules import potting

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

    from growdesk.domain.facts import House, Plant
    from growdesk.domain.kinds import Kind

SPARE_DAYS: Final = 10
_WATER: Final = frozenset({CareKind.FEED, CareKind.CLEAR_WATER, CareKind.FLUSH})
_IN_BUD: Final = frozenset({Flowering.SPIKE, Flowering.BUDS, Flowering.OPEN})
_BARE: Final = frozenset({Leaves.LEAFLESS, Leaves.YELLOWING, Leaves.DROPPING})


class Given(Struct, frozen=True):
    """One watering: the day, and the litres of clear water, or None where not known."""

    on: date
    volume_l: float | None
    wants_pure: bool = False


class AwayPlant(Struct, frozen=True):
    """What one plant gets while the grower is away; nothing given is *do not water*.

    ``wants_pure`` says that the water in use is too salty for its pot now.
    ``bare_is_right`` says that it rests leafless, or is about to, and may look dead.
    """

    given: tuple[Given, ...]
    bare_is_right: bool = False
    in_bud: bool = False
    suspect: bool = False
    newcomer: bool = False
    wants_pure: bool = False


def away_plant(
    plant: Plant, kind: Kind, house: House, days: Sequence[date]
) -> AwayPlant:
    """Walk one plant over the watering days away; it stands as on the first of them."""
    given: list[Given] = []
    standing = plant
    for day in days:
        rules = _in_date(house, (day - days[0]).days)
        volume = _given(standing, kind, rules, day)
        if volume is None:
            continue
        given.append(volume)
        care = Care(day, CareKind.CLEAR_WATER, volume_l=volume.volume_l)
        standing = replace(standing, care=(*standing.care, care))
    case = Case(plant, kind, house, days[0])
    look = case.look
    flowering = (look.flowering if look is not None else None) or frozenset()
    return AwayPlant(
        given=tuple(given),
        bare_is_right=not given and _rests_bare(case),
        in_bud=bool(flowering & _IN_BUD),
        suspect=case.suspect,
        newcomer=case.newcomer_until is not None,
        wants_pure=any(each.wants_pure for each in given),
    )


def _in_date(house: House, days_away: int) -> House:
    """Give the house rules with looks in date as long as on the first day away."""
    return replace(house, look_limit_days=house.look_limit_days + days_away)


def _given(plant: Plant, kind: Kind, house: House, day: date) -> Given | None:
    known = kind.key != GENERAL_KEY
    found = judge(plant, kind, house, day, kind_known=known)
    if found.water is Water.NONE:
        return None
    if found.water is Water.IF_DRY and not _long_dry(plant, house, day):
        return None
    sparing = found.water is Water.SPARING
    water = Water.SPARING if sparing else Water.THROUGH
    return Given(
        day,
        pour_l(plant, house, Verdict.CLEAR_WATER, water),
        any(reason.key == potting.WATER_TOO_SALTY for reason in found.reasons),
    )


def _long_dry(plant: Plant, house: House, day: date) -> bool:
    """Tell whether a plant had no water for so long; none on record is long enough."""
    watered = [
        care.on
        for care in plant.care
        if care.on < day and (care.what in _WATER or rain.waters(care, house))
    ]
    return not watered or (day - max(watered)).days >= SPARE_DAYS


def _rests_bare(case: Case) -> bool:
    """Tell whether a plant that gets no water may be without leaves and be well."""
    if case.kind.rest is not Rest.LEAFLESS:
        return False
    look = case.look
    return look is None or look.leaves is None or look.leaves in _BARE
