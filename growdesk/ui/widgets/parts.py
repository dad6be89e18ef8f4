"""Give small labelled parts that panes and dialogs are put together from.

Only looks and accessible names live here, no content.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QObject, QSize, Qt
from PySide6.QtWidgets import (
    QFrame,
    QLabel,
    QLayout,
    QPushButton,
    QScrollArea,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)
from typing_extensions import override

from growdesk.ui import sizes
from growdesk.ui.typeset import on_screen

if TYPE_CHECKING:
    from collections.abc import Callable


class Label(QLabel):
    """A label that sets figures for the eye and gives back the text as it was said."""

    def __init__(self, text: str = "") -> None:
        super().__init__()
        self._said = ""
        self.setText(text)

    @override
    def setText(self, text: str) -> None:
        self._said = text
        super().setText(on_screen(text))

    @override
    def text(self) -> str:
        return self._said


def label(text: str = "", *, tone: str = "", scale: float = 1.0) -> QLabel:
    """Give a wrapping label of plain text; ``tone`` is muted, wrong or head."""
    made = Label(text)
    made.setTextFormat(Qt.TextFormat.PlainText)
    made.setWordWrap(True)
    made.setProperty("tone", tone)
    if scale != 1.0:
        enlarge(made, scale)
    policy = QSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
    policy.setHeightForWidth(True)
    made.setSizePolicy(policy)
    return made


def short_label(text: str = "", *, tone: str = "") -> QLabel:
    """Give a label that keeps to one line."""
    made = label(text, tone=tone)
    made.setWordWrap(False)
    return made


def enlarge(widget: QWidget, scale: float, *, strong: bool = False) -> None:
    """Set a widget's font to a multiple of the window's."""
    sizes.letters(widget, scale, strong=strong)


def button(text: str, pressed: Callable[[], object], tip: str = "") -> QPushButton:
    """Give a push button that calls ``pressed``."""
    made = QPushButton(text)
    made.setAutoDefault(False)
    made.clicked.connect(lambda *_checked: pressed())
    if tip:
        made.setToolTip(tip)
    return made


def link(text: str, pressed: Callable[[], object]) -> QPushButton:
    """Give a button that looks like a line of text to follow."""
    made = button(text, pressed)
    made.setProperty("flat-link", "true")
    return made


def link_line(text: str, pressed: Callable[[], object]) -> QPushButton:
    """Give a link that stands in a column of lines, at their left edge."""
    made = link(text, pressed)
    made.setProperty("at-edge", "true")
    made.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Fixed)
    return made


def frame(kind: str) -> QFrame:
    """Give a frame that the style sheet draws as ``pane``, ``card`` or ``strip``."""
    made = QFrame()
    made.setProperty(kind, "true")
    return made


class Page(QWidget):
    """What a scroll area shows: as high as its lines are at the width it gets.

    Left to itself a page of wrapping lines asks for the height they have at their
    narrowest, and scrolls on into nothing.
    """

    @override
    def minimumSizeHint(self) -> QSize:
        least = super().minimumSizeHint()
        return QSize(least.width(), 0) if self.hasHeightForWidth() else least


class TallArea(QScrollArea):
    """Scrolls up and down, and to the side where the screen holds no more."""

    def __init__(self, inner: QWidget) -> None:
        super().__init__()
        self.setWidget(inner)
        inner.installEventFilter(self)

    @override
    def minimumSizeHint(self) -> QSize:
        inner = self.widget()
        wide = 0 if inner is None else inner.minimumSizeHint().width()
        wide += self.verticalScrollBar().sizeHint().width()
        return QSize(min(wide, self.most_wide()), 80)

    def most_wide(self) -> int:
        """Give the width beyond which the content is scrolled to."""
        return self.screen().availableGeometry().width()

    @override
    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.LayoutRequest:
            self.updateGeometry()
        return super().eventFilter(watched, event)


def scrolled(inner: QWidget, name: str) -> QScrollArea:
    """Give a scroll area that grows its content in width only."""
    area = TallArea(inner)
    area.setWidgetResizable(True)
    area.setFrameShape(QFrame.Shape.NoFrame)
    area.setAccessibleName(name)
    return area


def column(*, margins: int = 0, spacing: int = 8) -> QVBoxLayout:
    """Give a column of widgets."""
    made = QVBoxLayout()
    made.setContentsMargins(margins, margins, margins, margins)
    made.setSpacing(spacing)
    return made


def clear(layout: QLayout, kept: int = 0) -> None:
    """Take everything but the first so many out of a layout and let it go."""
    while (item := layout.takeAt(kept)) is not None:
        widget = item.widget()
        if widget is not None:
            let_go(widget)
        inner = item.layout()
        if inner is not None:
            clear(inner)


def let_go(widget: QWidget) -> None:
    """Take a widget out of sight and of its parent, and let it go."""
    widget.setParent(None)
    widget.deleteLater()


def out_of_sight(widget: QWidget) -> bool:
    """Tell whether a widget is hidden in a window that is shown."""
    return widget.window().isVisible() and not widget.isVisible()
