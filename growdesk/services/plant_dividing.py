"""Take new plants from one: divisions, back bulbs, keikis, seedlings, as one action.

A division is the same plant, so that it keeps the parent's name, kind, papers, own
rules and corrections of its kind; a seedling is another one and keeps none of the last
two. What was done is written with the parent and with each new plant.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sqlalchemy import select

from growdesk.domain.errors import InputError
from growdesk.domain.facts import CareKind
from growdesk.domain.holding import Descent
from growdesk.domain.speech import Phrases, tr
from growdesk.services import checking
from growdesk.services.ledger import written
from growdesk.services.plant_drafts import checked, values_of
from growdesk.services.plant_rows import get_draft, placed, refuse_left, refuse_taken
from growdesk.services.values import PlantDraft
from growdesk.store.schema import CareRow, PlantCorrectionRow, PlantRow

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

    from growdesk.services.ledger import Ledger
    from growdesk.services.plant_values import Dividing
    from growdesk.services.values import Written
    from growdesk.store.journal import Writing

MOST = 200
"""More new plants than that from one pot are a slip of the key."""
_ONE_OF_PLANT = Phrases(
    {
        Descent.DIVISION: "Division of plant {tag}",
        Descent.BACK_BULB: "Back bulb of plant {tag}",
        Descent.KEIKI: "Keiki of plant {tag}",
        Descent.SEEDLING: "Seedling of plant {tag}",
    }
)
_SEVERAL_OF_PLANT = Phrases(
    {
        Descent.DIVISION: "Divisions of plant {tag}",
        Descent.BACK_BULB: "Back bulbs of plant {tag}",
        Descent.KEIKI: "Keikis of plant {tag}",
        Descent.SEEDLING: "Seedlings of plant {tag}",
    }
)
_ONE = Phrases(
    {
        Descent.DIVISION: "Division: {tags}.",
        Descent.BACK_BULB: "Back bulb: {tags}.",
        Descent.KEIKI: "Keiki: {tags}.",
        Descent.SEEDLING: "Seedling: {tags}.",
    }
)
_SEVERAL = Phrases(
    {
        Descent.DIVISION: "Divisions: {tags}.",
        Descent.BACK_BULB: "Back bulbs: {tags}.",
        Descent.KEIKI: "Keikis: {tags}.",
        Descent.SEEDLING: "Seedlings: {tags}.",
    }
)
_TAKEN = Phrases(
    {
        Descent.DIVISION: "Division of {tag}.",
        Descent.BACK_BULB: "Back bulb of {tag}.",
        Descent.KEIKI: "Keiki of {tag}.",
        Descent.SEEDLING: "Seedling of {tag}.",
    }
)


def divide(ledger: Ledger, parent_id: int, dividing: Dividing) -> Written:
    """Make new plants of one; give their numbers in the order of their tags."""
    today = ledger.today()
    checking.day_done("on", dividing.on, today)
    note = checking.text("note", dividing.note)
    with ledger.reading() as session:
        parent = get_draft(session, parent_id)
    refuse_left(parent.tag, parent)
    _refuse_early(parent, dividing.on)
    _refuse_count(dividing.tags)
    pieces = [
        checked(_piece(parent_id, parent, dividing, tag), today)
        for tag in dividing.tags
    ]
    tags = [piece.tag for piece in pieces]
    _refuse_twice(tags)
    titles, pieces_are = (
        (_ONE_OF_PLANT, _ONE) if len(tags) == 1 else (_SEVERAL_OF_PLANT, _SEVERAL)
    )
    title = titles[dividing.how].format(tag=parent.tag)
    with ledger.writing(title) as writing:
        ids = _insert(writing, pieces)
        if dividing.how is not Descent.SEEDLING:
            _copy_corrections(writing, parent_id, ids)
        into = pieces_are[dividing.how].format(tags=", ".join(tags))
        care = {"day": dividing.on, "what": CareKind.DIVIDE}
        own = {"medium": pieces[0].medium, "pot_volume_l": pieces[0].pot_volume_l}
        taken = _joined(_TAKEN[dividing.how].format(tag=parent.tag), note)
        rows = [{**care, **own, "plant_id": each, "note": taken} for each in ids]
        if dividing.parent_repotted:
            rows.insert(0, {**care, "plant_id": parent_id, "note": _joined(into, note)})
            if parent.repotted_on is None or parent.repotted_on < dividing.on:
                writing.update(PlantRow, parent_id, {"repotted_on": dividing.on})
        writing.insert_many(CareRow, rows)
    return written(writing, title, ids)


def _piece(
    parent_id: int, parent: PlantDraft, dividing: Dividing, tag: str
) -> PlantDraft:
    same = dividing.how is not Descent.SEEDLING
    return PlantDraft(
        tag=tag,
        name=dividing.name,
        kind=parent.kind,
        place_id=dividing.place_id,
        bench_id=dividing.bench_id,
        hybrid=parent.hybrid,
        pot_volume_l=dividing.pot_volume_l,
        medium=dividing.medium or parent.medium,
        mounted=parent.mounted and dividing.pot_volume_l is None,
        under_cover=parent.under_cover and dividing.place_id == parent.place_id,
        repotted_on=dividing.on,
        full_strength_ppm_n=parent.full_strength_ppm_n if same else None,
        feed_ceiling_ppm_n=parent.feed_ceiling_ppm_n if same else None,
        feed_interval_days=parent.feed_interval_days if same else None,
        ignores_rest=parent.ignores_rest and same,
        acquired_on=dividing.on,
        parent_id=parent_id,
        parent_how=dividing.how,
        parentage=parent.parentage if same else "",
        papers=parent.papers,
    )


def _insert(writing: Writing, pieces: Sequence[PlantDraft]) -> tuple[int, ...]:
    """Add the new plants, one behind the other where they stand."""
    refuse_taken(writing.session, [piece.tag for piece in pieces])
    first = placed(writing.session, pieces[0])
    start: Any = first["bench"]
    return writing.insert_many(
        PlantRow,
        [
            {**values_of(piece), "bench": number}
            for number, piece in enumerate(pieces, start)
        ],
    )


def _copy_corrections(
    writing: Writing, parent_id: int, plant_ids: Sequence[int]
) -> None:
    rows = writing.session.execute(
        select(
            PlantCorrectionRow.field, PlantCorrectionRow.value, PlantCorrectionRow.note
        ).where(PlantCorrectionRow.plant_id == parent_id)
    ).all()
    copies: list[dict[str, Any]] = [
        {
            "plant_id": plant_id,
            "field": row.field,
            "value": row.value,
            "note": row.note,
        }
        for plant_id in plant_ids
        for row in rows
    ]
    writing.insert_many(PlantCorrectionRow, copies)


def _refuse_early(parent: PlantDraft, on: date) -> None:
    came = parent.acquired_on
    if came is not None and on < came:
        problem = tr("is before {tag} came, on {isoformat}").format(
            tag=parent.tag, isoformat=came.isoformat()
        )
        raise InputError("on", on.isoformat(), problem, tr("Give a later day."))


def _refuse_count(tags: Sequence[str]) -> None:
    if not tags:
        hint = tr("Give one tag for each new plant.")
        raise InputError("tags", "", tr("names no new plant"), hint)
    if len(tags) > MOST:
        hint = tr(
            "Give at most {most} at a time; a flask or a tray can be one tag."
        ).format(most=MOST)
        raise InputError("tags", len(tags), tr("is too many"), hint)


def _refuse_twice(tags: Sequence[str]) -> None:
    seen: set[str] = set()
    for tag in tags:
        if tag.casefold() in seen:
            hint = tr("Give each new plant a tag of its own.")
            raise InputError("tags", tag, tr("is there twice"), hint)
        seen.add(tag.casefold())


def _joined(told: str, note: str) -> str:
    return f"{told} {note}".strip()
