"""The seal: what a collection's file was like when growdesk last closed it.

It is written whole at each clean close, and verified and removed at the next opening,
before the first write. So where there is none, the program was stopped; and where the
file is not as sealed, it was replaced, or changed on the disk, while nobody had it
open. Half of all single flipped bits are seen by nothing else: SQLite reads them as
another number.
"""

from __future__ import annotations

import json
from datetime import datetime, timedelta
from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.store.regular_files import (
    StrangeFileError,
    TooLargeError,
    leads_away,
    read_regular,
    sha256_of,
)
from growdesk.store.whole_files import sync_folder, write_whole

if TYPE_CHECKING:
    from pathlib import Path

SEAL_NAME = "collection.seal"
FULL_CHECK_EVERY = timedelta(days=7)
_FORM = 1
_MOST_BYTES = 4096


class Seal(Struct, frozen=True):
    """A file's digest, length and schema at its close; times are UTC.

    ``fully_checked_at`` is the last check in depth, none where one is due.
    """

    sha256: str
    length_bytes: int
    schema: int
    closed_at: datetime
    fully_checked_at: datetime | None = None

    def matches(self, path: Path) -> bool:
        """Tell whether the file is, byte for byte, as it was left."""
        if path.stat().st_size != self.length_bytes:
            return False
        return sha256_of(path) == self.sha256

    def full_check_due(self, now: datetime) -> bool:
        """Tell whether the last check in depth is a week off, by a clock set anyhow."""
        checked = self.fully_checked_at
        return checked is None or abs(now - checked) > FULL_CHECK_EVERY


def read_seal(folder: Path) -> Seal | None:
    """Give the seal of a folder; none where it is absent or says nothing."""
    try:
        said = json.loads(read_regular(folder / SEAL_NAME, _MOST_BYTES))
        return _seal(said) if said["form"] == _FORM else None
    except (FileNotFoundError, StrangeFileError, TooLargeError):
        return None
    except (ValueError, TypeError, KeyError, RecursionError):
        return None


def put_seal(folder: Path, seal: Seal) -> None:
    """Write a folder's seal, whole or not at all."""
    checked = seal.fully_checked_at
    said = {
        "form": _FORM,
        "sha256": seal.sha256,
        "bytes": seal.length_bytes,
        "schema": seal.schema,
        "closed_at": seal.closed_at.isoformat(),
        "fully_checked_at": None if checked is None else checked.isoformat(),
    }
    write_whole(folder / SEAL_NAME, json.dumps(said, indent=1).encode())


def break_seal(folder: Path) -> None:
    """Remove a folder's seal, so that its absence is on the disk before any write."""
    path = folder / SEAL_NAME
    if path.exists() or leads_away(path):
        path.unlink()
        sync_folder(folder)


def _seal(said: dict[str, object]) -> Seal:
    checked = said["fully_checked_at"]
    return Seal(
        str(said["sha256"]),
        int(str(said["bytes"])),
        int(str(said["schema"])),
        _moment(said["closed_at"]),
        None if checked is None else _moment(checked),
    )


def _moment(said: object) -> datetime:
    moment = datetime.fromisoformat(str(said))
    if moment.tzinfo is None:
        raise ValueError("a moment without its zone")
    return moment
