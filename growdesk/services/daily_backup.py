"""What growdesk does of itself each day: a backup, and its copy in a second place.

It never stops what a person was about to do. What went wrong comes back as lines.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.domain.errors import BusyError, StoreError
from growdesk.domain.speech import tr, trn
from growdesk.services import backups, second_place
from growdesk.services.backup_values import Why
from growdesk.services.long_work import quietly
from growdesk.services.whereabouts import home_of
from growdesk.store.backup_sets import local_day

if TYPE_CHECKING:
    from datetime import datetime
    from pathlib import Path

    from growdesk.services.backup_values import KeptBackup
    from growdesk.services.long_work import Step
    from growdesk.services.whereabouts import Where


class Daily(Struct, frozen=True):
    """What came of it: the backup that was made, if one was due and could be.

    ``problems`` are what went wrong now, ``waiting`` what the second place waits for.
    """

    made: KeptBackup | None = None
    problems: tuple[str, ...] = ()
    waiting: str = ""


def keep(where: Where, now: datetime, step: Step = quietly) -> Daily:
    """Make the day's backup where it is due, and copy the last to the second place."""
    made, problems = None, []
    folder = home_of(where)
    try:
        if backups.is_due(where, now):
            made = backups.make(where, Why.DAILY, now, step)
    except BusyError:
        pass  # another growdesk makes it just now
    except StoreError as error:
        line = tr("No backup was made today. {reason}")
        problems.append(line.format(reason=error.line()))
    try:
        second_place.copy_last(folder, now, step)
    except StoreError as error:
        line = tr("The backup could not be copied to the second place. {reason}")
        problems.append(line.format(reason=error.line()))
    return Daily(made, tuple(problems), _waiting(folder, now))


def _waiting(folder: Path, now: datetime) -> str:
    """Say that a second place has gone without a backup for too long."""
    today = local_day(now)
    place = second_place.second_place(folder)
    if place is None or not second_place.is_overdue(folder, today):
        return ""
    days = place.days_without(today)
    return trn(
        "For {days} day no backup has gone to {folder}: plug it in.",
        "For {days} days no backup has gone to {folder}: plug it in.",
        days,
    ).format(days=days, folder=place.chosen)
