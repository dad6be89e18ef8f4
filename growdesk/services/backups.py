"""Backups that make themselves, and are kept with the collection they are of.

Each can be brought back by itself. Making one reads the collection beside whoever
writes it; what is kept is thinned afterwards, and only then. What the window keeps for
itself (sizes, colours, the language) is of the machine and in no backup.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.errors import StoreError
from growdesk.domain.speech import tr
from growdesk.domain.thinning import is_due as day_is_due
from growdesk.services.backup_values import KeptBackup, Why
from growdesk.services.log_file import Key, log
from growdesk.services.long_work import quietly
from growdesk.services.place_file import file_of, folder_there, is_there, snapshot_of
from growdesk.services.whereabouts import home_of
from growdesk.store import backup_listing, backup_sets
from growdesk.store.backup_copy import NOTHING_WRITTEN, Snapshot
from growdesk.store.backup_sets import BACKUPS, local_day
from growdesk.store.trouble import plainly

if TYPE_CHECKING:
    from datetime import datetime
    from pathlib import Path

    from growdesk.services.long_work import Step
    from growdesk.services.whereabouts import Where
    from growdesk.store.backup_listing import Kept


def kept(folder: Path) -> tuple[KeptBackup, ...]:
    """Give the backups kept with a collection, the last that was made first."""
    return kept_in(folder / BACKUPS)


def folder_of(folder: Path) -> Path:
    """Give the folder that the backups of a collection are kept in."""
    return folder / BACKUPS


def kept_in(root: Path) -> tuple[KeptBackup, ...]:
    """Give the backups that lie in a folder of backups, as on a stick."""
    with plainly(root):
        return tuple(_told(each) for each in backup_listing.kept_in(root))


def make(where: Where, why: Why, now: datetime, step: Step = quietly) -> KeptBackup:
    """Make and keep a backup of a collection, then thin those that are kept.

    Raises StoreError where none could be made; then those made before stay as they
    are. Before a restore nothing is thinned: what is to come back must be there.
    """
    folder = folder_there(where)
    with file_of(where, step) as file:
        database = _database(file, folder)
        made = backup_sets.make(database, why, now, step, folder=folder)
    log.info("backup made: %s", Key(why.value))
    if why is not Why.BEFORE_RESTORE:
        try:
            backup_sets.thin(folder / BACKUPS, now, step)
        except StoreError:  # the backup is made; the next one thins for both
            log.warning("backups not thinned")
    return _told(made)


def is_due(where: Where, now: datetime) -> bool:
    """Tell whether a day has begun that has no backup, and something was written."""
    root, today = home_of(where) / BACKUPS, local_day(now)
    if not is_there(where) or backup_listing.is_last_of(root, today.isoformat()):
        return False
    with plainly(root):
        sound = [each for each in backup_listing.kept_in(root) if not each.problem]
    there = snapshot_of(where)
    if not sound:
        return bool(there.rows["plant"]) or there.mark != NOTHING_WRITTEN
    last = sound[0].manifest
    if not day_is_due(local_day(last.made_at), today):
        return False
    return there != Snapshot(last.schema, last.mark, dict(last.rows))


def prove(backup: KeptBackup, step: Step = quietly) -> str:
    """Read a backup through; give in a line what is wrong with it, or nothing."""
    found = _found(backup)
    if found is None:
        return tr("{name} is gone.").format(name=backup.folder.name)
    return backup_listing.prove(found, step)


def lacking_in(backup: KeptBackup) -> tuple[str, ...]:
    """Give a plain line for each photo that was not whole when it was made."""
    lines = []
    for each in _there(backup).manifest.lacking:
        line = (
            tr("The photo {name} was damaged.")
            if each.damaged
            else tr("The photo {name} was gone.")
        )
        lines.append(line.format(name=each.name))
    return tuple(lines)


def _found(backup: KeptBackup) -> Kept | None:
    with plainly(backup.folder):
        found = backup_listing.kept_in(backup.folder.parent)
    return next((each for each in found if each.path == backup.folder), None)


def _there(backup: KeptBackup) -> Kept:
    found = _found(backup)
    if found is None:
        raise StoreError(tr("{name} is gone.").format(name=backup.folder.name))
    return found


def _database(path: Path, folder: Path) -> Path:
    if not path.is_file():
        raise StoreError(
            tr("There is no collection in {folder}.").format(folder=folder),
            tr("Choose the folder that holds collection.sqlite."),
        )
    return path


def _told(each: Kept) -> KeptBackup:
    told = each.manifest
    return KeptBackup(
        folder=each.path,
        made_at=told.made_at,
        why=told.why,
        plants=told.rows.get("plant", 0),
        photos=len(told.photos),
        length_bytes=sum(held.length_bytes for held in told.files),
        form=told.schema,
        problem=each.problem,
    )
