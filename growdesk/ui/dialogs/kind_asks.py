"""What the browser of kinds is shown, and what it asks to be written."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct

if TYPE_CHECKING:
    from growdesk.services.kind_values import KindProblem, KindView

Slot = tuple[str, int | None, str]
"""Where a draft belongs: kind, plant or none, field."""


class Correction(Struct, frozen=True):
    """Cells to be kept for a kind, or for one plant of it, with a note."""

    kind_key: str
    plant_id: int | None
    cells: dict[str, str]
    note: str


class Restoring(Struct, frozen=True):
    """Fields that shall be as shipped again, or for a plant as its kind has them."""

    kind_key: str
    plant_id: int | None
    names: tuple[str, ...]


class KindsShown(Struct, frozen=True):
    """All that the browser shows: kinds, one plant's kind, and what is unused.

    ``for_plant`` opens it on corrections for that plant alone.
    """

    views: tuple[KindView, ...]
    plant: KindView | None = None
    problems: tuple[KindProblem, ...] = ()
    for_plant: bool = False
