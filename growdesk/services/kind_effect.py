"""What a correction would turn among the plants it bears on, found by judging them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.judging import judge
from growdesk.services.kind_values import KindEffect, Turned
from growdesk.services.settings import read_house
from growdesk.services.shelf import house_with_water, read_waters

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

    from growdesk.domain.facts import House
    from growdesk.domain.kinds import Kind
    from growdesk.services.known import Known
    from growdesk.store.session import Session


def effect_of(
    session: Session, on: date, found: Sequence[Known], kinds: Sequence[Kind]
) -> KindEffect:
    """Give what turns on a day where each plant found is of the kind beside it."""
    house = house_with_water(read_house(session), read_waters(session))
    turned = (
        _turned(known, kind, house, on)
        for known, kind in zip(found, kinds, strict=True)
    )
    return KindEffect(len(found), tuple(each for each in turned if each is not None))


def _turned(known: Known, kind: Kind, house: House, on: date) -> Turned | None:
    is_known = known.kind_known
    before = judge(known.plant, known.kind, house, on, kind_known=is_known)
    after = judge(known.plant, kind, house, on, kind_known=is_known)
    strengths = (before.strength_ppm_n, after.strength_ppm_n)
    if before.verdict is after.verdict and strengths[0] == strengths[1]:
        return None
    return Turned(known.plant.tag, before.verdict, after.verdict, *strengths)
