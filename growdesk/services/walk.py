"""Walks: the plants of a place in bench order, and what was last seen of each.

All stops take a few statements however many there are; what the form of one opens with
is read when it is come to.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sqlalchemy import func, select

from growdesk.services import photo_rows, walking
from growdesk.services.look_words import signs_line
from growdesk.services.looks import carried_over
from growdesk.services.plants import get_draft
from growdesk.services.settings import read_house
from growdesk.services.standing import growing
from growdesk.services.values import LookView
from growdesk.services.walk_values import AtStop, Stop, Walkable
from growdesk.store.mapping import look_of
from growdesk.store.schema import BenchRow, LookRow, PlaceRow, PlantRow

if TYPE_CHECKING:
    from datetime import date

    from growdesk.services.ledger import Ledger
    from growdesk.store.session import Session


class Walks:
    """The walks through one collection."""

    def __init__(self, ledger: Ledger) -> None:
        self._ledger = ledger

    def stops(self, on: date) -> Walkable:
        """Give all plants that grow here in walking order, with their last looks."""
        with self._ledger.reading() as session:
            limit_days = read_house(session).look_limit_days
            rows = _rows(session)
            last = _last_days(session, on)
        stops = tuple(_stop(row, last.get(row.id), on, limit_days) for row in rows)
        return Walkable(on, limit_days, stops)

    def at(self, plant_id: int, on: date, saved_id: int | None = None) -> AtStop:
        """Give what a stop's form opens with; ``saved_id`` was recorded on this walk.

        A look that was taken back since is as if it had not been recorded.
        """
        with self._ledger.reading() as session:
            get_draft(session, plant_id)
            rows = session.execute(
                select(LookRow.__table__)
                .where(LookRow.plant_id == plant_id, LookRow.day <= on)
                .order_by(LookRow.day.desc(), LookRow.id.desc())
                .limit(2)
            ).all()
            photos = photo_rows.views(session, self._ledger.folder, plant_id)
            saved = _saved(session, plant_id, saved_id)
        before = [row for row in rows if row.id != saved_id]
        last = _view(before[0]) if before else None
        photo = next((each for each in photos if not each.problem), None)
        if saved is not None:
            return AtStop(look_of(saved), saved.note, saved.id, last, photo)
        look = carried_over(None if last is None else last.look, on)
        return AtStop(look, "", None, last, photo)


def _rows(session: Session) -> list[Any]:
    rows = session.execute(
        select(
            PlantRow.id,
            PlantRow.tag,
            PlantRow.name,
            PlantRow.bench,
            PlantRow.place_id,
            PlaceRow.name.label("place"),
            PlaceRow.position.label("turn"),
            *walking.COLUMNS,
        )
        .outerjoin(BenchRow, BenchRow.id == PlantRow.bench_id)
        .outerjoin(PlaceRow, PlaceRow.id == PlantRow.place_id)
        .where(growing())
    ).all()
    return sorted(rows, key=lambda row: walking.order(row, row.place or "", row.turn))


def _last_days(session: Session, on: date) -> dict[int, date]:
    last = (
        select(func.max(LookRow.day))
        .where(LookRow.plant_id == PlantRow.id, LookRow.day <= on)
        .scalar_subquery()
    )
    rows = session.execute(select(PlantRow.id, last.label("day")).where(growing()))
    return {row.id: row.day for row in rows if row.day}


def _stop(row: Any, last_on: date | None, on: date, limit_days: int) -> Stop:
    days = None if last_on is None else (on - last_on).days
    return Stop(
        plant_id=row.id,
        tag=row.tag,
        name=row.name,
        place_id=row.place_id,
        place=row.place or "",
        bench=row.bench_name or "",
        last_on=last_on,
        days_since=days,
        is_due=days is None or days > limit_days,
    )


def _saved(session: Session, plant_id: int, saved_id: int | None) -> Any:
    if saved_id is None:
        return None
    return session.execute(
        select(LookRow.__table__).where(
            LookRow.id == saved_id, LookRow.plant_id == plant_id
        )
    ).one_or_none()


def _view(row: Any) -> LookView:
    look = look_of(row)
    return LookView(row.id, look, row.note, signs_line(look), ())
