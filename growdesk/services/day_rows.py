"""What is on record as done on one day: care that waters, and plants passed by."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sqlalchemy import exists, or_, select

from growdesk.domain.facts import CareKind
from growdesk.services.values import Done, DoneKind
from growdesk.store.mapping import word
from growdesk.store.schema import CareRow, DrawnRow, PassByRow

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable, Sequence
    from datetime import date

    from growdesk.store.journal import Writing
    from growdesk.store.session import Session

WATERING = (CareKind.FEED, CareKind.CLEAR_WATER, CareKind.FLUSH, CareKind.RAIN)
"""Care that waters a plant: what a tick stands for, and what it takes the place of."""


def done_on(
    session: Session, on: date, plants: Collection[int] | None = None
) -> dict[int, Done]:
    """Give what was done on a day, by plant; of some plants, or of all."""
    return done_on_days(session, (on,), plants)[on]


def is_any_done_on(session: Session, on: date) -> bool:
    """Tell whether anything is on record as done on a day."""
    passed = exists().where(PassByRow.day == on)
    cared = exists().where(CareRow.day == on, CareRow.what.in_(WATERING))
    return bool(session.scalar(select(or_(passed, cared))))


def done_on_days(
    session: Session, days: Collection[date], plants: Collection[int] | None = None
) -> dict[date, dict[int, Done]]:
    """Give what was done on each of some days, by plant, in two statements."""
    done: dict[date, dict[int, Done]] = {day: {} for day in days}
    passed = select(PassByRow.plant_id, PassByRow.day).where(PassByRow.day.in_(days))
    cared = (
        select(
            CareRow.plant_id,
            CareRow.day,
            CareRow.what,
            CareRow.strength_ppm_n,
            CareRow.volume_l,
        )
        .where(CareRow.day.in_(days), CareRow.what.in_(WATERING))
        .order_by(CareRow.id)
    )
    if plants is not None:
        passed = passed.where(PassByRow.plant_id.in_(plants))
        cared = cared.where(CareRow.plant_id.in_(plants))
    by = Done(DoneKind.PASSED_BY, None, None, None)
    for plant_id, day in session.execute(passed):
        done[day][plant_id] = by
    for row in session.execute(cared):
        done[row.day][row.plant_id] = _cared(row)
    return done


def take_back(writing: Writing, plant_ids: Iterable[int], on: date) -> frozenset[int]:
    """Remove what is on record as done on a day; give the plants that had any."""
    wanted = set(plant_ids)
    found: set[int] = set()
    gone: list[tuple[type[CareRow | PassByRow], int]] = []
    watered = select(CareRow.id, CareRow.plant_id).where(
        CareRow.day == on, CareRow.what.in_(WATERING)
    )
    passed = select(PassByRow.id, PassByRow.plant_id).where(PassByRow.day == on)
    for table, rows in ((CareRow, watered), (PassByRow, passed)):
        for row in writing.session.execute(rows).all():
            if row.plant_id in wanted:
                gone.append((table, row.id))
                found.add(row.plant_id)
    put_back(writing, [row_id for table, row_id in gone if table is CareRow])
    for kind in (CareRow, PassByRow):
        writing.delete_many(kind, [row_id for table, row_id in gone if table is kind])
    return frozenset(found)


def put_back(writing: Writing, care_ids: Sequence[int]) -> None:
    """Put back on the shelf what pieces of care had taken from it."""
    if not care_ids:
        return
    drawn = select(DrawnRow.id).where(DrawnRow.care_id.in_(care_ids))
    writing.delete_many(DrawnRow, writing.session.scalars(drawn).all())


def _cared(row: Any) -> Done:
    return Done(
        kind=DoneKind.CARED,
        what=word(CareKind, row.what),
        strength_ppm_n=row.strength_ppm_n,
        volume_l=row.volume_l,
    )
