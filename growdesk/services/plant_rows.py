"""Rows of plants as the services of plants read and check them."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any, NoReturn

from sqlalchemy import func, select

from growdesk.domain.errors import InputError
from growdesk.domain.holding import Status
from growdesk.domain.speech import mark, tr
from growdesk.services import left_words
from growdesk.services.plant_drafts import draft_of, values_of
from growdesk.services.standing import growing, here
from growdesk.store.mapping import status_of
from growdesk.store.rows import lots
from growdesk.store.schema import BenchRow, PlaceRow, PlantRow

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

    from growdesk.services.values import PlantDraft
    from growdesk.store.session import Session

_GONE = mark("It was removed; undo brings it back.")


def tag_order(tag: str) -> tuple[tuple[int, int, str], ...]:
    """Give a sort key under which A2 comes before A10."""
    parts = re.findall(r"[0-9]+|[^0-9]+", tag.casefold())
    return tuple(
        (0, int(part), "") if part.isdecimal() else (1, 0, part) for part in parts
    )


def counted(tags: Sequence[str]) -> str:
    """Give one plant by its tag and several by their number, for titles."""
    return (
        tr("Plant {tags}").format(tags=tags[0])
        if len(tags) == 1
        else tr("{count} plants").format(count=len(tags))
    )


def get_draft(session: Session, plant_id: int) -> PlantDraft:
    """Give one plant, or say that it is gone."""
    row = session.execute(
        select(PlantRow.__table__).where(here(), PlantRow.id == plant_id)
    ).one_or_none()
    if row is None:
        raise InputError("plant", plant_id, tr("is not there any more"), tr(_GONE))
    return draft_of(row)


def drafts_of(session: Session, plant_ids: Sequence[int]) -> dict[int, PlantDraft]:
    """Give plants in the order asked for, once each, or say which one is gone."""
    rows = session.execute(
        select(PlantRow.__table__).where(here(), PlantRow.id.in_(set(plant_ids)))
    )
    found = {row.id: draft_of(row) for row in rows}
    for plant_id in plant_ids:
        if plant_id not in found:
            raise InputError("plant", plant_id, tr("is not there any more"), tr(_GONE))
    return {plant_id: found[plant_id] for plant_id in plant_ids}


def growing_drafts(session: Session, plant_ids: Sequence[int]) -> dict[int, PlantDraft]:
    """Give plants that grow here; refuse none at all, and one that has left."""
    refuse_none(plant_ids)
    drafts = drafts_of(session, plant_ids)
    for draft in drafts.values():
        refuse_left(draft.tag, draft)
    return drafts


def refuse_none(plant_ids: Sequence[int]) -> None:
    """Refuse to do something to no plant at all."""
    if not plant_ids:
        raise InputError(
            "plants", tr("none"), tr("are chosen"), tr("Choose one plant or more.")
        )


def refuse_left(tag: str, plant: Any) -> None:
    """Refuse what can only be done to a plant that grows here; a row or a draft."""
    status = status_of(plant)
    if status is not Status.GROWING:
        told = left_words.when(status, plant.left_on)
        hint = tr("Say first that it is back in the collection.")
        raise InputError(
            "plants", tag, tr("is not here any more: {told}").format(told=told), hint
        )


def tags_of(session: Session, plant_ids: Sequence[int]) -> dict[int, str]:
    """Give the tags of plants in the order asked for, or say which one is gone."""
    wanted = select(PlantRow.id, PlantRow.tag).where(here())
    tags: dict[int, str] = {}
    for lot in lots(plant_ids):
        rows = session.execute(wanted.where(PlantRow.id.in_(lot)))
        tags |= {row.id: row.tag for row in rows}
    for plant_id in plant_ids:
        if plant_id not in tags:
            raise InputError("plant", plant_id, tr("is not there any more"), tr(_GONE))
    return {plant_id: tags[plant_id] for plant_id in plant_ids}


def tags_there(session: Session, plant_ids: Sequence[int], on: date) -> dict[int, str]:
    """Give the tags of plants that were here on a day; one that had left is refused."""
    tags = tags_of(session, plant_ids)
    left = select(PlantRow.tag, PlantRow.status, PlantRow.left_on).where(
        PlantRow.status != Status.GROWING, PlantRow.id.in_(tags)
    )
    for row in session.execute(left):
        if row.left_on is None or row.left_on < on:
            refuse_left(row.tag, row)
    return tags


def all_tags(session: Session) -> Sequence[str]:
    """Give the tags of all plants on record, of those that left too."""
    return session.scalars(select(PlantRow.tag).where(here())).all()


def by_tag(session: Session, tag: str) -> Any:
    """Give the row with a tag in whatever case: its number, status, the day it left."""
    folded = tag.casefold()
    for row in _tagged(session):
        if row.tag.casefold() == folded:
            return row
    return None


def _tagged(session: Session) -> Sequence[Any]:
    wanted = (PlantRow.id, PlantRow.tag, PlantRow.status, PlantRow.left_on)
    return session.execute(select(*wanted).where(here())).all()


def refuse_taken(session: Session, tags: Sequence[str]) -> None:
    """Refuse new plants' tags where one of them is on a plant already."""
    wanted = {tag.casefold(): tag for tag in tags}
    for row in _tagged(session):
        if row.tag.casefold() in wanted:
            _refuse_tag(row, wanted[row.tag.casefold()])


def refuse_second(session: Session, tag: str, plant_id: int | None) -> None:
    """Refuse a tag that another plant has; one that left keeps its own."""
    there = by_tag(session, tag)
    if there is not None and there.id != plant_id:
        _refuse_tag(there, tag)


def _refuse_tag(there: Any, tag: str) -> NoReturn:
    status = status_of(there)
    if status is Status.GROWING:
        hint = tr("Give this plant another tag.")
        raise InputError("tag", tag, tr("is on another plant already"), hint)
    told = left_words.when(status, there.left_on)
    hint = tr("Its records keep the tag; give this plant another one.")
    raise InputError(
        "tag", tag, tr("is on a plant that was {told}").format(told=told), hint
    )


def placed(session: Session, draft: PlantDraft) -> dict[str, object]:
    """Give a plant's values, its place and bench checked and its number made."""
    values = values_of(draft)
    refuse_no_place(session, draft.place_id, draft.bench_id)
    if draft.bench is None:
        values["bench"] = last_number(session, draft.place_id, draft.bench_id) + 1
    return values


def last_number(session: Session, place_id: int | None, bench_id: int | None) -> int:
    """Give the highest number along a bench, or of what stands on none; 0 for none."""
    last = session.scalar(
        select(func.max(PlantRow.bench)).where(
            growing(),
            PlantRow.place_id.is_not_distinct_from(place_id),
            PlantRow.bench_id.is_not_distinct_from(bench_id),
        )
    )
    return last or 0


def refuse_no_place(
    session: Session, place_id: int | None, bench_id: int | None
) -> str | None:
    """Refuse a place that is gone and a bench of another one; give the place's name."""
    name: str | None = None
    if place_id is not None:
        name = session.scalar(select(PlaceRow.name).where(PlaceRow.id == place_id))
        if name is None:
            hint = tr("Choose another place.")
            raise InputError("place_id", place_id, tr("is not there any more"), hint)
    if bench_id is None:
        return name
    bench = session.execute(
        select(BenchRow.name, BenchRow.place_id).where(BenchRow.id == bench_id)
    ).one_or_none()
    if bench is None:
        hint = tr("Choose another bench.")
        raise InputError("bench_id", bench_id, tr("is not there any more"), hint)
    if bench.place_id != place_id:
        where = (
            tr("is no bench of {name}").format(name=name)
            if name
            else tr("is a bench, but no place is set")
        )
        hint = tr("Choose a bench of that place, or none.")
        raise InputError("bench_id", bench.name, where, hint)
    return name
