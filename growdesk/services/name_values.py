"""A name as windows and commands show it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct

if TYPE_CHECKING:
    from growdesk.domain.name_runs import Run
    from growdesk.domain.name_sort import SortKey
    from growdesk.domain.plant_name import PlantName


class DoubtView(Struct, frozen=True):
    """A doubt in words, what would settle it, and names that would."""

    sort: str
    said: str
    settles: str
    proposals: tuple[str, ...]
    is_gentle: bool


class NameView(Struct, frozen=True):
    """A name: how it is shown, its parts in words, its doubts, and its place."""

    text: str
    runs: tuple[Run, ...]
    parts: tuple[tuple[str, str], ...]
    parts_line: str
    doubts: tuple[DoubtView, ...]
    sort_key: SortKey
    name: PlantName

    @property
    def shown(self) -> str:
        """Give the name as shown, without its faces."""
        return "".join(run.text for run in self.runs)
