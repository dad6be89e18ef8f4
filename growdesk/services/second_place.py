"""A second place for backups: a stick or another disk of the grower's choice.

What was chosen lies beside the backups it is about, since it is of this collection on
this machine. Its folder there is made once, when it is chosen, and never again: a
stick that is not plugged in leaves an empty folder behind on many systems, and what is
written there would be on the same disk.
"""

from __future__ import annotations

import json
import re
import secrets
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

from msgspec import Struct
from msgspec.structs import replace

from growdesk.domain.errors import InputError
from growdesk.domain.speech import tr
from growdesk.services.long_work import quietly
from growdesk.store import backup_listing, backup_sets
from growdesk.store.backup_sets import BACKUPS, local_day
from growdesk.store.regular_files import TooLargeError, leads_away, read_regular
from growdesk.store.trouble import plainly
from growdesk.store.whole_files import PRIVATE, make_folder, write_whole

if TYPE_CHECKING:
    from datetime import date

    from growdesk.services.long_work import Step

PATIENCE_DAYS = 14
"""So many days a stick may be away before the head of the day says so."""
_FILE = "also-in.json"
_MOST_BYTES = 100_000
_SAYS_NOTHING = (
    OSError,
    TooLargeError,
    ValueError,
    KeyError,
    TypeError,
    RecursionError,
)
_NAME = re.compile(r"growdesk-[\w. -]{1,80}-[0-9a-f]{8}")


class SecondPlace(Struct, frozen=True):
    """A folder that backups also go to.

    ``chosen`` is the grower's folder, ``backups`` the one in it for this collection.
    ``copied_at`` (UTC) and ``number`` are of the last backup that was copied there.
    """

    chosen: Path
    backups: Path
    since: datetime
    copied_at: datetime | None = None
    number: int = 0

    @property
    def is_there(self) -> bool:
        """Tell whether it is plugged in."""
        return self.backups.is_dir() and not leads_away(self.backups)

    def days_without(self, today: date) -> int:
        """Give how many days ago a backup last went there, or it was chosen."""
        return (today - local_day(self.copied_at or self.since)).days


def places_of(folder: Path) -> tuple[Path, ...]:
    """Give the folders that keep backups of a collection, the one beside it first."""
    second = second_place(folder)
    return (folder / BACKUPS, *(() if second is None else (second.backups,)))


def second_place(folder: Path) -> SecondPlace | None:
    """Give where backups of a collection also go, if anywhere."""
    try:
        read = json.loads(read_regular(folder / BACKUPS / _FILE, _MOST_BYTES))
        chosen, name = Path(read["folder"]), str(read["name"])
        copied_at = read["copied_at"]
        if not _NAME.fullmatch(name) or not chosen.is_absolute():
            return None
        return SecondPlace(
            chosen,
            chosen / name,
            _instant(read["since"]),
            None if copied_at is None else _instant(copied_at),
            int(read["number"]),
        )
    except _SAYS_NOTHING:
        return None


def choose(folder: Path, chosen: Path | None, now: datetime) -> SecondPlace | None:
    """Let backups also go to a folder that is there, or to none."""
    file = folder / BACKUPS / _FILE
    with plainly(file):
        if chosen is None:
            file.unlink(missing_ok=True)
            return None
    chosen = chosen.absolute()
    _refuse(folder, chosen)
    known = second_place(folder)
    if known is not None and known.chosen == chosen and known.is_there:
        return known
    called = re.sub(r"[^\w. -]", "", folder.resolve().name)[:60] or "collection"
    made = chosen / f"growdesk-{called}-{secrets.token_hex(4)}"
    with plainly(made):
        make_folder(made, PRIVATE)
    place = SecondPlace(chosen, made, now)
    _keep(folder, place)
    return place


def copy_last(folder: Path, now: datetime, step: Step = quietly) -> SecondPlace | None:
    """Copy the last whole backup to the second place, if that is there, and thin it.

    Gives the place as it stands then; nothing where none was chosen. Raises StoreError
    where the place would not take it; what lies there stays.
    """
    place = second_place(folder)
    if place is None or not place.is_there:
        return place
    whole = [
        each
        for each in backup_listing.kept_in(folder / BACKUPS)
        if not each.problem and not each.is_earlier
    ]
    if not whole or whole[0].manifest.number == place.number:
        return place
    backup_sets.copy(whole[0], place.backups, step)
    backup_sets.thin(place.backups, now, step)
    copied = replace(place, copied_at=now, number=whole[0].manifest.number)
    _keep(folder, copied)
    return copied


def is_overdue(folder: Path, today: date) -> bool:
    """Tell whether backups have waited too long for the second place."""
    place = second_place(folder)
    if place is None or place.days_without(today) < PATIENCE_DAYS:
        return False
    kept = backup_listing.kept_in(folder / BACKUPS)
    return bool(kept) and kept[0].manifest.number != place.number


def _refuse(folder: Path, chosen: Path) -> None:
    if not chosen.is_dir():
        hint = tr("Plug its disk in, make the folder first, or choose another.")
        raise InputError("folder", str(chosen), tr("is not there"), hint)
    if chosen.resolve().is_relative_to(folder.resolve()):
        hint = tr("Choose another folder, best on another disk.")
        problem = tr("lies inside the collection")
        raise InputError("folder", str(chosen), problem, hint)


def _keep(folder: Path, place: SecondPlace) -> None:
    copied = place.copied_at
    told = {
        "folder": str(place.chosen),
        "name": place.backups.name,
        "since": place.since.astimezone(UTC).isoformat(timespec="seconds"),
        "copied_at": (
            None
            if copied is None
            else copied.astimezone(UTC).isoformat(timespec="seconds")
        ),
        "number": place.number,
    }
    root = folder / BACKUPS
    with plainly(root):
        make_folder(root)
        write_whole(root / _FILE, json.dumps(told, indent=1).encode())


def _instant(told: str) -> datetime:
    found = datetime.fromisoformat(told)
    if found.tzinfo is None:
        raise ValueError
    return found
