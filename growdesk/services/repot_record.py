"""Keep a plant's pot in line with the repots on record of it.

The newest repot or division says when a plant was potted, the newest repot also into
what. A day, pot or medium that the grower gave the plant otherwise is left alone.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sqlalchemy import select

from growdesk.domain.case import REPOTTING
from growdesk.domain.facts import CareKind
from growdesk.store.schema import CareRow, PlantRow

if TYPE_CHECKING:
    from collections.abc import Mapping

    from sqlalchemy.orm import Session

    from growdesk.store.journal import Writing

    Row = Mapping[str, Any]

_POT = {"pot_volume_l": "pot", "medium": "medium"}
_STAYS = "What {} stood in before is not on record: {} stayed as it was."
_LATER = "{} stands in a later pot, which stays as it is."


def settle(
    writing: Writing, plant_id: int, before: Row | None, after: Row | None
) -> str:
    """Bring a plant's repot day, pot and medium in line with a repot just written.

    ``before`` and ``after`` are the row of care as it was and is, none where there was
    or is none. Gives a line for the grower where the plant does not follow, else
    nothing.
    """
    plant = _plant(writing.session, plant_id)
    repots = _repots(writing.session, plant_id)
    was_on, on = plant.repotted_on, plant.repotted_on
    days = [row.day for row in repots]
    if before is not None and before["what"] in REPOTTING and before["day"] == was_on:
        on = days[0] if days else None
    elif days and (on is None or days[0] > on):
        on = days[0]
    values: dict[str, Any] = {"repotted_on": on}
    told = ""
    if after is not None and after["what"] == CareKind.REPOT and after["day"] == on:
        values |= _given(before, after)
    else:
        told = _taken_back(plant, repots, before, values)
        if after is not None and any(after[field] is not None for field in _POT):
            told = _LATER.format(plant.tag)
    writing.update(PlantRow, plant_id, values)
    return told


def _given(before: Row | None, after: Row) -> dict[str, Any]:
    """Give what a plant's newest repot says anew of its pot."""
    return {
        field: after[field]
        for field in _POT
        if after[field] is not None
        and (before is None or before[field] != after[field])
    }


def _taken_back(
    plant: Any, repots: list[Any], before: Row | None, values: dict[str, Any]
) -> str:
    """Put back what a plant stood in before a repot that is no more its newest."""
    if before is None or before["day"] != plant.repotted_on:
        return ""
    unknown = []
    for field, named in _POT.items():
        if before[field] is None or before[field] != getattr(plant, field):
            continue
        earlier = [getattr(row, field) for row in repots]
        known = [each for each in earlier if each is not None]
        if known:
            values[field] = known[0]
        else:
            unknown.append(named)
    return _STAYS.format(plant.tag, " and ".join(unknown)) if unknown else ""


def _plant(session: Session, plant_id: int) -> Any:
    return session.execute(
        select(
            PlantRow.tag, PlantRow.repotted_on, PlantRow.pot_volume_l, PlantRow.medium
        ).where(PlantRow.id == plant_id)
    ).one()


def _repots(session: Session, plant_id: int) -> list[Any]:
    """Give the repots and divisions of a plant, newest first."""
    return list(
        session.execute(
            select(CareRow.day, CareRow.pot_volume_l, CareRow.medium)
            .where(CareRow.plant_id == plant_id, CareRow.what.in_(REPOTTING))
            .order_by(CareRow.day.desc(), CareRow.id.desc())
        )
    )
