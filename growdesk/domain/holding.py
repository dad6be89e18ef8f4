"""Words on how a plant is held: whether it is still here, what shares its tag, descent.

They decide nothing of feeding; they are here so that file, forms and tables mean the
same by them.
"""

from __future__ import annotations

from enum import StrEnum
from typing import TYPE_CHECKING

from growdesk.domain.speech import Phrases

if TYPE_CHECKING:
    from collections.abc import Mapping


class Status(StrEnum):
    """Whether a plant is still in the collection."""

    GROWING = "growing"
    GIVEN_AWAY = "given-away"
    SOLD = "sold"
    LOST = "lost"


class HeldAs(StrEnum):
    """How several plants share one tag."""

    COMPOT = "compot"
    FLASK = "flask"
    TRAY = "tray"


HELD_AS: Mapping[str, str] = Phrases(
    {HeldAs.COMPOT: "compot", HeldAs.FLASK: "flask", HeldAs.TRAY: "tray"}, "held as"
)


class Descent(StrEnum):
    """How a plant came from another one of the collection."""

    DIVISION = "division"
    BACK_BULB = "back-bulb"
    KEIKI = "keiki"
    SEEDLING = "seedling"


def together(held_as: HeldAs | None, how_many: int | None) -> str:
    """Give how several plants share a tag, as ``tray ×6``; nothing for one plant."""
    if held_as is None:
        return ""
    said = HELD_AS[held_as]
    return said if how_many is None else f"{said} ×{how_many}"
