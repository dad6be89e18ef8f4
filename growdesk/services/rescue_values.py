"""What a rescue saved and what it could not, as frozen values."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct

if TYPE_CHECKING:
    from pathlib import Path


class Saved(Struct, frozen=True):
    """One sort of entry: how many were read, brought back from the history, lost.

    ``lost`` counts those that are known to have been there.
    """

    table: str
    called: str
    read: int
    brought_back: int
    lost: int


class Rescued(Struct, frozen=True):
    """A new collection made of what could be read of a damaged one.

    ``lines`` tell in whole sentences what is not as it was: values set back, values
    that are no longer recorded, entries that could not be read, photos that are not
    whole. ``keeps_history`` tells whether all of before can still be undone.
    ``set_aside`` is where the damaged one lies if the new took its place.
    """

    folder: Path
    saved: tuple[Saved, ...]
    photos: int
    photos_lost: int
    keeps_history: bool
    lines: tuple[str, ...]
    set_aside: Path | None = None

    @property
    def entries(self) -> int:
        """Give how many entries the new collection has of the old one."""
        return sum(each.read + each.brought_back for each in self.saved)

    @property
    def lost(self) -> int:
        """Give how many entries are known to be lost."""
        return sum(each.lost for each in self.saved)
