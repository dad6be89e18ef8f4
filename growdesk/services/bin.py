"""The bin: removed plants and records, put back at any time, gone when it is emptied.

Emptying is the one thing that undo does not bring back; a backup is made before it.
"""

from __future__ import annotations

from datetime import UTC, datetime
from typing import TYPE_CHECKING, Any

from sqlalchemy import func, select

from growdesk.domain.errors import InputError
from growdesk.domain.speech import tr
from growdesk.services import putting_back
from growdesk.services.bin_values import BinEntry, BinKey, BinSort, BinView
from growdesk.services.ledger import written
from growdesk.services.named_rows import refuse_second
from growdesk.services.photo_files import photo_files_without, photos_going
from growdesk.services.plant_rows import refuse_second as refuse_second_tag
from growdesk.store import past, removed
from growdesk.store.schema import (
    ActionRow,
    PlantRow,
    RecipeRow,
    TinRow,
    WaterRow,
)

if TYPE_CHECKING:
    from collections.abc import Mapping

    from growdesk.services.ledger import Ledger
    from growdesk.services.values import Written
    from growdesk.store.session import Session

_TABLES = (
    "look",
    "care",
    "bloom",
    "photo",
    "mark",
    "place",
    "bench",
    "reading",
    "saved_view",
    "meter",
    "shelf_entry",
    "tool",
    "vessel",
)
"""What is a record of its own; parts go and come with what they are of."""
_SHELF: Mapping[BinSort, Any] = {
    BinSort.TIN: TinRow,
    BinSort.WATER: WaterRow,
    BinSort.RECIPE: RecipeRow,
}

_NAMED = 500
"""So many removals are listed, the newest; all are counted, and all go."""


class Bin:
    """What was removed from one collection."""

    def __init__(self, ledger: Ledger) -> None:
        self._ledger = ledger

    def view(self) -> BinView:
        """Give all that lies in the bin, and what emptying it would take."""
        with self._ledger.reading() as session:
            plants = _plant_entries(session)
            taken = removed.removals(session, _TABLES)
            records = _record_entries(session, taken)
            shelf = _shelf_entries(session)
            going = photos_going(session, [each.key.number for each in plants])
        files = photo_files_without(
            self._ledger.folder, *going, is_shared=self._ledger.store.file is None
        )
        entries = sorted(
            (*plants, *records, *shelf),
            key=lambda each: (each.removed_on, each.key.number),
            reverse=True,
        )
        return BinView(
            tuple(entries),
            len(plants),
            sum(each.count for each in plants) + sum(map(len, taken.values())),
            len(files),
            sum(file.stat().st_size for file in files),
        )

    def put_back(self, key: BinKey) -> Written:
        """Put one entry back; a refusal says what stands in its way."""
        if key.sort is BinSort.RECORDS:
            return self._records_back(key.number)
        if key.sort is BinSort.PLANT:
            return self._plant_back(key.number)
        return self._shelf_back(key)

    # -- inside ---------------------------------------------------------------------

    def _records_back(self, action_id: int) -> Written:
        with self._ledger.reading() as session:
            said = session.scalar(
                select(ActionRow.title).where(ActionRow.id == action_id)
            )
        title = tr("Put back from the bin: {what}").format(what=said or "")
        with self._ledger.writing(title) as writing:
            plants = putting_back.put_back(writing, action_id)
        return written(writing, title, plants)

    def _plant_back(self, plant_id: int) -> Written:
        with self._ledger.reading() as session:
            row = session.execute(
                select(PlantRow.__table__).where(
                    PlantRow.id == plant_id, PlantRow.binned_on.is_not(None)
                )
            ).one_or_none()
        if row is None:
            hint = tr("Open the bin anew.")
            raise InputError("plant", "", tr("is not in the bin any more"), hint)
        title = tr("Plant {tag} put back from the bin").format(tag=row.tag)
        with self._ledger.writing(title) as writing:
            refuse_second_tag(writing.session, row.tag, plant_id)
            writing.update(PlantRow, plant_id, {"binned_on": None})
        return written(writing, title, (plant_id,))

    def _shelf_back(self, key: BinKey) -> Written:
        table = _SHELF[key.sort]
        with self._ledger.reading() as session:
            name = session.scalar(select(table.name).where(table.id == key.number))
        title = tr("{name} put back from the bin").format(name=name or "")
        with self._ledger.writing(title) as writing:
            refuse_second(
                writing.session, table, name or "", key.number, key.sort.value
            )
            writing.update(table, key.number, {"gone_on": None})
        return written(writing, title, (key.number,))


def _plant_entries(session: Session) -> list[BinEntry]:
    rows = session.execute(
        select(PlantRow.id, PlantRow.tag, PlantRow.name, PlantRow.binned_on).where(
            PlantRow.binned_on.is_not(None)
        )
    ).all()
    hanging = _counts(session, [row.id for row in rows])
    return [
        BinEntry(
            BinKey(BinSort.PLANT, row.id),
            tr("Plant {plant}").format(plant=f"{row.tag} {row.name}".strip()),
            row.binned_on,
            hanging.get(row.id, 0),
            (row.tag,),
        )
        for row in rows
    ]


def _counts(session: Session, plants: list[int]) -> dict[int, int]:
    """Give how many looks, pieces of care, blooms and photos plants have."""
    found: dict[int, int] = dict.fromkeys(plants, 0)
    for name in ("look", "care", "bloom", "photo", "mark"):
        table = PlantRow.metadata.tables[name]
        counted = select(table.c.plant_id, func.count()).where(
            table.c.plant_id.in_(plants)
        )
        for plant_id, count in session.execute(counted.group_by(table.c.plant_id)):
            found[plant_id] += count
    return found


def _record_entries(session: Session, found: Mapping[int, set[int]]) -> list[BinEntry]:
    """Give an entry for each of the newest actions that took records away."""
    newest = sorted(found)[-_NAMED:]
    rows = session.execute(
        select(ActionRow.id, ActionRow.at_s, ActionRow.title).where(
            ActionRow.id.in_(newest)
        )
    ).all()
    tags = past.plants_of(session, newest)
    return [
        BinEntry(
            BinKey(BinSort.RECORDS, number),
            title,
            datetime.fromtimestamp(at_s, UTC).astimezone().date(),
            len(found[number]),
            tuple(tag for _, tag in tags.get(number, ()) if tag),
        )
        for number, at_s, title in rows
    ]


def _shelf_entries(session: Session) -> list[BinEntry]:
    called = {
        BinSort.TIN: tr("Tin {name}"),
        BinSort.WATER: tr("Water {name}"),
        BinSort.RECIPE: tr("Recipe {name}"),
    }
    return [
        BinEntry(
            BinKey(sort, row.id), called[sort].format(name=row.name), row.gone_on, 0
        )
        for sort, table in _SHELF.items()
        for row in session.execute(
            select(table.id, table.name, table.gone_on).where(
                table.gone_on.is_not(None)
            )
        )
    ]
