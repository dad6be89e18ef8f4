"""Which plants get new tags, and what stands on them. Setting them is the window's.

Plants come as they are walked. Two labels a plant, one in the pot and one tied to the
plant or kept, is common practice; no source.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from msgspec import Struct
from sqlalchemy import func, select

from growdesk.domain.case import REPOTTING
from growdesk.domain.errors import InputError
from growdesk.domain.holding import together
from growdesk.domain.speech import tr
from growdesk.services.standing import growing, here
from growdesk.services.walking import COLUMNS, order, where
from growdesk.store.both import later_of
from growdesk.store.mapping import held_as_of
from growdesk.store.schema import BenchRow, CareRow, PlaceRow, PlantRow

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence
    from datetime import date

    from growdesk.services.ledger import Ledger

_ON_RECORD = (
    select(func.max(CareRow.day))
    .where(CareRow.plant_id == PlantRow.id, CareRow.what.in_(REPOTTING))
    .correlate(PlantRow)
    .scalar_subquery()
)
_REPOTTED_ON = later_of(
    func.coalesce(PlantRow.repotted_on, _ON_RECORD),
    func.coalesce(_ON_RECORD, PlantRow.repotted_on),
).label("repotted_on")
"""The later of a plant's own repot day and the last repot on record, as judged."""


class TagChoice(Struct, frozen=True):
    """Which plants: those of these numbers or tags, of a place, or changed since a day.

    What is None asks for nothing; with all of them None it is every plant that grows
    here. A plant asked for by number or tag is given even if it has left.
    """

    plant_ids: tuple[int, ...] | None = None
    tags: tuple[str, ...] | None = None
    place: str | None = None
    since: date | None = None


class TagFacts(Struct, frozen=True):
    """What may stand on a plant's tag; ``where`` is its place and bench.

    ``together`` says how many share the tag, as ``tray ×8``.
    """

    plant_id: int
    tag: str
    name: str
    repotted_on: date | None = None
    acquired_on: date | None = None
    parentage: str = ""
    source: str = ""
    where: str = ""
    together: str = ""


class Tags:
    """The tags of one collection."""

    def __init__(self, ledger: Ledger) -> None:
        self._ledger = ledger

    def places(self) -> tuple[str, ...]:
        """Give the places that plants stand in, as they are walked."""
        return tuple(dict.fromkeys(row.place for row in self._rows() if row.place))

    def chosen(self, choice: TagChoice) -> tuple[TagFacts, ...]:
        """Give the plants asked for; raises ``InputError`` where one is not there."""
        rows = self._rows(gone=choice.plant_ids is not None or choice.tags is not None)
        if choice.plant_ids is not None:
            wanted = set(choice.plant_ids)
            rows = [row for row in rows if row.id in wanted]
        if choice.tags is not None:
            rows = _of_tags(rows, choice.tags)
        if choice.place is not None:
            rows = _of_place(rows, choice.place)
        since = choice.since
        if since is not None:
            rows = [row for row in rows if _changed(row) and _changed(row) >= since]
        return tuple(_facts(row) for row in rows)

    def _rows(self, *, gone: bool = False) -> list[Any]:
        wanted = (
            select(
                PlantRow.id,
                PlantRow.tag,
                PlantRow.name,
                _REPOTTED_ON,
                PlantRow.acquired_on,
                PlantRow.parentage,
                PlantRow.source,
                PlantRow.bench,
                PlantRow.held_as,
                PlantRow.how_many,
                PlaceRow.name.label("place"),
                PlaceRow.position.label("turn"),
                *COLUMNS,
            )
            .outerjoin(PlaceRow, PlaceRow.id == PlantRow.place_id)
            .outerjoin(BenchRow, BenchRow.id == PlantRow.bench_id)
            .where(here() if gone else growing())
        )
        with self._ledger.reading() as session:
            rows = list(session.execute(wanted))
        return sorted(rows, key=lambda row: order(row, row.place or "", row.turn))


def _of_tags(rows: Sequence[Any], tags: Iterable[str]) -> list[Any]:
    by_tag = {row.tag.casefold(): row for row in rows}
    found = []
    for tag in tags:
        row = by_tag.get(tag.strip().casefold())
        if row is None:
            raise InputError("tag", tag, tr("is no plant's tag"), tr("Check the tag."))
        found.append(row)
    return found


def _of_place(rows: Sequence[Any], place: str) -> list[Any]:
    folded = place.strip().casefold()
    found = [row for row in rows if (row.place or "").casefold() == folded]
    if not found:
        names = ", ".join(dict.fromkeys(row.place for row in rows if row.place))
        hint = (
            tr("Plants stand in: {names}.").format(names=names)
            if names
            else tr("No plant has a place yet.")
        )
        raise InputError("place", place, tr("has no plants"), hint)
    return found


def _changed(row: Any) -> Any:
    """Give the day a plant came or was last repotted, the later one."""
    days = [day for day in (row.repotted_on, row.acquired_on) if day is not None]
    return max(days, default=None)


def _facts(row: Any) -> TagFacts:
    return TagFacts(
        plant_id=row.id,
        tag=row.tag,
        name=row.name,
        repotted_on=row.repotted_on,
        acquired_on=row.acquired_on,
        parentage=row.parentage,
        source=row.source,
        where=where(row.place or "", row.bench_name or ""),
        together=together(held_as_of(row), row.how_many),
    )
