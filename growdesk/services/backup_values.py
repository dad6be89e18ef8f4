"""What is told of kept backups, as frozen values."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from datetime import datetime
    from pathlib import Path


class Why(StrEnum):
    """What a kept backup was made for."""

    DAILY = "daily"
    BY_HAND = "by-hand"
    BEFORE_FORM = "before-form"
    BEFORE_RESTORE = "before-restore"
    BEFORE_EMPTYING = "before-emptying"


@dataclass(frozen=True, slots=True)
class KeptBackup:
    """One backup among those kept with a collection; ``made_at`` is UTC.

    ``form`` is the schema of its database. ``problem`` says why it cannot be brought
    back; it is empty where the backup is whole as far as has been looked.
    """

    folder: Path
    made_at: datetime
    why: Why
    plants: int
    photos: int
    length_bytes: int
    form: int
    problem: str = ""
