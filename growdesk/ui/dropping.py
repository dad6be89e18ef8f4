"""Let pictures be dropped onto a part of the window, and show where they would go."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct
from PySide6.QtCore import QEvent, QObject, QPoint, QRect, Qt, Signal
from PySide6.QtGui import QDragMoveEvent, QDropEvent
from PySide6.QtWidgets import QLabel, QWidget
from typing_extensions import override

from growdesk.domain.speech import tr
from growdesk.ui import theme

if TYPE_CHECKING:
    from collections.abc import Callable

_MOVES = {QEvent.Type.DragEnter, QEvent.Type.DragMove}


class Spot(Struct, frozen=True):
    """Where pictures would go: the plant, in words, and the part of the surface."""

    plant_id: int
    words: str
    rect: QRect


class Veil(QLabel):
    """A frame over what pictures are about to be dropped on, with words in it."""

    def __init__(self, surface: QWidget) -> None:
        super().__init__(surface)
        self.setTextFormat(Qt.TextFormat.PlainText)
        self.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.setAccessibleName(tr("Where the pictures would go"))
        self.hide()

    def cover(self, rect: QRect, text: str) -> None:
        """Lie over a part of the surface."""
        colours = theme.colours()
        self.setStyleSheet(
            f"background: {colours.chosen}; color: {colours.ink};"
            f" border: 2px solid {colours.focus}; border-radius: 6px;"
        )
        self.setText(text)
        self.setGeometry(rect)
        self.raise_()
        self.show()


class DropZone(QObject):
    """Watches a surface for pictures and says which plant they were dropped on."""

    dropped = Signal(int, object)

    def __init__(self, surface: QWidget, find: Callable[[QPoint], Spot | None]) -> None:
        super().__init__(surface)
        self._surface = surface
        self._find = find
        self.veil = Veil(surface)
        surface.setAcceptDrops(True)
        surface.installEventFilter(self)

    @override
    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() in _MOVES and isinstance(event, QDragMoveEvent):
            return self._hover(event)
        if event.type() is QEvent.Type.DragLeave:
            self.veil.hide()
            return True
        if event.type() is QEvent.Type.Drop and isinstance(event, QDropEvent):
            return self._drop(event)
        return super().eventFilter(watched, event)

    def _spot(self, event: QDropEvent) -> Spot | None:
        from growdesk.ui import pasted  # noqa: PLC0415 -- when something is dropped

        if not pasted.holds_pictures(event.mimeData()):
            return None
        return self._find(event.position().toPoint())

    def _hover(self, event: QDragMoveEvent) -> bool:
        spot = self._spot(event)
        if spot is None:
            self.veil.hide()
            event.ignore()
        else:
            self.veil.cover(spot.rect, spot.words)
            event.setDropAction(Qt.DropAction.CopyAction)
            event.accept()
        return True

    def _drop(self, event: QDropEvent) -> bool:
        self.veil.hide()
        spot = self._spot(event)
        if spot is None:
            event.ignore()
            return True
        event.setDropAction(Qt.DropAction.CopyAction)
        event.accept()
        from growdesk.ui import pasted  # noqa: PLC0415 -- when something is dropped

        plant_id = spot.plant_id
        pasted.pictures_in(
            event.mimeData(),
            self._surface,
            lambda paths: self.dropped.emit(plant_id, tuple(paths)),
        )
        return True
