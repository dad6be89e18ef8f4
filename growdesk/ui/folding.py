"""Fold the mixing away where the window is too narrow for three panes, and back.

In a narrow window names would be cut to a few letters; the list and the reasons come
first there, and a button in the head brings the mixing. What a person folds or opens
by hand stays so until the window crosses the line again.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QObject
from typing_extensions import override

from growdesk.ui import sizes

if TYPE_CHECKING:
    from PySide6.QtWidgets import QPushButton, QWidget

NARROW_PX = 1100


class Folding(QObject):
    """Watches a window's width for one pane; ``opener`` is seen while it is folded."""

    def __init__(self, window: QWidget, pane: QWidget, opener: QPushButton) -> None:
        super().__init__(window)
        self._window = window
        self._pane = pane
        self._opener = opener
        self._was_narrow = False
        self._by_itself = False
        self._by_hand = False
        window.installEventFilter(self)
        opener.clicked.connect(self._open_by_button)
        self._show(is_open=True)

    def take(self, pane: QWidget) -> None:
        """Watch over a pane that has come in the place of the one before."""
        self._pane = pane

    @property
    def is_open(self) -> bool:
        """Tell whether the pane stands in the window."""
        return not self._pane.isHidden()

    @property
    def is_by_itself(self) -> bool:
        """Tell whether the pane folded itself, the window being too narrow."""
        return self._by_itself

    def open(self) -> None:
        """Open the pane, however narrow the window is."""
        self._by_itself = False
        self._by_hand = self._was_narrow
        self._show(is_open=True)

    def bring(self) -> None:
        """Open the pane again where there is room for it, else once there is."""
        if self._was_narrow and not self._by_hand:
            self._by_itself = True
        else:
            self.open()

    def turn(self) -> None:
        """Fold the pane away, or open it again."""
        self._by_itself = False
        self._show(is_open=not self.is_open)

    @override
    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() in {QEvent.Type.Resize, QEvent.Type.Show}:
            self.fit()
        return super().eventFilter(watched, event)

    def fit(self) -> None:
        """Fold the pane away or bring it back, by the width that there is now."""
        is_narrow = self._window.width() < sizes.px(NARROW_PX)
        if is_narrow == self._was_narrow:
            return
        self._was_narrow = is_narrow
        self._by_hand = False
        if is_narrow and self.is_open:
            self._by_itself = True
            self._show(is_open=False)
        elif not is_narrow and self._by_itself:
            self.open()

    def _open_by_button(self) -> None:
        """Open the pane and go there: its button is gone with it."""
        self.open()
        self._pane.setFocus()

    def _show(self, *, is_open: bool) -> None:
        self._pane.setVisible(is_open)
        self._opener.setVisible(not is_open)
