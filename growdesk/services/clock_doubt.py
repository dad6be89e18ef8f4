"""Whether the machine's clock can be right: today may not lie before the last entry."""

from __future__ import annotations

from datetime import UTC, date, datetime
from typing import TYPE_CHECKING

from sqlalchemy import func, select

from growdesk.domain.day_words import dated_text
from growdesk.domain.speech import tr
from growdesk.store.schema import ActionRow, CareRow, LookRow

if TYPE_CHECKING:
    from growdesk.services.ledger import Ledger


def clock_doubt(ledger: Ledger) -> str:
    """Say that today is before the last entry, and what to do; else nothing.

    The last entry is the one written last, or dated last among looks and care.
    """
    today = ledger.today()
    written = (
        select(ActionRow.at_s)
        .where(ActionRow.undone.is_(False))
        .order_by(ActionRow.id.desc())
        .limit(1)
        .scalar_subquery()
    )
    look = select(func.max(LookRow.day)).scalar_subquery()
    care = select(func.max(CareRow.day)).scalar_subquery()
    with ledger.reading() as session:
        at_s, *days = session.execute(select(written, look, care)).one()
    known = [day for day in (_local_day(at_s), *days) if day is not None]
    last = max(known, default=today)
    if last <= today:
        return ""
    return tr(
        "Today is {today} by this computer, and that is before your last entry, of"
        " {last}. Set the computer's clock where it is wrong; where it is right, the"
        " entry has a wrong day."
    ).format(today=dated_text(today), last=dated_text(last))


def _local_day(at_s: int | None) -> date | None:
    """Give the day of an instant here; none of one that no calendar has."""
    if at_s is None:
        return None
    try:
        return datetime.fromtimestamp(at_s, UTC).astimezone().date()
    except (OverflowError, ValueError, OSError):
        return None
