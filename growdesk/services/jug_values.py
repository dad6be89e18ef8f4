"""The mixes of one jug, as services hand them out."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct

if TYPE_CHECKING:
    from growdesk.domain.expected_ec import ExpectedEc
    from growdesk.domain.measuring import Measured


class JugFill(Struct, frozen=True):
    """One mix of a jug, or several that are alike; volumes in litres.

    ``doses`` are of one of them. ``gives_ppm_n`` is the strength that they really give.
    ``cans`` is how many carry one mix; ``is_read`` tells whether the vessel shows the
    volume.
    """

    how_many: int
    volume_l: float
    vessel: str
    doses: tuple[Measured, ...] = ()
    gives_ppm_n: float | None = None
    cans: int = 1
    is_read: bool = True


class BottleToMake(Struct, frozen=True):
    """A bottle of stock solution worth making for doses too small to measure.

    ``amount`` of the tin goes into the bottle: g, of a liquid mL.
    """

    tin_id: int
    product: str
    amount: float
    volume_l: float


class LadderJug(Struct, frozen=True):
    """What a jug of the ladder comes to by what was measured into the first one.

    ``ec`` is None where nobody knows what it should read.
    """

    letter: str
    strength_ppm_n: int
    gives_ppm_n: float
    ec: ExpectedEc | None = None


class LadderShare(Struct, frozen=True):
    """The share that a jug has of what is measured into the first one of its ladder."""

    share: float
    doses: tuple[Measured, ...]
