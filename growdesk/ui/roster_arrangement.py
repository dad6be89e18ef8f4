"""How the table of all plants stands: the view chosen, and what was altered since.

Columns and order of a view that has its own are the view's; of all others they are the
usual ones, which are remembered on this machine.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec.structs import replace

from growdesk.services.view_starts import STARTS
from growdesk.ui import roster_memory

if TYPE_CHECKING:
    from collections.abc import Sequence

    from growdesk.services.roster_values import SavedView, ViewDraft


class Arrangement:
    """A view as it is kept, and as it stands."""

    def __init__(self) -> None:
        self.base: SavedView = STARTS[0]
        self.view: ViewDraft = STARTS[0].draft
        self.liked = roster_memory.recall()

    @property
    def columns(self) -> tuple[str, ...]:
        """Give the columns shown."""
        return self.view.columns or self.liked.columns

    @property
    def order(self) -> tuple[str, bool]:
        """Give the column the table is sorted by, and whether it is turned round."""
        if self.view.order:
            return self.view.order, self.view.downwards
        return self.liked.order, self.liked.downwards

    def take(self, view: SavedView) -> None:
        """Show a view as it is kept."""
        self.base, self.view = view, view.draft

    def effective(self) -> ViewDraft:
        """Give the view with the order it is sorted by."""
        order, downwards = self.order
        return replace(self.view, order=order, downwards=downwards)

    def lay_columns(self, columns: Sequence[str]) -> None:
        """Show other columns: of the view where it has its own, else as usual."""
        if self.view.columns:
            self.view = replace(self.view, columns=tuple(columns))
        else:
            self.liked.columns = tuple(columns)
            roster_memory.keep(self.liked)

    def sort_by(self, key: str, *, downwards: bool | None = None) -> None:
        """Sort by a column; where it is sorted so already, the other way round."""
        before, was_down = self.order
        turned = key == before and not was_down
        down = turned if downwards is None else downwards
        if self.view.order:
            self.view = replace(self.view, order=key, downwards=down)
        else:
            self.liked.order, self.liked.downwards = key, down
            roster_memory.keep(self.liked)

    def widen(self, key: str, wide_px: int) -> None:
        """Remember the width that was given to a column."""
        self.liked.widths[key] = wide_px
        roster_memory.keep(self.liked)

    def as_kept(self, name: str) -> ViewDraft:
        """Give what is shown now as a view that has all of its own."""
        return replace(self.effective(), name=name, columns=self.columns)
