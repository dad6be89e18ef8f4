"""Plants: to add, to change, to take out of the collection and to bring back.

What is done to one or many at once stands in modules of its own, each one action.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec.structs import replace
from sqlalchemy import select

from growdesk.domain.errors import InputError
from growdesk.domain.speech import tr
from growdesk.services import (
    action_titles,
    kind_rows,
    kinds,
    plant_changing,
    plant_dividing,
    plant_kin,
    plant_leaving,
    plant_moving,
    plant_tags,
)
from growdesk.services.ledger import written
from growdesk.services.plant_drafts import (
    checked,
    checked_overrule,
    draft_of,
    refuse_past,
)
from growdesk.services.plant_rows import (
    by_tag,
    counted,
    drafts_of,
    get_draft,
    placed,
    refuse_left,
    refuse_second,
    tag_order,
    tags_of,
)
from growdesk.services.standing import here
from growdesk.store.mapping import overrule_values
from growdesk.store.schema import PlantRow

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

    from growdesk.domain.facts import Overrule
    from growdesk.services.ledger import Ledger
    from growdesk.services.plant_values import Dividing, Kin, Leaving, ManyChanges
    from growdesk.services.values import PlantDraft, Written

__all__ = ("Plants", "counted", "get_draft", "tag_order", "tags_of")


class Plants:
    """The plants of one collection."""

    def __init__(self, ledger: Ledger) -> None:
        self._ledger = ledger

    def all(self) -> tuple[tuple[int, PlantDraft], ...]:
        """Give all plants with their numbers, by tag as a person sorts tags."""
        with self._ledger.reading() as session:
            rows = session.execute(select(PlantRow.__table__).where(here())).all()
        plants = [(row.id, draft_of(row)) for row in rows]
        return tuple(sorted(plants, key=lambda plant: tag_order(plant[1].tag)))

    def get(self, plant_id: int) -> PlantDraft:
        """Give one plant."""
        with self._ledger.reading() as session:
            return get_draft(session, plant_id)

    def find(self, tag: str) -> int | None:
        """Give the number of the plant with a tag, whatever the case it is typed in."""
        with self._ledger.reading() as session:
            found = by_tag(session, tag.strip())
        return None if found is None else int(found.id)

    def next_tag(self) -> str:
        """Give a free tag that goes on from the newest one."""
        return self.next_tags(1)[0]

    def next_tags(self, count: int) -> tuple[str, ...]:
        """Give free tags that go on from the newest one, one after the other."""
        with self._ledger.reading() as session:
            return plant_tags.next_tags(session, count)

    def guess_kind(self, name: str) -> str:
        """Give the kind that a plant's name leads to, or an empty text."""
        kind = kinds.table().find(name)
        return "" if kind is None else kind.key

    def kinds(self) -> tuple[tuple[str, str], ...]:
        """Give the keys and titles of all kinds, by title as corrected."""
        with self._ledger.reading() as session:
            table = kind_rows.table_of(session)
        pairs = [(kind.key, tr(kind.title)) for kind in table.kinds.values()]
        return tuple(sorted(pairs, key=lambda pair: pair[1].casefold()))

    def add(self, draft: PlantDraft) -> Written:
        """Add a plant; without a bench number it stands last in its place."""
        kept = checked(draft, self._ledger.today())
        refuse_past(kept.overrule, None, self._ledger.today())
        title = tr("Plant {tag} added").format(tag=kept.tag)
        with self._ledger.writing(title) as writing:
            refuse_second(writing.session, kept.tag, None)
            plant_kin.refuse_kin(writing.session, kept, None)
            values = placed(writing.session, kept)
            plant_id = writing.insert(PlantRow, values)
        return written(writing, title, (plant_id,))

    def change(self, plant_id: int, draft: PlantDraft) -> Written:
        """Change a plant; without a bench number it keeps its own in its place."""
        kept = checked(draft, self._ledger.today())
        with self._ledger.reading() as session:
            title = action_titles.plant_changed(get_draft(session, plant_id), kept)
        with self._ledger.writing(title) as writing:
            before = get_draft(writing.session, plant_id)
            refuse_past(kept.overrule, before.overrule, self._ledger.today())
            refuse_second(writing.session, kept.tag, plant_id)
            if kept.parent_id != before.parent_id:
                plant_kin.refuse_kin(writing.session, kept, plant_id)
            stays = (kept.place_id, kept.bench_id) == (before.place_id, before.bench_id)
            if kept.bench is None and stays:
                kept = replace(kept, bench=before.bench)
            writing.update(PlantRow, plant_id, placed(writing.session, kept))
        return written(writing, title, (plant_id,))

    def some(self, plant_ids: Sequence[int]) -> tuple[PlantDraft, ...]:
        """Give plants in the order asked for, or say which one is gone."""
        with self._ledger.reading() as session:
            drafts = drafts_of(session, plant_ids)
        return tuple(drafts[plant_id] for plant_id in plant_ids)

    def overrule(self, plant_ids: Sequence[int], word: Overrule | None) -> Written:
        """Set the grower's own word for plants, or lift it where there is one."""
        today = self._ledger.today()
        kept = checked_overrule(word, today)
        refuse_past(kept, None, today)
        drafts = dict(zip(plant_ids, self.some(plant_ids), strict=True))
        for draft in drafts.values() if kept else ():
            refuse_left(draft.tag, draft)
        ids = [each for each, d in drafts.items() if kept or d.overrule is not None]
        if not ids:
            hint = (
                tr("Select a plant that is overruled.")
                if drafts
                else tr("Select a plant.")
            )
            raise InputError("plants", "", tr("has no word of yours on it"), hint)
        whom = counted([drafts[each].tag for each in ids])
        title = (
            tr("{whom} overruled").format(whom=whom)
            if kept
            else tr("{whom} judged again").format(whom=whom)
        )
        with self._ledger.writing(title) as writing:
            values = overrule_values(kept)
            writing.update_many(PlantRow, [(each, values) for each in ids])
        return written(writing, title, ids)

    def remove(self, plant_ids: Sequence[int]) -> Written:
        """Put plants in the bin; what is known of them is kept, and undo is enough."""
        with self._ledger.reading() as session:
            drafts = drafts_of(session, plant_ids)
        title = tr("{counted} removed").format(
            counted=counted([draft.tag for draft in drafts.values()])
        )
        binned = {"binned_on": self._ledger.today()}
        with self._ledger.writing(title) as writing:
            drafts_of(writing.session, plant_ids)
            writing.update_many(PlantRow, [(each, binned) for each in drafts])
        return written(writing, title, plant_ids)

    # -- one or many at once --------------------------------------------------------

    def leave(self, plant_ids: Sequence[int], leaving: Leaving) -> Written:
        """Write what became of plants that are not here any more."""
        return plant_leaving.leave(self._ledger, plant_ids, leaving)

    def back(self, plant_ids: Sequence[int]) -> Written:
        """Have plants that had left grow here again."""
        return plant_leaving.back(self._ledger, plant_ids)

    def move(
        self,
        plant_ids: Sequence[int],
        place_id: int | None,
        bench_id: int | None = None,
        on: date | None = None,
    ) -> Written:
        """Move plants to a place and a bench of it, to stand last there."""
        where = plant_moving.Where(place_id, bench_id, on or self._ledger.today())
        return plant_moving.move(self._ledger, plant_ids, where)

    def change_many(self, plant_ids: Sequence[int], changes: ManyChanges) -> Written:
        """Give many plants the same values in the fields that are touched."""
        return plant_changing.change_many(self._ledger, plant_ids, changes)

    def divide(self, parent_id: int, dividing: Dividing) -> Written:
        """Make new plants of one; give their numbers."""
        return plant_dividing.divide(self._ledger, parent_id, dividing)

    def ancestors(self, plant_id: int) -> tuple[Kin, ...]:
        """Give the plants that one comes from, its parent first."""
        with self._ledger.reading() as session:
            return plant_kin.kin_of(session, plant_id)[0]

    def descendants(self, plant_id: int) -> tuple[Kin, ...]:
        """Give the plants that came of one, each before those that came of it."""
        with self._ledger.reading() as session:
            return plant_kin.kin_of(session, plant_id)[1]
