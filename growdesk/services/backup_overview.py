"""All that a collection can be brought back from, in one view.

Backups kept with it, those in the second place, and collections that were set aside
when another was brought back, the last that was made first.
"""

from __future__ import annotations

import sqlite3
from contextlib import closing, suppress
from datetime import UTC
from typing import TYPE_CHECKING

from growdesk.domain.errors import StoreError
from growdesk.services import backups, second_place
from growdesk.services.backup_values import Backable, BackupsView, Lies
from growdesk.services.care_of_files import check
from growdesk.services.long_work import quietly
from growdesk.services.whereabouts import home_of
from growdesk.store import switching
from growdesk.store.backup_copy import at_rest
from growdesk.store.store import FILE_NAME

if TYPE_CHECKING:
    from datetime import datetime
    from pathlib import Path

    from growdesk.services.backup_values import KeptBackup
    from growdesk.services.long_work import Step
    from growdesk.services.whereabouts import Where


def overview(where: Where, now: datetime) -> BackupsView:
    """Read what a collection can be brought back from."""
    folder = home_of(where).resolve()
    kept = [_of_kept(each, Lies.KEPT) for each in backups.kept(folder)]
    second = second_place.second_place(folder)
    is_there = second is not None and second.is_there
    beyond: list[Backable] = []
    if second is not None and is_there:
        with suppress(StoreError):
            there = backups.kept_in(second.backups)
            beyond = [_of_kept(each, Lies.SECOND) for each in there]
    aside = [_of_aside(each) for each in switching.set_asides(folder)]
    newest_first = sorted(
        (*kept, *beyond, *aside), key=lambda each: each.made_at, reverse=True
    )
    return BackupsView(
        tuple(newest_first),
        max((each.made_at for each in kept), default=None),
        backups.is_due(where, now),
        second,
        is_there,
    )


def prove(entry: Backable, step: Step = quietly) -> str:
    """Read one of them through; give in a line what is wrong with it, or nothing."""
    if entry.lies is Lies.ASIDE:
        found = check(entry.path).problems
        return found[0] if found else ""
    for kept in backups.kept_in(entry.path.parent):
        if kept.folder == entry.path:
            return backups.prove(kept, step)
    return entry.problem


def database_of(entry: Backable) -> Path:
    """Give where its records lie."""
    return entry.path if entry.path.is_file() else entry.path / FILE_NAME


def _of_kept(kept: KeptBackup, lies: Lies) -> Backable:
    return Backable(
        kept.folder,
        lies,
        kept.made_at,
        kept.why,
        kept.plants,
        kept.photos,
        kept.length_bytes,
        kept.problem,
    )


def _of_aside(aside: switching.SetAside) -> Backable:
    database = aside.folder / FILE_NAME
    photos = [path for path in (aside.folder / "photos").glob("*/*") if path.is_file()]
    files = (database, *photos)
    return Backable(
        aside.folder,
        Lies.ASIDE,
        aside.at.astimezone(UTC),
        None,
        _plants(database),
        len(photos),
        sum(path.stat().st_size for path in files if path.exists()),
    )


def _plants(database: Path) -> int | None:
    with suppress(sqlite3.Error, OSError), closing(at_rest(database)) as connection:
        return int(connection.execute("SELECT count(*) FROM plant").fetchone()[0])
    return None
