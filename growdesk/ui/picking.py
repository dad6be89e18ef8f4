"""Say what a plant that was picked in a list is, whichever list that was."""

from __future__ import annotations

from typing import TYPE_CHECKING, Protocol

if TYPE_CHECKING:
    from collections.abc import Sequence

_NAMED = 4


class Picked(Protocol):
    """A plant as commands for one or many take it; a line of the day is one."""

    @property
    def plant_id(self) -> int:
        """Give its number."""

    @property
    def tag(self) -> str:
        """Give its tag."""

    @property
    def name(self) -> str:
        """Give its name, or an empty text."""


def whom(plants: Sequence[Picked]) -> str:
    """Name the first plants picked, and count the rest."""
    named = ", ".join(f"{each.tag} {each.name}".strip() for each in plants[:_NAMED])
    more = len(plants) - _NAMED
    return f"{named} and {more} more" if more > 0 else named
