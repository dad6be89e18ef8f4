"""Room kept in a collection's folder for the day its disk is full.

On a full disk not even taking something away can be written, since a change needs room
for its journal first. So the window keeps a file of nothing; it is let go when a change
finds the disk full, and the change that is then made again has its room.
"""

from __future__ import annotations

import os
import shutil
from contextlib import suppress
from typing import TYPE_CHECKING

from growdesk.store.whole_files import write_whole

if TYPE_CHECKING:
    from pathlib import Path

RESERVE_NAME = "collection.reserve"
RESERVE_BYTES = 1_000_000
_ROOM_AT_LEAST = 32_000_000
"""A disk with less room than this has none to keep."""


def keep_reserve(folder: Path) -> bool:
    """Keep room where there is enough of it; tell whether some is kept now."""
    path = folder / RESERVE_NAME
    with suppress(OSError):
        if path.exists() and path.stat().st_size >= RESERVE_BYTES:
            return True
        if shutil.disk_usage(folder).free < _ROOM_AT_LEAST:
            return False
        write_whole(path, os.urandom(RESERVE_BYTES))  # zeros may take no room at all
        return True
    return False


def let_go(folder: Path) -> bool:
    """Let go of the room that was kept; tell whether there was any."""
    try:
        (folder / RESERVE_NAME).unlink()
    except OSError:
        return False
    return True
