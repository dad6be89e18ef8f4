"""Frozen values of the bin: what lies in it, and what emptying it would take."""

from __future__ import annotations

from enum import StrEnum
from typing import TYPE_CHECKING

from msgspec import Struct

if TYPE_CHECKING:
    from datetime import date
    from pathlib import Path

    from growdesk.services.values import Written


class BinSort(StrEnum):
    """What an entry of the bin is: a plant, records, or a thing of the shelf."""

    PLANT = "plant"
    RECORDS = "records"
    TIN = "tin"
    WATER = "water"
    RECIPE = "recipe"


class BinKey(Struct, frozen=True):
    """An entry of the bin: a row by its number, or records by their action."""

    sort: BinSort
    number: int


class BinEntry(Struct, frozen=True):
    """One thing in the bin, named, with the day it was removed on.

    ``count`` is how many records went with it, those of a plant among them.
    """

    key: BinKey
    title: str
    removed_on: date
    count: int
    tags: tuple[str, ...] = ()


class BinView(Struct, frozen=True):
    """What lies in the bin, the newest first, and what emptying takes.

    Of removed records the newest 500 removals are listed; all are counted.

    Things of the shelf are put back but never emptied: records name them. Photo files
    are counted where nothing else names them.
    """

    entries: tuple[BinEntry, ...] = ()
    plants: int = 0
    records: int = 0
    photos: int = 0
    photo_bytes: int = 0

    @property
    def can_empty(self) -> bool:
        """Tell whether anything would go."""
        return bool(self.plants or self.records or self.photos)


class Emptied(Struct, frozen=True):
    """What emptying took, and the backup that was made before it."""

    written: Written
    backup: Path
    photos: int
    photo_bytes: int
