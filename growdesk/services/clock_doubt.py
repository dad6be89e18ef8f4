"""Whether the machine's clock can be right: today may not lie before the last entry.

It is asked after every write. No index has looks by their day, so what was found of
them is remembered; of what was written since only the plants it is of are asked.
"""

from __future__ import annotations

from datetime import UTC, date, datetime
from typing import TYPE_CHECKING

from msgspec import Struct
from sqlalchemy import func, select

from growdesk.domain.day_words import dated_text
from growdesk.domain.speech import tr
from growdesk.services.touched import touched_since
from growdesk.store.schema import ActionRow, CareRow, LookRow, PlantRow
from growdesk.store.states import STATE, state_of

if TYPE_CHECKING:
    from growdesk.services.ledger import Ledger
    from growdesk.store.session import Session
    from growdesk.store.states import State

_WRITTEN = (
    select(ActionRow.at_s)
    .where(ActionRow.undone.is_(False))
    .order_by(ActionRow.id.desc())
    .limit(1)
)
_CARE = select(func.max(CareRow.day))
_ASKED = select(_WRITTEN.scalar_subquery(), _CARE.scalar_subquery(), *STATE)
_LOOK = select(
    func.max(
        select(func.max(LookRow.day))
        .where(LookRow.plant_id == PlantRow.id)
        .correlate(PlantRow)
        .scalar_subquery()
    )
).select_from(PlantRow)
"""The day of the newest look, each plant's own sought by its index."""


class _Looks(Struct, frozen=True):
    """A state of the collection, and a day that no look is after."""

    state: State
    none_after: date


class ClockDoubt:
    """Doubts the clock of the machine that one collection is open on."""

    def __init__(self, ledger: Ledger) -> None:
        self._ledger = ledger
        self._looks: _Looks | None = None

    def line(self) -> str:
        """Say that today is before the last entry, and what to do; else nothing.

        The last entry is the one written last, or dated last among looks and care.
        """
        today = self._ledger.today()
        with self._ledger.reading() as session:
            at_s, care, *now = session.execute(_ASKED).one()
            look = self._look_to_come(session, state_of(*now), today)
        last = max(day for day in (_local_day(at_s), care, look, today) if day)
        if last == today:
            return ""
        return tr(
            "Today is {today} by this computer, and that is before your last entry, of"
            " {last}. Set the computer's clock where it is wrong; where it is right,"
            " the entry has a wrong day."
        ).format(today=dated_text(today), last=dated_text(last))

    def _look_to_come(self, session: Session, now: State, today: date) -> date | None:
        """Give the day of the newest look where it is after today."""
        plants = self._looked_at(session, now, today)
        asked = _LOOK if plants is None else _LOOK.where(PlantRow.id.in_(plants))
        newest = None if plants == frozenset() else session.scalar(asked)
        is_to_come = newest is not None and newest > today
        self._looks = None if is_to_come else _Looks(now, today)
        return newest if is_to_come else None

    def _looked_at(
        self, session: Session, now: State, today: date
    ) -> frozenset[int] | None:
        """Give the plants of which looks were written since; None of maybe all."""
        kept = self._looks
        if kept is None or kept.none_after > today:
            return None
        touched = touched_since(session, kept.state, now)
        if touched is None:
            return None
        is_looked = LookRow.__tablename__ in touched.tables
        return touched.plants if is_looked else frozenset()


def _local_day(at_s: int | None) -> date | None:
    """Give the day of an instant here; none of one that no calendar has."""
    if at_s is None:
        return None
    try:
        return datetime.fromtimestamp(at_s, UTC).astimezone().date()
    except (OverflowError, ValueError, OSError):
        return None
