"""Rows of a list of plants as rows of the collection, checked one by one.

What is there already is read once, however many rows come: the tags, the places, and
the last bench number in each. It opens no file and begins no transaction.
"""

from __future__ import annotations

from dataclasses import asdict, dataclass, replace
from typing import TYPE_CHECKING

from sqlalchemy import func, select

from growdesk.domain.errors import InputError
from growdesk.domain.facts import Medium, Size
from growdesk.services import checking, csv_cells, kinds
from growdesk.services.plant_drafts import checked, values_of
from growdesk.services.values import PlaceDraft, PlantDraft
from growdesk.store.schema import PlaceRow, PlantRow

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping
    from datetime import date

    from sqlalchemy.orm import Session

    from growdesk.store.journal import Writing

PLANT_COLUMNS = (
    "tag",
    "name",
    "kind",
    "place",
    "bench",
    "hybrid",
    "pot_volume_l",
    "volume_l",
    "medium",
    "mounted",
    "size",
    "under_cover",
    "repotted_on",
    "slow_release_until",
    "full_strength_ppm_n",
    "feed_ceiling_ppm_n",
    "feed_interval_days",
    "ignores_rest",
    "acquired_on",
    "source",
    "note",
)
_READERS: Mapping[str, Callable[[str, str], object]] = {
    "bench": csv_cells.whole,
    "hybrid": csv_cells.flag,
    "pot_volume_l": csv_cells.number,
    "volume_l": csv_cells.number,
    "medium": lambda field, text: csv_cells.word(field, text, Medium),
    "mounted": csv_cells.flag,
    "size": lambda field, text: csv_cells.word(field, text, Size),
    "under_cover": csv_cells.flag,
    "repotted_on": csv_cells.day,
    "slow_release_until": csv_cells.day,
    "full_strength_ppm_n": csv_cells.number,
    "feed_ceiling_ppm_n": csv_cells.number,
    "feed_interval_days": csv_cells.whole,
    "ignores_rest": csv_cells.flag,
    "acquired_on": csv_cells.day,
}


@dataclass(frozen=True, slots=True)
class _Taken:
    """A plant that can be taken in, and the folded name of its place."""

    draft: PlantDraft
    place: str


class Taking:
    """The rows taken so far, the places to be made for them, and the bad rows."""

    def __init__(self, session: Session, today: date) -> None:
        self._today = today
        places = session.execute(select(PlaceRow.id, PlaceRow.name)).all()
        self._place_ids: dict[str, int | None] = {
            row.name.casefold(): row.id for row in places
        }
        self._tags = {
            tag.casefold()
            for tag in session.scalars(
                select(PlantRow.tag).where(PlantRow.binned_on.is_(None))
            )
        }
        self._benches = _last_benches(session)
        self._taken: list[_Taken] = []
        self.tags: list[str] = []
        self.new_places: list[str] = []
        self.problems: list[str] = []
        self.notices: list[str] = []

    def take(self, number: int, header: tuple[str, ...], row: tuple[str, ...]) -> None:
        """Check the plant of one row, or note what is wrong with the row."""
        try:
            draft, place = self._read(header, row)
        except InputError as error:
            self.problems.append(f"Row {number}, {error.line()}")
            return
        folded = self._place(place)
        draft = replace(draft, bench=self._bench(folded, draft.bench))
        self._taken.append(_Taken(draft, folded))
        self._tags.add(draft.tag.casefold())
        self.tags.append(draft.tag)
        self._note_kind(number, draft)

    def write(self, writing: Writing) -> None:
        """Add the new places and all plants taken, in one statement each."""
        places = [asdict(PlaceDraft(name)) for name in self.new_places]
        for name, place_id in zip(
            self.new_places, writing.insert_many(PlaceRow, places), strict=True
        ):
            self._place_ids[name.casefold()] = place_id
        plants = [
            values_of(taken.draft) | {"place_id": self._place_ids.get(taken.place)}
            for taken in self._taken
        ]
        writing.insert_many(PlantRow, plants)

    def _read(
        self, header: tuple[str, ...], row: tuple[str, ...]
    ) -> tuple[PlantDraft, str]:
        """Give the plant of a row and the name of its place, both checked."""
        if len(row) > len(header):
            hint = "Put a text with a separator in it into quotes."
            raise InputError("row", row[-1], "stands beyond the last field", hint)
        cells = dict(zip(header, row, strict=False))
        read = {
            name: _READERS[name](name, cells[name])
            for name in header
            if name in _READERS and name in cells
        }
        name, kind = cells.get("name", ""), cells.get("kind", "")
        draft = PlantDraft(
            tag=cells["tag"],
            name=name,
            kind=kind or _guessed(name),
            source=cells.get("source", ""),
            note=cells.get("note", ""),
        )
        draft = checked(replace(draft, **read), self._today)  # type: ignore[arg-type]
        if draft.tag.casefold() in self._tags:
            hint = "Give this plant another tag."
            raise InputError("tag", draft.tag, "is on another plant already", hint)
        place = cells.get("place", "")
        if place:
            place = checking.needed_text("place", place, "Give the place a name.")
        return draft, place

    def _place(self, name: str) -> str:
        """Give the folded name of a place, which is noted where there is none yet."""
        folded = name.casefold()
        if name and folded not in self._place_ids:
            self._place_ids[folded] = None
            self.new_places.append(name)
        return folded

    def _bench(self, place: str, given: int | None) -> int:
        """Give a plant's number on its bench: its own, or one after the last."""
        key = self._place_ids.get(place) or place
        last = self._benches.get(key, 0)
        bench = last + 1 if given is None else given
        self._benches[key] = max(last, bench)
        return bench

    def _note_kind(self, number: int, draft: PlantDraft) -> None:
        table = kinds.table()
        if draft.kind and not (table.find(draft.kind) or table.find(draft.name)):
            self.notices.append(
                f"Row {number}, kind: {draft.kind!r} is not in the table of kinds; "
                f"{draft.tag} will be judged as a careful general one."
            )


def _guessed(name: str) -> str:
    kind = kinds.table().find(name)
    return "" if kind is None else kind.key


def _last_benches(session: Session) -> dict[int | str, int]:
    """Give the highest bench number by place; no place is the empty name."""
    rows = session.execute(
        select(PlantRow.place_id, func.max(PlantRow.bench)).group_by(PlantRow.place_id)
    )
    return {place_id or "": last or 0 for place_id, last in rows}
