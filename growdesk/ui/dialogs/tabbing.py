"""Say where the Tab key goes in a dialog, in its order."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QAbstractButton

if TYPE_CHECKING:
    from PySide6.QtWidgets import QWidget


def stops(window: QWidget) -> list[QWidget]:
    """Give what the Tab key comes to as the window stands now."""
    return [each for each in chain(window) if _is_stop(each, window)]


def _is_stop(widget: QWidget, window: QWidget) -> bool:
    """Tell whether Tab comes to it: of a row of choices to the chosen one only."""
    if not (widget.isEnabled() and widget.isVisibleTo(window)):
        return False
    group = widget.group() if isinstance(widget, QAbstractButton) else None
    if group is not None and group.exclusive():
        return widget is (group.checkedButton() or group.buttons()[0])
    return bool(widget.focusPolicy() & Qt.FocusPolicy.TabFocus)


def chain(window: QWidget) -> list[QWidget]:
    """Give all that can have the focus, in the order in which the window has it."""
    found: list[QWidget] = []
    each = window.nextInFocusChain()
    while each is not None and each is not window:
        takes = each.focusPolicy() != Qt.FocusPolicy.NoFocus
        if takes and each.focusProxy() is None:
            found.append(each)
        each = each.nextInFocusChain()
    return found
