"""Hold the place of a pane beside the list until the pane is made.

The list comes first; what stands beside it is made once that was painted, or wanted.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtWidgets import QFrame

from growdesk.ui import sizes
from growdesk.ui.widgets import focus

if TYPE_CHECKING:
    from PySide6.QtWidgets import QSplitter, QWidget


class PlaceBeside(QFrame):
    """An empty pane in a splitter, as narrow at least as the one that comes.

    ``after`` is where Tab goes from what is in it.
    """

    def __init__(self, split: QSplitter, least_at_100: int, *after: QWidget) -> None:
        super().__init__()
        sizes.least_wide(self, least_at_100)
        self.setProperty("pane", "true")
        self._split = split
        self._after = after
        split.addWidget(self)

    def fill(self, pane: QWidget) -> None:
        """Put the pane here, as wide and as hidden."""
        at = self._split.indexOf(self)
        stretch = self.sizePolicy().horizontalStretch()
        self._split.replaceWidget(at, pane)
        self._split.setStretchFactor(at, stretch)
        rest = [stop for each in self._after for stop in focus.stops(each)]
        focus.chain([focus.stops(pane)[-1], *rest])
        self.deleteLater()
