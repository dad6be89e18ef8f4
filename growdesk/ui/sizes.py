"""Give text its size, and what has to grow with text its pixels.

The only module that knows how large text is shown. A width or height given through it
is kept with its widget as at 100 %, so that a new size holds at once, in all that is
open. Distances that hold no text (gaps, lines, corners) stay as they are.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QSize, Signal
from PySide6.QtGui import QFont
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractScrollArea,
    QApplication,
    QWidget,
)

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

PER_CENT = (100, 125, 150, 175, 200)
"""The sizes text can have; WCAG 2.2, 1.4.4 asks for 200 %."""

_KEPT = "kept-at-100"
_FONT = "kept-font"


class Sizes(QObject):
    """Keeps the size of text in force and tells when it changes."""

    turned = Signal()

    def __init__(self, app: QApplication) -> None:
        super().__init__(app)
        self._app = app
        self._font = QFont(app.font())
        self.per_cent = PER_CENT[0]

    def choose(self, per_cent: int) -> None:
        """Show text at a size, the nearest of those there are, at once."""
        wanted = min(PER_CENT, key=lambda each: abs(each - per_cent))
        if wanted == self.per_cent:
            return
        self.per_cent = wanted
        self._app.setFont(_scaled(self._font, wanted / 100))
        self._app.setStyleSheet(self._app.styleSheet())  # else styled widgets stay
        for widget in self._app.allWidgets():
            _take_size(widget)
        self.turned.emit()

    def step(self, by: int) -> int:
        """Go to the next larger or smaller size, where there is one, and give it."""
        at = PER_CENT.index(self.per_cent) + by
        self.choose(PER_CENT[max(0, min(at, len(PER_CENT) - 1))])
        return self.per_cent


_current: list[Sizes] = []


def current() -> Sizes:
    """Give the sizes in force, made on first use."""
    if not _current:
        app = QApplication.instance()
        if not isinstance(app, QApplication):
            raise TypeError("a size of text needs a running QApplication")
        _current.append(Sizes(app))
    return _current[0]


def px(at_100: float) -> int:
    """Give the pixels that hold at this size what ``at_100`` pixels hold at 100 %."""
    return round(at_100 * current().per_cent / 100)


def area(wide: float, high: float) -> QSize:
    """Give a size that holds what its pixels hold at 100 %."""
    return QSize(px(wide), px(high))


def wide(widget: QWidget, at_100: float) -> None:
    """Fix the width of a widget, as at 100 %."""
    _keep(widget, "wide", at_100)


def high(widget: QWidget, at_100: float) -> None:
    """Fix the height of a widget, as at 100 %."""
    _keep(widget, "high", at_100)


def least_wide(widget: QWidget, at_100: float) -> None:
    """Give a widget its least width, as at 100 %."""
    _keep(widget, "least_wide", at_100)


def least_high(widget: QWidget, at_100: float) -> None:
    """Give a widget its least height, as at 100 %; what scrolls needs no more."""
    _keep(widget, "least_high", at_100)


def most_wide(widget: QWidget, at_100: float) -> None:
    """Give a widget its greatest width, as at 100 %."""
    _keep(widget, "most_wide", at_100)


def most_high(widget: QWidget, at_100: float) -> None:
    """Give a widget its greatest height, as at 100 %."""
    _keep(widget, "most_high", at_100)


def picture(widget: QAbstractButton, at_100: float) -> None:
    """Give the picture on a button its side, as at 100 %."""
    _keep(widget, "picture", at_100)


def letters(widget: QWidget, scale: float, *, strong: bool = False) -> None:
    """Set a widget's letters to a multiple of the window's, whatever size that is."""
    widget.setProperty(_FONT, [scale, strong])
    _take_font(widget)


def _set_picture(widget: QWidget, pixels: int) -> None:
    if isinstance(widget, QAbstractButton):
        widget.setIconSize(QSize(pixels, pixels))


def _set_least_high(widget: QWidget, pixels: int) -> None:
    scrolls = isinstance(widget, QAbstractScrollArea)
    widget.setMinimumHeight(widget.property(_KEPT)["least_high"] if scrolls else pixels)


_SETTERS: Mapping[str, Callable[[QWidget, int], None]] = {
    "wide": QWidget.setFixedWidth,
    "high": QWidget.setFixedHeight,
    "least_wide": QWidget.setMinimumWidth,
    "least_high": _set_least_high,
    "most_wide": QWidget.setMaximumWidth,
    "most_high": QWidget.setMaximumHeight,
    "picture": _set_picture,
}


def _keep(widget: QWidget, what: str, at_100: float) -> None:
    kept = dict(widget.property(_KEPT) or {})
    kept[what] = at_100
    widget.setProperty(_KEPT, kept)
    _SETTERS[what](widget, px(at_100))


def _take_size(widget: QWidget) -> None:
    if widget.property(_FONT) is not None:
        _take_font(widget)
    for what, at_100 in (widget.property(_KEPT) or {}).items():
        _SETTERS[what](widget, px(at_100))


def _take_font(widget: QWidget) -> None:
    scale, strong = widget.property(_FONT)
    font = _scaled(QApplication.font(), scale)
    if strong:
        font.setWeight(QFont.Weight.DemiBold)
    widget.setFont(font)


def _scaled(font: QFont, by: float) -> QFont:
    made = QFont(font)
    if font.pointSizeF() > 0:
        made.setPointSizeF(font.pointSizeF() * by)
    else:  # a system may give its type in pixels
        made.setPixelSize(round(font.pixelSize() * by))
    return made
