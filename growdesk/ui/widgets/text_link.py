"""Give a muted line that begins with a link, one stop of the Tab key."""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QPainter
from PySide6.QtWidgets import QLabel, QSizePolicy
from typing_extensions import override

from growdesk.ui import theme

if TYPE_CHECKING:
    from collections.abc import Callable

    from PySide6.QtGui import QKeyEvent, QPaintEvent

_KEYS = {Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space}


class TextLink(QLabel):
    """A line of text whose first words are followed by pointer or key; it wraps.

    Qt's own links by key would make the label and the link in it two stops.
    """

    def __init__(self, text: str, after: str, pressed: Callable[[], object]) -> None:
        super().__init__(f'<a href="#">{escape(text)}</a>{escape(after)}')
        self.setTextFormat(Qt.TextFormat.RichText)
        self.setWordWrap(True)
        self.setProperty("tone", "muted")
        policy = QSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)
        self.setTextInteractionFlags(Qt.TextInteractionFlag.LinksAccessibleByMouse)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAccessibleName(f"{text}{after}")
        self.linkActivated.connect(lambda _href: pressed())

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in _KEYS and not event.modifiers():
            self.linkActivated.emit("#")
        else:
            event.ignore()

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        if self.hasFocus():
            painter = QPainter(self)
            painter.setPen(QColor(theme.colours().focus))
            painter.drawRect(self.rect().adjusted(0, 0, -1, -1))
            painter.end()
