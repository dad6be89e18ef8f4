"""Give a fold: a line to press that shows or hides what is less often needed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from growdesk.domain.speech import tr
from growdesk.ui import icons, theme
from growdesk.ui.widgets.parts import link

if TYPE_CHECKING:
    from collections.abc import Callable


class Fold(QObject):
    """A button and the body it folds away, to be laid out wherever each belongs.

    The button's name says what is folded and whether it is. ``fill`` puts into the
    body what nobody has seen yet, when it is first unfolded.
    """

    turned = Signal(bool)

    def __init__(
        self,
        owner: QWidget,
        text: str,
        name: str,
        *,
        is_open: bool = False,
        fill: Callable[[QVBoxLayout], object] | None = None,
    ) -> None:
        body = QWidget(owner)
        super().__init__(body)
        self._name = name
        self._fill = fill
        self.button = link(text, self.turn)
        self.body = body
        self.rows = QVBoxLayout(self.body)
        self.rows.setContentsMargins(0, 0, 0, 2)
        self.rows.setSpacing(5)
        self._show(is_open=is_open)

    @property
    def is_open(self) -> bool:
        """Tell whether the body can be seen."""
        return not self.body.isHidden()

    def turn(self) -> None:
        """Show what is folded away, or fold it."""
        self._show(is_open=not self.is_open)
        self.turned.emit(self.is_open)

    def refresh_colours(self) -> None:
        """Draw the button's mark in the scheme now in force."""
        mark = "up" if self.is_open else "down"
        self.button.setIcon(icons.icon(mark, theme.colours().accent))

    def _show(self, *, is_open: bool) -> None:
        if is_open and self._fill is not None:
            fill, self._fill = self._fill, None
            fill(self.rows)
        self.body.setVisible(is_open)
        self.refresh_colours()
        told = tr("shown") if is_open else tr("folded away")
        self.button.setAccessibleName(f"{self._name}, {told}")
