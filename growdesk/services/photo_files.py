"""Photo files of a collection that no row and no image of the journal names."""

from __future__ import annotations

import time
from typing import TYPE_CHECKING

from sqlalchemy import select

from growdesk.store import removed
from growdesk.store.backup_pool import photos_below
from growdesk.store.schema import PhotoRow

if TYPE_CHECKING:
    from pathlib import Path

    from growdesk.store.session import Session

_STRANGER_AGE_S = 3600
"""Files that nothing ever named may just be on their way in; those older are not."""


def photos_going(session: Session, plants: list[int]) -> tuple[set[str], set[str]]:
    """Give the photos that stay, and all that rows or the journal ever named."""
    kept = set(
        session.scalars(select(PhotoRow.sha256).where(PhotoRow.plant_id.not_in(plants)))
    )
    named = removed.photos_in_journal(session) | removed.photos_named(session)
    return kept, named


def photo_files_without(
    folder: Path, kept: set[str], named: set[str], *, is_shared: bool = False
) -> list[Path]:
    """Give photo files that nothing keeps; never one that may be on its way in.

    What bears another name than growdesk gives, or lies behind a link, is not ours. In
    a shared folder those that nothing ever named may be of another collection.
    """
    oldest_s = float("-inf") if is_shared else time.time() - _STRANGER_AGE_S
    return [
        folder / name
        for name, state in sorted(photos_below(folder).items())
        if (stem := (folder / name).stem) not in kept
        and (stem in named or state.st_mtime < oldest_s)
    ]
