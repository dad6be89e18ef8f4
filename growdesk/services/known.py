"""All plants with what is known of them, in a handful of statements however many.

What is read is what counts by ``growdesk.domain.remembered``, and no more.
"""

from __future__ import annotations

from datetime import timedelta
from functools import cache
from itertools import chain
from typing import TYPE_CHECKING, Any

from msgspec import Struct
from msgspec.structs import replace
from sqlalchemy import Date, and_, bindparam, case, func, or_, select

from growdesk.domain.case import REPOTTING
from growdesk.domain.facts import Place
from growdesk.domain.holding import together
from growdesk.domain.remembered import REMEMBERED
from growdesk.services import kind_rows, kinds, walking
from growdesk.services.standing import growing, here
from growdesk.store.many import (
    CARE_COLUMNS,
    LOOK_COLUMNS,
    READING_COLUMNS,
    cares_of,
    looks_of,
    readings_of,
)
from growdesk.store.mapping import held_as_of, place_of, plant_of
from growdesk.store.schema import (
    BenchRow,
    CareRow,
    LookRow,
    PlaceRow,
    PlantRow,
    ReadingRow,
)

if TYPE_CHECKING:
    from collections.abc import Collection, Iterator
    from datetime import date

    from sqlalchemy import ColumnElement, Executable, Result

    from growdesk.domain.facts import Plant
    from growdesk.domain.facts_kinds import KindFields
    from growdesk.domain.kinds import Kind, KindTable
    from growdesk.services.walking import Walk
    from growdesk.store.session import Session

READINGS_DAYS = 62
SPARE = timedelta(days=6)
"""So much more is read, for a day's plants to serve the days of its week before it."""
_LOT = 1_000
_MOST_BY_NUMBER = 1_000
"""Of more plants than this, all are read and the others left out."""


class Known(Struct, frozen=True):
    """A plant of the collection as the judging takes it, with its number and kind.

    ``walk`` sorts plants as the round is walked. ``together`` says how several of them
    share the tag.
    """

    plant_id: int
    plant: Plant
    walk: Walk
    kind: Kind
    kind_known: bool
    bench_name: str = ""
    together: str = ""
    at_glass: bool = False

    @property
    def bench(self) -> int:
        """Give its number along its bench."""
        return self.walk[3]


def load_known(
    session: Session, on: date, plant_id: int | None = None
) -> tuple[Known, ...]:
    """Give all plants that grow here, as the round is walked, and what is known then.

    One that is asked for by its number is given even if it has left.
    """
    if plant_id is None:
        return _loaded(session, on, "all")
    return _loaded(session, on, "one", (plant_id,))


def load_some(
    session: Session, on: date, plant_ids: Collection[int]
) -> tuple[Known, ...]:
    """Give those of some plants that grow here, as ``load_known`` would."""
    if len(plant_ids) > _MOST_BY_NUMBER:
        wanted = frozenset(plant_ids)
        return tuple(k for k in load_known(session, on) if k.plant_id in wanted)
    return _loaded(session, on, "some", plant_ids)


def as_of(session: Session, known: tuple[Known, ...], on: date) -> tuple[Known, ...]:
    """Give all plants, known on a day up to ``SPARE`` later, as they are known on one.

    Read again is only what was repotted since, or has no look from before.
    """
    again = [each.plant_id for each in known if _is_later(each.plant, on)]
    if not again:
        return known
    anew = {each.plant_id: each for each in load_some(session, on, again)}
    return tuple(anew.get(each.plant_id, each) for each in known)


def _is_later(plant: Plant, on: date) -> bool:
    repotted, looks = plant.repotted_on, plant.looks
    return (repotted is not None and repotted > on) or bool(looks and looks[0].on > on)


def _loaded(
    session: Session, on: date, which: str, plant_ids: Collection[int] = ()
) -> tuple[Known, ...]:
    asked: dict[str, object] = {"on": on, "since": on - REMEMBERED - SPARE}
    if which != "all":
        asked["ids"] = list(plant_ids)
    plants, looks_wanted, care_wanted = _statements(which)
    rows = session.execute(plants, asked).all()
    places, turns = _places(session, on)
    looks = looks_of(_all_of(session.execute(looks_wanted, asked)))
    care = cares_of(_all_of(session.execute(care_wanted, asked)))
    table = kind_rows.table_of(session)
    own_fields = kind_rows.of_plants(session)
    nowhere = Place()
    known = [
        _known(
            row,
            plant_of(
                row,
                places.get(row.place_id, nowhere),
                looks.get(row.id, ()),
                care.get(row.id, ()),
            ),
            table,
            own_fields.get(row.id, ()),
            turns.get(row.place_id),
        )
        for row in rows
    ]
    return tuple(sorted(known, key=lambda each: each.walk))


def _all_of(found: Result[Any]) -> Iterator[Any]:
    """Give all rows, a thousand at a time: neither each alone nor all at once."""
    return chain.from_iterable(found.partitions(_LOT))


def _known(
    row: Any, plant: Plant, table: KindTable, own: KindFields, turn: int | None
) -> Known:
    if own:
        plant = replace(plant, kind_fields=own)
    kind, kind_known = kinds.kind_of(plant, table)
    walk = walking.order(row, plant.place.name, turn)
    return Known(
        row.id,
        plant,
        walk,
        kind,
        kind_known,
        row.bench_name or "",
        together(held_as_of(row), row.how_many),
        bool(row.at_glass),
    )


def _places(
    session: Session, on: date
) -> tuple[dict[int, Place], dict[int, int | None]]:
    """Give the places by number, and the turn of each on the round."""
    wanted = (
        select(*READING_COLUMNS)
        .join_from(PlaceRow, ReadingRow, ReadingRow.place_id == PlaceRow.id)
        .where(ReadingRow.day >= on - timedelta(days=READINGS_DAYS) - SPARE)
        .order_by(PlaceRow.id, ReadingRow.day)
    )
    readings = readings_of(session.execute(wanted))
    rows = session.execute(select(PlaceRow.__table__)).all()
    places = {row.id: place_of(row, readings.get(row.id, [])) for row in rows}
    return places, {row.id: row.position for row in rows}


def _repotted_by(on: ColumnElement[date]) -> ColumnElement[date | None]:
    """Give the later of a plant's own repot day and the last on record by a day."""
    record = (
        select(func.max(CareRow.day))
        .where(
            CareRow.plant_id == PlantRow.id,
            CareRow.what.in_(REPOTTING),
            CareRow.day <= on,
        )
        .correlate(PlantRow)
        .scalar_subquery()
    )
    own = PlantRow.repotted_on
    is_own = or_(record.is_(None), and_(own <= on, own > record))
    return case((is_own, own), else_=record).label("repotted_on")


@cache
def _statements(which: str) -> tuple[Executable, Executable, Executable]:
    """Give what asks for plants, their looks and their care, put together once.

    Each plant's own are sought by its index, from two years ago on; looks from the day
    of its newest where that is earlier. A repot stays on record however old.
    """
    on = bindparam("on", type_=Date)
    ids = PlantRow.id.in_(bindparam("ids", expanding=True))
    meant = {"all": growing(), "one": and_(here(), ids), "some": and_(growing(), ids)}
    plants = (
        select(
            *(each for each in PlantRow.__table__.c if each.name != "repotted_on"),
            _repotted_by(on),
            BenchRow.at_glass,
            *walking.COLUMNS,
        )
        .outerjoin(BenchRow, BenchRow.id == PlantRow.bench_id)
        .where(meant[which])
    )
    since = bindparam("since", type_=Date)
    older = LookRow.__table__.alias("older")
    newest = (
        select(func.max(older.c.day))
        .where(
            older.c.plant_id == PlantRow.id,
            older.c.day <= on,
        )
        .scalar_subquery()
    )
    begun = (  # once a plant: a server that joins by hashing would ask it once a look
        select(PlantRow.id, case((newest < since, newest), else_=since).label("since"))
        .where(meant[which])
        .cte("begun")
        .prefix_with("MATERIALIZED", dialect="postgresql")
    )
    looks = (
        select(*LOOK_COLUMNS)
        .join_from(
            begun,
            LookRow,
            and_(LookRow.plant_id == begun.c.id, LookRow.day >= begun.c.since),
        )
        .order_by(begun.c.id, LookRow.day, LookRow.id)
    )
    care = (
        select(*CARE_COLUMNS)
        .join_from(PlantRow, CareRow, CareRow.plant_id == PlantRow.id)
        .where(meant[which], CareRow.day >= since)
        .order_by(PlantRow.id, CareRow.day, CareRow.id)
    )
    return plants, looks, care
