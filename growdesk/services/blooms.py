"""Blooms: written, corrected and deleted with undo; who blooms when."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from msgspec.structs import replace
from sqlalchemy import select

from growdesk.domain.errors import InputError
from growdesk.domain.facts_fields import Range
from growdesk.domain.speech import mark, tr
from growdesk.services import bloom_rows, bloom_year, checking
from growdesk.services.bloom_values import BloomDraft, BloomView, PlantBlooms, WhoBlooms
from growdesk.services.ledger import written
from growdesk.services.plant_rows import get_draft
from growdesk.store.mapping import look_of
from growdesk.store.schema import BloomRow, LookRow

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

    from growdesk.services.ledger import Ledger
    from growdesk.services.values import Written

__all__ = ["BloomDraft", "BloomView", "Blooms", "PlantBlooms"]

FLOWERS = Range(1, 20_000)
SPIKES = Range(1, 500)
SIZE_MM = Range(0, 1500, above=True)
_DAYS = (
    ("spike_seen_on", mark("the spike was seen")),
    ("first_open_on", mark("the first flower opened")),
    ("last_faded_on", mark("the last one faded")),
)
_GONE = mark("It was deleted; undo brings it back.")


class Blooms:
    """The blooms of one collection."""

    def __init__(self, ledger: Ledger) -> None:
        self._ledger = ledger

    def of(self, plant_id: int, on: date | None = None) -> PlantBlooms:
        """Give the blooms of a plant, and what its own years say of the next."""
        with self._ledger.reading() as session:
            get_draft(session, plant_id)
            looks = session.execute(
                select(LookRow.__table__).where(LookRow.plant_id == plant_id)
            )
            return bloom_rows.of_plant(
                session,
                plant_id,
                [look_of(row) for row in looks],
                on or self._ledger.today(),
            )

    def start(self, plant_id: int, on: date) -> tuple[int | None, BloomDraft]:
        """Give what a form begins with: the bloom under way, else one begun by a look.

        With neither it is empty.
        """
        found = self.of(plant_id, on)
        offered = found.proposal
        if offered is not None:
            return offered.bloom_id, offered.draft
        under_way = bloom_rows.open_bloom(found.blooms, on)
        if under_way is not None:
            return under_way.bloom_id, under_way.draft
        return None, BloomDraft()

    def add(self, plant_id: int, draft: BloomDraft) -> Written:
        """Write a bloom; a plant has one under way at a time."""
        kept = checked(draft, self._ledger.today())
        with self._ledger.reading() as session:
            tag = get_draft(session, plant_id).tag
            _refuse_overlap(bloom_rows.views_of(session, plant_id), kept)
        title = tr("Bloom of {tag}").format(tag=tag)
        with self._ledger.writing(title) as writing:
            values = {"plant_id": plant_id, **_values(kept)}
            bloom_id = writing.insert(BloomRow, values)
        return written(writing, title, (bloom_id,))

    def change(self, bloom_id: int, draft: BloomDraft) -> Written:
        """Correct a bloom, or bring it up to date."""
        kept = checked(draft, self._ledger.today())
        plant_id, tag = self._plant_of(bloom_id)
        with self._ledger.reading() as session:
            views = bloom_rows.views_of(session, plant_id)
        _refuse_overlap([each for each in views if each.bloom_id != bloom_id], kept)
        title = tr("Bloom of {tag} changed").format(tag=tag)
        with self._ledger.writing(title) as writing:
            writing.update(BloomRow, bloom_id, _values(kept))
        return written(writing, title, (bloom_id,))

    def remove(self, bloom_id: int) -> Written:
        """Delete a bloom; undo brings it back."""
        _plant_id, tag = self._plant_of(bloom_id)
        title = tr("Bloom of {tag} deleted").format(tag=tag)
        with self._ledger.writing(title) as writing:
            writing.delete(BloomRow, bloom_id)
        return written(writing, title)

    def year(self, on: date, first_month: int | None = None) -> WhoBlooms:
        """Give who blooms when through the year, from a month on."""
        with self._ledger.reading() as session:
            return bloom_year.who_blooms(session, on, first_month)

    def _plant_of(self, bloom_id: int) -> tuple[int, str]:
        with self._ledger.reading() as session:
            found = session.scalars(
                select(BloomRow.plant_id).where(BloomRow.id == bloom_id)
            ).one_or_none()
            if found is None:
                raise InputError(
                    "bloom", bloom_id, tr("is not there any more"), tr(_GONE)
                )
            return found, get_draft(session, found).tag


def checked(draft: BloomDraft, today: date) -> BloomDraft:
    """Give a bloom as it is kept, or refuse the first slip in it."""
    for field, _named in _DAYS:
        checking.day_done(field, getattr(draft, field), today)
    if draft.begins is None:
        raise InputError(
            "first_open_on",
            "",
            tr("is empty"),
            tr("Give at least one day of the bloom."),
        )
    _in_order(draft)
    return replace(
        draft,
        flowers=checking.whole("flowers", draft.flowers, FLOWERS),
        spikes=checking.whole("spikes", draft.spikes, SPIKES),
        size_mm=checking.number("size_mm", draft.size_mm, SIZE_MM),
        note=checking.text("note", draft.note),
        award=checking.line("award", draft.award),
    )


def _in_order(draft: BloomDraft) -> None:
    """Refuse days that do not follow one another as a spike does."""
    given = [(f, n, getattr(draft, f)) for f, n in _DAYS if getattr(draft, f)]
    for (_field, earlier, first), (field, _named, then) in pairwise(given):
        if then < first:
            raise InputError(
                field,
                then.isoformat(),
                tr("is before {earlier}, on {isoformat}").format(
                    earlier=tr(earlier), isoformat=first.isoformat()
                ),
                tr("Look at both days."),
            )


def _refuse_overlap(others: Sequence[BloomView], kept: BloomDraft) -> None:
    """Refuse a bloom that opened within another; a second spike belongs to that one."""
    opened = kept.first_open_on
    if opened is None:
        return
    for view in others:
        first, last = view.draft.first_open_on, view.draft.last_faded_on
        if first == opened or (first and last and first < opened < last):
            raise InputError(
                "first_open_on",
                opened.isoformat(),
                tr("lies within another bloom of this plant"),
                tr("Change that one: flowers of several spikes are one bloom."),
            )


def _values(draft: BloomDraft) -> dict[str, object]:
    return {each: getattr(draft, each) for each in BloomDraft.__struct_fields__}
