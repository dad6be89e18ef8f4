"""Keep a plant's pot in line with the repots on record of it.

The newest repot or division says when a plant was potted, the newest repot also into
what. A day, pot or medium that the grower gave the plant otherwise is left alone.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sqlalchemy import select

from growdesk.domain.case import REPOTTING
from growdesk.domain.facts import CareKind
from growdesk.domain.phrases import listed
from growdesk.domain.speech import Phrases, mark, tr
from growdesk.store.schema import CareRow, PlantRow

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from growdesk.store.journal import Writing
    from growdesk.store.session import Session

    Row = Mapping[str, Any]

_POT = Phrases({"pot_volume_l": "pot", "medium": "medium"})
_FOLLOWS = ("repotted_on", *_POT)
_STAYS = mark("What {tag} stood in before is not on record: {parts} stayed as it was.")
_LATER = mark("{tag} stands in a later pot, which stays as it is.")


def settle(
    writing: Writing, settled: Sequence[tuple[int, Row | None, Row | None]]
) -> tuple[str, ...]:
    """Bring plants' repot day, pot and medium in line with repots just written.

    Each is a plant's number and the row of care as it was and is, none where there was
    or is none. Gives a line for the grower for each plant that does not follow.
    """
    wanted = list(dict.fromkeys(plant_id for plant_id, _, _ in settled))
    if not wanted:
        return ()
    plants = _plants(writing.session, wanted)
    repots = _repots(writing.session, wanted)
    told = [
        _settle(plants[plant_id], repots.get(plant_id, []), before, after)
        for plant_id, before, after in settled
    ]
    writing.update_many(
        PlantRow,
        [(each, {name: plants[each][name] for name in _FOLLOWS}) for each in wanted],
    )
    return tuple(filter(None, told))


def _settle(
    plant: dict[str, Any], repots: list[Any], before: Row | None, after: Row | None
) -> str:
    """Bring one plant's values in line; give a line where it does not follow."""
    was_on, on = plant["repotted_on"], plant["repotted_on"]
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
            told = tr(_LATER).format(tag=plant["tag"])
    plant.update(values)
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
    plant: Row, repots: list[Any], before: Row | None, values: dict[str, Any]
) -> str:
    """Put back what a plant stood in before a repot that is no more its newest."""
    if before is None or before["day"] != plant["repotted_on"]:
        return ""
    unknown = []
    for field, named in _POT.items():
        if before[field] is None or before[field] != plant[field]:
            continue
        earlier = [getattr(row, field) for row in repots]
        known = [each for each in earlier if each is not None]
        if known:
            values[field] = known[0]
        else:
            unknown.append(named)
    if not unknown:
        return ""
    return tr(_STAYS).format(tag=plant["tag"], parts=listed(unknown))


def _plants(session: Session, plant_ids: Sequence[int]) -> dict[int, dict[str, Any]]:
    wanted = select(PlantRow.__table__).where(PlantRow.id.in_(plant_ids))
    return {row["id"]: dict(row) for row in session.execute(wanted).mappings()}


def _repots(session: Session, plant_ids: Sequence[int]) -> dict[int, list[Any]]:
    """Give the repots and divisions of plants, newest first."""
    found: dict[int, list[Any]] = {}
    for row in session.execute(
        select(CareRow.plant_id, CareRow.day, CareRow.pot_volume_l, CareRow.medium)
        .where(CareRow.plant_id.in_(plant_ids), CareRow.what.in_(REPOTTING))
        .order_by(CareRow.day.desc(), CareRow.id.desc())
    ):
        found.setdefault(row.plant_id, []).append(row)
    return found
