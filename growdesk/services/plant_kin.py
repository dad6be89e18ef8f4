"""Descent within the collection: what a plant comes from, and what came of it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sqlalchemy import select, union_all

from growdesk.domain.errors import InputError
from growdesk.domain.speech import tr
from growdesk.services import left_words
from growdesk.services.plant_rows import get_draft, tag_order
from growdesk.services.plant_values import Kin
from growdesk.services.standing import here
from growdesk.store.mapping import descent_of, status_of
from growdesk.store.schema import PlantRow

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from growdesk.services.values import PlantDraft
    from growdesk.store.session import Session

    Kindred = tuple[tuple[Kin, ...], tuple[Kin, ...]]


def kin_of(session: Session, plant_id: int) -> Kindred:
    """Give the plants that one comes from, and those that came of it.

    Its parent comes first, then that one's parent; each that came of it stands before
    those that came of that one. A plant in the bin ends the line.
    """
    rows = _related(session)
    return tuple(_up(rows, plant_id)), tuple(_down(rows, plant_id))


def refuse_kin(session: Session, draft: PlantDraft, plant_id: int | None) -> None:
    """Refuse a parent that is not there, is the plant itself or came of it."""
    parent_id = draft.parent_id
    if parent_id is None:
        return
    parents = _parents(session)
    if parent_id not in parents:
        hint = tr("Name another plant, or none.")
        raise InputError("parent_id", parent_id, tr("is not there any more"), hint)
    if plant_id is None:
        return
    hint = tr("Name the plant that it was really taken from, or none.")
    tag = get_draft(session, parent_id).tag
    if parent_id == plant_id:
        raise InputError("parent_id", tag, tr("is this plant itself"), hint)
    above: int | None = parent_id
    seen: set[int] = set()
    while above is not None and above not in seen:
        seen.add(above)
        above = parents.get(above)
        if above == plant_id:
            raise InputError(
                "parent_id", tag, tr("came of {tag} itself").format(tag=draft.tag), hint
            )


def _parents(session: Session) -> dict[int, int | None]:
    rows = session.execute(select(PlantRow.id, PlantRow.parent_id).where(here()))
    return {row.id: row.parent_id for row in rows}


def _related(session: Session) -> dict[int, Any]:
    """Give the plants that have a parent or are one, by number, in one statement."""
    wanted = select(
        PlantRow.id,
        PlantRow.tag,
        PlantRow.name,
        PlantRow.parent_id,
        PlantRow.parent_how,
        PlantRow.status,
        PlantRow.left_on,
    ).where(here())
    parents = select(PlantRow.parent_id).where(PlantRow.parent_id.is_not(None))
    rows = session.execute(
        union_all(
            wanted.where(PlantRow.parent_id.is_not(None)),
            wanted.where(PlantRow.id.in_(parents)),
        )
    )
    return {row.id: row for row in rows}


def _up(rows: Mapping[int, Any], plant_id: int) -> Iterator[Kin]:
    younger, steps, seen = rows.get(plant_id), 1, {plant_id}
    while younger is not None and younger.parent_id not in seen:
        older = rows.get(younger.parent_id)
        if older is None:
            return
        yield _kin(older, younger, steps)
        seen.add(older.id)
        younger, steps = older, steps + 1


def _down(rows: Mapping[int, Any], plant_id: int) -> Iterator[Kin]:
    children: dict[int, list[Any]] = {}
    for row in sorted(rows.values(), key=lambda row: tag_order(row.tag), reverse=True):
        children.setdefault(row.parent_id, []).append(row)
    waiting, seen = [(row, 1) for row in children.get(plant_id, ())], {plant_id}
    while waiting:
        row, steps = waiting.pop()
        if row.id in seen:
            continue
        seen.add(row.id)
        yield _kin(row, row, steps)
        waiting += [(child, steps + 1) for child in children.get(row.id, ())]


def _kin(row: Any, younger: Any, steps: int) -> Kin:
    status = status_of(row)
    return Kin(
        plant_id=row.id,
        tag=row.tag,
        name=row.name,
        how=descent_of(younger),
        left=left_words.when(status, row.left_on) if status in left_words.WORDS else "",
        steps=steps,
    )
