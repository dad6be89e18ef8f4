"""What the dated jobs need beside the plants: one statement for each."""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING, Any

from msgspec import Struct, field
from sqlalchemy import or_, select

from growdesk.domain.facts import CareKind
from growdesk.domain.jobs.moves import YEAR_BACK_DAYS
from growdesk.domain.jobs.treatments import Treatment
from growdesk.domain.night import Expected
from growdesk.services.walking import place_order
from growdesk.store.schema import (
    BloomRow,
    CareRow,
    ForecastRow,
    JobDoneRow,
    PlaceRow,
    PlantRow,
    ReadingRow,
)

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

    from sqlalchemy import Executable

    from growdesk.services.walking import Walk
    from growdesk.store.session import Session

SUMMER_DAYS = 366
"""A plant that stood at a place within so many days is at home there."""


class PlaceFacts(Struct, frozen=True):
    """A place by its number: its name, its turn, and the nights read under the sky."""

    place_id: int
    name: str
    outdoors: bool
    walk: Walk
    lows_c: dict[date, float] = field(default_factory=dict)


class Beside(Struct, frozen=True):
    """All of it, by plant or place."""

    came_on: dict[int, date]
    treatments: dict[int, list[Treatment]]
    opened: dict[int, list[date]]
    stood_at: dict[int, set[str]]
    places: tuple[PlaceFacts, ...]
    closed: dict[tuple[int | None, int | None, str, date], Any]

    @property
    def floating(self) -> dict[tuple[int | None, int | None, str], Any]:
        """Give what was closed by hand by plant, place and key, whatever its day."""
        return {key[:3]: row for key, row in self.closed.items()}

    expected: dict[int, list[tuple[date, Expected]]]


def load(session: Session, on: date) -> Beside:
    """Give what is on record by a day, in seven statements."""
    treatments: dict[int, list[Treatment]] = {}
    stood_at: dict[int, set[str]] = {}
    for row in _care(session, on):
        if row.what == CareKind.MOVE:
            names = {name for name in (row.from_place, row.to_place) if name}
            stood_at.setdefault(row.plant_id, set()).update(names)
        else:
            done = Treatment(row.day, row.product, row.repeat_on)
            treatments.setdefault(row.plant_id, []).append(done)
    opened: dict[int, list[date]] = {}
    for row in session.execute(_opened(on)):
        opened.setdefault(row.plant_id, []).append(row.first_open_on)
    came = select(PlantRow.id, PlantRow.acquired_on).where(
        PlantRow.acquired_on.is_not(None)
    )
    return Beside(
        came_on={row.id: row.acquired_on for row in session.execute(came)},
        treatments=treatments,
        opened=opened,
        stood_at=stood_at,
        places=_places(session, on),
        closed={
            (row.plant_id, row.place_id, row.job, row.due_on): row
            for row in session.execute(select(JobDoneRow.__table__))
        },
        expected=_expected(session, on),
    )


def _expected(session: Session, on: date) -> dict[int, list[tuple[date, Expected]]]:
    """Give what was typed of the nights and days from a day on, by place."""
    wanted = (
        select(ForecastRow.__table__)
        .where(ForecastRow.place_id.in_(select(PlaceRow.id)), ForecastRow.day >= on)
        .order_by(ForecastRow.day)
    )
    found: dict[int, list[tuple[date, Expected]]] = {}
    for row in session.execute(wanted):
        expected = Expected(row.low_c, row.high_c)
        found.setdefault(row.place_id, []).append((row.day, expected))
    return found


def _care(session: Session, on: date) -> Sequence[Any]:
    """Give treatments, and the moves of a year."""
    since = on - timedelta(days=SUMMER_DAYS)
    moved = (CareRow.what == CareKind.MOVE) & (CareRow.day >= since)
    wanted = (
        select(
            CareRow.plant_id,
            CareRow.day,
            CareRow.what,
            CareRow.product,
            CareRow.repeat_on,
            CareRow.from_place,
            CareRow.to_place,
        )
        .join_from(PlantRow, CareRow, CareRow.plant_id == PlantRow.id)
        .where(
            CareRow.what.in_((CareKind.TREAT, CareKind.MOVE)),
            CareRow.day <= on,
            or_(CareRow.what == CareKind.TREAT, moved),
        )
        .order_by(PlantRow.id, CareRow.day, CareRow.id)
    )
    return session.execute(wanted).all()


def _opened(on: date) -> Executable:
    return (
        select(BloomRow.plant_id, BloomRow.first_open_on)
        .where(BloomRow.first_open_on <= on)
        .order_by(BloomRow.first_open_on, BloomRow.id)
    )


def _places(session: Session, on: date) -> tuple[PlaceFacts, ...]:
    nights = (
        select(ReadingRow.place_id, ReadingRow.day, ReadingRow.low_c)
        .join(PlaceRow, PlaceRow.id == ReadingRow.place_id)
        .where(
            PlaceRow.outdoors,
            ReadingRow.low_c.is_not(None),
            ReadingRow.day.between(on - timedelta(days=YEAR_BACK_DAYS), on),
        )
    )
    lows: dict[int, dict[date, float]] = {}
    for row in session.execute(nights):
        lows.setdefault(row.place_id, {})[row.day] = row.low_c
    return tuple(
        PlaceFacts(
            row.id,
            row.name,
            row.outdoors,
            (*place_order(row.name, row.position), -1, 0, row.id),
            lows.get(row.id, {}),
        )
        for row in session.execute(select(PlaceRow.__table__))
    )
