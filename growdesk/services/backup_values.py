"""What is told of kept backups, as frozen values."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from growdesk.domain.thinning import Why

if TYPE_CHECKING:
    from datetime import datetime
    from pathlib import Path

__all__ = ["KeptBackup", "Why"]


@dataclass(frozen=True, slots=True)
class KeptBackup:
    """One backup among those kept with a collection; ``made_at`` is UTC.

    ``form`` is the schema of its database. ``problem`` says why it cannot be brought
    back; it is empty where the backup is whole as far as has been looked. ``folder``
    is a single file where an earlier growdesk kept it before a new form.
    """

    folder: Path
    made_at: datetime
    why: Why
    plants: int
    photos: int
    length_bytes: int
    form: int
    problem: str = ""
