"""Give what plants would get without the grower's overrule, before one is written."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct
from msgspec.structs import replace

from growdesk.domain import wording
from growdesk.domain.judging import judge
from growdesk.services.known import load_some
from growdesk.services.settings import read_house
from growdesk.services.shelf import house_with_water, read_waters

if TYPE_CHECKING:
    from collections.abc import Collection
    from datetime import date

    from growdesk.domain.facts import Overrule, Verdict, Water
    from growdesk.services.ledger import Ledger


class Unruled(Struct, frozen=True):
    """One plant as it is judged without an overrule, and the overrule that holds."""

    plant_id: int
    tag: str
    verdict: Verdict
    water: Water
    short_reason: str
    held: Overrule | None


def unruled(
    ledger: Ledger, plant_ids: Collection[int], on: date
) -> tuple[Unruled, ...]:
    """Judge plants on a day as if nobody had overruled them; in bench order."""
    with ledger.reading() as session:
        house = house_with_water(read_house(session), read_waters(session))
        known = load_some(session, on, plant_ids)
    found = []
    for each in known:
        said = each.plant.overrule
        bare = replace(each.plant, overrule=None)
        judged = judge(bare, each.kind, house, on, kind_known=each.kind_known)
        found.append(
            Unruled(
                each.plant_id,
                bare.tag,
                judged.verdict,
                judged.water,
                wording.short(judged),
                None if said is None or said.until < on else said,
            )
        )
    return tuple(found)
