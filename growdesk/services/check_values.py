"""What a full check finds, as frozen values."""

from __future__ import annotations

from enum import StrEnum
from typing import TYPE_CHECKING

from msgspec import Struct

if TYPE_CHECKING:
    from collections.abc import Mapping

Plain = int | float | str | None


class Sort(StrEnum):
    """What is damaged."""

    FILE = "file"
    VALUE = "value"
    ENTRY = "entry"
    PHOTO = "photo"
    HISTORY = "history"


class Mend(Struct, frozen=True):
    """How an entry is set back as the history has it.

    Of one field its ``column``, what was found there and what the history has. Without
    a column it is the whole entry that is put back.
    """

    table: str
    row_id: int
    column: str
    found: Plain
    told: Plain
    row: Mapping[str, Plain]


class Damage(Struct, frozen=True):
    """One damaged thing: whose it is, one whole sentence, and the way to mend it.

    ``whose`` is what lists go by: a plant, a place, or what else it belongs to.
    ``photo`` is the name of a photo that a backup holds whole.
    """

    sort: Sort
    whose: str
    sentence: str
    mend: Mend | None = None
    photo: str = ""


class FullCheck(Struct, frozen=True):
    """What looking through a whole collection found."""

    plants: int
    photos: int
    entries: int
    changes: int
    damage: tuple[Damage, ...]

    @property
    def mendable(self) -> tuple[Damage, ...]:
        """Give what can be set back as the history has it."""
        return tuple(each for each in self.damage if each.mend is not None)

    @property
    def photos_kept(self) -> tuple[str, ...]:
        """Give the photos that are gone or damaged here and whole in a backup."""
        return tuple(each.photo for each in self.damage if each.photo)
