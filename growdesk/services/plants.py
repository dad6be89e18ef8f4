"""Plants: to add, to change, and to put in the bin, from where undo fetches them."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import TYPE_CHECKING

from sqlalchemy import func, select

from growdesk.domain.errors import InputError
from growdesk.services import kind_rows, kinds
from growdesk.services.ledger import written
from growdesk.services.plant_drafts import (
    checked,
    checked_overrule,
    draft_of,
    values_of,
)
from growdesk.store.mapping import overrule_values
from growdesk.store.schema import PlaceRow, PlantRow

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

    from sqlalchemy.orm import Session

    from growdesk.domain.facts import Overrule
    from growdesk.services.ledger import Ledger
    from growdesk.services.values import PlantDraft, Written

_TAG = re.compile(r"(?P<head>.*?)(?P<digits>[0-9]+)")
_GONE = "It was removed; undo brings it back."


class Plants:
    """The plants of one collection."""

    def __init__(self, ledger: Ledger) -> None:
        self._ledger = ledger

    def all(self) -> tuple[tuple[int, PlantDraft], ...]:
        """Give all plants with their numbers, by tag as a person sorts tags."""
        with self._ledger.reading() as session:
            rows = session.execute(
                select(PlantRow.__table__).where(PlantRow.binned_on.is_(None))
            ).all()
        plants = [(row.id, draft_of(row)) for row in rows]
        return tuple(sorted(plants, key=lambda plant: tag_order(plant[1].tag)))

    def get(self, plant_id: int) -> PlantDraft:
        """Give one plant."""
        with self._ledger.reading() as session:
            return get_draft(session, plant_id)

    def find(self, tag: str) -> int | None:
        """Give the number of the plant with a tag, whatever the case it is typed in."""
        with self._ledger.reading() as session:
            return _by_tag(session, tag.strip())

    def next_tag(self) -> str:
        """Give a free tag that goes on from the newest one."""
        with self._ledger.reading() as session:
            newest = session.scalar(
                select(PlantRow.tag).order_by(PlantRow.id.desc()).limit(1)
            )
            taken = {tag.casefold() for tag in _tags(session)}
        found = _TAG.fullmatch(newest or "")
        head, digits = (found["head"], found["digits"]) if found else ("A", "0")
        number = int(digits) + 1
        while f"{head}{number:0{len(digits)}d}".casefold() in taken:
            number += 1
        return f"{head}{number:0{len(digits)}d}"

    def guess_kind(self, name: str) -> str:
        """Give the kind that a plant's name leads to, or an empty text."""
        kind = kinds.table().find(name)
        return "" if kind is None else kind.key

    def kinds(self) -> tuple[tuple[str, str], ...]:
        """Give the keys and titles of all kinds, by title as corrected."""
        with self._ledger.reading() as session:
            table = kind_rows.table_of(session)
        pairs = [(kind.key, kind.title) for kind in table.kinds.values()]
        return tuple(sorted(pairs, key=lambda pair: pair[1].casefold()))

    def add(self, draft: PlantDraft) -> Written:
        """Add a plant; without a bench number it stands last in its place."""
        kept = checked(draft, self._ledger.today())
        _refuse_past(kept.overrule, None, self._ledger.today())
        title = f"Plant {kept.tag} added"
        with self._ledger.writing(title) as writing:
            _refuse_second(writing.session, kept.tag, None)
            values = _placed(writing.session, kept)
            plant_id = writing.insert(PlantRow, values)
        return written(writing, title, (plant_id,))

    def change(self, plant_id: int, draft: PlantDraft) -> Written:
        """Change a plant; without a bench number it keeps its own in its place."""
        kept = checked(draft, self._ledger.today())
        title = f"Plant {kept.tag} changed"
        with self._ledger.writing(title) as writing:
            before = get_draft(writing.session, plant_id)
            _refuse_past(kept.overrule, before.overrule, self._ledger.today())
            _refuse_second(writing.session, kept.tag, plant_id)
            if kept.bench is None and kept.place_id == before.place_id:
                kept = replace(kept, bench=before.bench)
            writing.update(PlantRow, plant_id, _placed(writing.session, kept))
        return written(writing, title, (plant_id,))

    def some(self, plant_ids: Sequence[int]) -> tuple[PlantDraft, ...]:
        """Give plants in the order asked for, or say which one is gone."""
        with self._ledger.reading() as session:
            rows = session.execute(
                select(PlantRow.__table__).where(PlantRow.id.in_(plant_ids))
            )
            drafts = {row.id: draft_of(row) for row in rows if row.binned_on is None}
        for plant_id in plant_ids:
            if plant_id not in drafts:
                raise InputError("plant", plant_id, "is not there any more", _GONE)
        return tuple(drafts[plant_id] for plant_id in plant_ids)

    def overrule(self, plant_ids: Sequence[int], word: Overrule | None) -> Written:
        """Set the grower's own word for plants, or lift it where there is one."""
        today = self._ledger.today()
        kept = checked_overrule(word, today)
        _refuse_past(kept, None, today)
        drafts = dict(zip(plant_ids, self.some(plant_ids), strict=True))
        ids = [each for each, d in drafts.items() if kept or d.overrule is not None]
        if not ids:
            hint = "Select a plant that is overruled." if drafts else "Select a plant."
            raise InputError("plants", "", "has no word of yours on it", hint)
        whom = counted([drafts[each].tag for each in ids])
        title = f"{whom} overruled" if kept else f"{whom} judged again"
        with self._ledger.writing(title) as writing:
            for plant_id in ids:
                writing.update(PlantRow, plant_id, overrule_values(kept))
        return written(writing, title, ids)

    def remove(self, plant_ids: Sequence[int]) -> Written:
        """Put plants in the bin; what is known of them is kept, and undo is enough."""
        with self._ledger.reading() as session:
            tags = [get_draft(session, plant_id).tag for plant_id in plant_ids]
        title = f"{counted(tags)} removed"
        with self._ledger.writing(title) as writing:
            for plant_id in plant_ids:
                values = {"binned_on": self._ledger.today()}
                writing.update(PlantRow, plant_id, values)
        return written(writing, title, plant_ids)


def tag_order(tag: str) -> tuple[tuple[int, int, str], ...]:
    """Give a sort key under which A2 comes before A10."""
    parts = re.findall(r"[0-9]+|[^0-9]+", tag.casefold())
    return tuple(
        (0, int(part), "") if part.isdecimal() else (1, 0, part) for part in parts
    )


def counted(tags: Sequence[str]) -> str:
    """Give one plant by its tag and several by their number, for titles."""
    return f"Plant {tags[0]}" if len(tags) == 1 else f"{len(tags)} plants"


def get_draft(session: Session, plant_id: int) -> PlantDraft:
    """Give one plant, or say that it is gone."""
    row = session.execute(
        select(PlantRow.__table__).where(
            PlantRow.id == plant_id, PlantRow.binned_on.is_(None)
        )
    ).one_or_none()
    if row is None:
        raise InputError("plant", plant_id, "is not there any more", _GONE)
    return draft_of(row)


def tags_of(session: Session, plant_ids: Sequence[int]) -> dict[int, str]:
    """Give the tags of plants in the order asked for, or say which one is gone."""
    rows = session.execute(
        select(PlantRow.id, PlantRow.tag).where(PlantRow.binned_on.is_(None))
    )
    tags = {row[0]: row[1] for row in rows}
    for plant_id in plant_ids:
        if plant_id not in tags:
            raise InputError("plant", plant_id, "is not there any more", _GONE)
    return {plant_id: tags[plant_id] for plant_id in plant_ids}


def _tags(session: Session) -> Sequence[str]:
    return session.scalars(
        select(PlantRow.tag).where(PlantRow.binned_on.is_(None))
    ).all()


def _by_tag(session: Session, tag: str) -> int | None:
    folded = tag.casefold()
    for plant_id, other in session.execute(
        select(PlantRow.id, PlantRow.tag).where(PlantRow.binned_on.is_(None))
    ):
        if other.casefold() == folded:
            return int(plant_id)
    return None


def _refuse_past(overrule: Overrule | None, before: Overrule | None, on: date) -> None:
    """Refuse an overrule that is over before it holds; one that ran out may stay."""
    if overrule is None or overrule.until >= on:
        return
    if before is None or before.until != overrule.until:
        hint = f"Give a day from today, {on.isoformat()}, on."
        raise InputError("until", overrule.until.isoformat(), "is over already", hint)


def _refuse_second(session: Session, tag: str, plant_id: int | None) -> None:
    there = _by_tag(session, tag)
    if there is not None and there != plant_id:
        hint = "Give this plant another tag."
        raise InputError("tag", tag, "is on another plant already", hint)


def _placed(session: Session, draft: PlantDraft) -> dict[str, object]:
    """Give a plant's values with its place checked and its bench number made."""
    values = values_of(draft)
    if draft.place_id is not None:
        there = session.scalar(select(PlaceRow.id).where(PlaceRow.id == draft.place_id))
        if there is None:
            hint = "Choose another place."
            raise InputError("place_id", draft.place_id, "is not there any more", hint)
    if draft.bench is None:
        last = session.scalar(
            select(func.max(PlantRow.bench)).where(
                PlantRow.place_id.is_not_distinct_from(draft.place_id)
            )
        )
        values["bench"] = (last or 0) + 1
    return values
