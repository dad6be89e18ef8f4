"""What a grower can do about a damaged collection: a whole backup, or what can be read.

Either takes the damaged one's place only when it is whole; the damaged one is set aside
beside it, as it was.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct
from msgspec.structs import replace

from growdesk.domain.errors import GrowdeskError
from growdesk.domain.speech import tr
from growdesk.services import backups
from growdesk.services.long_work import quietly
from growdesk.services.rescuing import rescue
from growdesk.services.restoring import restore
from growdesk.store import switching
from growdesk.store.trouble import plainly

if TYPE_CHECKING:
    from datetime import datetime
    from pathlib import Path

    from growdesk.services.backup_values import KeptBackup
    from growdesk.services.long_work import Step
    from growdesk.services.rescue_values import Rescued
    from growdesk.services.restoring import Restored


class WaysOut(Struct, frozen=True):
    """What is damaged, in a plain line, and the newest whole backup, if any."""

    folder: Path
    line: str
    backup: KeptBackup | None


def ways_out(folder: Path, step: Step = quietly) -> WaysOut:
    """Find the newest backup that is whole, read through to be sure."""
    try:
        kept = backups.kept(folder)
        whole = (each for each in kept if not each.problem)
        found = next((b for b in whole if not backups.prove(b, step)), None)
    except GrowdeskError:
        found = None
    line = tr("A part of the collection in {folder} cannot be read.")
    return WaysOut(folder, line.format(folder=folder), found)


def bring_back(ways: WaysOut, now: datetime, step: Step = quietly) -> Restored:
    """Bring the newest whole backup back; the collection must not be open."""
    if ways.backup is None:
        raise ValueError("no backup to bring back")
    return restore(ways.backup.folder, ways.folder, now, step)


def rescue_in_place(folder: Path, now: datetime, step: Step = quietly) -> Rescued:
    """Save what can be read, and put it in the place of the damaged collection.

    That one is set aside whole, as by a restore. It must not be open.
    """
    folder = folder.resolve()
    with plainly(folder), switching.passing(folder) as new:
        made = rescue(folder, new, now, step)
        done = switching.switch(new, folder, now)
    return replace(made, folder=folder, set_aside=done.aside)
