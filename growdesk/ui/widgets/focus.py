"""Keep the keyboard's place where widgets are rebuilt: who has it, and who is next.

Qt forgets the focus when its widget goes, and puts new widgets at the end of the Tab
order. Names of widgets (``objectName``) say which one takes the place of which.
"""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

if TYPE_CHECKING:
    from collections.abc import Iterable


def name_within(inside: QWidget) -> str | None:
    """Give the name of the focused widget inside another; none where it is elsewhere.

    A window behind a dialog is asked for the widget that it will go back to.
    """
    held: QWidget | None = inside.window().focusWidget()
    inner = held is not None and inside.isAncestorOf(held)
    return held.objectName() if held is not None and inner else None


def give_back(inside: QWidget, name: str | None, otherwise: QWidget) -> None:
    """Focus the widget of a name again; another one where there is none such now."""
    if name is None:
        return
    held: QWidget | None = inside.window().focusWidget()
    if held is not None and held.isVisible() and held.objectName() == name:
        return
    found = inside.findChild(QWidget, name) if name else None
    (otherwise if found is None else found).setFocus(Qt.FocusReason.OtherFocusReason)


def stops(inside: QWidget) -> list[QWidget]:
    """Give what the Tab key stops at inside a widget, in the order it was built.

    What opens as a window of its own, a menu or a list of choices, is left out.
    """
    return [
        each
        for each in inside.findChildren(QWidget)
        if each.focusPolicy() & Qt.FocusPolicy.TabFocus
        and each.window() is inside.window()
    ]


def chain(widgets: Iterable[QWidget]) -> None:
    """Put widgets one after another in the Tab order."""
    for first, second in pairwise(widgets):
        QWidget.setTabOrder(first, second)
