"""Build a long column in batches: what is newest, and a button for what is older."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt

from growdesk.domain.speech import tr
from growdesk.ui.widgets import focus
from growdesk.ui.widgets.parts import button

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from PySide6.QtWidgets import QPushButton, QVBoxLayout, QWidget

_TAB = Qt.FocusPolicy.TabFocus


def in_batches(
    inner: QVBoxLayout,
    makers: Sequence[Callable[[], QWidget]],
    things: str,
    at_once: int,
) -> None:
    """Add what is newest, and a button that adds as much again of what is older."""
    first = inner.count()
    for make in makers[:at_once]:
        inner.addWidget(make())
    rest = makers[at_once:]
    if not rest:
        inner.addStretch(1)
        return

    def more() -> None:
        inner.removeWidget(older)
        in_batches(inner, rest, things, at_once)
        _go_on(inner, first + at_once, older)
        older.deleteLater()

    older = button(
        tr("{count} older {things}").format(count=len(rest), things=things), more
    )
    older.setObjectName(f"older-{things}")
    inner.addWidget(older)


def _go_on(inner: QVBoxLayout, first: int, pressed: QPushButton) -> None:
    """Let Tab and focus go on at the first row added in place of a pressed button."""
    items = [inner.itemAt(number) for number in range(first, inner.count())]
    rows = [None if item is None else item.widget() for item in items]
    added = [each for each in rows if each is not None]
    reached = [stop for each in added for stop in (*focus.stops(each), each)]
    found = [stop for stop in reached if stop.focusPolicy() & _TAB]
    focus.chain([pressed, *found])
    if found and pressed.hasFocus():
        found[0].setFocus(Qt.FocusReason.OtherFocusReason)
