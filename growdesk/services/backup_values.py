"""What is told of backups and of all that can be brought back, as frozen values."""

from __future__ import annotations

from enum import StrEnum
from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.domain.thinning import Why

if TYPE_CHECKING:
    from datetime import datetime
    from pathlib import Path

    from growdesk.services.second_place import SecondPlace

__all__ = ["Backable", "BackupsView", "KeptBackup", "Lies", "Why"]


class KeptBackup(Struct, frozen=True):
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


class Lies(StrEnum):
    """Where something to bring back lies."""

    KEPT = "kept"
    SECOND = "second"
    ASIDE = "aside"


class Backable(Struct, frozen=True):
    """One thing that can be brought back; ``why`` is none of what was set aside.

    ``plants`` and ``photos`` are none where they could not be read.
    """

    path: Path
    lies: Lies
    made_at: datetime
    why: Why | None
    plants: int | None
    photos: int | None
    length_bytes: int
    problem: str = ""


class BackupsView(Struct, frozen=True):
    """What there is to bring back, and how the making of backups stands."""

    entries: tuple[Backable, ...]
    last_at: datetime | None = None
    is_due: bool = False
    second: SecondPlace | None = None
    is_second_there: bool = False
