"""All plants with what is known of them, in a handful of statements however many.

Looks and care of the last two years are enough to judge by; the newest look is taken
along however old it is, since an old look may still withhold.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import timedelta
from typing import TYPE_CHECKING, Any

from sqlalchemy import func, or_, select

from growdesk.domain.facts import Place
from growdesk.domain.holding import together
from growdesk.services import kind_rows, kinds, walking
from growdesk.services.standing import growing, here
from growdesk.store.mapping import (
    care_of,
    held_as_of,
    look_of,
    place_of,
    plant_of,
    reading_of,
)
from growdesk.store.schema import (
    BenchRow,
    CareRow,
    LookRow,
    PlaceRow,
    PlantRow,
    ReadingRow,
)

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence
    from datetime import date

    from sqlalchemy import Executable
    from sqlalchemy.orm import Session

    from growdesk.domain.facts import Plant
    from growdesk.domain.facts_kinds import KindFields
    from growdesk.domain.kinds import Kind, KindTable
    from growdesk.services.walking import Walk

REMEMBERED_DAYS = 731
READINGS_DAYS = 62


@dataclass(frozen=True, slots=True)
class Known:
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
    wanted = select(PlantRow.__table__, BenchRow.at_glass, *walking.COLUMNS).outerjoin(
        BenchRow, BenchRow.id == PlantRow.bench_id
    )
    if plant_id is None:
        wanted = wanted.where(growing())
    else:
        wanted = wanted.where(here(), PlantRow.id == plant_id)
    rows = session.execute(wanted).all()
    places, turns = _places(session, on)
    looks = _looks(session, on, plant_id)
    care = _care(session, on, plant_id)
    table = kind_rows.table_of(session)
    own_fields = kind_rows.of_plants(session)
    known = [
        _known(
            row,
            plant_of(
                row,
                places.get(row.place_id, Place()),
                looks.get(row.id, []),
                care.get(row.id, []),
            ),
            table,
            own_fields.get(row.id, ()),
            turns.get(row.place_id),
        )
        for row in rows
    ]
    return tuple(sorted(known, key=lambda each: each.walk))


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
    since = on - timedelta(days=READINGS_DAYS)
    readings = _grouped(
        _rows(
            session,
            select(ReadingRow.__table__)
            .where(ReadingRow.day >= since)
            .order_by(ReadingRow.day),
        ),
        "place_id",
        reading_of,
    )
    rows = session.execute(select(PlaceRow.__table__)).all()
    places = {row.id: place_of(row, readings.get(row.id, [])) for row in rows}
    return places, {row.id: row.position for row in rows}


def _looks(session: Session, on: date, plant_id: int | None) -> dict[int, list[Any]]:
    since = on - timedelta(days=REMEMBERED_DAYS)
    other = LookRow.__table__.alias()
    newest = (
        select(func.max(other.c.day))
        .where(other.c.plant_id == LookRow.plant_id)
        .scalar_subquery()
    )
    wanted = (
        select(LookRow.__table__)
        .where(or_(LookRow.day >= since, LookRow.day == newest))
        .order_by(LookRow.plant_id, LookRow.day, LookRow.id)
    )
    if plant_id is not None:
        wanted = wanted.where(LookRow.plant_id == plant_id)
    return _grouped(_rows(session, wanted), "plant_id", look_of)


def _care(session: Session, on: date, plant_id: int | None) -> dict[int, list[Any]]:
    since = on - timedelta(days=REMEMBERED_DAYS)
    wanted = (
        select(
            CareRow.plant_id,
            CareRow.day,
            CareRow.what,
            CareRow.strength_ppm_n,
            CareRow.ec_ms_per_cm,
            CareRow.volume_l,
            CareRow.rain_mm,
        )
        .where(CareRow.day >= since)
        .order_by(CareRow.plant_id, CareRow.day, CareRow.id)
    )
    if plant_id is not None:
        wanted = wanted.where(CareRow.plant_id == plant_id)
    return _grouped(_rows(session, wanted), "plant_id", care_of)


def _rows(session: Session, wanted: Executable) -> Sequence[Any]:
    """Give plain rows past the mapper, which costs as much again for thousands."""
    return session.connection().execute(wanted).all()


def _grouped(
    rows: Iterable[Any], key: str, made: Callable[[Any], Any]
) -> dict[int, list[Any]]:
    """Give what is made of the rows, by the number they belong to."""
    found: dict[int, list[Any]] = {}
    for row in rows:
        found.setdefault(getattr(row, key), []).append(made(row))
    return found
