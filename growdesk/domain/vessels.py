"""What feed is mixed and carried in: jugs, cans, bottles and the grower's own mug."""

from __future__ import annotations

from enum import StrEnum

from msgspec import Struct


class VesselKind(StrEnum):
    """What a vessel is for."""

    JUG = "jug"
    CAN = "can"
    BOTTLE = "bottle"
    MUG = "mug"


class Vessel(Struct, frozen=True):
    """A vessel by its size; ``step_ml`` is the least its scale shows, if it has one.

    Feed is mixed in jugs, carried in cans, kept in bottles; a mug is the grower's own
    measure.
    """

    kind: VesselKind
    name: str
    volume_l: float
    how_many: int = 1
    step_ml: float | None = None
    key: int | None = None
