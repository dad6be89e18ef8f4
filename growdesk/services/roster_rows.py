"""What the table of all plants needs beside the plants: one statement for each."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sqlalchemy import func, select

from growdesk.domain.facts import CareKind
from growdesk.services import walking
from growdesk.services.day_rows import WATERING
from growdesk.services.standing import here
from growdesk.store.schema import (
    BenchRow,
    BloomRow,
    CareRow,
    LookRow,
    PhotoRow,
    PlaceRow,
    PlantRow,
)

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

    from growdesk.store.session import Session

_TOLD = (*WATERING, CareKind.REPOT, CareKind.TREAT)
Days = dict[CareKind, "date"]


def plants(session: Session) -> Sequence[Any]:
    """Give all plants on record, with their bench and the tag they were taken from."""
    parent = PlantRow.__table__.alias()
    wanted = (
        select(PlantRow.__table__, *walking.COLUMNS, parent.c.tag.label("parent_tag"))
        .outerjoin(BenchRow, BenchRow.id == PlantRow.bench_id)
        .outerjoin(parent, parent.c.id == PlantRow.parent_id)
        .where(here())
    )
    return session.execute(wanted).all()


def places(session: Session) -> dict[int, tuple[str, int | None]]:
    """Give the name and the turn of each place."""
    rows = session.execute(select(PlaceRow.id, PlaceRow.name, PlaceRow.position))
    return {row.id: (row.name, row.position) for row in rows}


def last_looks(session: Session, on: date) -> dict[int, Any]:
    """Give the row of each plant's last look by a day."""
    of = LookRow.__table__.alias().c
    newest = (
        select(of.id)
        .where(of.plant_id == PlantRow.id, of.day <= on)
        .order_by(of.day.desc(), of.id.desc())
        .limit(1)
        .scalar_subquery()
    )
    wanted = (
        select(LookRow.__table__)
        .select_from(PlantRow)
        .join(LookRow, LookRow.id == newest)
        .where(here())
    )
    return {row.plant_id: row for row in session.execute(wanted)}


def look_notes(session: Session) -> dict[int, str]:
    """Give what was noted at all looks, by plant, each note on a line of its own."""
    wanted = (
        select(LookRow.plant_id, func.aggregate_strings(LookRow.note, "\n"))
        .where(LookRow.note != "")
        .group_by(LookRow.plant_id)
    )
    return {row[0]: row[1] for row in session.execute(wanted)}


def last_care(session: Session, on: date) -> dict[int, Days]:
    """Give the last day by a day of each sort of care, by plant."""
    newest = (
        select(func.max(CareRow.day))
        .where(
            CareRow.plant_id == PlantRow.id,
            CareRow.what == what.value,
            CareRow.day <= on,
        )
        .scalar_subquery()
        for what in _TOLD
    )
    wanted = select(PlantRow.id, *newest).where(here())
    return {
        plant_id: {
            what: day for what, day in zip(_TOLD, days, strict=True) if day is not None
        }
        for plant_id, *days in session.execute(wanted)
    }


def last_blooms(session: Session, on: date) -> dict[int, Any]:
    """Give the row of each plant's newest bloom that had begun by a day."""
    began = func.coalesce(
        BloomRow.first_open_on, BloomRow.spike_seen_on, BloomRow.last_faded_on
    )
    wanted = (
        select(
            BloomRow.plant_id,
            BloomRow.first_open_on,
            BloomRow.last_faded_on,
            began.label("began"),
        )
        .where(began <= on)
        .order_by(began, BloomRow.id)
    )
    return {row.plant_id: row for row in session.execute(wanted)}


def photo_counts(session: Session) -> dict[int, int]:
    """Give how many photos there are of each plant."""
    wanted = select(PhotoRow.plant_id, func.count()).group_by(PhotoRow.plant_id)
    return {row[0]: row[1] for row in session.execute(wanted)}
