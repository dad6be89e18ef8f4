"""Put the panes under one another where they find no room beside one another.

Large text in a small window asks for more width than there is; a page is then read
downwards and never sideways (WCAG 2.2, 1.4.10). What a person gave the panes in width
comes back with the room for it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QObject, Qt
from typing_extensions import override

from growdesk.ui import sizes

if TYPE_CHECKING:
    from PySide6.QtWidgets import QSplitter, QWidget


_LEAST_HIGH = 250
"""What a pane among others under one another is high at least, as at 100 %."""


class Stacking(QObject):
    """Watches a window's width for the panes of a splitter.

    ``beside_px`` is what the window's edges take of its width.
    """

    def __init__(self, window: QWidget, split: QSplitter, beside_px: int) -> None:
        super().__init__(window)
        self._window = window
        self._split = split
        self._beside_px = beside_px
        self._widths: list[int] = []
        window.installEventFilter(self)
        split.installEventFilter(self)

    @property
    def is_stacked(self) -> bool:
        """Tell whether the panes stand under one another."""
        return self._split.orientation() == Qt.Orientation.Vertical

    @property
    def _panes(self) -> list[QWidget]:
        found = (self._split.widget(each) for each in range(self._split.count()))
        return [pane for pane in found if pane is not None]

    def needed_px(self) -> int:
        """Give the width that the panes in sight need beside one another."""
        least = [
            pane.minimumWidth() or pane.minimumSizeHint().width()
            for pane in self._panes
            if not pane.isHidden()
        ]
        return sum(least) + self._split.handleWidth() * (len(least) - 1)

    def fit(self) -> None:
        """Stack the panes or put them side by side, by the width that there is now."""
        has_room = self.needed_px() <= self._window.width() - self._beside_px
        if has_room is not self.is_stacked:
            return
        if has_room:
            self._split.setOrientation(Qt.Orientation.Horizontal)
            for pane in self._panes:
                sizes.least_high(pane, 0)
            self._split.setSizes(self._widths)
        else:
            self._widths = self._split.sizes()
            self._split.setOrientation(Qt.Orientation.Vertical)
            for pane in self._panes:
                if pane.minimumSizeHint().height() < sizes.px(_LEAST_HIGH):
                    sizes.least_high(pane, _LEAST_HIGH)

    @override
    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        kinds = {QEvent.Type.Resize, QEvent.Type.Show}
        if watched is self._split:
            kinds = {QEvent.Type.LayoutRequest}
        if event.type() in kinds:
            self.fit()
        return super().eventFilter(watched, event)
